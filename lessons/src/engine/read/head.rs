//! Reads what stands at the top of a lesson: its name, what it serves, its misconceptions and its columns.

use std::ops::Range as Span;

use ashlane_shared::conditions::{
    demonstration,
    sheet::{Report, Trouble, overlay},
};

use super::section::{Section, unknown};
use crate::engine::{
    CAUTIONS, COMPETENCIES, Caution, Column, Competency, Misconception, Text, find_caution,
    find_competency,
};

/// Most minutes of a lesson.
const MOST_MINUTES: i64 = 60;
const COLUMN_KEYS: [&str; 2] = ["title", "sheet"];

/// The plain values at the top.
pub(super) struct Head {
    pub(super) id: String,
    pub(super) revision: u32,
    pub(super) change: String,
    pub(super) title: String,
    pub(super) goal: Text,
    pub(super) minutes: u32,
    pub(super) seed: u64,
}

pub(super) fn head(root: &Section<'_>, report: &mut Report<'_>) -> Option<Head> {
    let id = root.name(report, "id");
    let revision = root.whole(report, "revision", 1..=9999);
    let change = root.line(report, "change");
    let title = root.line(report, "title");
    let goal = root.text(report, "goal");
    let minutes = root.whole(report, "minutes", 1..=MOST_MINUTES);
    let seed = root.whole(report, "seed", 0..=i64::from(u32::MAX));
    Some(Head {
        id: id?,
        revision: u32::try_from(revision?).ok()?,
        change: change?,
        title: title?,
        goal: goal?,
        minutes: u32::try_from(minutes?).ok()?,
        seed: seed?.unsigned_abs(),
    })
}

pub(super) fn competencies(
    root: &Section<'_>,
    report: &mut Report<'_>,
) -> Vec<&'static Competency> {
    let known: Vec<&str> = COMPETENCIES.iter().map(|row| row.code).collect();
    let list = codes(root, report, "competencies", &known, find_competency);
    if list.is_empty() && root.has("competencies") {
        let message = "name at least one competency, such as [\"K7\"]";
        root.wrong(report, "competencies", message.to_owned());
    }
    list
}

pub(super) fn cautions(root: &Section<'_>, report: &mut Report<'_>) -> Vec<&'static Caution> {
    let known: Vec<&str> = CAUTIONS.iter().map(|row| row.code).collect();
    codes(root, report, "cautions", &known, find_caution)
}

fn codes<T>(
    root: &Section<'_>,
    report: &mut Report<'_>,
    name: &str,
    known: &[&str],
    find: fn(&str) -> Option<&'static T>,
) -> Vec<&'static T> {
    let advice = "a list of codes in quotation marks, such as [\"K7\"], or [] for none";
    let listed = root.strings(report, name, advice).unwrap_or_default();
    let mut found = Vec::with_capacity(listed.len());
    for (code, place) in listed {
        match find(code) {
            Some(row) => found.push(row),
            None => {
                let trouble = Trouble::Clash(unknown("code", code, known));
                report.value(name.to_owned(), place, trouble);
            }
        }
    }
    found
}

pub(super) fn misconceptions(root: &Section<'_>, report: &mut Report<'_>) -> Vec<Misconception> {
    let what =
        "one line for each wrong idea, such as half-the-dust = \"twice the plates, half the dust\"";
    let Some(section) = root.section(report, "misconceptions", what) else {
        return Vec::new();
    };
    let names = section.own_keys(report);
    let mut found = Vec::with_capacity(names.len());
    for name in names {
        if let Some(statement) = section.line(report, &name) {
            found.push(Misconception { name, statement });
        }
    }
    found
}

pub(super) fn columns(root: &Section<'_>, report: &mut Report<'_>) -> Vec<Column> {
    let what = "each [column.NAME] is one version of the collector";
    let Some(section) = root.section(report, "column", what) else {
        return Vec::new();
    };
    let names = section.own_keys(report);
    let mut columns = Vec::with_capacity(names.len());
    for name in names {
        let Some(column) = section.section(report, &name, "title and sheet of a column") else {
            continue;
        };
        column.only(report, &COLUMN_KEYS);
        let title = column.text(report, "title");
        let conditions = if column.has("sheet") {
            column
                .section(report, "sheet", "keys of the site sheet")
                .map(|sheet| overlay(&demonstration(), sheet.table(), report))
        } else {
            Some(demonstration())
        };
        if let (Some(title), Some(conditions)) = (title, conditions) {
            columns.push(Column {
                name,
                title,
                conditions,
            });
        }
    }
    columns
}

/// Notes sections whose name another one has already.
pub(super) fn different<'a>(
    sections: &[Section<'_>],
    names: impl Iterator<Item = &'a str>,
    report: &mut Report<'_>,
) {
    let mut seen: Vec<&str> = Vec::new();
    let places: Vec<Option<Span<usize>>> = sections.iter().map(Section::place).collect();
    for (index, name) in names.enumerate() {
        if seen.contains(&name) {
            let trouble = Trouble::Clash(format!(
                "another one is called \"{name}\" already; give each its own id"
            ));
            let path = sections.get(index).map(|section| section.path_of("id"));
            report.name(
                path.unwrap_or_default(),
                places.get(index).cloned().flatten(),
                trouble,
            );
        }
        seen.push(name);
    }
}
