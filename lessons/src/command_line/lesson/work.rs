//! What came of a diagnosis or of the sequence board, as lines of the report.

use ashlane_shared::units::UnitSystem;

use crate::{
    diagnosis::{CaseReport, Separation, SignResult},
    engine::WorkResult,
    sequence::Outcome,
};

/// Widest line, characters.
const WIDEST: usize = 120;

/// The lines, each with its break.
pub(super) fn work_lines(result: &WorkResult) -> String {
    let lines = match result {
        WorkResult::Diagnosis(report) => case_lines(report),
        WorkResult::Sequence(outcome) => board_lines(outcome),
    };
    let lines = lines.into_iter().map(|line| {
        let short: String = line.chars().take(WIDEST).collect();
        format!("   {short}\n")
    });
    lines.collect()
}

fn case_lines(report: &CaseReport) -> Vec<String> {
    let sign = |sign: &SignResult| {
        let verdict = if sign.holds { "agree   " } else { "DISAGREE" };
        format!("sign    {verdict} {}", sign.text)
    };
    let told = |other: &Separation| {
        let first = if other.same_first_signs {
            "looks alike at first"
        } else {
            "differs at first sight"
        };
        let by = if other.told_by.is_empty() {
            "by nothing: DISAGREE".to_owned()
        } else {
            other.told_by.join(", ")
        };
        format!("other   {} {first}; told by {by}", other.cause)
    };
    let outcome = &report.outcome;
    let cited: Vec<&str> = outcome
        .citations
        .iter()
        .map(|one| one.check.as_str())
        .collect();
    let mut lines: Vec<String> = report.signs.iter().map(sign).collect();
    lines.extend(report.separations.iter().map(told));
    lines.push(format!(
        "case    ordered {}, cited {}, cause {}, first action {}: {}",
        outcome.ordered.join(", "),
        cited.join(", "),
        outcome.cause,
        outcome.action,
        if outcome.is_solved() {
            "solved"
        } else {
            "not solved"
        }
    ));
    lines
}

fn board_lines(outcome: &Outcome) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(purge) = &outcome.purge {
        let verdict = if purge.agrees() { "agree" } else { "DISAGREE" };
        lines.push(format!(
            "purge   {:.3} volume changes by ∫Q dt/V, {:.3} by dilution: {verdict}",
            purge.by_flow, purge.by_dilution
        ));
    }
    lines.push(format!(
        "board   goal reached: {}; {}",
        outcome.reached, outcome.source
    ));
    lines.extend(
        outcome
            .out_of_order
            .iter()
            .map(|text| format!("order   {text}")),
    );
    let followed = outcome.consequences.lines(UnitSystem::Si);
    lines.extend(followed.iter().map(|text| format!("follows {text}")));
    lines
}
