//! What is tried in the window is noted once its count has settled, can be set again and written down, and a lesson has
//! its own list and its own A.

use ashlane::Stage;
use ashlane_panels::{command::UiCommand, lesson::LessonCommand};
use ashlane_shared::conditions::{Value, demonstration};

use crate::support::{Folder, demonstration_stage};

const SIZE: (u32, u32) = (1280, 800);

fn tell(stage: &mut Stage, command: UiCommand) {
    stage.send(command);
    stage.frames(2).expect("frames");
}

/// Waits for the count, and until it was noted.
fn settled(stage: &mut Stage) {
    stage.frames(8).expect("frames");
    stage.settle().expect("a count");
    stage.frames(2).expect("frames");
}

#[test]
fn what_was_tried_is_noted_set_again_and_written_down_and_lessons_leave_it_alone() {
    let Some(mut stage) = demonstration_stage("trials", SIZE) else {
        return;
    };
    let folder = Folder::new("trials");
    let file = folder.file("trials.md");
    settled(&mut stage);
    let value = Some(Value::Number(150.0));
    tell(
        &mut stage,
        UiCommand::Set {
            path: "gas.flow",
            value,
        },
    );
    settled(&mut stage);
    tell(&mut stage, UiCommand::TryAgain(0));
    assert_eq!(stage.controls(), &demonstration());
    tell(&mut stage, UiCommand::TryAgain(7));
    assert_eq!(stage.controls(), &demonstration(), "there is no such trial");
    tell(&mut stage, UiCommand::Undo);
    assert_eq!(stage.controls().gas.flow_m3_s, 150.0);
    settled(&mut stage);
    tell(&mut stage, UiCommand::PinA);
    let pinned = stage.pinned().cloned().expect("a pinned state");
    // A lesson begins with nothing pinned and cannot set a trial of the user's collector.
    tell(&mut stage, LessonCommand::Enter.into());
    tell(&mut stage, LessonCommand::Open("L5".to_owned()).into());
    assert!(stage.pinned().is_none());
    settled(&mut stage);
    tell(&mut stage, UiCommand::PinA);
    assert!(stage.pinned().is_some(), "{:?}", stage.message());
    let before = stage.controls().clone();
    tell(&mut stage, UiCommand::TryAgain(0));
    assert_eq!(stage.controls(), &before);
    assert!(stage.message().is_some_and(|told| told.contains("Explore")));
    tell(&mut stage, UiCommand::Dismiss);
    tell(&mut stage, LessonCommand::Leave.into());
    assert_eq!(stage.pinned(), Some(&pinned));
    stage
        .ui()
        .exploring
        .rules
        .insert(0, "More is worse.".to_owned());
    tell(&mut stage, UiCommand::ExportTrials(file.clone()));
    let text = std::fs::read_to_string(&file).expect("a file");
    let rows = text.lines().filter(|line| line.starts_with("| ")).count();
    assert_eq!(rows, 1 + 2, "{text}");
    assert!(text.contains("Gas flow: 118.8 m³/s to 150 m³/s") && text.contains("> More is worse."));
    // Nowhere to write: told, and nothing half written.
    tell(
        &mut stage,
        UiCommand::ExportTrials(folder.file("none/trials.md")),
    );
    assert!(
        stage
            .message()
            .is_some_and(|told| told.contains("Nothing written"))
    );
}
