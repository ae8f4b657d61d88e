//! Who learns: an opaque code, or nobody as long as nothing is to be kept; export and deletion.

use ashlane_lessons::store::PRIVACY;
use egui::{ComboBox, RichText, Ui};

use super::{LessonCommand, faint};
use crate::{
    command::UiCommand,
    state::{Dialog, Purpose, UiState},
    theme::Ink,
    view::LearnerView,
};

pub(super) fn learner_ui(
    ui: &mut Ui,
    view: LearnerView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    ui.horizontal_wrapped(|ui| {
        match view.code {
            Some(code) => {
                ui.label("Learner");
                ui.label(RichText::new(code).strong().monospace())
                    .on_hover_text(PRIVACY);
            }
            None => {
                ui.label("What you do is kept only until the window is closed.");
            }
        }
        let button = ui.button(match view.code {
            Some(_) => "New learner",
            None => "Keep my progress",
        });
        if button.on_hover_text(PRIVACY).clicked() {
            out.push(LessonCommand::NewLearner.into());
        }
        others_ui(ui, view, out);
        if let Some(code) = view.code {
            if ui.button("Export…").clicked() {
                state.dialog = Some(Dialog {
                    purpose: Purpose::Learner,
                    path: format!("ashlane-learner-{code}.json"),
                });
            }
            if ui.button("Delete…").clicked() {
                state.deleting = true;
            }
        }
    });
    if let Some(code) = view.code.filter(|_| state.deleting) {
        delete_ui(ui, code, state, out);
    }
}

/// Codes that are kept here besides the present one.
fn others_ui(ui: &mut Ui, view: LearnerView<'_>, out: &mut Vec<UiCommand>) {
    let other = |code: &&String| view.code != Some(code.as_str());
    if !view.codes.iter().any(|code| other(&code)) {
        return;
    }
    ComboBox::from_id_salt("learners")
        .selected_text("Another learner")
        .show_ui(ui, |ui| {
            for code in view.codes.iter().filter(other) {
                if ui.selectable_label(false, code).clicked() {
                    out.push(LessonCommand::UseLearner(code.clone()).into());
                }
            }
        });
}

fn delete_ui(ui: &mut Ui, code: &str, state: &mut UiState, out: &mut Vec<UiCommand>) {
    ui.horizontal_wrapped(|ui| {
        let text = format!("Everything of {code} will be gone for good.");
        ui.label(RichText::new(text).color(Ink::Trouble.colour(state.theme)));
        if ui.button("Delete for good").clicked() {
            out.push(LessonCommand::DeleteLearner.into());
            state.deleting = false;
        }
        if ui.button("Keep").clicked() {
            state.deleting = false;
        }
    });
    ui.label(faint("An export that was made stays where it is.", state));
}
