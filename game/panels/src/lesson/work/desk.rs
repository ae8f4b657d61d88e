//! The desk of a case: what shows, what else can be looked at, and what the learner makes of it.

use ashlane_lessons::{
    diagnosis::{ACTIONS, Act, CHECKS, Case, Check, Desk, Evidence, Reach},
    engine::{WorkAct, desk, find_caution},
};
use egui::{Button, RadioButton, RichText, Ui};

use super::act;
use crate::{
    command::UiCommand,
    lesson::{faint, heading},
    state::UiState,
    theme::Ink,
};

const REACHES: [Reach; 6] = [
    Reach::Panel,
    Reach::Logs,
    Reach::Outside,
    Reach::Qualified,
    Reach::Laboratory,
    Reach::Survey,
];

pub(super) fn desk_ui(
    ui: &mut Ui,
    (case, acts): (&Case, &[WorkAct]),
    evidence: &Evidence,
    state: &UiState,
    out: &mut Vec<UiCommand>,
) {
    let desk = match desk(case, acts) {
        Ok(desk) => desk,
        Err(why) => {
            ui.label(why);
            return;
        }
    };
    heading(ui, "On the desk", state);
    ui.label(faint(
        "All of it is of the machine of this case; the drawing shows the sound one.",
        state,
    ));
    for check in &desk.open {
        open_check_ui(ui, check, &desk, evidence, state, out);
    }
    if desk.handed_in {
        ui.label(faint("Handed in.", state));
        return;
    }
    heading(ui, "Look further", state);
    ui.label(faint("From the safest and cheapest on.", state));
    for reach in REACHES {
        reach_ui(ui, reach, &desk, state, out);
    }
    heading(ui, "Cause", state);
    for cause in case.offered() {
        let on = desk.cause.as_deref() == Some(cause.fault.name);
        if ui.add(RadioButton::new(on, cause.fault.title)).clicked() && !on {
            send(out, Act::Cause(cause.fault.name.to_owned()));
        }
    }
    heading(ui, "First action", state);
    actions_ui(ui, &desk, state, out);
    hand_in_ui(ui, &desk, out);
}

/// What an open check shows, and whether it is cited.
fn open_check_ui(
    ui: &mut Ui,
    check: &Check,
    desk: &Desk,
    evidence: &Evidence,
    state: &UiState,
    out: &mut Vec<UiCommand>,
) {
    let cited = desk.cited.iter().any(|other| other.key == check.key);
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(check.name).strong());
        ui.label(faint(check.reach.words(), state));
        if desk.handed_in {
            return;
        }
        let cite = ui
            .selectable_label(cited, "evidence")
            .on_hover_text(format!("Cite “{}” as evidence for the cause", check.name));
        if cite.clicked() {
            let key = check.key.to_owned();
            send(
                out,
                if cited {
                    Act::TakeBack(key)
                } else {
                    Act::Cite(key)
                },
            );
        }
    });
    for finding in evidence.reveals(check) {
        ui.label(faint(finding.text(state.units), state));
    }
    ui.add_space(3.0);
}

/// Checks that can still be ordered in one place.
fn reach_ui(ui: &mut Ui, reach: Reach, desk: &Desk, state: &UiState, out: &mut Vec<UiCommand>) {
    let is_open = |check: &Check| desk.open.iter().any(|open| open.key == check.key);
    let left: Vec<&Check> = CHECKS
        .iter()
        .filter(|check| check.reach == reach && !is_open(check))
        .collect();
    if left.is_empty() {
        return;
    }
    ui.label(faint(reach.words(), state));
    ui.horizontal_wrapped(|ui| {
        for check in left {
            if ui.button(check.name).clicked() {
                send(out, Act::Order(check.key.to_owned()));
            }
        }
    });
}

fn actions_ui(ui: &mut Ui, desk: &Desk, state: &UiState, out: &mut Vec<UiCommand>) {
    for action in ACTIONS {
        let on = desk.action.is_some_and(|chosen| chosen.key == action.key);
        if ui.add(RadioButton::new(on, action.name)).clicked() && !on {
            send(out, Act::Action(action.key.to_owned()));
        }
        if let Some(caution) = action.caution.and_then(find_caution).filter(|_| on) {
            let text = format!("⚠ {}: {}", caution.hazard, caution.text);
            ui.label(RichText::new(text).color(Ink::Trouble.colour(state.theme)));
        }
    }
}

fn hand_in_ui(ui: &mut Ui, desk: &Desk, out: &mut Vec<UiCommand>) {
    ui.add_space(6.0);
    let ready = desk.cause.is_some() && desk.action.is_some() && !desk.cited.is_empty();
    let button = ui
        .add_enabled(ready, Button::new("Hand the case in"))
        .on_disabled_hover_text("Name a cause, cite evidence and choose a first action.");
    if button.clicked() {
        send(out, Act::HandIn);
    }
}

fn send(out: &mut Vec<UiCommand>, what: Act) {
    act(out, WorkAct::Diagnosis(what));
}
