//! The catalog over the whole window: lessons by theme, how long each takes, what it serves and how far it is.

use ashlane_lessons::engine::{Lesson, NOTICE_LONG, THEMES, find_competency, theme_of};
use egui::{Align, Frame, Layout, RichText, ScrollArea, Stroke, Ui};

use super::{LessonCommand, faint, learner::learner_ui};
use crate::{
    command::UiCommand,
    state::UiState,
    theme::{BODY, Ink},
    view::{LessonState, LessonsView},
};

/// Narrowest column, in times the size of text, and most columns.
const COLUMN: f32 = 24.0;
const MOST: usize = 3;

/// The catalog.
pub(crate) fn catalog_ui(
    ui: &mut Ui,
    view: &LessonsView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    ScrollArea::vertical()
        .id_salt("catalog")
        .auto_shrink([false, false])
        .show(ui, |ui| {
            notice_ui(ui, state);
            ui.label(RichText::new("Lessons").size(BODY + 6.0).strong());
            ui.label(faint(
                "Each asks first, then lets you change one thing, then measures and compares.",
                state,
            ));
            if let Some(learner) = view.learner {
                learner_ui(ui, learner, state, out);
            }
            ui.add_space(8.0);
            let blocks = blocks(view);
            let fitting = (ui.available_width() / (COLUMN * BODY)) as usize;
            let columns = in_columns(&blocks, fitting.clamp(1, MOST));
            ui.columns(columns.len(), |columns_ui| {
                for (ui, blocks) in columns_ui.iter_mut().zip(&columns) {
                    ui.with_layout(Layout::top_down(Align::Min), |ui| {
                        for block in *blocks {
                            block_ui(ui, block, state, out);
                        }
                    });
                }
            });
        });
}

/// A theme with its lessons, each with how far it is.
struct Block<'a> {
    theme: &'static str,
    lessons: Vec<(&'a Lesson, LessonState)>,
}

/// The themes that have lessons, in the order they are best learnt.
fn blocks<'a>(view: &LessonsView<'a>) -> Vec<Block<'a>> {
    let themes = THEMES.iter().map(|(theme, _)| *theme);
    let of = |theme: &'static str| {
        let its = |lesson: &&Lesson| main_theme(lesson) == theme;
        let lessons = view.lessons.iter().filter(its);
        Block {
            theme,
            lessons: lessons
                .map(|lesson| (lesson, view.state_of(&lesson.id)))
                .collect(),
        }
    };
    themes
        .map(of)
        .filter(|block| !block.lessons.is_empty())
        .collect()
}

/// The theme of most of its competencies, the first of those where there are several.
fn main_theme(lesson: &Lesson) -> &'static str {
    let themes = || lesson.competencies.iter().map(|row| theme_of(row.code));
    let many = |theme: &str| themes().filter(|other| *other == theme).count();
    let most = themes().map(many).max().unwrap_or_default();
    themes()
        .find(|theme| many(theme) == most)
        .unwrap_or_else(|| theme_of(""))
}

/// Blocks side by side, read down and then to the right, so that the longest column is as short as can be.
fn in_columns<'b, 'a>(blocks: &'b [Block<'a>], columns: usize) -> Vec<&'b [Block<'a>]> {
    // A heading takes about half the room of a lesson.
    let height = |blocks: &[Block<'_>]| -> usize {
        blocks.iter().map(|block| 1 + 2 * block.lessons.len()).sum()
    };
    let all = height(blocks);
    let cut = |most: usize| {
        let mut cut = Vec::new();
        let mut start = 0;
        for end in 1..=blocks.len() {
            let is_last = end == blocks.len();
            if is_last || height(&blocks[start..=end]) > most {
                cut.push(&blocks[start..end]);
                start = end;
            }
        }
        cut
    };
    (1..=all.max(1))
        .map(cut)
        .find(|cut| cut.len() <= columns)
        .unwrap_or_default()
}

fn block_ui(ui: &mut Ui, block: &Block<'_>, state: &UiState, out: &mut Vec<UiCommand>) {
    ui.label(RichText::new(block.theme).size(BODY + 1.0).strong());
    ui.add_space(2.0);
    for (lesson, reached) in &block.lessons {
        lesson_ui(ui, lesson, *reached, state, out);
        ui.add_space(6.0);
    }
    ui.add_space(8.0);
}

