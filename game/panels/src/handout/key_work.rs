//! The trainer's key of a step with work: what the machine of a case shows to whoever asks, and an order that the board takes.

use ashlane_lessons::{
    diagnosis::{ACTIONS, CHECKS, Case, CaseReport, Cause, Evidence, Finding, Turn, find_action},
    engine::{Segment, Work, WorkResult},
    sequence::{Exercise, Outcome},
};
use ashlane_shared::units::UnitSystem;

use super::{
    html::{classed, line, table, tag, words},
    work::{NO_PROCEDURE, check_name, shown},
};

/// The whole of it; nothing where a step has no work.
pub(super) fn key(
    segment: &Segment,
    evidence: Option<&Evidence>,
    result: Option<&WorkResult>,
) -> String {
    match (&segment.work, result) {
        (Some(Work::Diagnosis(case)), Some(WorkResult::Diagnosis(report))) => {
            case_key(case, evidence, report)
        }
        (Some(Work::Sequence(exercise)), Some(WorkResult::Sequence(outcome))) => {
            board_key(exercise, outcome)
        }
        _ => String::new(),
    }
}

fn case_key(case: &Case, evidence: Option<&Evidence>, report: &CaseReport) -> String {
    let action = find_action(case.solution.action).map_or("", |action| action.name);
    let checks = case.solution.checks.iter().map(|key| check_name(key));
    let checks = checks.collect::<Vec<_>>().join(", ");
    let mut text = tag(
        "p",
        &format!(
            "<b>The case:</b> {} A way that solves it: {}. First action: {}.",
            words(&sentence(case.fault.title)),
            words(&checks),
            words(action)
        ),
    );
    if let Some(evidence) = evidence {
        text.push_str(&tag("h3", "What the machine shows to whoever asks"));
        text.push_str(&reads(evidence));
    }
    text.push_str(&tag("h3", "What to say to the causes"));
    text.push_str(&table(
        "causes",
        &["cause", "it is told by", "what to say"],
        &causes(case, report),
    ));
    if let Some(evidence) = evidence {
        text.push_str(&unsafe_actions(evidence));
    }
    let verdict = if report.signs.iter().all(|sign| sign.holds) {
        "The machine shows every sign that the troubleshooting table has for this fault."
    } else {
        "NOT EVERY SIGN of the troubleshooting table is shown by this machine: do not use this case."
    };
    text + &tag("p", verdict)
}

/// Every check with its numbers; what has moved is bold.
fn reads(evidence: &Evidence) -> String {
    let rows: Vec<Vec<String>> = CHECKS
        .iter()
        .map(|check| {
            let findings = evidence.reveals(check);
            let moved = |finding: &Finding| finding.turn() != Turn::Same;
            let told: Vec<String> = findings
                .iter()
                .filter(|finding| moved(finding))
                .map(|finding| match (finding.field, findings.len()) {
                    (Some(field), 2..) => format!("{} {}", field + 1, finding.turn().word()),
                    _ => finding.turn().word().to_owned(),
                })
                .collect();
            let turn = if told.is_empty() {
                Turn::Same.word().to_owned()
            } else {
                format!("<b>{}</b>", words(&told.join(", ")))
            };
            vec![
                words(check.name),
                shown(&findings, |finding| finding.shows),
                shown(&findings, |finding| finding.usual),
                turn,
            ]
        })
        .collect();
    table(
        "reads",
        &["check", "shows, by field", "usually", "field and way"],
        &rows,
    )
}

/// What is said to every cause that is offered, the true one first.
fn causes(case: &Case, report: &CaseReport) -> Vec<Vec<String>> {
    let mut offered = case.offered();
    offered.sort_by_key(|cause| cause.fault.name != case.fault.name);
    let told_by = |name: &str| {
        let other = report.separations.iter().find(|other| other.cause == name);
        other.map_or_else(
            || "<b>this is it</b>".to_owned(),
            |other| {
                let names = other.told_by.iter().map(|key| check_name(key));
                words(&names.collect::<Vec<_>>().join(", "))
            },
        )
    };
    let row = |cause: &&Cause| {
        vec![
            words(cause.fault.title),
            told_by(cause.fault.name),
            line(&cause.text),
        ]
    };
    offered.iter().map(row).collect()
}

/// Actions that nobody may take with this machine, and why.
fn unsafe_actions(evidence: &Evidence) -> String {
    let each = ACTIONS.iter().filter_map(|action| {
        let why = action.is_unsafe(evidence)?;
        let told = format!(
            "<b>Unsafe here, “{}”:</b> {}",
            words(action.name),
            words(why)
        );
        Some(tag("p", &told))
    });
    each.collect()
}

fn board_key(exercise: &Exercise, outcome: &Outcome) -> String {
    let stages = exercise.site.order.iter().map(|stage| stage.words());
    let order = stages.collect::<Vec<_>>().join(" → ");
    let mut text = classed(
        "p",
        "answer",
        &format!(
            "<b>An order that this board takes:</b> {}. {NO_PROCEDURE}",
            words(&order)
        ),
    );
    let followed = outcome.consequences.lines(UnitSystem::Si);
    let us = outcome.consequences.lines(UnitSystem::Us);
    let both = followed.iter().zip(&us).map(|(si, us)| {
        let amount = us.split(':').next().unwrap_or_default();
        if si == us {
            si.clone()
        } else {
            format!("{si} ({amount})")
        }
    });
    let followed: Vec<String> = both.collect();
    if !followed.is_empty() {
        let told = format!(
            "What follows with it on the board: {}.",
            followed.join("; ")
        );
        text.push_str(&tag("p", &words(&told)));
    }
    if let Some(purge) = outcome.purge {
        let verdict = if purge.agrees() { "agree" } else { "DISAGREE" };
        let told = format!(
            "Purge by two roads: {:.3} volume changes by the flow, {:.3} by the dilution of what burns; they may be 1 % \
             apart: {verdict}.",
            purge.by_flow, purge.by_dilution
        );
        text.push_str(&tag("p", &words(&told)));
    }
    text
}

fn sentence(title: &str) -> String {
    format!("{}.", title.trim_end_matches('.'))
}
