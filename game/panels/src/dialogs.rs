//! Dialogs in the window itself, so that they work in every place the program does: file names, messages.

use egui::{Align2, Key, RichText, ScrollArea, TextEdit, Window, vec2};

use crate::{
    command::UiCommand,
    lesson::LessonCommand,
    reference::reference_ui,
    state::{Purpose, UiState},
    theme::Ink,
    view::AppView,
};

/// The open dialog and the message, if any.
pub(crate) fn dialogs_ui(
    context: &egui::Context,
    view: &AppView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    file_dialog_ui(context, view, state, out);
    message_ui(context, view, state, out);
    reference_ui(context, state);
}

fn words(purpose: Purpose) -> (&'static str, &'static str) {
    match purpose {
        Purpose::Open => ("Open a site sheet", "Open"),
        Purpose::SaveAs => ("Save the site sheet as", "Save"),
        Purpose::Picture => ("Write a picture of the plan", "Write"),
        Purpose::Data => ("Write the data of the charts", "Write"),
        Purpose::Trials => ("Write what was tried", "Write"),
        Purpose::Learner => ("Write everything of this learner", "Write"),
    }
}

fn file_dialog_ui(
    context: &egui::Context,
    view: &AppView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    let Some(dialog) = &mut state.dialog else {
        return;
    };
    let (title, action) = words(dialog.purpose);
    let mut verdict = None;
    Window::new(title)
        .collapsible(false)
        .resizable(false)
        .anchor(Align2::CENTER_CENTER, vec2(0.0, 0.0))
        .show(context, |ui| {
            let label = ui.label("File");
            let edit = TextEdit::singleline(&mut dialog.path)
                .desired_width(380.0)
                .hint_text("folder/name.toml");
            let edit = ui.add(edit).labelled_by(label.id);
            if dialog.path.is_empty() && dialog.purpose == Purpose::Open {
                edit.request_focus();
            }
            let entered = edit.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
            if dialog.purpose == Purpose::Open {
                offered_ui(ui, view, &mut dialog.path, &mut verdict);
            }
            ui.horizontal(|ui| {
                let given = !dialog.path.trim().is_empty();
                if ui.add_enabled(given, egui::Button::new(action)).clicked() || (entered && given)
                {
                    verdict = Some(true);
                }
                if ui.button("Cancel").clicked() || ui.input(|input| input.key_pressed(Key::Escape))
                {
                    verdict = Some(false);
                }
            });
        });
    if let Some(go) = verdict {
        if go {
            let path = dialog.path.trim().into();
            out.push(match dialog.purpose {
                Purpose::Open => UiCommand::Open(path),
                Purpose::SaveAs => UiCommand::SaveAs(path),
                Purpose::Picture => UiCommand::ExportPicture(path),
                Purpose::Data => UiCommand::ExportData(path),
                Purpose::Trials => UiCommand::ExportTrials(path),
                Purpose::Learner => LessonCommand::ExportLearner(path).into(),
            });
        }
        state.dialog = None;
    }
}

/// Sheets that can be opened without typing.
fn offered_ui(
    ui: &mut egui::Ui,
    view: &AppView<'_>,
    path: &mut String,
    verdict: &mut Option<bool>,
) {
    ui.label("Or one of these");
    ScrollArea::vertical().max_height(180.0).show(ui, |ui| {
        for sheet in view.sheets {
            if ui.button(sheet).clicked() {
                path.clone_from(sheet);
                *verdict = Some(true);
            }
        }
    });
}

fn message_ui(
    context: &egui::Context,
    view: &AppView<'_>,
    state: &UiState,
    out: &mut Vec<UiCommand>,
) {
    let Some(message) = view.message else { return };
    let title = if message.trouble {
        "This did not work"
    } else {
        "Done"
    };
    Window::new(title)
        .collapsible(false)
        .resizable(false)
        .anchor(Align2::CENTER_TOP, vec2(0.0, 60.0))
        .show(context, |ui| {
            ui.set_max_width(560.0);
            let ink = if message.trouble {
                Ink::Trouble
            } else {
                Ink::Text
            };
            ScrollArea::vertical().max_height(260.0).show(ui, |ui| {
                ui.label(RichText::new(&message.text).color(ink.colour(state.theme)));
            });
            let close = ui.button("Close");
            if close.clicked() || ui.input(|input| input.key_pressed(Key::Escape)) {
                out.push(UiCommand::Dismiss);
            }
        });
}
