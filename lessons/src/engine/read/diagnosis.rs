//! Reads a case: the hidden fault, what is open at first, the causes that are offered, its solution, its signs.

use ashlane_shared::{
    conditions::{
        Conditions, check as check_conditions,
        sheet::{Report, Trouble},
    },
    units::Dimension,
};

use super::section::{Section, unknown};
use crate::{
    diagnosis::{ACTIONS, CHECKS, Case, Cause, Sign, Solution, Turn, find_check},
    faults::{FAULTS, Fault},
};

const KEYS: [&str; 9] = [
    "fault", "severity", "seed", "hours", "open", "solve", "action", "cause", "sign",
];
const CAUSE_KEYS: [&str; 3] = ["fault", "severity", "text"];
const SIGN_KEYS: [&str; 4] = ["check", "field", "turn", "ratio"];
/// Fewest and most causes that are offered.
const CAUSES: (usize, usize) = (2, 4);
/// Longest time that a fault has been there, h: a machine runs as long.
const MOST_HOURS: i64 = 96;

/// The case of a segment whose sound machine has these conditions.
pub(super) fn diagnosis(
    section: &Section<'_>,
    sound: &Conditions,
    report: &mut Report<'_>,
) -> Option<Case> {
    let section = section.section(report, "diagnosis", "fault, causes, signs")?;
    section.only(report, &KEYS);
    let fault = fault(&section, report);
    let severity = severity(&section, report);
    let seed = section.whole(report, "seed", 0..=i64::from(u32::MAX));
    let hours = section.whole(report, "hours", 1..=MOST_HOURS);
    let first = checks(&section, "open", report);
    let solve = checks(&section, "solve", report);
    let action = action(&section, fault, report);
    let causes = causes(&section, fault, report);
    let signs = signs(&section, sound, report);
    let case = Case {
        fault: fault?,
        severity: severity?,
        seed: seed?.unsigned_abs(),
        hours: hours? as f64,
        first: first?,
        causes: causes?,
        solution: Solution {
            checks: solve?,
            action: action?,
        },
        signs: signs?,
    };
    let holds = case.holds(sound).map_err(|error| error.to_string());
    let holds = holds.and_then(|holds| {
        check_conditions(&holds).map_err(|objections| {
            let texts: Vec<String> = objections.iter().map(ToString::to_string).collect();
            texts.join("; ")
        })
    });
    if let Err(message) = holds {
        section.wrong(
            report,
            "fault",
            format!("this machine cannot have it: {message}"),
        );
        return None;
    }
    Some(case)
}

fn fault(section: &Section<'_>, report: &mut Report<'_>) -> Option<&'static Fault> {
    let name = section.string(report, "fault", "name of a fault; `fault list` shows them")?;
    let found = FAULTS.iter().find(|fault| fault.name == name);
    if found.is_none() {
        let known: Vec<&str> = FAULTS.iter().map(|fault| fault.name).collect();
        section.wrong(report, "fault", unknown("fault", name, &known));
    }
    found
}

fn severity(section: &Section<'_>, report: &mut Report<'_>) -> Option<f64> {
    if !section.has("severity") {
        return Some(1.0);
    }
    let (value, dimension) = section.measure(report, "severity")?;
    let fits = dimension == Dimension::Number && value > 0.0 && value <= 1.0;
    if !fits {
        let message = "write a number above 0 and up to 1".to_owned();
        section.wrong(report, "severity", message);
    }
    fits.then_some(value)
}

/// Keys of checks.
fn checks(section: &Section<'_>, name: &str, report: &mut Report<'_>) -> Option<Vec<&'static str>> {
    let listed = section.strings(report, name, "a list of checks such as [\"kv\", \"ma\"]")?;
    let mut found = Vec::with_capacity(listed.len());
    for (key, place) in listed {
        match find_check(key) {
            Some(check) => found.push(check.key),
            None => {
                let known: Vec<&str> = CHECKS.iter().map(|check| check.key).collect();
                let trouble = Trouble::Clash(unknown("check", key, &known));
                report.value(section.path_of(name), place, trouble);
            }
        }
    }
    if found.is_empty() {
        let message = "name at least one check".to_owned();
        section.wrong(report, name, message);
        return None;
    }
    Some(found)
}

