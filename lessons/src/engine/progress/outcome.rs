//! What came of a way through a lesson so far: every locked answer and whether it was right.

use serde::{Deserialize, Serialize};

use super::{Given, Progress};
use crate::engine::{Lesson, Reading};

/// Name of the step at the end.
const TRANSFER: &str = "transfer";

/// What came of one step.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Outcome {
    /// Its segment, or "transfer".
    pub step: String,
    /// What was answered.
    pub given: Given,
    /// Whether it was right; nothing where it is not judged.
    pub right: Option<bool>,
    /// The wrong idea behind it.
    pub misconception: Option<String>,
}

/// A step that is done.
#[derive(Clone, Copy, Debug)]
pub struct PastStep<'a> {
    /// Its number, from 1.
    pub number: usize,
    /// Its title.
    pub title: &'a str,
    /// Whether the prediction was right; nothing where it is not judged.
    pub right: Option<bool>,
    /// What was measured; nothing at the transfer question.
    pub reading: Option<&'a Reading>,
}

impl Progress {
    /// Every locked step, in order.
    #[must_use]
    pub fn outcomes(&self, lesson: &Lesson) -> Vec<Outcome> {
        let steps = self.steps.iter().enumerate();
        steps
            .filter(|(_, step)| step.locked)
            .filter_map(|(index, step)| {
                let given = step.given.clone()?;
                let segment = lesson.segments.get(index);
                let option = self.option_of(lesson, index);
                let right = option.map(|option| lesson.question(index).is_right(option));
                let branch = option
                    .filter(|_| right == Some(false))
                    .and_then(|option| lesson.explain(index).branch(option));
                let idea =
                    branch.and_then(|branch| lesson.misconceptions.get(branch.misconception));
                Some(Outcome {
                    step: segment.map_or(TRANSFER, |segment| &segment.id).to_owned(),
                    given,
                    right,
                    misconception: idea.map(|idea| idea.statement.clone()),
                })
            })
            .collect()
    }

    /// Every finished step but the one that is looked at, in order.
    #[must_use]
    pub fn past<'a>(&'a self, lesson: &'a Lesson) -> Vec<PastStep<'a>> {
        let measured = lesson.segments.len();
        let steps = self.steps.iter().enumerate();
        steps
            .filter(|(index, step)| {
                *index != self.at && step.locked && (*index >= measured || step.reading.is_some())
            })
            .map(|(index, step)| PastStep {
                number: index + 1,
                title: (lesson.segments.get(index))
                    .map_or(&lesson.transfer.title, |segment| &segment.title),
                right: (self.option_of(lesson, index))
                    .map(|option| lesson.question(index).is_right(option)),
                reading: step.reading.as_ref(),
            })
            .collect()
    }

    /// How many predictions are locked.
    #[must_use]
    pub fn locked_steps(&self) -> usize {
        self.steps.iter().filter(|step| step.locked).count()
    }

    /// Whether every step is done, also while the learner looks back at one.
    #[must_use]
    pub fn is_finished(&self, lesson: &Lesson) -> bool {
        let mut steps = self.steps.iter().enumerate();
        steps.all(|(index, step)| {
            step.locked && (index >= lesson.segments.len() || step.reading.is_some())
        })
    }

    /// The revision of the lesson it belongs to.
    #[must_use]
    pub fn revision(&self) -> u32 {
        self.revision
    }
}
