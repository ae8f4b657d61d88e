//! How far a learner is, and the one way to get further: a [`Command`] at a time.
//!
//! Nothing here can show a result before its prediction is locked: the plan of a measurement is handed out, a reading
//! is taken and a card carries it only after that. All of it is plain data that can be saved and taken up again.

mod apply;
mod card;
mod outcome;
mod refused;
mod resume;

use ashlane_shared::conditions::Conditions;
use serde::{Deserialize, Serialize};

use super::{Answer, Confidence, Lesson, Plan, Reading, WorkAct};

pub use card::{Card, Explanation, Target};
pub use outcome::{Outcome, PastStep};
pub use refused::Refused;
pub use resume::ResumeError;

/// A learner's way through a lesson.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Progress {
    lesson: String,
    revision: u32,
    /// Step that is looked at; one past the last is the end.
    at: usize,
    steps: Vec<Step>,
    /// What the controls say.
    conditions: Conditions,
    paused: bool,
}

/// One step: a segment, or the transfer question at the end.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
struct Step {
    given: Option<Given>,
    locked: bool,
    /// What was done at the work of the segment, in order.
    #[serde(default)]
    acts: Vec<WorkAct>,
    reading: Option<Reading>,
}

/// What was answered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Given {
    /// The answer.
    pub answer: Answer,
    /// How sure the learner was.
    pub confidence: Option<Confidence>,
}

/// What may be done.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Command {
    /// Answer the question, or change the answer.
    Answer(Given),
    /// Lock the answer.
    Lock,
    /// The controls are wanted like this; only free ones may differ.
    Change(Box<Conditions>),
    /// An act at the work of the segment.
    Act(WorkAct),
    /// Both counts of the plan are done.
    Measured(Box<Reading>),
    /// On to the next step.
    Next,
    /// Back to the step before.
    Back,
    /// Stop for a while.
    Pause,
    /// Go on.
    Resume,
    /// Begin the lesson anew.
    Restart,
}

/// Where in predict, observe, explain the learner is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Phase {
    /// The answer is not locked.
    Predict,
    /// It is; the result is not yet measured.
    Observe,
    /// The result is out.
    Explain,
    /// The lesson is at its end.
    Done,
}

impl Progress {
    /// The beginning of a lesson.
    #[must_use]
    pub fn new(lesson: &Lesson) -> Self {
        Self {
            lesson: lesson.id.clone(),
            revision: lesson.revision,
            at: 0,
            steps: vec![Step::default(); lesson.steps()],
            conditions: start(lesson, 0),
            paused: false,
        }
    }

    /// The lesson it belongs to.
    #[must_use]
    pub fn lesson(&self) -> &str {
        &self.lesson
    }

    /// The step that is looked at, from 0.
    #[must_use]
    pub fn at(&self) -> usize {
        self.at
    }

    /// Whether the learner has stopped for a while.
    #[must_use]
    pub fn is_paused(&self) -> bool {
        self.paused
    }

    /// What the controls say: what a window should fly.
    #[must_use]
    pub fn conditions(&self) -> &Conditions {
        &self.conditions
    }

    /// What was done at the work of this step, in order.
    #[must_use]
    pub fn acts(&self) -> &[WorkAct] {
        self.steps.get(self.at).map_or(&[], |step| &step.acts)
    }

    /// Where in predict, observe, explain the learner is.
    #[must_use]
    pub fn phase(&self, lesson: &Lesson) -> Phase {
        let Some(step) = self.steps.get(self.at) else {
            return Phase::Done;
        };
        let measures = self.at < lesson.segments.len();
        match step {
            Step { locked: false, .. } => Phase::Predict,
            Step { reading: None, .. } if measures => Phase::Observe,
            Step { .. } => Phase::Explain,
        }
    }

    /// The counts to run now.
    ///
    /// # Errors
    /// The prediction is not locked, or the controls are not where the task wants them.
    pub fn plan(&self, lesson: &Lesson) -> Result<Plan, Refused> {
        self.awake()?;
        match (self.phase(lesson), lesson.segments.get(self.at)) {
            (Phase::Predict, _) => Err(Refused::PredictFirst),
            (Phase::Observe, Some(segment)) => {
                let left = self.left_to_change(segment);
                if !left.is_empty() {
                    return Err(Refused::not_there(&left));
                }
                let acts = self.acts();
                if let Some(work) = &segment.work {
                    let left = work.left(&segment.start, acts);
                    if let Some(left) = left.map_err(Refused::Impossible)? {
                        return Err(Refused::WorkLeft(left));
                    }
                }
                Ok(Plan::new(segment, lesson.seed, acts))
            }
            _ => Err(Refused::NothingToMeasure),
        }
    }

    fn awake(&self) -> Result<(), Refused> {
        if self.paused {
            Err(Refused::Paused)
        } else {
            Ok(())
        }
    }
}

/// What the controls say at the start of a step; the transfer question keeps those of the last segment.
fn start(lesson: &Lesson, step: usize) -> Conditions {
    match lesson.segments.get(step) {
        Some(segment) => segment.start.clone(),
        None => lesson
            .segments
            .last()
            .map(|segment| segment.target.clone())
            .unwrap_or_else(ashlane_shared::conditions::demonstration),
    }
}
