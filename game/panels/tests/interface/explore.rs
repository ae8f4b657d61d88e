//! Exploring: questions that lead somewhere, rules that stay, and a list that says what was changed and what came of it.

use std::sync::OnceLock;

use ashlane_lessons::prompts::PROMPTS;
use ashlane_panels::{
    command::UiCommand,
    explore::{Exploring, Trial, Tried, notes},
    lesson::LessonCommand,
    state::{Purpose, Rung, Tab, UiState},
    theme::Theme,
};
use ashlane_shared::{conditions::demonstration, units::UnitSystem};
use egui_kittest::{
    Harness,
    kittest::{NodeT, Queryable},
};

use crate::{
    everywhere::all_within,
    lesson::explained,
    support::{Backdrop, Bench, demonstration_backdrop, window, window_in},
};

const WIDE: [f32; 2] = [1440.0, 1400.0];

fn trial(backdrop: &Backdrop) -> Trial {
    let (count, theory) = backdrop.count.as_ref().expect("a count");
    let conditions = &backdrop.conditions;
    Trial::new(
        (conditions, conditions),
        backdrop.simulation.frame().fields(),
        (count, theory),
    )
}

/// The demonstration, then more gas, then cooler gas and still more of it, then nearly the same again.
fn tried() -> Tried {
    static TRIALS: OnceLock<Vec<Trial>> = OnceLock::new();
    let trials = TRIALS.get_or_init(|| {
        let mut conditions = demonstration();
        conditions.gas.flow_m3_s *= 1.5;
        let more = Backdrop::counted(conditions.clone());
        conditions.gas.temperature_k -= 20.0;
        conditions.gas.flow_m3_s *= 1.4;
        let both = Backdrop::counted(conditions.clone());
        conditions.gas.temperature_k += 0.1;
        let hardly = Backdrop::counted(conditions);
        [demonstration_backdrop(), &more, &both, &hardly]
            .map(trial)
            .to_vec()
    });
    let mut tried = Tried::default();
    trials.iter().for_each(|trial| tried.note(trial.clone()));
    tried
}

fn exploring(prompt: usize) -> UiState {
    UiState {
        exploring: Exploring {
            open: true,
            prompt,
            ..Exploring::default()
        },
        ..UiState::default()
    }
}

fn shown(ui: UiState, tried: Tried) -> Harness<'static, Bench> {
    let mut harness = window(demonstration_backdrop(), ui, WIDE);
    harness.state_mut().tried = tried;
    harness.run_steps(2);
    harness.state_mut().out.clear();
    harness
}

fn click(harness: &mut Harness<'_, Bench>, label: &str) -> Vec<UiCommand> {
    harness.get_by_label(label).click();
    harness.run_steps(2);
    std::mem::take(&mut harness.state_mut().out)
}

fn says(harness: &Harness<'_, Bench>, words: &str) -> bool {
    harness.query_all_by_label_contains(words).count() > 0
}

#[test]
fn questions_are_turned_round_keep_their_rules_and_lead_to_their_lessons() {
    let mut harness = shown(UiState::default(), Tried::default());
    assert!(!says(&harness, "Nothing is judged"));
    click(&mut harness, "Questions");
    assert!(says(&harness, "Nothing yet"));
    click(&mut harness, "Before");
    assert_eq!(harness.state().ui.exploring.prompt, PROMPTS.len() - 1);
    harness.get_by_label("The rule you found").click();
    harness.run_steps(1);
    harness
        .get_by_label("The rule you found")
        .type_text("If less, then more.");
    harness.run_steps(2);
    click(&mut harness, "Next");
    assert_eq!(harness.state().ui.exploring.prompt, 0);
    let rules = harness.state().ui.exploring.rules.clone();
    assert_eq!(
        rules.into_iter().collect::<Vec<_>>(),
        [(PROMPTS.len() - 1, "If less, then more.".to_owned())]
    );
    let label = format!("Lesson {}", PROMPTS[0].lesson);
    let open = LessonCommand::Open(PROMPTS[0].lesson.to_owned());
    assert_eq!(
        click(&mut harness, &label),
        [LessonCommand::Enter.into(), open.into()]
    );
}

#[test]
fn a_question_goes_where_there_is_something_to_look_at() {
    let grain = PROMPTS.iter().position(|prompt| prompt.view == "grain");
    let mut harness = shown(exploring(grain.expect("a question")), Tried::default());
    click(&mut harness, "Go there");
    assert_eq!(harness.state().ui.rung, Rung::Grain);
    let there = harness.get_by_label("Go there");
    assert!(there.accesskit_node().is_disabled());
}

