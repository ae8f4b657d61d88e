//! Plays a lesson without a learner: the model answer and every wrong option, through the same commands as a learner.

use ashlane_shared::{count::CountResult, physics::PhysicsError};

use super::{
    Answer, Card, Command, Confidence, CountOrder, Given, Judged, Lesson, Progress, Reading,
    Refused, Work,
};

/// Whoever flies the parcels of an order.
pub type Counter<'c> = dyn FnMut(&CountOrder) -> Result<CountResult, PhysicsError> + 'c;

/// What came of a whole lesson.
#[derive(Clone, Debug)]
pub struct PlayedLesson {
    /// Every step; the last is the transfer question.
    pub steps: Vec<PlayedStep>,
}

impl PlayedLesson {
    /// Whether every check agrees.
    #[must_use]
    pub fn agrees(&self) -> bool {
        let mut readings = self.steps.iter().filter_map(|step| step.reading.as_ref());
        readings.all(Reading::agrees)
    }
}

/// What came of one step.
#[derive(Clone, Debug)]
pub struct PlayedStep {
    /// What was measured; nothing at the transfer question.
    pub reading: Option<Reading>,
    /// The model answer first, then every wrong option.
    pub answers: Vec<PlayedAnswer>,
}

/// One answer and what was said about it.
#[derive(Clone, Debug, PartialEq)]
pub struct PlayedAnswer {
    /// The option; nothing for short text.
    pub option: Option<usize>,
    /// The answer.
    pub answer: Answer,
    /// Whether it was right; nothing where it is not judged.
    pub right: Option<bool>,
    /// The misconception that was explained.
    pub misconception: Option<String>,
    /// The explanation of the wrong option.
    pub explained: Option<String>,
}

/// Why a lesson could not be played to its end.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PlayError {
    /// A command of the way through was refused.
    #[error("step {step}: {refused}")]
    Refused {
        /// Step, from 1.
        step: usize,
        /// Why.
        refused: Refused,
    },
    /// A formula or a count refused the conditions.
    #[error("step {step}: {error}")]
    Physics {
        /// Step, from 1.
        step: usize,
        /// Why.
        error: PhysicsError,
    },
    /// The work's own solution does not solve it.
    #[error("step {step}: the solution that the lesson gives does not solve its work: {why}")]
    NotSolved {
        /// Step, from 1.
        step: usize,
        /// What came of it.
        why: String,
    },
    /// A wrong option was not explained.
    #[error("step {step}: the wrong answer \"{option}\" is not explained")]
    NotExplained {
        /// Step, from 1.
        step: usize,
        /// Name of the option.
        option: String,
    },
}

/// Plays the model answers and every wrong option; `count` flies the parcels.
///
/// Each count is asked for once: the answer changes nothing about what is measured.
///
/// # Errors
/// Why the end was not reached.
pub fn play(lesson: &Lesson, count: &mut Counter<'_>) -> Result<PlayedLesson, PlayError> {
    let mut progress = Progress::new(lesson);
    let mut steps = Vec::with_capacity(lesson.steps());
    for step in 0..lesson.steps() {
        let mut player = Player {
            lesson,
            step,
            start: progress.clone(),
            reading: None,
        };
        let model = lesson.question(step).model_answer();
        let (right, after) = player.answer(model, count)?;
        let mut answers = vec![right];
        for option in 0..lesson.question(step).options.len() {
            if let Some(wrong) = player.wrong(option, count)? {
                answers.push(wrong);
            }
        }
        progress = after;
        player.apply(&mut progress, Command::Next)?;
        steps.push(PlayedStep {
            reading: player.reading,
            answers,
        });
    }
    Ok(PlayedLesson { steps })
}

/// One step, played as often as it has options.
struct Player<'l> {
    lesson: &'l Lesson,
    step: usize,
    start: Progress,
    reading: Option<Reading>,
}

