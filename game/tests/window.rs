//! The window, frame by frame: it flies what the library computes, and every command does what it says.

use ashlane_panels::{command::UiCommand, faults::FaultSwitch, lesson::LessonCommand, state::Rung};
use ashlane_shared::{
    conditions::{Value, demonstration, sheet},
    machine::Machine,
    simulation::{Clock, Command, Follow},
};

use crate::support::{Folder, demonstration_stage};

const SIZE: (u32, u32) = (1280, 800);

fn set_flow(flow_m3_s: f64) -> UiCommand {
    UiCommand::Set {
        path: "gas.flow",
        value: Some(Value::Number(flow_m3_s)),
    }
}

#[test]
fn the_window_flies_the_same_bits_as_the_library_whatever_is_shown() {
    let Some(mut stage) = demonstration_stage("same bits", SIZE) else {
        return;
    };
    stage.send(UiCommand::Run(true));
    stage.frames(10).expect("frames");
    stage.ui().field_map = false;
    stage.ui().labels = false;
    stage.frames(10).expect("frames");
    stage.ui().tracers = false;
    stage.frames(10).expect("frames");
    for rung in [Rung::Wire, Rung::Grain, Rung::Energization] {
        stage.ui().rung = rung;
        stage.send(UiCommand::Follow(Follow { diameter_m: 5e-6 }));
        stage.frames(6).expect("frames");
    }
    let steps = stage.step();
    assert!(steps >= 100, "only {steps} steps in 30 frames");
    let mut alone = Machine::new(demonstration(), 1).expect("possible");
    for _ in 0..steps {
        alone.step();
    }
    assert_eq!(stage.digest(), alone.digest(), "after {steps} steps");
}

/// A browser has one thread: the field of a changed control is then solved a round a frame, and nothing else changes.
#[test]
fn without_threads_a_change_gives_the_same_bits() {
    let Some(mut stage) = demonstration_stage("without threads", SIZE) else {
        return;
    };
    stage.without_threads();
    stage.send(UiCommand::Run(true));
    stage.frames(5).expect("frames");
    let changed_at = stage.step();
    stage.send(set_flow(117.3));
    let mut frames = 0;
    while stage.step() < changed_at + 60 {
        stage.frames(1).expect("frames");
        frames += 1;
        assert!(frames < 400, "it stands still");
    }
    // Sixty steps are fifteen frames; the flight waited for the rounds of the field.
    assert!(frames > 20, "only {frames} frames");
    let mut alone = Machine::new(demonstration(), 1).expect("possible");
    while alone.steps() < stage.step() {
        if alone.steps() == changed_at {
            let wanted = Box::new(stage.conditions().clone());
            alone.apply(Command::Conditions(wanted)).expect("possible");
        }
        alone.step();
    }
    assert_eq!(stage.digest(), alone.digest(), "after {frames} frames");
}

/// Rates are counted before they are due here; they take over at the same step as where nobody has counted them.
#[test]
fn the_plant_clock_and_a_rap_give_the_bits_of_the_library() {
    let Some(mut stage) = demonstration_stage("plant clock", SIZE) else {
        return;
    };
    // At once, so that the workers stay free for the other windows of this process.
    stage.count().expect("a count");
    stage.send(UiCommand::Run(true));
    stage.frames(3).expect("frames");
    let clock = Clock::Plant { times: 3600.0 };
    let mut done = Vec::new();
    for (wish, command, steps) in [
        (UiCommand::Clock(clock), Command::Clock(clock), 300),
        (UiCommand::RapNow(0), Command::RapNow { field: 0 }, 60),
    ] {
        let at = stage.step();
        done.push((at, command));
        stage.send(wish);
        let mut frames = 0;
        while stage.step() < at + steps {
            stage.frames(1).expect("frames");
            frames += 1;
            assert!(frames < 3000, "it stands still");
        }
    }
    let mut alone = Machine::new(demonstration(), 1).expect("possible");
    while alone.steps() < stage.step() {
        let now = alone.steps();
        for (_, command) in done.iter().filter(|(at, _)| *at == now) {
            alone.apply(command.clone()).expect("possible");
        }
        alone.step();
    }
    assert!(alone.plant_time_s() > 3600.0, "{} s", alone.plant_time_s());
    assert_eq!(stage.digest(), alone.digest());
}

