//! Lessons: the list to choose from, and the card of the lesson that is played.
//!
//! The card shows what the engine hands out and no more; every click is a command to the engine.

mod arrange;
mod card;
mod catalog;
mod learner;
mod outcome;
mod question;
mod so_far;
mod tally;
mod work;

use std::path::PathBuf;

use ashlane_lessons::engine;
pub(crate) use catalog::catalog_ui;
use egui::{Id, Response, RichText, ScrollArea, Ui, style::ScrollAnimation};
pub use tally::Tally;
pub use work::WorkView;

use crate::{
    command::UiCommand,
    state::UiState,
    theme::{Ink, SMALL},
    view::{AppView, LessonsView},
};

/// What is asked for about lessons.
#[derive(Clone, Debug, PartialEq)]
pub enum LessonCommand {
    /// To the list of lessons.
    Enter,
    /// Back to exploring; the conditions there are as they were left.
    Leave,
    /// Open a lesson by its id; one that was begun goes on.
    Open(String),
    /// Back to the list.
    Close,
    /// A command to the engine.
    Do(engine::Command),
    /// Keep what is done from now on, under a new code.
    NewLearner,
    /// Go on with what is kept under this code.
    UseLearner(String),
    /// Write everything of the learner into this file.
    ExportLearner(PathBuf),
    /// Delete everything of the learner.
    DeleteLearner,
}

impl From<LessonCommand> for UiCommand {
    fn from(command: LessonCommand) -> Self {
        Self::Lesson(command)
    }
}

/// The card of the open lesson.
pub(crate) fn lessons_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    lessons: &LessonsView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    ScrollArea::vertical()
        .id_salt("lesson")
        .auto_shrink([false, false])
        .show(ui, |ui| {
            if let Some(open) = &lessons.open {
                card::card_ui(ui, view, open, state, out);
            }
        });
}

fn tell(out: &mut Vec<UiCommand>, command: engine::Command) {
    out.push(LessonCommand::Do(command).into());
}

fn faint(text: impl Into<String>, state: &UiState) -> RichText {
    RichText::new(text)
        .size(SMALL)
        .color(Ink::Faint.colour(state.theme))
}

fn heading(ui: &mut Ui, text: &str, state: &UiState) -> Response {
    ui.add_space(6.0);
    ui.label(faint(text.to_uppercase(), state).strong())
}

/// How the card moves to what is new: at once for whoever wants little motion.
fn scrolling(state: &UiState) -> ScrollAnimation {
    if state.reduced_motion {
        ScrollAnimation::none()
    } else {
        ScrollAnimation::default()
    }
}

/// Whether another moment of the lessons is shown than in the frame before: what is new must be brought into sight.
fn is_new(ui: &Ui, moment: &str) -> bool {
    let id = Id::new("moment of the lessons");
    let before = ui.data_mut(|data| data.get_temp::<String>(id));
    if before.as_deref() == Some(moment) {
        return false;
    }
    ui.data_mut(|data| data.insert_temp(id, moment.to_owned()));
    true
}
