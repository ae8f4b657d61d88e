//! Takes a saved progress up again, but never one that does not fit the lesson or that no way through it could leave.

use super::{Command, Phase, Progress, Step};
use crate::engine::Lesson;

/// Why a saved progress cannot be taken up again.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ResumeError {
    /// It belongs to another lesson.
    #[error("this progress belongs to lesson {0}")]
    OtherLesson(String),
    /// The lesson has changed since.
    #[error("the lesson has changed since (revision {saved}, now {now}); begin it anew")]
    OtherRevision {
        /// Revision that was saved.
        saved: u32,
        /// Revision of the lesson.
        now: u32,
    },
    /// Something in it cannot be.
    #[error("the saved progress is damaged; begin the lesson anew")]
    Damaged,
}

impl Progress {
    /// Takes a saved progress up again.
    ///
    /// # Errors
    /// It belongs to another lesson or revision, or it is damaged.
    pub fn resumed(self, lesson: &Lesson) -> Result<Self, ResumeError> {
        if self.lesson != lesson.id {
            return Err(ResumeError::OtherLesson(self.lesson));
        }
        if self.revision != lesson.revision {
            return Err(ResumeError::OtherRevision {
                saved: self.revision,
                now: lesson.revision,
            });
        }
        if self.is_sound(lesson) {
            Ok(self.with_own_controls(lesson))
        } else {
            Err(ResumeError::Damaged)
        }
    }

    fn is_sound(&self, lesson: &Lesson) -> bool {
        let finished = |index: usize, step: &Step| {
            step.locked && (index >= lesson.segments.len() || step.reading.is_some())
        };
        let furthest = self
            .steps
            .iter()
            .enumerate()
            .take_while(|&(index, step)| finished(index, step))
            .count();
        self.steps.len() == lesson.steps()
            && self.at <= furthest
            && self
                .steps
                .iter()
                .skip(furthest + 1)
                .all(|step| *step == Step::default())
            && self
                .steps
                .iter()
                .enumerate()
                .all(|(index, step)| step_is_sound(lesson, index, step))
    }

    /// The controls anew from the lesson: what is free as it was saved, everything else as the lesson has it.
    fn with_own_controls(self, lesson: &Lesson) -> Self {
        let mut own = Self {
            paused: false,
            ..self.clone()
        };
        own.go(lesson, self.at);
        if self.phase(lesson) != Phase::Predict {
            // What cannot be is left as the lesson has it.
            drop(own.apply(lesson, Command::Change(Box::new(self.conditions))));
        }
        own.paused = self.paused;
        own
    }
}

fn step_is_sound(lesson: &Lesson, index: usize, step: &Step) -> bool {
    let question = lesson.question(index);
    let answered = match &step.given {
        Some(given) => question.judge(&given.answer).is_ok(),
        None => !step.locked,
    };
    let confident = !step.locked
        || !question.confidence
        || step
            .given
            .as_ref()
            .is_some_and(|given| given.confidence.is_some());
    let measured = match (&step.reading, lesson.segments.get(index)) {
        (None, _) => true,
        (Some(reading), Some(segment)) => {
            step.locked
                && reading.segment == segment.id
                && reading.checks.len() == segment.checks.len()
                && reading.work.is_some() == segment.work.is_some()
        }
        (Some(_), None) => false,
    };
    let worked = match lesson.segments.get(index) {
        Some(segment) if !step.acts.is_empty() => {
            let work = segment.work.as_ref();
            step.locked && work.is_some_and(|work| work.left(&segment.start, &step.acts).is_ok())
        }
        _ => step.acts.is_empty(),
    };
    answered && confident && measured && worked
}