fn lesson_ui(
    ui: &mut Ui,
    lesson: &Lesson,
    reached: LessonState,
    state: &UiState,
    out: &mut Vec<UiCommand>,
) {
    Frame::new()
        .fill(Ink::Ground.colour(state.theme))
        .stroke(Stroke::new(1.0, Ink::Rule.colour(state.theme)))
        .corner_radius(4)
        .inner_margin(8)
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.label(RichText::new(format!("{} · {}", lesson.id, lesson.title)).strong());
            ui.label(faint(lesson.goal.show(state.units), state));
            ui.horizontal_wrapped(|ui| {
                let (label, told, ink) = words(reached);
                let button = ui.button(format!("{label} {}", lesson.id));
                if button.on_hover_text(&lesson.title).clicked() {
                    out.push(LessonCommand::Open(lesson.id.clone()).into());
                }
                if !told.is_empty() {
                    ui.label(RichText::new(told).strong().color(ink.colour(state.theme)));
                }
                ui.label(faint(format!("{} min", lesson.minutes), state));
                for row in &lesson.competencies {
                    let statement = find_competency(row.code).map_or("", |row| row.statement);
                    ui.label(faint(row.code, state)).on_hover_text(statement);
                }
            });
        });
}

/// What the button says, and what is told beside it.
fn words(reached: LessonState) -> (&'static str, String, Ink) {
    match reached {
        LessonState::New => ("Start", String::new(), Ink::Faint),
        LessonState::Begun { step, steps } => {
            ("Go on", format!("step {step} of {steps}"), Ink::Control)
        }
        LessonState::Done => ("Look at", "✔ done".to_owned(), Ink::FiniteMixing),
        LessonState::Due => ("Again", "due again".to_owned(), Ink::Control),
    }
}

/// The long notice, once a session: it stays until it is said to be read.
fn notice_ui(ui: &mut Ui, state: &mut UiState) {
    if state.notice_read {
        return;
    }
    Frame::new()
        .stroke(Stroke::new(1.5, Ink::Trouble.colour(state.theme)))
        .corner_radius(4)
        .inner_margin(10)
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.label(NOTICE_LONG);
            if ui.button("I have read this").clicked() {
                state.notice_read = true;
            }
        });
    ui.add_space(10.0);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn block(theme: &'static str, lessons: &[Lesson]) -> Block<'static> {
        // Only how many there are counts here.
        let lessons: &'static [Lesson] = Box::leak(lessons.to_vec().into_boxed_slice());
        Block {
            theme,
            lessons: lessons
                .iter()
                .map(|lesson| (lesson, LessonState::New))
                .collect(),
        }
    }

    #[test]
    fn columns_hold_every_block_in_order_and_are_balanced() {
        let lessons = ashlane_lessons::catalog::lessons().expect("sound lessons");
        let blocks: Vec<Block<'_>> = [3, 2, 5, 1, 3, 2]
            .iter()
            .map(|&many| block("theme", &lessons[..many]))
            .collect();
        for columns in 1..=3 {
            let cut = in_columns(&blocks, columns);
            assert!(cut.len() <= columns, "{} columns", cut.len());
            let held: Vec<usize> = cut
                .iter()
                .flat_map(|blocks| blocks.iter().map(|block| block.lessons.len()))
                .collect();
            assert_eq!(held, [3, 2, 5, 1, 3, 2]);
        }
        // 7 + 5 | 11 + 3 | 7 + 5 of 38: no column is longer than 14.
        let cut = in_columns(&blocks, 3);
        assert_eq!(
            cut.iter().map(|blocks| blocks.len()).collect::<Vec<_>>(),
            [2, 2, 2]
        );
    }

    #[test]
    fn every_lesson_stands_under_one_theme() {
        let lessons = ashlane_lessons::catalog::lessons().expect("sound lessons");
        let view = LessonsView {
            lessons: &lessons,
            ..LessonsView::default()
        };
        let shown: usize = blocks(&view).iter().map(|block| block.lessons.len()).sum();
        assert_eq!(shown, lessons.len());
    }
}