fn action(
    section: &Section<'_>,
    fault: Option<&'static Fault>,
    report: &mut Report<'_>,
) -> Option<&'static str> {
    let words: Vec<(&'static str, &'static crate::diagnosis::Action)> =
        ACTIONS.iter().map(|row| (row.key, row)).collect();
    let action = section.word(report, "action", &words)?;
    let name = fault?.name;
    if !action.fits.contains(&name) {
        let fitting = ACTIONS.iter().filter(|row| row.fits.contains(&name));
        let fitting: Vec<&str> = fitting.map(|row| row.key).collect();
        let message = format!(
            "this action does not fit \"{name}\"; write {}",
            super::section::quoted(&fitting)
        );
        section.wrong(report, "action", message);
        return None;
    }
    Some(action.key)
}

fn causes(
    section: &Section<'_>,
    hidden: Option<&'static Fault>,
    report: &mut Report<'_>,
) -> Option<Vec<Cause>> {
    let found = section.sections(report, "cause");
    let (low, high) = CAUSES;
    if found.len() < low || found.len() > high {
        let path = section.path_of("cause");
        let message = format!("a case offers {low} to {high} causes; write [[{path}]] for each");
        section.wrong(report, "cause", message);
        return None;
    }
    let mut causes: Vec<Cause> = Vec::with_capacity(found.len());
    for section in &found {
        section.only(report, &CAUSE_KEYS);
        let (fault, severity) = (fault(section, report), severity(section, report));
        let text = section.text(report, "text");
        let (fault, severity, text) = (fault?, severity?, text?);
        if causes.iter().any(|cause| cause.fault.name == fault.name) {
            let message = "this cause is offered already; keep one of them".to_owned();
            section.wrong(report, "fault", message);
        }
        causes.push(Cause {
            fault,
            severity,
            text,
        });
    }
    let hidden = hidden?;
    if !causes.iter().any(|cause| cause.fault.name == hidden.name) {
        let message = format!("the true cause is not offered; add \"{}\"", hidden.name);
        section.wrong(report, "cause", message);
        return None;
    }
    Some(causes)
}

fn signs(section: &Section<'_>, sound: &Conditions, report: &mut Report<'_>) -> Option<Vec<Sign>> {
    let found = section.sections(report, "sign");
    if found.is_empty() {
        let path = section.path_of("sign");
        let message = format!("say what the machine has to show; write [[{path}]] for each sign");
        section.wrong(report, "sign", message);
        return None;
    }
    let signs: Vec<Option<Sign>> = found
        .iter()
        .map(|section| sign(section, sound.collector.fields, report))
        .collect();
    signs.into_iter().collect()
}

fn sign(section: &Section<'_>, fields: usize, report: &mut Report<'_>) -> Option<Sign> {
    section.only(report, &SIGN_KEYS);
    let words: Vec<(&'static str, &'static str)> =
        CHECKS.iter().map(|row| (row.key, row.key)).collect();
    let check = section.word(report, "check", &words);
    let turn = section.word(report, "turn", &Turn::ALL);
    let finding = if section.has("field") {
        let field = section.whole(report, "field", 1..=fields as i64)?;
        Some(usize::try_from(field).ok()? - 1)
    } else {
        None
    };
    let ratio = if section.has("ratio") {
        let (value, dimension) = section.measure(report, "ratio")?;
        if dimension != Dimension::Number || !(0.0..=1000.0).contains(&value) {
            let message = "write the share of what is usual, such as 0.5".to_owned();
            section.wrong(report, "ratio", message);
            return None;
        }
        Some(value)
    } else {
        None
    };
    Some(Sign {
        check: check?,
        finding,
        turn: turn?,
        ratio,
    })
}
