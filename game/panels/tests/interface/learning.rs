//! What stands around a lesson: the catalog with its notice and its learner, links to the glossary, the class's votes, the
//! sequence board.

use ashlane_lessons::{
    engine::{Command, Confidence, CountOrder, Given, Progress, Work, WorkAct},
    sequence::{Act, Board},
};
use ashlane_panels::{
    command::UiCommand,
    lesson::{LessonCommand, Tally},
    state::{Rung, Tab, UiState},
};
use ashlane_shared::{count::Count, physics::PhysicsError};
use egui::accesskit::Role;
use egui_kittest::{
    Harness,
    kittest::{NodeT, Queryable},
};

use crate::{
    everywhere::all_within,
    lesson::opened,
    support::{Bench, Classroom, demonstration_backdrop, window_in},
};

const WIDE: [f32; 2] = [1440.0, 2400.0];

fn shown(room: Classroom) -> Harness<'static, Bench> {
    let ui = UiState::default();
    window_in(demonstration_backdrop(), ui, WIDE, Some(room))
}

/// Clicks and hands out what was asked for.
fn click(harness: &mut Harness<'_, Bench>, label: &str) -> Vec<UiCommand> {
    harness.get_by_label(label).click();
    harness.run_steps(2);
    std::mem::take(&mut harness.state_mut().out)
}

fn learner(codes: &[&str]) -> Classroom {
    Classroom {
        learner: Some(codes.iter().map(|&code| code.to_owned()).collect()),
        ..Classroom::new()
    }
}

#[test]
fn the_long_notice_stands_until_it_is_read_and_every_lesson_can_be_started() {
    let mut harness = shown(Classroom::new());
    assert!(
        harness
            .query_by_label_contains("It does not know your plant")
            .is_some()
    );
    click(&mut harness, "I have read this");
    assert!(
        harness
            .query_by_label_contains("It does not know your plant")
            .is_none()
    );
    let lessons = Classroom::new().lessons;
    for lesson in &lessons {
        let label = format!("Start {}", lesson.id);
        assert!(harness.query_by_label(&label).is_some(), "no {label}");
    }
    assert_eq!(lessons.len(), 18);
}

#[test]
fn a_learner_is_a_code_that_can_be_made_exported_and_after_a_second_thought_deleted() {
    let mut harness = shown(learner(&[]));
    let asked = click(&mut harness, "Keep my progress");
    assert_eq!(asked, [LessonCommand::NewLearner.into()]);

    let mut harness = shown(learner(&["BCDF-GHJB"]));
    assert!(harness.query_by_label("BCDF-GHJB").is_some());
    click(&mut harness, "Export…");
    let dialog = harness.state().ui.dialog.clone().expect("a dialog");
    assert_eq!(dialog.path, "ashlane-learner-BCDF-GHJB.json");
    assert!(
        click(&mut harness, "Delete…").is_empty(),
        "deleted without a question"
    );
    let asked = click(&mut harness, "Delete for good");
    assert_eq!(asked, [LessonCommand::DeleteLearner.into()]);
}

#[test]
fn a_term_in_the_text_leads_to_the_glossary() {
    let mut harness = shown(opened());
    harness.get_by_label("gas passage").click();
    harness.run_steps(2);
    let reference = harness.state().ui.reference.clone().expect("the reference");
    let term = ashlane_lessons::glossary::find_term(&reference.wanted);
    assert!(term.is_some(), "{reference:?}");
}

#[test]
fn votes_are_locked_and_the_class_votes_again() {
    let mut harness = shown(opened());
    click(&mut harness, "Class tally");
    let lock = harness.get_by_label("Lock the votes");
    assert!(lock.accesskit_node().is_disabled(), "locked without a vote");
    harness.state_mut().ui.tally.first[1] = 7;
    harness.run_steps(1);
    click(&mut harness, "Lock the votes");
    click(&mut harness, "Vote again");
    let tally = harness.state().ui.tally.clone();
    assert_eq!(tally.second, Some(vec![0; tally.first.len()]));
    assert_eq!((tally.first[1], tally.locked), (7, false));
    click(&mut harness, "Clear the tally");
    let cleared = harness.state().ui.tally.clone();
    let fresh = Tally {
        place: tally.place,
        first: vec![0; tally.first.len()],
        ..Tally::default()
    };
    assert_eq!(cleared, fresh);
}

#[test]
fn a_board_that_was_brought_into_service_in_order_is_told_to_have_kept_every_hold() {
    let mut room = Classroom::new();
    let lesson = room.lessons.iter().find(|lesson| lesson.id == "L18");
    let lesson = lesson.expect("lesson 18").clone();
    let count = |order: &CountOrder| -> Result<_, PhysicsError> {
        let mut count = Count::new(&order.conditions, order.parcels, order.seed)?;
        count.run(|_| true);
        Ok(count.result())
    };
    let mut progress = Progress::new(&lesson);
    let given = Given {
        answer: lesson.question(0).model_answer(),
        confidence: Some(Confidence::Sure),
    };
    let segment = &lesson.segments[0];
    let acts = segment
        .work
        .as_ref()
        .expect("a board")
        .model_acts(&segment.start);
    let mut way = vec![Command::Answer(given), Command::Lock];
    way.extend(acts.expect("possible").into_iter().map(Command::Act));
    for command in way {
        progress.apply(&lesson, command).expect("a way through");
    }
    let plan = progress.plan(&lesson).expect("a finished board");
    let counted = [&plan.before, &plan.after].map(|order| count(order).expect("possible"));
    let reading = plan.read(&counted[0], &counted[1]).expect("possible");
    let measured = Command::Measured(Box::new(reading));
    progress
        .apply(&lesson, measured)
        .expect("a reading of its own");
    room.open = Some(progress);
    let harness = shown(room);
    // It stood with cold insulators in moist gas before anybody could act: told, and not held against anybody.
    assert!(
        harness
            .query_by_label_contains("condensed on cold insulators")
            .is_some()
    );
    for told in ["The goal was reached.", "Every hold of the site was kept."] {
        assert!(harness.query_by_label(told).is_some(), "not told: {told}");
    }
}

