//! Reads what a segment asks the learner to change, and computes the conditions when it is done.

use ashlane_shared::conditions::{
    Conditions, Key, Value, check as check_conditions, find_key,
    sheet::{Report, Trouble, read_value},
};

use super::{section::Section, segment::unknown_key};
use crate::engine::{Change, Observe, value_text_both};

const OBSERVE_KEYS: [&str; 2] = ["task", "change"];
const CHANGE_KEYS: [&str; 3] = ["key", "from", "to"];

/// How a segment is observed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Observed {
    /// By moving controls.
    Changes,
    /// By the work of the segment.
    Work,
}

/// The task, and what the conditions are when it is done.
pub(super) fn observe(
    section: &Section<'_>,
    start: &Conditions,
    (free, kind): (&[&'static Key], Observed),
    report: &mut Report<'_>,
) -> Option<(Observe, Conditions)> {
    let observe = section.section(report, "observe", "task and [[segment.observe.change]]")?;
    observe.only(report, &OBSERVE_KEYS);
    let task = observe.text(report, "task");
    let found = observe.sections(report, "change");
    if kind == Observed::Work && !found.is_empty() {
        let message = "a segment with a diagnosis or a board has its work to do; take this away";
        observe.wrong(report, "change", message.to_owned());
    }
    if kind == Observed::Changes && found.is_empty() {
        let message = "name at least one control to change; write [[segment.observe.change]]";
        observe.wrong(report, "change", message.to_owned());
    }
    let mut target = start.clone();
    let mut changes = Vec::with_capacity(found.len());
    for section in &found {
        changes.extend(change(section, start, &mut target, free, report));
    }
    if changes.len() == found.len() {
        still_there(&found, &changes, &target, report);
    }
    if changes.len() == found.len()
        && let Err(objections) = check_conditions(&target)
    {
        let texts: Vec<String> = objections.iter().map(ToString::to_string).collect();
        let message = format!("after the change: {}", texts.join("; "));
        observe.wrong(report, "change", message);
    }
    Some((
        Observe {
            task: task?,
            changes,
        },
        target,
    ))
}

/// Notes every change that a later one takes back: its task would never be done.
fn still_there(
    sections: &[Section<'_>],
    changes: &[Change],
    target: &Conditions,
    report: &mut Report<'_>,
) {
    for (section, change) in sections.iter().zip(changes) {
        let end = change.key.get(target);
        if end.as_ref().is_some_and(|end| end.same_as(&change.to)) {
            continue;
        }
        let end = end.map_or_else(
            || "nothing".to_owned(),
            |end| value_text_both(change.key, &end),
        );
        let message = format!(
            "a later change leaves {end} here, so that the rest of the lesson cannot be reached; keep one change of it, and put collector.fields first"
        );
        section.wrong(report, "to", message);
    }
}

/// One control; the target takes its new value.
fn change(
    section: &Section<'_>,
    start: &Conditions,
    target: &mut Conditions,
    free: &[&'static Key],
    report: &mut Report<'_>,
) -> Option<Change> {
    section.only(report, &CHANGE_KEYS);
    let path = section.string(report, "key", "a key of the site sheet in quotation marks")?;
    let Some(key) = find_key(path) else {
        section.wrong(report, "key", unknown_key(path));
        return None;
    };
    if !free.iter().any(|free| free.path == path) {
        let message = format!(
            "this control is locked, so that the rest of the lesson cannot be reached; add \"{path}\" to free"
        );
        section.wrong(report, "key", message);
    }
    let from = value(section, "from", key, start, report);
    let to = value(section, "to", key, target, report);
    let (from, to) = (from?, to?);
    match key.get(start) {
        Some(now) if now.same_as(&from) => {}
        now => {
            let now = now.map_or_else(|| "nothing".to_owned(), |now| value_text_both(key, &now));
            let message = format!("the segment starts with {now} here; write that");
            section.wrong(report, "from", message);
        }
    }
    if from.same_as(&to) {
        let message = "nothing changes; write another value than in from";
        section.wrong(report, "to", message.to_owned());
    }
    if let Err(refusal) = key.set(target, &to) {
        section.wrong(report, "to", refusal.to_string());
    }
    Some(Change { key, from, to })
}

fn value(
    section: &Section<'_>,
    name: &str,
    key: &Key,
    conditions: &Conditions,
    report: &mut Report<'_>,
) -> Option<Value> {
    let Some(item) = section.item(name) else {
        let message = format!("add {name}: a value of {}", key.path);
        section.trouble(report, name, Trouble::Missing(message));
        return None;
    };
    read_value(key, item, conditions)
        .map_err(|trouble| section.trouble(report, name, trouble))
        .ok()
}
