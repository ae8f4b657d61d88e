//! The list of lessons.

use ashlane_lessons::engine::{Lesson, NOTICE_LONG};
use egui::{Frame, RichText, Stroke, Ui};

use super::{LessonCommand, faint};
use crate::{
    command::UiCommand,
    state::UiState,
    theme::{BODY, Ink},
    view::LessonsView,
};

pub(super) fn catalog_ui(
    ui: &mut Ui,
    view: &LessonsView<'_>,
    state: &UiState,
    out: &mut Vec<UiCommand>,
) {
    ui.label(RichText::new("Lessons").size(BODY + 3.0).strong());
    ui.label(faint(
        "Each asks first, then lets you change one thing, then measures and compares.",
        state,
    ));
    ui.add_space(6.0);
    for lesson in view.lessons {
        let begun = view.begun.iter().any(|id| *id == lesson.id);
        lesson_ui(ui, lesson, begun, state, out);
        ui.add_space(6.0);
    }
    ui.add_space(4.0);
    ui.label(faint(NOTICE_LONG, state));
}

fn lesson_ui(ui: &mut Ui, lesson: &Lesson, begun: bool, state: &UiState, out: &mut Vec<UiCommand>) {
    Frame::new()
        .stroke(Stroke::new(1.0, Ink::Rule.colour(state.theme)))
        .corner_radius(4)
        .inner_margin(8)
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.label(RichText::new(format!("{} · {}", lesson.id, lesson.title)).strong());
            ui.label(lesson.goal.show(state.units));
            let skills: Vec<&str> = lesson.competencies.iter().map(|row| row.code).collect();
            ui.label(faint(
                format!(
                    "{} minutes · {} steps · serves {}",
                    lesson.minutes,
                    lesson.steps(),
                    skills.join(", ")
                ),
                state,
            ));
            let label = if begun { "Go on" } else { "Start" };
            let button = ui.button(format!("{label} {}", lesson.id));
            if button.on_hover_text(&lesson.title).clicked() {
                out.push(LessonCommand::Open(lesson.id.clone()).into());
            }
        });
}
