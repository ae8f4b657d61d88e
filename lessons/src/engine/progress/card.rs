//! What may be shown of a lesson at the moment: read-only, and never more than the learner has earned.

use ashlane_shared::conditions::{Key, Value};

use super::{Given, Phase, Progress};
use crate::engine::{Change, Lesson, Look, Misconception, Question, Reading, Text, Work, WorkAct};

/// One moment of a lesson.
#[derive(Clone, Debug)]
pub struct Card<'l> {
    /// Title of the lesson.
    pub lesson_title: &'l str,
    /// Step that is looked at, from 0.
    pub step: usize,
    /// Steps of the lesson.
    pub steps: usize,
    /// Title of the step.
    pub title: &'l str,
    /// Name of the column that is looked at: which model this is.
    pub column: Option<&'l Text>,
    /// What to read first.
    pub prose: &'l Text,
    /// Where to look.
    pub look: Option<&'l Look>,
    /// Where in predict, observe, explain the learner is.
    pub phase: Phase,
    /// The question.
    pub question: &'l Question,
    /// What was answered so far.
    pub given: Option<Given>,
    /// The task, once the prediction is locked.
    pub task: Option<&'l Text>,
    /// Each control of the task and whether it is where it should be.
    pub targets: Vec<Target>,
    /// Paths of the controls that may be moved now; all others are locked.
    pub free: Vec<&'static str>,
    /// The work of the segment, once the prediction is locked, and what was done at it.
    pub work: Option<(&'l Work, Vec<WorkAct>)>,
    /// The result, once measured.
    pub reading: Option<Reading>,
    /// What is said about the answer, once the result is out.
    pub explanation: Option<Explanation<'l>>,
    /// Whether there is a step before.
    pub can_go_back: bool,
    /// Whether the next step is open.
    pub can_go_on: bool,
    /// Whether the learner has stopped for a while.
    pub paused: bool,
}

/// A control of the task.
#[derive(Clone, Debug)]
pub struct Target {
    /// The control.
    pub key: &'static Key,
    /// What it said at the start.
    pub from: Value,
    /// What it should say.
    pub to: Value,
    /// Whether it says so.
    pub reached: bool,
}

/// What is said about an answer.
#[derive(Clone, Debug)]
pub struct Explanation<'l> {
    /// Whether the answer was right; nothing where it is not judged.
    pub right: Option<bool>,
    /// What holds.
    pub text: &'l Text,
    /// What was wrong about the answer: the misconception, and what to say.
    pub wrong: Option<(&'l Misconception, &'l Text)>,
}

impl Progress {
    /// The card of the step that is looked at; nothing at the end.
    #[must_use]
    pub fn card<'l>(&self, lesson: &'l Lesson) -> Option<Card<'l>> {
        let step = self.steps.get(self.at)?;
        let segment = lesson.segments.get(self.at);
        let phase = self.phase(lesson);
        let shown = phase == Phase::Explain;
        let transfer = &lesson.transfer;
        let may_change = phase != Phase::Predict && !self.paused;
        Some(Card {
            lesson_title: &lesson.title,
            step: self.at,
            steps: lesson.steps(),
            title: segment.map_or(&transfer.title, |segment| &segment.title),
            column: segment
                .and_then(|segment| lesson.columns.get(segment.column))
                .map(|column| &column.title),
            prose: segment.map_or(&transfer.prose, |segment| &segment.prose),
            look: segment.map(|segment| &segment.look),
            phase,
            question: lesson.question(self.at),
            given: step.given.clone(),
            task: segment
                .filter(|_| step.locked)
                .map(|segment| &segment.observe.task),
            targets: if step.locked {
                self.targets(lesson)
            } else {
                Vec::new()
            },
            free: segment
                .filter(|_| may_change)
                .map(|segment| segment.free.iter().map(|key| key.path).collect())
                .unwrap_or_default(),
            work: segment
                .filter(|_| step.locked)
                .and_then(|segment| Some((segment.work.as_ref()?, step.acts.clone()))),
            reading: step.reading.clone().filter(|_| shown),
            explanation: if shown {
                Some(self.explanation(lesson))
            } else {
                None
            },
            can_go_back: self.at > 0,
            can_go_on: shown,
            paused: self.paused,
        })
    }

    fn targets(&self, lesson: &Lesson) -> Vec<Target> {
        let Some(segment) = lesson.segments.get(self.at) else {
            return Vec::new();
        };
        let target = |change: &Change| Target {
            key: change.key,
            from: change.from.clone(),
            to: change.to.clone(),
            reached: self.has_reached(change),
        };
        segment.observe.changes.iter().map(target).collect()
    }

    fn explanation<'l>(&self, lesson: &'l Lesson) -> Explanation<'l> {
        let explain = lesson.explain(self.at);
        let option = self.option_of(lesson, self.at);
        let right = option.map(|option| lesson.question(self.at).is_right(option));
        let branch = option
            .filter(|_| right == Some(false))
            .and_then(|option| explain.branch(option));
        Explanation {
            right,
            text: &explain.right,
            wrong: branch.and_then(|branch| {
                let misconception = lesson.misconceptions.get(branch.misconception)?;
                Some((misconception, &branch.text))
            }),
        }
    }
}
