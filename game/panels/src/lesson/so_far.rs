//! What was done so far in a lesson: each finished step with its prediction and what was measured, and what was tried.

use ashlane_lessons::engine::{PastStep, Reading};
use egui::{CollapsingHeader, RichText, Ui};

use super::faint;
use crate::{
    charts::{percent_of_caught, percent_text, plain_number_or_zero},
    command::UiCommand,
    explore::list_ui,
    state::UiState,
    theme::Ink,
    view::{AppView, OpenLesson},
};

/// Trials from which there is something to compare.
const WORTH_A_LIST: usize = 2;

pub(super) fn so_far_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    open: &OpenLesson<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    ui.add_space(8.0);
    if !open.past.is_empty() {
        CollapsingHeader::new("Your steps so far")
            // At the end there is nothing else to look at.
            .default_open(open.card.is_none())
            .show_unindented(ui, |ui| {
                for step in &open.past {
                    step_ui(ui, step, state);
                }
            });
    }
    if view.tried.trials().len() >= WORTH_A_LIST {
        CollapsingHeader::new("What was tried in this lesson").show_unindented(ui, |ui| {
            list_ui(ui, view, state, out);
        });
    }
}

fn step_ui(ui: &mut Ui, step: &PastStep<'_>, state: &UiState) {
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(format!("{}. {}", step.number, step.title)).strong());
        let (word, ink) = match step.right {
            Some(true) => ("predicted", Ink::FiniteMixing),
            Some(false) => ("not what you predicted", Ink::Trouble),
            None => ("answered", Ink::Faint),
        };
        ui.label(RichText::new(word).color(ink.colour(state.theme)));
    });
    if let Some(reading) = step.reading {
        if reading.is_about_dust() {
            ui.label(faint(dust(reading), state));
        } else {
            for check in &reading.checks {
                let quantity = check.quantity.row().title;
                let value = check
                    .quantity
                    .text(check.measured, check.plus_minus(), state.units);
                ui.label(faint(format!("{quantity} {value}"), state));
            }
        }
    }
    ui.add_space(4.0);
}

/// Penetration and efficiency, before and after.
fn dust(reading: &Reading) -> String {
    let shares = [&reading.before, &reading.after].map(|one| one.penetration.share);
    let [before, after] = shares.map(|share| {
        format!(
            "{} through, {} caught",
            percent_text(share),
            percent_of_caught(share)
        )
    });
    let times = if shares[0] > 0.0 {
        format!(" (×{})", plain_number_or_zero(shares[1] / shares[0]))
    } else {
        String::new()
    };
    format!("{before}; then {after}{times}")
}
