//! Printable pages of a lesson: the handout, the key apart from it, the numbers; and a machine whose parts have to be named.
//!
//! Each page is one file with its fonts and figures in it. Nothing here measures: whoever asks brings what was played, the
//! drawings and the example.

mod data;
mod elevation;
mod fonts;
mod html;
mod key;
mod key_work;
mod paper;
mod reference;
mod room;
mod step;
mod subset;
mod work;
mod worked;

pub use data::{Along, data};
pub use elevation::{Blank, blank_page, names_page};
pub use worked::Worked;

use ashlane_lessons::{
    diagnosis::Evidence,
    engine::{Lesson, PlayedLesson},
};

use crate::{drawing::Drawing, strip::STRIP_HEIGHT};
use html::{classed, paragraphs, tag, words};
use paper::{Leaf, document};
use room::{LEAF_MM, paragraphs_mm};

/// All that the pages of a lesson show.
#[derive(Clone, Debug)]
pub struct Handout<'a> {
    /// The lesson.
    pub lesson: &'a Lesson,
    /// What was measured.
    pub played: &'a PlayedLesson,
    /// Figures of each segment.
    pub figures: Vec<Figures>,
    /// The example, if the lesson has a formula for one.
    pub worked: Option<Worked>,
    /// What the machine of a case shows, by segment; nothing where a segment has none.
    pub evidence: Vec<Option<Evidence>>,
}

/// The figures of a segment.
#[derive(Clone, Debug, Default)]
pub struct Figures {
    /// At its start, for the learner.
    pub before: Option<Figure>,
    /// At its target, for the trainer.
    pub after: Option<Figure>,
}

/// A drawing with what is said below it.
#[derive(Clone, Debug)]
pub struct Figure {
    /// The drawing.
    pub drawing: Drawing,
    /// What it shows.
    pub caption: String,
}

/// Size of the drawing of a view that fits the pages, points.
#[must_use]
pub fn figure_size(view: &str) -> [f32; 2] {
    /// As wide as the page, so that letters keep their size.
    const WIDE: f32 = 680.0;
    match view {
        "along" | "by_size" => [540.0, 270.0],
        "agreement" => [WIDE, STRIP_HEIGHT],
        "plan" => [WIDE, 240.0],
        "elevation" => [WIDE, 340.0],
        "panel" => [WIDE, 440.0],
        _ => [WIDE, 330.0],
    }
}

/// The page for the learner: nothing on it tells an answer before its question.
#[must_use]
pub fn handout_page(handout: &Handout<'_>) -> String {
    let lesson = handout.lesson;
    let mut body = head(lesson, "Handout");
    body.push_str(&classed(
        "div",
        "names",
        "<span>Name</span><span>Date</span>",
    ));
    body.push_str(&tag("h2", "After this lesson you can"));
    body.push_str(&paragraphs(&lesson.goal));
    let first = handout
        .figures
        .first()
        .and_then(|figures| figures.before.as_ref());
    // Title, names to fill in, goal, example.
    let example_mm = handout.worked.as_ref().map_or(0.0, worked::height_mm);
    let words_mm = 39.8 + paragraphs_mm(&lesson.goal.show_both(), false) + example_mm;
    let left_mm = LEAF_MM[1] - words_mm;
    body.push_str(&first.map_or_else(String::new, |first| paper::figure(first, left_mm)));
    if let Some(worked) = &handout.worked {
        body.push_str(&worked::example(worked));
    }
    body.push_str(&work::example(lesson));
    for index in 0..lesson.steps() {
        body.push_str(&step::step(handout, index));
    }
    body.push_str(&reference::reference(lesson));
    document(
        &format!("{} {}: handout", lesson.id, lesson.title),
        &body,
        Leaf::Upright,
    )
}

/// The page for the trainer: answers, measurements, misconceptions.
#[must_use]
pub fn key_page(handout: &Handout<'_>) -> String {
    let lesson = handout.lesson;
    let body = head(lesson, "Key for the trainer") + &key::key(handout);
    document(
        &format!("{} {}: key", lesson.id, lesson.title),
        &body,
        Leaf::Upright,
    )
}

/// Title, and what the page belongs to.
fn head(lesson: &Lesson, what: &str) -> String {
    let competencies: Vec<String> = lesson
        .competencies
        .iter()
        .map(|row| row.code.to_owned())
        .collect();
    let line = format!(
        "{what} · revision {} · about {} minutes · competencies {}",
        lesson.revision,
        lesson.minutes,
        competencies.join(", ")
    );
    tag(
        "header",
        &(tag("h1", &words(&format!("{} · {}", lesson.id, lesson.title)))
            + &classed("p", "faint", &words(&line))),
    )
}
