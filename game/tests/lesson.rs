//! The lessons of the catalog, played in the window by the commands that its panels send.

use ashlane::Stage;
use ashlane_lessons::{
    catalog,
    engine::{Command, Confidence, Given, Lesson, Phase},
};
use ashlane_panels::{command::UiCommand, lesson::LessonCommand};
use ashlane_shared::conditions::{demonstration, keys};

use crate::support::demonstration_stage;

fn tell(stage: &mut Stage, command: impl Into<LessonCommand>) {
    stage.send(UiCommand::Lesson(command.into()));
    stage.frames(2).expect("frames");
    assert_eq!(stage.message(), None);
}

fn engine(stage: &mut Stage, command: Command) {
    tell(stage, LessonCommand::Do(command));
}

fn phase(stage: &Stage) -> Option<Phase> {
    stage.card().map(|card| card.phase)
}

/// Moves every control of the task to where it should be, one after the other, as a learner does; at a desk or a board
/// does what solves it.
fn do_the_task(stage: &mut Stage, lesson: &Lesson, step: usize) {
    let segment = &lesson.segments[step];
    if let Some(work) = &segment.work {
        for act in work.model_acts(&segment.start).expect("a way through") {
            engine(stage, Command::Act(act));
        }
        return;
    }
    let target = &lesson.segments[step].target;
    let free = stage.card().expect("a card").free;
    for key in keys().filter(|key| free.contains(&key.path)) {
        let value = key.get(target);
        if value != key.get(stage.conditions()) {
            stage.send(UiCommand::Set {
                path: key.path,
                value,
            });
            stage.frames(2).expect("frames");
        }
    }
}

/// Lessons of each kind: tracers and gas path, counts, the plant clock, the sequence board. All of them are played without a
/// window elsewhere.
const PLAYED: [&str; 4] = ["L1", "L5", "L12", "L18"];

#[test]
fn lessons_of_every_kind_can_be_played_to_their_end_in_the_window() {
    let Some(mut stage) = demonstration_stage("lesson", (640, 480)) else {
        return;
    };
    let lessons = catalog::lessons().expect("lessons");
    tell(&mut stage, LessonCommand::Enter);
    for lesson in lessons
        .iter()
        .filter(|lesson| PLAYED.contains(&lesson.id.as_str()))
    {
        tell(&mut stage, LessonCommand::Open(lesson.id.clone()));
        for step in 0..lesson.steps() {
            assert_eq!(phase(&stage), Some(Phase::Predict), "{} {step}", lesson.id);
            let given = Given {
                answer: lesson.question(step).model_answer(),
                confidence: Some(Confidence::Sure),
            };
            engine(&mut stage, Command::Answer(given));
            engine(&mut stage, Command::Lock);
            if step < lesson.segments.len() {
                assert_eq!(phase(&stage), Some(Phase::Observe));
                do_the_task(&mut stage, lesson, step);
                stage.settle().expect("a finished measurement");
                let reading = stage.card().and_then(|card| card.reading);
                assert!(
                    reading.expect("a measurement").agrees(),
                    "{} {step}",
                    lesson.id
                );
            }
            assert_eq!(phase(&stage), Some(Phase::Explain), "{} {step}", lesson.id);
            engine(&mut stage, Command::Next);
        }
        assert!(stage.card().is_none(), "{} has no end", lesson.id);
        tell(&mut stage, LessonCommand::Close);
    }
    tell(&mut stage, LessonCommand::Leave);
    assert_eq!(*stage.conditions(), demonstration());
}

#[test]
fn a_control_does_not_move_before_the_prediction() {
    let Some(mut stage) = demonstration_stage("locked control", (640, 480)) else {
        return;
    };
    tell(&mut stage, LessonCommand::Enter);
    tell(&mut stage, LessonCommand::Open("L5".into()));
    let before = stage.conditions().clone();
    let lessons = catalog::lessons().expect("lessons");
    let lesson = catalog::find(&lessons, "L5").expect("lesson 5");
    stage.send(UiCommand::Set {
        path: "collector.fields",
        value: keys()
            .find(|key| key.path == "collector.fields")
            .and_then(|key| key.get(&lesson.segments[0].target)),
    });
    stage.frames(2).expect("frames");
    assert_eq!(*stage.conditions(), before);
    assert!(stage.message().is_some(), "refused without a word");
}