#[test]
fn paused_is_paused_and_a_single_step_is_one() {
    let Some(mut stage) = demonstration_stage("paused", SIZE) else {
        return;
    };
    stage.fly(100);
    let digest = stage.digest();
    stage.frames(20).expect("frames");
    assert_eq!(stage.digest(), digest, "the flight moved while paused");
    stage.send(UiCommand::SingleStep);
    stage.frames(2).expect("frames");
    assert_eq!(stage.step(), 101);
    assert_ne!(stage.digest(), digest);
}

#[test]
fn a_change_settles_and_can_be_taken_back_and_made_again() {
    let Some(mut stage) = demonstration_stage("undo", SIZE) else {
        return;
    };
    let before = stage.conditions().clone();
    stage.send(set_flow(150.0));
    stage.send(UiCommand::ChangeDone);
    stage.frames(2).expect("frames");
    let changed = stage.conditions().clone();
    assert_eq!(changed.gas.flow_m3_s, 150.0);
    stage.settle().expect("a settled count");
    stage.send(UiCommand::Undo);
    stage.frames(2).expect("frames");
    assert_eq!(*stage.conditions(), before);
    stage.send(UiCommand::Redo);
    stage.frames(2).expect("frames");
    assert_eq!(*stage.conditions(), changed);
    stage.send(UiCommand::ResetToSheet);
    stage.frames(2).expect("frames");
    assert_eq!(*stage.conditions(), before);
}

#[test]
fn what_cannot_be_is_refused_in_words_and_changes_nothing() {
    let Some(mut stage) = demonstration_stage("refused", SIZE) else {
        return;
    };
    let before = stage.conditions().clone();
    stage.send(set_flow(-3.0));
    stage.frames(2).expect("frames");
    assert_eq!(*stage.conditions(), before);
    let message = stage.message().expect("a message");
    assert!(
        message.starts_with("Gas flow: ") && message.contains("0.1 to 5000 m3/s"),
        "{message}"
    );
}

#[test]
fn a_saved_sheet_is_the_machine_that_was_on_screen() {
    let Some(mut stage) = demonstration_stage("save", SIZE) else {
        return;
    };
    let folder = Folder::new("save");
    let path = folder.file("mine.toml");
    stage.send(set_flow(140.0));
    stage.send(UiCommand::SaveAs(path.clone()));
    stage.frames(2).expect("frames");
    let read = sheet::read_file(&path).expect("a sheet");
    assert_eq!(read.conditions, *stage.conditions());
    assert_eq!(read.conditions.gas.flow_m3_s, 140.0);
    stage.send(UiCommand::Open("cement-kiln".into()));
    stage.frames(2).expect("frames");
    assert_eq!(stage.message(), None);
    assert_ne!(*stage.conditions(), read.conditions);
    stage.send(UiCommand::Open(path));
    stage.frames(2).expect("frames");
    assert_eq!(*stage.conditions(), read.conditions);
}

#[test]
fn a_bad_sheet_is_told_and_leaves_everything_as_it_was() {
    let Some(mut stage) = demonstration_stage("bad sheet", SIZE) else {
        return;
    };
    let folder = Folder::new("bad");
    let path = folder.file("bad.toml");
    std::fs::write(&path, "[gas]\nflow = \"12 parsecs\"\n").expect("a file");
    stage.send(UiCommand::Open(path));
    stage.frames(2).expect("frames");
    assert_eq!(*stage.conditions(), demonstration());
    let message = stage.message().expect("a message");
    assert!(
        message.contains("bad.toml:2") && message.contains("parsecs"),
        "{message}"
    );
}

