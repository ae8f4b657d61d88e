//! `lesson run --json`: one object with every measurement and every answer.

use ashlane_shared::checks::Verdict;
use serde::Serialize;

use crate::command_line::{Failure, output::one_object};
use crate::engine::{Answer, Lesson, NOTICE, PlayedAnswer, PlayedLesson, PlayedStep, Reading};

#[derive(Serialize)]
struct Output<'p> {
    notice: &'static str,
    verdict: Verdict,
    lessons: Vec<LessonOutput<'p>>,
}

#[derive(Serialize)]
struct LessonOutput<'p> {
    id: &'p str,
    revision: u32,
    title: &'p str,
    verdict: Verdict,
    steps: Vec<StepOutput<'p>>,
}

#[derive(Serialize)]
struct StepOutput<'p> {
    id: &'p str,
    title: &'p str,
    /// Nothing at the transfer question.
    reading: Option<&'p Reading>,
    answers: Vec<AnswerOutput<'p>>,
}

#[derive(Serialize)]
struct AnswerOutput<'p> {
    option: Option<&'p str>,
    answer: &'p Answer,
    right: Option<bool>,
    misconception: Option<&'p str>,
}

/// The object as text.
pub(super) fn json(played: &[(Lesson, PlayedLesson)]) -> Result<String, Failure> {
    let output = Output {
        notice: NOTICE,
        verdict: verdict(played.iter().all(|(_, outcome)| outcome.agrees())),
        lessons: played
            .iter()
            .map(|(lesson, outcome)| lesson_output(lesson, outcome))
            .collect(),
    };
    one_object(&output)
}

fn verdict(agree: bool) -> Verdict {
    if agree {
        Verdict::Agree
    } else {
        Verdict::Disagree
    }
}

fn lesson_output<'p>(lesson: &'p Lesson, outcome: &'p PlayedLesson) -> LessonOutput<'p> {
    let steps = outcome.steps.iter().enumerate();
    LessonOutput {
        id: &lesson.id,
        revision: lesson.revision,
        title: &lesson.title,
        verdict: verdict(outcome.agrees()),
        steps: steps
            .map(|(index, step)| step_output(lesson, index, step))
            .collect(),
    }
}

fn step_output<'p>(lesson: &'p Lesson, index: usize, step: &'p PlayedStep) -> StepOutput<'p> {
    let segment = lesson.segments.get(index);
    let question = lesson.question(index);
    let answer = |played: &'p PlayedAnswer| AnswerOutput {
        option: played
            .option
            .and_then(|option| question.options.get(option))
            .map(|option| option.id.as_str()),
        answer: &played.answer,
        right: played.right,
        misconception: played.misconception.as_deref(),
    };
    StepOutput {
        id: segment.map_or("transfer", |segment| &segment.id),
        title: segment.map_or(&lesson.transfer.title, |segment| &segment.title),
        reading: step.reading.as_ref(),
        answers: step.answers.iter().map(answer).collect(),
    }
}