#[test]
fn the_board_takes_acts_tells_what_follows_and_opens_no_door() {
    let mut room = Classroom::new();
    let lesson = room.lessons.iter().find(|lesson| lesson.id == "L18");
    let lesson = lesson.expect("lesson 18").clone();
    let mut progress = Progress::new(&lesson);
    let given = Given {
        answer: lesson.question(0).model_answer(),
        confidence: Some(Confidence::Sure),
    };
    for command in [Command::Answer(given), Command::Lock] {
        progress.apply(&lesson, command).expect("a way through");
    }
    let segment = &lesson.segments[0];
    let Some(Work::Sequence(exercise)) = &segment.work else {
        panic!("no board");
    };
    let acts = [Act::Energize(0), Act::Wait(600.0)];
    let board = Board::replayed(exercise, &segment.start, &acts).expect("possible acts");
    let followed = board
        .consequences()
        .lines(ashlane_shared::units::UnitSystem::Si);
    room.board = Some(board);
    room.open = Some(progress);
    let mut harness = shown(room);
    assert!(!followed.is_empty(), "cold insulators are told");
    for line in &followed {
        assert!(harness.query_by_label(line).is_some(), "not told: {line}");
    }
    let asked = click(&mut harness, "Wait 10 min");
    let wait = Command::Act(WorkAct::Sequence(Act::Wait(600.0)));
    assert_eq!(asked, [LessonCommand::Do(wait).into()]);
    assert!(
        harness.query_by_label_contains("20 K more").is_some(),
        "a difference of temperatures"
    );
    harness.state_mut().ui.units = ashlane_shared::units::UnitSystem::Us;
    harness.run_steps(1);
    assert!(
        harness.query_by_label_contains("36 °F more").is_some(),
        "the same in the other units"
    );
    for forbidden in ["open the door", "Open door", "ground the"] {
        assert!(
            harness.query_by_label_contains(forbidden).is_none(),
            "{forbidden}"
        );
    }
}

#[test]
fn long_names_of_controls_and_long_partners_stay_in_their_columns() {
    let mut room = Classroom::new();
    let lesson = room.lessons.iter().find(|lesson| lesson.id == "L1");
    let lesson = lesson.expect("lesson 1").clone();
    let parts = lesson
        .segments
        .iter()
        .position(|segment| segment.id == "purpose");
    let parts = parts.expect("a step that asks what each part is for");
    let mut progress = Progress::new(&lesson);
    let tell = |progress: &mut Progress, command| {
        progress.apply(&lesson, command).expect("a way through");
    };
    let answer = |progress: &mut Progress, step: usize| {
        let given = Given {
            answer: lesson.question(step).model_answer(),
            confidence: Some(Confidence::Sure),
        };
        tell(progress, Command::Answer(given));
    };
    for step in 0..parts {
        answer(&mut progress, step);
        tell(&mut progress, Command::Lock);
        let target = lesson.segments[step].target.clone();
        tell(&mut progress, Command::Change(Box::new(target)));
        let plan = progress.plan(&lesson).expect("a finished task");
        let counted = [&plan.before, &plan.after].map(|order| {
            let mut count = Count::new(&order.conditions, 200, order.seed).expect("possible");
            count.run(|_| true);
            count.result()
        });
        let reading = plan.read(&counted[0], &counted[1]).expect("possible");
        tell(&mut progress, Command::Measured(Box::new(reading)));
        tell(&mut progress, Command::Next);
    }
    answer(&mut progress, parts);
    for lock in [false, true] {
        if lock {
            tell(&mut progress, Command::Lock);
        }
        room.open = Some(progress.clone());
        for size in [WIDE_SCREEN, [1024.0, 768.0], [720.0, 450.0]] {
            for tab in [Tab::Lesson, Tab::Conditions, Tab::Section] {
                let what = format!("{size:?} {tab:?} {lock}");
                columns_hold(room.clone(), tab, size, &what);
            }
        }
    }
}

const WIDE_SCREEN: [f32; 2] = [1440.0, 900.0];

/// Nothing sticks out of the screen, and in a wide window nothing of the ladder reaches into the card.
fn columns_hold(room: Classroom, tab: Tab, size: [f32; 2], what: &str) {
    let ui = UiState {
        tab,
        rung: Rung::Elevation,
        ..UiState::default()
    };
    let harness = window_in(demonstration_backdrop(), ui, size, Some(room));
    all_within(&harness, size, what);
    if size == WIDE_SCREEN {
        let card = harness.get_by_label_contains("What each part is for");
        let is_list = |node: &egui_kittest::Node<'_>| {
            node.accesskit_node().value().as_deref() == Some("Parts")
        };
        let lists = harness.query_all_by(|node| node.role() == Role::ComboBox);
        let parts = lists.into_iter().find(is_list).expect("a list").rect();
        assert!(parts.right() <= card.rect().left(), "{parts:?} {what}");
    }
}