#[test]
fn picture_and_data_of_the_view_are_written() {
    let Some(mut stage) = demonstration_stage("export", SIZE) else {
        return;
    };
    let folder = Folder::new("export");
    let (picture, data) = (folder.file("plan.png"), folder.file("plan.csv"));
    stage.send(UiCommand::ExportData(data.clone()));
    stage.frames(2).expect("frames");
    let early = stage.message().expect("a message");
    assert!(early.contains("not ready"), "{early}");
    assert!(!data.exists(), "data before there was any");
    stage.settle().expect("a settled count");
    stage.send(UiCommand::ExportData(data.clone()));
    stage.send(UiCommand::ExportPicture(picture.clone()));
    // The picture comes back from the renderer when that has time for it.
    let mut told = String::new();
    for _ in 0..600 {
        stage.frames(1).expect("a frame");
        told = stage.message().unwrap_or_default().to_owned();
        if told.contains("plan.png") {
            break;
        }
    }
    assert!(told.contains("plan.png"), "{told}");
    let text = std::fs::read_to_string(&data).expect("data");
    assert!(text.lines().count() > 20, "{text}");
    let file = std::io::BufReader::new(std::fs::File::open(&picture).expect("a picture"));
    let reader = png::Decoder::new(file).read_info().expect("a PNG");
    let (width, height) = reader.info().size();
    assert!(
        width > 500 && height > 250,
        "the picture is {width} × {height}"
    );
    assert!(
        width < SIZE.0 && height < SIZE.1,
        "not cut to the drawing: {width} × {height}"
    );
}

fn short(from_s: f64) -> FaultSwitch {
    FaultSwitch {
        name: "dead-short",
        severity: 1.0,
        from_s,
        field: 1,
    }
}

/// The log alone gives the same bits: a fault is conditions that change.
#[test]
fn a_fault_strikes_at_its_time_is_lifted_and_leaves_a_recording() {
    let Some(mut stage) = demonstration_stage("faults", SIZE) else {
        return;
    };
    stage.send(UiCommand::Run(true));
    stage.send(UiCommand::Faults(vec![short(0.25)]));
    stage.frames(8).expect("frames");
    assert_eq!(*stage.conditions(), demonstration(), "too early");
    while stage.conditions() == stage.controls() {
        stage.frames(1).expect("frames");
        assert!(stage.step() < 120, "it never strikes");
    }
    // A quarter of a second is 60 steps.
    assert!((60..=68).contains(&stage.step()), "step {}", stage.step());
    assert_eq!(*stage.controls(), demonstration());
    while stage.step() < 160 {
        stage.frames(1).expect("frames");
    }
    stage.send(UiCommand::Faults(Vec::new()));
    stage.frames(20).expect("frames");
    assert_eq!(*stage.conditions(), demonstration(), "to the last bit");
    let alone = Machine::new(demonstration(), 1).expect("possible");
    let again = alone.replayed(stage.log(), stage.step()).expect("applies");
    assert_eq!(stage.log().len(), 2);
    assert_eq!(stage.digest(), again.digest());
}

#[test]
fn no_sheet_no_change_and_no_lesson_has_a_fault_in_it() {
    let Some(mut stage) = demonstration_stage("faults kept apart", SIZE) else {
        return;
    };
    let folder = Folder::new("faults");
    let path = folder.file("mine.toml");
    stage.send(UiCommand::Faults(vec![short(0.0)]));
    stage.send(set_flow(140.0));
    stage.send(UiCommand::SaveAs(path.clone()));
    stage.frames(2).expect("frames");
    let saved = sheet::read_file(&path).expect("a sheet").conditions;
    assert_eq!(saved.gas.flow_m3_s, 140.0);
    let sound = |conditions: &ashlane_shared::conditions::Conditions| {
        conditions
            .defects
            .iter()
            .all(|field| field.leakage_s == 0.0)
    };
    assert!(sound(&saved) && sound(stage.controls()) && !sound(stage.conditions()));
    assert_eq!(saved, *stage.controls());
    stage.send(UiCommand::Undo);
    stage.frames(2).expect("frames");
    assert!(!sound(stage.conditions()));
    assert_eq!(stage.conditions().gas, stage.controls().gas);
    // Lessons have their own collector; behind them the fault is on again.
    stage.send(UiCommand::Lesson(LessonCommand::Enter));
    stage.frames(2).expect("frames");
    assert!(sound(stage.conditions()));
    stage.send(UiCommand::Faults(Vec::new()));
    stage.frames(2).expect("frames");
    assert!(stage.message().is_some_and(|told| told.contains("Explore")));
    stage.send(UiCommand::Lesson(LessonCommand::Leave));
    stage.frames(2).expect("frames");
    assert!(!sound(stage.conditions()));
    assert_eq!(stage.faults(), [short(0.0)]);
    // Another sheet is another collector.
    stage.send(UiCommand::Open("cement-kiln".into()));
    stage.frames(2).expect("frames");
    assert!(stage.faults().is_empty() && stage.conditions() == stage.controls());
}
