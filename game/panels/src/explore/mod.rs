//! Exploring: a card with a question, a place for the rule that was found, and what was tried. Nothing is judged.

mod list;
mod log;
mod notes;
mod prompt;

use std::collections::BTreeMap;

use egui::{ScrollArea, Ui};

pub(crate) use list::list_ui;
pub use log::{Trial, Tried};
pub use notes::notes;

use crate::{command::UiCommand, state::UiState, view::AppView};

/// What only the card knows.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Exploring {
    /// Whether the questions stand in place of the charts.
    pub open: bool,
    /// The question that is shown.
    pub prompt: usize,
    /// Rules that were found, by their questions.
    pub rules: BTreeMap<usize, String>,
}

/// Switches the column between charts and questions.
pub(crate) fn switch_ui(ui: &mut Ui, state: &mut UiState) {
    ui.horizontal_wrapped(|ui| {
        let choices = [
            (false, "Charts", "Every chart with its check"),
            (
                true,
                "Questions",
                "A question to explore with, and what was tried",
            ),
        ];
        for (open, name, hover) in choices {
            if ui
                .selectable_label(state.exploring.open == open, name)
                .on_hover_text(hover)
                .clicked()
            {
                state.exploring.open = open;
            }
        }
    });
}

/// The questions with what was tried below.
pub(crate) fn questions_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    ScrollArea::vertical()
        .id_salt("questions")
        .auto_shrink([false, false])
        .show(ui, |ui| {
            prompt::prompt_ui(ui, state, out);
            ui.separator();
            list_ui(ui, view, state, out);
        });
}
