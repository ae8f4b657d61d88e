//! The lesson engine: predict, observe, explain.
//!
//! A lesson file is read into a [`Lesson`], every problem named at once. A [`Progress`] takes a learner through it one
//! [`Command`] at a time: the prediction locks before the result can be measured. What is measured is a count of many
//! parcels; a [`Plan`] says which counts, and turns them into a [`Reading`] with the formula, the tolerance and the
//! verdict beside each value. No files, no windows, no clocks.
//!
//! A window does this, and shows [`Progress::card`] after every command:
//!
//! ```
//! use ashlane_lessons::{catalog, engine::{Command, Confidence, Given, Phase, Progress}};
//!
//! let lessons = catalog::lessons()?;
//! let lesson = catalog::find(&lessons, "L5").expect("lesson 5");
//! let mut progress = Progress::new(lesson);
//! let given = Given {
//!     answer: lesson.question(0).model_answer(),
//!     confidence: Some(Confidence::Sure),
//! };
//! progress.apply(lesson, Command::Answer(given))?;
//! assert!(progress.plan(lesson).is_err(), "nothing is measured before the prediction is locked");
//! progress.apply(lesson, Command::Lock)?;
//! // The controls of the window moved; only those that are free are taken.
//! let wanted = lesson.segments[0].target.clone();
//! progress.apply(lesson, Command::Change(Box::new(wanted)))?;
//! // The two counts of the plan run wherever there are threads; then `plan.read` makes a reading of them, which
//! // goes in as `Command::Measured`.
//! let plan = progress.plan(lesson)?;
//! assert!(plan.after.parcels >= 200_000);
//! assert_eq!(progress.phase(lesson), Phase::Observe);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod cautions;
mod competencies;
mod examine;
mod glossary;
mod lesson;
mod measure;
mod play;
mod progress;
mod question;
mod read;
mod text;
mod value_text;
mod views;
mod work;

pub use cautions::{CAUTIONS, Caution, find_caution};
pub use competencies::{COMPETENCIES, Competency, THEMES, find_competency, theme_of};
pub use examine::examine;
pub use glossary::{GLOSSARY, Term, terms_in};
pub use lesson::{
    Branch, Change, Check, Column, Explain, Lesson, Look, Misconception, Moment, Observe, Segment,
    Span, Transfer,
};
pub use measure::{
    Bound, CheckResult, CountOrder, Measured, Plan, QUANTITIES, Quantity, QuantityRow, RELATIONS,
    Reading, Relation,
};
pub use play::{Counter, PlayError, PlayedAnswer, PlayedLesson, PlayedStep, play};
pub use progress::{
    Card, Command, Explanation, Given, Outcome, PastStep, Phase, Progress, Refused, ResumeError,
    Target,
};
pub use question::{
    Answer, Choice, Confidence, Judged, Kind, MatchItems, NumberEntry, Question, Ranked,
};
pub use read::{MOST_BYTES, read_lesson};
pub use text::Text;
pub use value_text::{value_text, value_text_both};
pub use views::{LAYERS, LESSON_VIEWS, NOTICE, NOTICE_LONG};
pub use work::{Work, WorkAct, WorkResult, board_acts, desk};
