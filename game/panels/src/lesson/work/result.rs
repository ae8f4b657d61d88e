//! What came of the work: of the case with what its machine proves, of the board with what followed.

use ashlane_lessons::{
    diagnosis::{CaseReport, find_action, find_check},
    engine::{Card, Work, WorkResult},
    faults::FAULTS,
    sequence,
};
use egui::{Label, RichText, Ui};

use crate::{
    lesson::{faint, heading},
    state::UiState,
    theme::Ink,
};

pub(in crate::lesson) fn result_ui(
    ui: &mut Ui,
    card: &Card<'_>,
    result: &WorkResult,
    state: &UiState,
) {
    match result {
        WorkResult::Diagnosis(report) => case_ui(ui, card, report, state),
        WorkResult::Sequence(outcome) => board_ui(ui, outcome, state),
    }
}

/// One judged line: a mark, a word in the same colour, the text.
fn line_ui(ui: &mut Ui, good: bool, text: &str, state: &UiState) {
    let (mark, ink) = if good {
        ("✔", Ink::FiniteMixing)
    } else {
        ("✖", Ink::Trouble)
    };
    let mark = RichText::new(mark).strong().color(ink.colour(state.theme));
    ui.horizontal_top(|ui| {
        ui.label(mark);
        ui.add(Label::new(text).wrap());
    });
}

fn names(keys: &[String]) -> String {
    let name =
        |key: &String| find_check(key).map_or_else(|| key.clone(), |check| check.name.to_owned());
    keys.iter().map(name).collect::<Vec<_>>().join(", ")
}

fn fault(name: &str) -> &str {
    let row = FAULTS.iter().find(|fault| fault.name == name);
    row.map_or(name, |fault| fault.title.trim_end_matches('.'))
}

fn case_ui(ui: &mut Ui, card: &Card<'_>, report: &CaseReport, state: &UiState) {
    let outcome = &report.outcome;
    let cause = format!("Cause: {}", fault(&outcome.cause));
    line_ui(ui, outcome.right_cause, &cause, state);
    if let Some((Work::Diagnosis(case), _)) = &card.work
        && let Some(named) = case.cause(&outcome.cause)
    {
        ui.label(named.text.show(state.units));
    }
    let evidence = if outcome.not_ruled_out.is_empty() {
        "Your evidence rules every other cause out.".to_owned()
    } else {
        let left: Vec<&str> = outcome
            .not_ruled_out
            .iter()
            .map(|name| fault(name))
            .collect();
        format!("Your evidence does not rule out: {}.", left.join("; "))
    };
    line_ui(ui, outcome.not_ruled_out.is_empty(), &evidence, state);
    let idle: Vec<String> = outcome
        .citations
        .iter()
        .filter(|citation| !citation.speaks)
        .map(|citation| citation.check.clone())
        .collect();
    if !idle.is_empty() {
        let text = format!("Says nothing about the cause: {}.", names(&idle));
        line_ui(ui, false, &text, state);
    }
    if !outcome.passed_over.is_empty() {
        let text = format!(
            "Nearer and as telling, but passed over: {}.",
            names(&outcome.passed_over)
        );
        line_ui(ui, false, &text, state);
    }
    let action = find_action(&outcome.action).map_or("", |action| action.name);
    let text = format!("First action: {action}");
    line_ui(ui, outcome.fitting_action, &text, state);
    for attempt in &outcome.attempts {
        ui.label(RichText::new(&attempt.why).color(Ink::Trouble.colour(state.theme)));
    }
    heading(ui, "What the machine shows", state);
    for sign in &report.signs {
        line_ui(ui, sign.holds, &sign.text, state);
    }
    for other in &report.separations {
        let alike = if other.same_first_signs {
            " looks the same at first;"
        } else {
            ""
        };
        let text = format!(
            "{}:{alike} told by {}.",
            fault(&other.cause),
            names(&other.told_by)
        );
        ui.label(faint(text, state));
    }
}

fn board_ui(ui: &mut Ui, outcome: &sequence::Outcome, state: &UiState) {
    line_ui(ui, outcome.reached, "The goal was reached.", state);
    for stage in &outcome.out_of_order {
        line_ui(
            ui,
            false,
            &format!("Out of the site’s order: {stage}."),
            state,
        );
    }
    if outcome.inlet_first == Some(false) {
        line_ui(
            ui,
            false,
            "The fields did not go off from the inlet on.",
            state,
        );
    }
    let lines = outcome.consequences.lines(state.units);
    let kept = outcome.holds_kept;
    let holds = if kept {
        "Every hold of the site was kept."
    } else {
        "Not every hold of the site was kept. What followed:"
    };
    line_ui(ui, kept, holds, state);
    for line in lines {
        ui.label(line);
    }
    if let Some(purge) = outcome.purge {
        let text = format!(
            "Purge by two roads: {:.3} volumes by flow, {:.3} by dilution; 1 % apart at most.",
            purge.by_flow, purge.by_dilution
        );
        line_ui(ui, purge.agrees(), &text, state);
    }
    ui.label(faint(
        format!("Limits: {}.", outcome.source.trim_end_matches('.')),
        state,
    ));
}