#[test]
fn every_control_that_a_question_asks_for_can_be_moved_while_exploring() {
    let harness = shown(UiState::default(), Tried::default());
    for prompt in PROMPTS {
        let Some(key) = prompt
            .control
            .and_then(ashlane_shared::conditions::find_key)
        else {
            continue;
        };
        let label = ashlane_panels::control_name(key);
        assert!(says(&harness, label), "{label} for: {}", prompt.question);
    }
}

#[test]
fn a_trial_tells_what_was_changed_and_a_ratio_only_where_it_is_more_than_chance() {
    let harness = shown(exploring(0), tried());
    for told in [
        "1. The first state",
        "2. Gas flow: ",
        "times what got through at no. 1",
        "more than one thing was changed, so no rule comes from this pair",
        "No difference from no. 3 that is more than chance",
    ] {
        assert!(says(&harness, told), "not told: {told}");
    }
    let all = tried();
    let [first, second] = [0, 1].map(|index| all.trials()[index].agreement.counted.share);
    let ratio = second / first;
    let told: f64 = harness
        .get_by_label_contains("times what got through at no. 1")
        .accesskit_node()
        .value()
        .and_then(|text| text.split(' ').next()?.parse().ok())
        .expect("a number");
    assert!((told - ratio).abs() < 0.006 * ratio, "{told}, not {ratio}");
}

#[test]
fn a_state_that_does_not_hold_is_set_again_by_command_and_the_list_is_written_down() {
    let mut harness = shown(exploring(0), tried());
    // The first is the present state of the window.
    assert!(harness.query_by_label("Set no. 1 again").is_none());
    assert_eq!(
        click(&mut harness, "Set no. 2 again"),
        [UiCommand::TryAgain(1)]
    );
    assert_eq!(click(&mut harness, "Clear"), [UiCommand::ForgetTrials]);
    click(&mut harness, "Write down…");
    let dialog = harness.state().ui.dialog.clone().expect("a dialog");
    assert_eq!(dialog.purpose, Purpose::Trials);
    assert_eq!(dialog.path, "ashlane-trials.md");
}

#[test]
fn what_is_written_down_holds_rules_trials_and_both_unit_systems() {
    let rules = [(0, "It falls.\nAlways.".to_owned())].into();
    let text = notes(&tried(), &rules);
    assert!(text.contains("> It falls.\n> Always."), "{text}");
    assert!(text.contains(PROMPTS[0].question) && text.contains("It is not a procedure"));
    let rows: Vec<&str> = text.lines().filter(|line| line.starts_with("| ")).collect();
    assert_eq!(rows.len(), 1 + tried().trials().len(), "{text}");
    assert!(
        rows[2].contains("m³/s") && rows[2].contains("acfm"),
        "{}",
        rows[2]
    );
    let columns = |row: &str| row.matches(" |").count();
    assert!(
        rows.iter().all(|row| columns(row) == columns(rows[0])),
        "{text}"
    );
}

#[test]
fn a_lesson_lists_its_steps_and_what_was_tried_pins_a_and_sets_nothing_again() {
    let mut room = explained();
    let lesson = room.lesson().expect("a lesson").clone();
    let open = room.open.as_mut().expect("an open lesson");
    open.apply(&lesson, ashlane_lessons::engine::Command::Next)
        .expect("a finished step");
    let ui = UiState::default();
    let mut harness = window_in(demonstration_backdrop(), ui, WIDE, Some(room));
    harness.state_mut().tried = tried();
    harness.run_steps(2);
    harness.state_mut().out.clear();
    click(&mut harness, "Your steps so far");
    click(&mut harness, "What was tried in this lesson");
    harness.run_steps(20);
    assert!(says(&harness, "not what you predicted"));
    assert!(says(&harness, "1. The first state"));
    assert!(!says(&harness, "again") && !says(&harness, "Write down…"));
    assert!(!says(&harness, "Lock the others"));
    assert_eq!(click(&mut harness, "Pin A"), [UiCommand::PinA]);
}

#[test]
fn questions_and_trials_fit_every_screen_and_text_size() {
    for size in [[1440.0, 900.0], [1024.0, 768.0]] {
        for text_percent in [75, 100, 150, 200, 250] {
            for (theme, units) in [
                (Theme::Dark, UnitSystem::Us),
                (Theme::Light, UnitSystem::Si),
            ] {
                let ui = UiState {
                    text_percent,
                    theme,
                    units,
                    tab: Tab::Charts,
                    ..exploring(1)
                };
                let points = size.map(|side: f32| side * 100.0 / text_percent as f32);
                let mut harness = window(demonstration_backdrop(), ui, points);
                harness.state_mut().tried = tried();
                harness.run_steps(2);
                let what = format!("{size:?} at {text_percent} % {theme:?}");
                all_within(&harness, points, &what);
            }
        }
    }
}
