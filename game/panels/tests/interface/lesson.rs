//! A lesson as a learner meets it: nothing is shown before the prediction is locked, one control moves, the
//! measurement stands beside the formula, and every moment fits every screen.

use ashlane_lessons::engine::{Command, Phase, Progress};
use ashlane_panels::{
    command::UiCommand,
    lesson::LessonCommand,
    state::{Tab, UiState},
};
use ashlane_shared::count::{Count, CountResult};
use egui::accesskit::Role;
use egui_kittest::{
    Harness,
    kittest::{NodeT, Queryable},
};

use crate::support::{Bench, Classroom, demonstration_backdrop, window_in};

const WIDE: [f32; 2] = [1440.0, 1500.0];

/// The window with the list of lessons.
fn classroom(classroom: Classroom) -> Harness<'static, Bench> {
    window_in(
        demonstration_backdrop(),
        UiState::default(),
        WIDE,
        Some(classroom),
    )
}

/// A lesson just opened.
pub(crate) fn opened() -> Classroom {
    let mut room = Classroom::new();
    let lesson = room.lessons.iter().find(|lesson| lesson.id == "L5");
    room.open = Some(Progress::new(lesson.expect("lesson 5")));
    room
}

/// Hands a command to the engine.
fn tell(room: &mut Classroom, command: Command) {
    let lesson = room.lesson().expect("an open lesson").clone();
    let open = room.open.as_mut().expect("an open lesson");
    open.apply(&lesson, command)
        .expect("a command in its place");
}

/// Hands what was clicked to the engine, as the window does.
fn obey(harness: &mut Harness<'_, Bench>) {
    harness.run_steps(2);
    let bench = harness.state_mut();
    let out = std::mem::take(&mut bench.out);
    let room = bench.classroom.as_mut().expect("lessons");
    for command in out {
        match command {
            UiCommand::Lesson(LessonCommand::Do(command)) => tell(room, command),
            UiCommand::Lesson(LessonCommand::Open(id)) => {
                let lesson = room.lessons.iter().find(|lesson| lesson.id == id);
                room.open = lesson.map(Progress::new);
            }
            _ => {}
        }
    }
    harness.run_steps(2);
}

fn click(harness: &mut Harness<'_, Bench>, label: &str) {
    harness.get_by_label(label).click();
    obey(harness);
}

/// Types the number that the question asks for.
fn answer(harness: &mut Harness<'_, Bench>, text: &str) {
    let field = harness.get_by_role_and_label(Role::TextInput, "Your answer");
    field.focus();
    harness.run_steps(1);
    let field = harness.get_by_role_and_label(Role::TextInput, "Your answer");
    field.type_text(text);
    obey(harness);
}

fn phase(harness: &Harness<'_, Bench>) -> Phase {
    let room = harness.state().classroom.as_ref().expect("lessons");
    let open = room.open.as_ref().expect("an open lesson");
    open.phase(room.lesson().expect("an open lesson"))
}

/// Makes the change of the step and measures it, with real counts.
fn measured(room: &mut Classroom) {
    let lesson = room.lesson().expect("an open lesson").clone();
    let at = room.open.as_ref().expect("an open lesson").at();
    let target = lesson.segments[at].target.clone();
    tell(room, Command::Change(Box::new(target)));
    let progress = room.open.as_ref().expect("an open lesson");
    let plan = progress.plan(&lesson).expect("a finished task");
    let count = |order: &ashlane_lessons::engine::CountOrder| -> CountResult {
        let mut count =
            Count::new(&order.conditions, order.parcels, order.seed).expect("possible conditions");
        count.run(|_| true);
        count.result()
    };
    let reading = plan
        .read(&count(&plan.before), &count(&plan.after))
        .expect("a formula that can be computed");
    tell(room, Command::Measured(Box::new(reading)));
}

/// The first step after its measurement, answered wrongly as most people do.
pub(crate) fn explained() -> Classroom {
    let mut harness = classroom(opened());
    answer(&mut harness, "95");
    click(&mut harness, "sure");
    click(&mut harness, "Lock my prediction");
    let mut room = harness.state().classroom.clone().expect("lessons");
    measured(&mut room);
    room
}

#[test]
fn the_list_offers_every_lesson_and_opens_it() {
    let mut harness = classroom(Classroom::new());
    click(&mut harness, "Start L5");
    let room = harness.state().classroom.as_ref().expect("lessons");
    assert_eq!(room.open.as_ref().map(Progress::lesson), Some("L5"));
    assert!(harness.query_by_label_contains("Step 1 of").is_some());
}

