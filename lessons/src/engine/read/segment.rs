//! Reads one segment: its prose, column and free controls here, its other parts in the files beside.

use ashlane_shared::conditions::{
    Conditions, Key, find_key, keys, nearest,
    sheet::{Report, Trouble, overlay},
};

use super::{
    check::{SingleSize, checks},
    explain::{Ideas, explain},
    look::look,
    observe::{Observed, observe},
    question::question,
    section::{Section, unknown},
    work::{work, worked},
};
use crate::engine::{Column, Segment};

const SEGMENT_KEYS: [&str; 13] = [
    "id",
    "title",
    "column",
    "sheet",
    "prose",
    "look",
    "free",
    "predict",
    "observe",
    "check",
    "explain",
    "diagnosis",
    "board",
];

pub(super) fn segment(
    section: &Section<'_>,
    columns: &[Column],
    ideas: &mut Ideas<'_>,
    report: &mut Report<'_>,
) -> Option<Segment> {
    section.only(report, &SEGMENT_KEYS);
    let id = section.name(report, "id");
    let title = section.line(report, "title");
    let prose = section.text(report, "prose");
    let look = look(section, report);
    let column = column(section, columns, report);
    let start = column.and_then(|column| start(section, columns, column, report));
    let free = free(section, report);
    let work = start
        .as_ref()
        .and_then(|start| work(section, start, report));
    let kind = match &work {
        Some(Some(_)) => Observed::Work,
        _ => Observed::Changes,
    };
    let observed = start
        .as_ref()
        .zip(free.as_ref())
        .and_then(|(start, free)| observe(section, start, (free, kind), report));
    let predict = question(section, report);
    let single = observed
        .as_ref()
        .map_or(SingleSize::No, |(_, target)| single_size(target));
    let checks = checks(section, (single, kind), report);
    let explain = predict
        .as_ref()
        .and_then(|question| explain(section, question, ideas, report));
    let ((observe, target), work) = (observed?, work?);
    let target = match (&work, &start) {
        (Some(work), Some(start)) => worked(work, start),
        _ => target,
    };
    Some(Segment {
        line: section.place().map(|place| report.line(place.start)),
        id: id?,
        title: title?,
        prose: prose?,
        look: look?,
        column: column?,
        start: start?,
        target,
        free: free?,
        predict: predict?,
        observe,
        work,
        checks: checks?,
        explain: explain?,
    })
}

fn single_size(conditions: &Conditions) -> SingleSize {
    match conditions.teaching.single_diameter_m {
        Some(_) => SingleSize::Yes,
        None => SingleSize::No,
    }
}

fn column(section: &Section<'_>, columns: &[Column], report: &mut Report<'_>) -> Option<usize> {
    let name = section.string(report, "column", "name of a [column.NAME]")?;
    let found = columns.iter().position(|column| column.name == name);
    if found.is_none() {
        let known: Vec<&str> = columns.iter().map(|column| column.name.as_str()).collect();
        section.wrong(report, "column", unknown("column", name, &known));
    }
    found
}

fn start(
    section: &Section<'_>,
    columns: &[Column],
    column: usize,
    report: &mut Report<'_>,
) -> Option<Conditions> {
    let base = &columns.get(column)?.conditions;
    if !section.has("sheet") {
        return Some(base.clone());
    }
    let sheet = section.section(report, "sheet", "keys of the site sheet")?;
    Some(overlay(base, sheet.table(), report))
}

/// The controls that may be moved.
fn free(section: &Section<'_>, report: &mut Report<'_>) -> Option<Vec<&'static Key>> {
    let advice = "a list of keys of the site sheet, such as [\"collector.fields\"]";
    let listed = section.strings(report, "free", advice)?;
    let mut found = Vec::with_capacity(listed.len());
    for (path, place) in listed {
        match find_key(path) {
            Some(key) => found.push(key),
            None => {
                let trouble = Trouble::Clash(unknown_key(path));
                report.value(section.path_of("free"), place, trouble);
            }
        }
    }
    Some(found)
}

/// What to say about a control nobody knows.
pub(super) fn unknown_key(path: &str) -> String {
    let near = nearest(path, keys().map(|key| key.path))
        .map_or_else(String::new, |near| format!(" (did you mean \"{near}\"?)"));
    format!("unknown control{near}; write a key of the site sheet such as \"collector.fields\"")
}