impl Player<'_> {
    /// Answers, locks, does the task, measures.
    fn answer(
        &mut self,
        answer: Answer,
        count: &mut Counter<'_>,
    ) -> Result<(PlayedAnswer, Progress), PlayError> {
        let mut progress = self.start.clone();
        let given = Given {
            answer: answer.clone(),
            confidence: Some(Confidence::FairlySure),
        };
        self.apply(&mut progress, Command::Answer(given))?;
        self.apply(&mut progress, Command::Lock)?;
        if let Some(segment) = self.lesson.segments.get(self.step) {
            match &segment.work {
                Some(work) => self.work(work, &mut progress)?,
                None => {
                    let target = Box::new(segment.target.clone());
                    self.apply(&mut progress, Command::Change(target))?;
                }
            }
            let reading = self.measure(&progress, count)?;
            self.apply(&mut progress, Command::Measured(Box::new(reading)))?;
        }
        let card = progress.card(self.lesson);
        let explanation = card.and_then(|card: Card<'_>| card.explanation);
        let wrong = explanation
            .as_ref()
            .and_then(|explanation| explanation.wrong);
        let option = match self.lesson.question(self.step).judge(&answer) {
            Ok(Judged::Option(option)) => Some(option),
            Ok(Judged::NotJudged) | Err(_) => None,
        };
        let played = PlayedAnswer {
            option,
            answer,
            right: explanation
                .as_ref()
                .and_then(|explanation| explanation.right),
            misconception: wrong.map(|(idea, _)| idea.statement.clone()),
            explained: wrong.map(|(_, text)| text.show_both()),
        };
        Ok((played, progress))
    }

    /// Plays an option if it is a wrong one.
    fn wrong(
        &mut self,
        option: usize,
        count: &mut Counter<'_>,
    ) -> Result<Option<PlayedAnswer>, PlayError> {
        let question = self.lesson.question(self.step);
        if question.is_right(option) {
            return Ok(None);
        }
        let Some(answer) = question.answer_in(option) else {
            return Ok(None);
        };
        let (played, _) = self.answer(answer, count)?;
        if played.right == Some(false) && played.explained.is_some() {
            return Ok(Some(played));
        }
        let name = question.options.get(option).map(|option| option.id.clone());
        Err(PlayError::NotExplained {
            step: self.step + 1,
            option: name.unwrap_or_default(),
        })
    }

    /// Does the work as its own solution does it.
    fn work(&self, work: &Work, progress: &mut Progress) -> Result<(), PlayError> {
        let acts = work.model_acts(progress.conditions());
        let acts = acts.map_err(|error| PlayError::Physics {
            step: self.step + 1,
            error,
        })?;
        acts.into_iter()
            .try_for_each(|act| self.apply(progress, Command::Act(act)))
    }

    /// Measures once; later answers meet the same result.
    fn measure(
        &mut self,
        progress: &Progress,
        count: &mut Counter<'_>,
    ) -> Result<Reading, PlayError> {
        let plan = progress
            .plan(self.lesson)
            .map_err(|refused| self.refused(refused))?;
        if let Some(reading) = &self.reading {
            return Ok(reading.clone());
        }
        let impossible = |error| PlayError::Physics {
            step: self.step + 1,
            error,
        };
        let before = count(&plan.before).map_err(impossible)?;
        let after = count(&plan.after).map_err(impossible)?;
        let reading = plan.read(&before, &after).map_err(impossible)?;
        if let Some(result) = reading.work.as_ref().filter(|result| !result.is_solved()) {
            return Err(PlayError::NotSolved {
                step: self.step + 1,
                why: format!("{result:?}"),
            });
        }
        self.reading = Some(reading.clone());
        Ok(reading)
    }

    fn apply(&self, progress: &mut Progress, command: Command) -> Result<(), PlayError> {
        progress
            .apply(self.lesson, command)
            .map_err(|refused| self.refused(refused))
    }

    fn refused(&self, refused: Refused) -> PlayError {
        PlayError::Refused {
            step: self.step + 1,
            refused,
        }
    }
}
