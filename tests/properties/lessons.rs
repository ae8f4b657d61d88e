//! Lessons: what a lesson file may say, that no result shows before its prediction, and that every check is proved.

mod board;
mod catalog;
mod check_table;
mod examined;
mod garbage;
mod locking;
mod mistakes;
mod on_plant;
mod played;
mod resuming;
mod storing;
mod wording;
mod work;

use ashlane_lessons::engine::{
    Command, Confidence, CountOrder, Given, Lesson, Progress, read_lesson,
};
use ashlane_shared::{conditions::sheet::SheetErrors, count::CountResult, physics::PhysicsError};
use ashlane_tests::counted;

/// Every kind of question, few parcels.
const SAMPLE: &str = include_str!("lessons/sample.toml");
/// Name under which the tests read their lessons.
const NAME: &str = "lesson.toml";

/// Reads a lesson that must be good.
#[track_caller]
fn good(text: &str) -> Lesson {
    read_lesson(NAME, text).unwrap_or_else(|errors| panic!("{errors}"))
}

/// Reads a lesson that must be refused.
#[track_caller]
fn refused(text: &str) -> SheetErrors {
    match read_lesson(NAME, text) {
        Ok(_) => panic!("this was accepted:\n{text}"),
        Err(errors) => errors,
    }
}

/// The sample with one piece of text replaced, and the line it stands on.
#[track_caller]
fn sample_with(from: &str, to: &str) -> (String, usize) {
    let place = SAMPLE
        .find(from)
        .unwrap_or_else(|| panic!("the sample has no {from:?}"));
    (
        SAMPLE.replacen(from, to, 1),
        SAMPLE[..place].matches('\n').count() + 1,
    )
}

/// Flies the parcels of an order.
fn fly(order: &CountOrder) -> Result<CountResult, PhysicsError> {
    Ok(counted(&order.conditions, order.parcels, order.seed))
}

/// The model answer of the present step.
fn model(lesson: &Lesson, progress: &Progress) -> Command {
    Command::Answer(Given {
        answer: lesson.question(progress.at()).model_answer(),
        confidence: Some(Confidence::Sure),
    })
}

/// Applies a command that must be taken.
#[track_caller]
fn taken(progress: &mut Progress, lesson: &Lesson, command: Command) {
    let what = format!("{command:?}");
    progress
        .apply(lesson, command)
        .unwrap_or_else(|refused| panic!("{what}: {refused}"));
}

/// Does what the task wants and measures.
#[track_caller]
fn measured(progress: &mut Progress, lesson: &Lesson) {
    let target = lesson.segments[progress.at()].target.clone();
    taken(progress, lesson, Command::Change(Box::new(target)));
    let plan = progress.plan(lesson).expect("the task is done");
    let (before, after) = (fly(&plan.before), fly(&plan.after));
    let reading = plan
        .read(&before.expect("possible"), &after.expect("possible"))
        .expect("possible");
    taken(progress, lesson, Command::Measured(Box::new(reading)));
}
