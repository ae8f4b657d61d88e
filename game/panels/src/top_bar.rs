//! The top bar: what is open, what can be done with the file, units, text size and theme.

use ashlane_shared::units::UnitSystem;
use egui::{Button, RichText, Ui};

use crate::{
    command::UiCommand,
    lesson::LessonCommand,
    presenter::present,
    reference::Reference,
    state::{Dialog, Purpose, TEXT_PERCENT, UiState},
    theme::{Ink, Theme},
    view::AppView,
};

/// Steps of the text size, per cent.
const TEXT_STEP: u32 = 25;

/// The bar.
pub(crate) fn top_bar_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new("Ashlane").size(19.0).strong());
        let star = if view.file.unsaved { " •" } else { "" };
        ui.label(
            RichText::new(format!("{}{star}", view.controls.title))
                .color(Ink::Faint.colour(state.theme)),
        )
        .on_hover_text(format!(
            "{}{}",
            view.file.name,
            if view.file.unsaved { ", changed" } else { "" }
        ));
        ui.separator();
        mode_ui(ui, view, out);
        ui.separator();
        file_ui(ui, view, state, out);
        ui.separator();
        history_ui(ui, view, out);
        ui.separator();
        look_ui(ui, state);
    });
}

/// Explore freely, or be led by a lesson.
fn mode_ui(ui: &mut Ui, view: &AppView<'_>, out: &mut Vec<UiCommand>) {
    let in_lessons = view.lessons.is_some();
    for (lessons, label, hover) in [
        (false, "Explore", "Turn every control as you like"),
        (true, "Lessons", "Predict, observe, explain"),
    ] {
        let clicked = ui
            .selectable_label(in_lessons == lessons, label)
            .on_hover_text(hover)
            .clicked();
        if clicked && in_lessons != lessons {
            let command = if lessons {
                LessonCommand::Enter
            } else {
                LessonCommand::Leave
            };
            out.push(command.into());
        }
    }
}

fn file_ui(ui: &mut Ui, view: &AppView<'_>, state: &mut UiState, out: &mut Vec<UiCommand>) {
    let mut asked = None;
    ui.menu_button("File", |ui| {
        let entries = [
            ("Open…", Purpose::Open, ""),
            ("Save as…", Purpose::SaveAs, "my-collector.toml"),
            (
                "Picture of the drawing…",
                Purpose::Picture,
                "ashlane-picture.png",
            ),
            ("Data of the charts…", Purpose::Data, "ashlane-count.csv"),
        ];
        for (label, purpose, path) in entries {
            // A lesson has its own collector, which is no sheet of the user's.
            let of_sheets = matches!(purpose, Purpose::Open | Purpose::SaveAs);
            let enabled = view.lessons.is_none() || !of_sheets;
            let entry = ui.add_enabled(enabled, Button::new(label));
            if entry
                .on_disabled_hover_text("Go back to Explore first.")
                .clicked()
            {
                asked = Some(Dialog {
                    purpose,
                    path: path.to_owned(),
                });
                ui.close();
            }
        }
    });
    if asked.is_some() {
        state.dialog = asked;
    }
    let save = ui.add_enabled(view.file.has_path && view.file.unsaved, Button::new("Save"));
    if save
        .on_hover_text("Write the changes to the sheet's file (Ctrl+S)")
        .clicked()
    {
        out.push(UiCommand::Save);
    }
}

fn history_ui(ui: &mut Ui, view: &AppView<'_>, out: &mut Vec<UiCommand>) {
    let buttons = [
        (
            "Undo",
            view.file.can_undo,
            UiCommand::Undo,
            "Take back the last change (Ctrl+Z)",
        ),
        (
            "Redo",
            view.file.can_redo,
            UiCommand::Redo,
            "Make it again (Ctrl+Y)",
        ),
        (
            "Reset to sheet",
            view.file.unsaved,
            UiCommand::ResetToSheet,
            "All values as the sheet says",
        ),
    ];
    for (label, enabled, command, hover) in buttons {
        if ui
            .add_enabled(enabled, Button::new(label))
            .on_hover_text(hover)
            .clicked()
        {
            out.push(command);
        }
    }
}

fn look_ui(ui: &mut Ui, state: &mut UiState) {
    for (system, label) in [(UnitSystem::Si, "SI"), (UnitSystem::Us, "US")] {
        if ui
            .selectable_label(state.units == system, label)
            .on_hover_text("Units on screen")
            .clicked()
        {
            state.units = system;
        }
    }
    let (least, most) = TEXT_PERCENT;
    if ui
        .add_enabled(state.text_percent > least, Button::new("A−"))
        .on_hover_text("Smaller text")
        .clicked()
    {
        state.text_percent = state.text_percent.saturating_sub(TEXT_STEP).max(least);
    }
    ui.label(format!("{} %", state.text_percent));
    if ui
        .add_enabled(state.text_percent < most, Button::new("A+"))
        .on_hover_text("Larger text")
        .clicked()
    {
        state.text_percent = (state.text_percent + TEXT_STEP).min(most);
    }
    let (other, label) = match state.theme {
        Theme::Dark => (Theme::Light, "Light"),
        Theme::Light => (Theme::Dark, "Dark"),
    };
    if ui
        .button(label)
        .on_hover_text("Light ground for projectors and print, dark for the screen")
        .clicked()
    {
        state.theme = other;
    }
    let motion = ui.selectable_label(!state.reduced_motion, "Motion");
    if motion
        .on_hover_text("The drawing travels from one scale to the next; without, it cuts")
        .clicked()
    {
        state.reduced_motion = !state.reduced_motion;
    }
    let looked_up = state.reference.is_some();
    let reference = ui.selectable_label(looked_up, "Glossary");
    if reference
        .on_hover_text("Words of the trade, and how we know that the formulas hold")
        .clicked()
    {
        state.reference = (!looked_up).then(Reference::default);
    }
    if ui
        .button("Present")
        .on_hover_text("Drawing, one reading, one sentence, large enough for a class (F5)")
        .clicked()
    {
        present(state);
    }
}
