//! The sequence board: what is on, what the site waits for, what has followed. It opens no door.

use ashlane_lessons::{
    engine::WorkAct,
    sequence::{Act, Board, Exercise, KEYS_PRINCIPLE},
};
use ashlane_shared::units::{Dimension, UnitSystem, format};
use egui::{Button, RichText, Ui};

use super::act;
use crate::{
    command::UiCommand,
    lesson::{faint, heading},
    state::UiState,
    theme::Ink,
};

/// Waits that can be chosen, s.
const WAITS: [(&str, f64); 3] = [
    ("Wait 1 min", 60.0),
    ("Wait 10 min", 600.0),
    ("Wait 1 h", 3600.0),
];

pub(super) fn board_ui(
    ui: &mut Ui,
    exercise: &Exercise,
    board: &Board,
    state: &UiState,
    out: &mut Vec<UiCommand>,
) {
    heading(ui, "Sequence board", state);
    ui.label(std::format!("Goal: {}.", exercise.goal.words()));
    ui.label(faint(
        std::format!(
            "Limits: {}. Your site’s own take their place.",
            exercise.site.source.trim_end_matches('.')
        ),
        state,
    ));
    ui.label(faint(
        "The drawing shows the machine in service; how it stands now is told here.",
        state,
    ));
    limits_ui(ui, exercise, board, state);
    switches_ui(ui, board, out);
    fields_ui(ui, board, out);
    time_ui(ui, board, state, out);
    followed_ui(ui, board, state);
    heading(ui, "Keys and grounds", state);
    ui.label(faint(KEYS_PRINCIPLE, state));
}

/// What the site waits for: the value, its limit, whether it is met.
fn limits_ui(ui: &mut Ui, exercise: &Exercise, board: &Board, state: &UiState) {
    let kelvin = |value| format(value, Dimension::Temperature, state.units);
    let share = |value: f64| std::format!("{value:.2} %", value = 100.0 * value);
    let (insulators_k, dew_k) = board.insulators_k();
    let (combustibles, set_point) = board.combustibles();
    let (changes, wanted) = board.volume_changes();
    let rows = [
        (
            "insulators",
            kelvin(insulators_k),
            std::format!(
                "dew point {} and {} more",
                kelvin(dew_k),
                difference(exercise.site.above_dew_k, state.units)
            ),
            board.is_dry(),
        ),
        (
            "combustibles",
            share(combustibles),
            std::format!("{} or less", share(set_point)),
            board.is_below_set_point(),
        ),
        (
            "purge",
            std::format!("{changes:.2} volumes"),
            std::format!("{wanted:.0} volumes"),
            board.is_purged(),
        ),
        (
            "fire",
            if board.is_stable() {
                "stable"
            } else {
                "not stable"
            }
            .to_owned(),
            std::format!(
                "{} of steady fire",
                format(exercise.site.stable_s, Dimension::Interval, state.units)
            ),
            board.is_stable(),
        ),
    ];
    for (name, value, limit, met) in rows {
        let (word, ink) = if met {
            ("✔ met", Ink::FiniteMixing)
        } else {
            ("not yet", Ink::Faint)
        };
        ui.horizontal_wrapped(|ui| {
            ui.label(std::format!("{name}:"));
            ui.label(RichText::new(value).strong());
            ui.label(RichText::new(word).color(ink.colour(state.theme)));
            ui.label(faint(std::format!("(waits for {limit})"), state));
        });
    }
}

/// A difference of temperatures: without the place where the scale begins.
fn difference(kelvin: f64, units: UnitSystem) -> String {
    match units {
        UnitSystem::Si => std::format!("{kelvin:.0} K"),
        UnitSystem::Us => std::format!("{:.0} °F", 1.8 * kelvin),
    }
}

fn switches_ui(ui: &mut Ui, board: &Board, out: &mut Vec<UiCommand>) {
    ui.add_space(4.0);
    let acts = [
        Act::Heaters,
        Act::AshRemoval,
        Act::Rappers,
        Act::Fan,
        Act::Fire,
    ];
    ui.horizontal_wrapped(|ui| {
        for ((name, on), turn) in board.switches().into_iter().zip(acts) {
            let word = if on { "on" } else { "off" };
            if ui
                .selectable_label(on, std::format!("{name}: {word}"))
                .clicked()
            {
                send(out, turn(!on));
            }
        }
    });
}

fn fields_ui(ui: &mut Ui, board: &Board, out: &mut Vec<UiCommand>) {
    ui.horizontal_wrapped(|ui| {
        for (field, &on) in board.fields().iter().enumerate() {
            let word = if on { "on" } else { "off" };
            let name = std::format!("field {}: {word}", field + 1);
            if ui.selectable_label(on, name).clicked() {
                send(
                    out,
                    if on {
                        Act::DeEnergize(field)
                    } else {
                        Act::Energize(field)
                    },
                );
            }
        }
    });
}

fn time_ui(ui: &mut Ui, board: &Board, state: &UiState, out: &mut Vec<UiCommand>) {
    ui.horizontal_wrapped(|ui| {
        for (name, wait_s) in WAITS {
            if ui.button(name).clicked() {
                send(out, Act::Wait(wait_s));
            }
        }
        let any = !board.acts().is_empty();
        if ui.add_enabled(any, Button::new("Take back")).clicked() {
            send(out, Act::TakeBack);
        }
        let hand_over = ui.button("Hand over to the permit holder");
        if hand_over.clicked() {
            send(out, Act::HandOver);
        }
    });
    let passed = format(board.time_s(), Dimension::Interval, state.units);
    ui.label(faint(
        std::format!("{passed} have gone by; nobody is timed."),
        state,
    ));
    let (layers_kg, hoppers_kg) = board.dust_kg();
    let kilograms = |of: &[f64]| format(of.iter().sum(), Dimension::Mass, state.units);
    ui.label(faint(
        std::format!(
            "On the plates {}, in the hoppers {}.",
            kilograms(layers_kg),
            kilograms(hoppers_kg)
        ),
        state,
    ));
}

fn followed_ui(ui: &mut Ui, board: &Board, state: &UiState) {
    heading(ui, "What has followed", state);
    let lines = board.consequences().lines(state.units);
    if lines.is_empty() {
        ui.label(faint("Nothing so far.", state));
    }
    for line in lines {
        ui.label(line);
    }
}

fn send(out: &mut Vec<UiCommand>, what: Act) {
    act(out, WorkAct::Sequence(what));
}