#[test]
fn nothing_is_told_before_the_prediction_is_locked_and_then_it_stays() {
    let mut harness = classroom(opened());
    let lock = harness.get_by_label("Lock my prediction");
    assert!(
        lock.accesskit_node().is_disabled(),
        "locked without an answer"
    );
    for secret in ["OBSERVE", "MEASURED", "EXPLAIN"] {
        assert!(
            harness.query_by_label(secret).is_none(),
            "{secret} too early"
        );
    }
    answer(&mut harness, "95");
    let lock = harness.get_by_label("Lock my prediction");
    assert!(
        lock.accesskit_node().is_disabled(),
        "locked without confidence"
    );
    click(&mut harness, "fairly sure");
    click(&mut harness, "Lock my prediction");
    assert_eq!(phase(&harness), Phase::Observe);
    assert!(
        harness
            .query_by_role_and_label(Role::TextInput, "Your answer")
            .is_none()
    );
    assert!(
        harness.query_by_label("95 %").is_some(),
        "the prediction is shown"
    );
    assert!(harness.query_by_label("OBSERVE").is_some());
    for secret in ["MEASURED", "EXPLAIN"] {
        assert!(
            harness.query_by_label(secret).is_none(),
            "{secret} too early"
        );
    }
}

#[test]
fn an_answer_that_cannot_be_is_named_and_not_taken() {
    let mut harness = classroom(opened());
    answer(&mut harness, "80");
    assert!(
        harness
            .query_by_label_contains("write a number from")
            .is_some()
    );
    let room = harness.state().classroom.as_ref().expect("lessons");
    let card = room
        .open
        .as_ref()
        .and_then(|open| open.card(room.lesson()?));
    assert!(card.expect("a card").given.is_none());
}

#[test]
fn only_the_control_of_the_task_moves() {
    let mut harness = classroom(opened());
    let slider = |harness: &Harness<'_, Bench>, name: &str| {
        // Exactly one: a control that is free is not shown among the locked ones once more.
        let found = harness.get_by(|node| {
            node.role() == Role::Slider && node.label().is_some_and(|label| label.starts_with(name))
        });
        !found.accesskit_node().is_disabled()
    };
    assert!(!slider(&harness, "Fields"), "moves before the prediction");
    answer(&mut harness, "99");
    click(&mut harness, "a guess");
    click(&mut harness, "Lock my prediction");
    assert!(slider(&harness, "Fields"), "does not move when it should");
    assert!(!slider(&harness, "Gas flow"), "moves and should not");
}

#[test]
fn the_measurement_stands_beside_the_formula_and_the_wrong_idea_is_named() {
    let harness = classroom(explained());
    assert_eq!(phase(&harness), Phase::Explain);
    for text in [
        "MEASURED",
        "penetration",
        "efficiency",
        "agrees",
        "EXPLAIN",
        "Not what you predicted.",
    ] {
        assert!(
            harness.query_all_by_label(text).next().is_some(),
            "no {text}"
        );
    }
    assert!(harness.query_all_by_label("DISAGREES").next().is_none());
    // The formula of Deutsch and Anderson for one field that lets a tenth through, twice.
    assert!(
        harness
            .query_all_by_label_contains("equals Deutsch–Anderson 1.00")
            .next()
            .is_some()
    );
    assert!(
        harness
            .query_by_label_contains("twice the plates, half the dust")
            .is_some()
    );
}

#[test]
fn what_is_new_comes_into_sight() {
    let size = [1440.0, 700.0];
    let room = explained();
    let mut harness = window_in(
        demonstration_backdrop(),
        UiState::default(),
        size,
        Some(room),
    );
    harness.run_steps(30);
    let top = |harness: &Harness<'_, Bench>, label: &str| harness.get_by_label(label).rect().top();
    let measured = top(&harness, "MEASURED");
    assert!(
        (0.0..200.0).contains(&measured),
        "the measurement is at {measured}"
    );
    // It lies below what is in sight.
    harness.get_by_label("Next step").click_accesskit();
    obey(&mut harness);
    harness.run_steps(30);
    let next = top(&harness, "The last half per cent");
    assert!(
        (0.0..200.0).contains(&next),
        "the next step begins at {next}"
    );
}

#[test]
fn a_locked_step_stays_locked_when_coming_back() {
    let mut harness = classroom(explained());
    click(&mut harness, "Next step");
    click(&mut harness, "Back");
    assert_eq!(phase(&harness), Phase::Explain);
    assert!(harness.query_by_label("Lock my prediction").is_none());
}

#[test]
fn every_moment_of_a_lesson_fits_every_screen_and_text_size() {
    let mut observing = classroom(opened());
    answer(&mut observing, "95");
    click(&mut observing, "sure");
    click(&mut observing, "Lock my prediction");
    let observing = observing.state().classroom.clone().expect("lessons");
    let moments = [
        ("list", Classroom::new()),
        ("predict", opened()),
        ("observe", observing),
        ("explain", explained()),
    ];
    for (moment, room) in moments {
        for screen in [[1440.0_f32, 900.0], [1024.0, 768.0]] {
            for percent in [75, 100, 150, 200, 250] {
                let size = screen.map(|side| side * 100.0 / percent as f32);
                let ui = UiState {
                    tab: Tab::Lesson,
                    ..UiState::default()
                };
                let harness = window_in(demonstration_backdrop(), ui, size, Some(room.clone()));
                let what = format!("{moment} on {screen:?} at {percent} %");
                crate::everywhere::all_within(&harness, size, &what);
            }
        }
    }
}
