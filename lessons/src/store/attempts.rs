//! Attempts at a lesson: the first try apart from the later ones, right and wrong by step and by competency.
//!
//! The first try is what a learner knew before any result was seen, so it is kept apart even where it was broken off;
//! "second attempt stored beside the first" (training.md, J15).

use serde::{Deserialize, Serialize};

use super::Day;
use crate::engine::{Lesson, Outcome, Progress};

/// Every attempt at one lesson.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Attempts {
    /// The first try.
    pub first: Option<Attempt>,
    /// All later ones, in the order in which they were made.
    pub later: Vec<Attempt>,
}

/// One attempt.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Attempt {
    /// The day on which it ended.
    pub day: Day,
    /// Revision of the lesson.
    pub revision: u32,
    /// Whether it came to its end; one that was broken off has the steps that were locked.
    pub finished: bool,
    /// What came of each step.
    pub steps: Vec<StepAttempt>,
    /// The same counted for each competency that the lesson serves.
    pub competencies: Vec<Tally>,
}

/// What came of one step.
pub type StepAttempt = Outcome;

/// Judged answers to the steps of a lesson that serves a competency.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Tally {
    /// Code of the competency.
    pub code: String,
    /// Right answers.
    pub right: usize,
    /// Wrong answers.
    pub wrong: usize,
}

impl Attempt {
    /// What came of a way through a lesson, at its end or where it was broken off.
    #[must_use]
    pub fn of(progress: &Progress, lesson: &Lesson, day: Day) -> Self {
        let steps = progress.outcomes(lesson);
        let count = |wanted: bool| {
            let judged = steps.iter().filter_map(|step| step.right);
            judged.filter(|&right| right == wanted).count()
        };
        let tally = |row: &&crate::engine::Competency| Tally {
            code: row.code.to_owned(),
            right: count(true),
            wrong: count(false),
        };
        Self {
            day,
            revision: lesson.revision,
            finished: progress.is_finished(lesson),
            competencies: lesson.competencies.iter().map(tally).collect(),
            steps,
        }
    }

    /// Steps that were answered wrongly.
    pub fn wrong_steps(&self) -> impl Iterator<Item = &str> {
        let wrong = self.steps.iter().filter(|step| step.right == Some(false));
        wrong.map(|step| step.step.as_str())
    }
}

impl Attempts {
    /// Adds one behind all others.
    pub(super) fn add(&mut self, attempt: Attempt) {
        // A later one stays a later one, also where the first was lost with a damaged file.
        if self.first.is_none() && self.later.is_empty() {
            self.first = Some(attempt);
        } else {
            self.later.push(attempt);
        }
    }

    /// All of them in order.
    pub fn all(&self) -> impl Iterator<Item = &Attempt> {
        self.first.iter().chain(&self.later)
    }

    /// Those that came to their end.
    pub fn finished(&self) -> impl Iterator<Item = &Attempt> {
        self.all().filter(|attempt| attempt.finished)
    }

    /// How many there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.all().count()
    }
}
