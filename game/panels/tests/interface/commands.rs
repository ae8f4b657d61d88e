//! What controls ask for when they are used by pointer and by keyboard.

use ashlane_panels::{
    command::UiCommand,
    state::{Rung, UiState},
};
use ashlane_shared::{conditions::Value, units::UnitSystem};
use egui::{Key, accesskit::Role};
use egui_kittest::kittest::{NodeT, Queryable};

use crate::support::{demonstration_backdrop, window};

const WIDE: [f32; 2] = [1440.0, 900.0];

#[test]
fn pause_step_and_restart_say_so() {
    let mut harness = window(demonstration_backdrop(), UiState::default(), WIDE);
    harness.get_by_label("⏸ Pause").click();
    harness.run_steps(2);
    assert_eq!(harness.state().out, vec![UiCommand::Run(false)]);
    harness.state_mut().out.clear();
    harness.get_by_label("Restart").click();
    harness.run_steps(2);
    assert_eq!(harness.state().out, vec![UiCommand::Restart]);
}

#[test]
fn space_pauses_when_no_control_has_the_focus() {
    let mut harness = window(demonstration_backdrop(), UiState::default(), WIDE);
    harness.key_press(Key::Space);
    harness.run_steps(2);
    assert_eq!(harness.state().out, vec![UiCommand::Run(false)]);
}

#[test]
fn an_arrow_key_on_the_flow_slider_changes_the_flow_in_si() {
    let mut harness = window(demonstration_backdrop(), UiState::default(), WIDE);
    let slider = harness.get_by(|node| {
        node.role() == Role::Slider
            && node
                .label()
                .is_some_and(|label| label.starts_with("Gas flow slider"))
    });
    slider.focus();
    harness.run_steps(2);
    harness.key_press(Key::ArrowRight);
    harness.run_steps(2);
    let changed = harness
        .state()
        .out
        .iter()
        .find_map(|command| match *command {
            UiCommand::Set {
                path: "gas.flow",
                value: Some(Value::Number(flow)),
            } => Some(flow),
            _ => None,
        });
    let flow = changed.expect("a changed flow");
    assert!(flow > 118.8 && flow < 140.0, "{flow} m³/s");
}

#[test]
fn undo_and_redo_work_by_key_and_button() {
    let mut harness = window(demonstration_backdrop(), UiState::default(), WIDE);
    harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::Z);
    harness.run_steps(2);
    assert_eq!(harness.state().out, vec![UiCommand::Undo]);
    harness.state_mut().out.clear();
    harness.get_by_label("Redo").click();
    harness.run_steps(2);
    assert_eq!(harness.state().out, vec![UiCommand::Redo]);
}

#[test]
fn units_and_text_size_are_presentation_and_ask_for_nothing() {
    let mut harness = window(demonstration_backdrop(), UiState::default(), WIDE);
    harness.get_by_label("US").click();
    harness.run_steps(2);
    harness.get_by_label("A+").click();
    harness.run_steps(2);
    assert_eq!(harness.state().ui.units, UnitSystem::Us);
    assert_eq!(harness.state().ui.text_percent, 125);
    assert!(harness.state().out.is_empty(), "{:?}", harness.state().out);
    // 118.8 m³/s is 251,700 acfm (training specification, reference collector R1).
    let shown = harness.query_all_by(|node| {
        node.value().is_some_and(|value| value.contains("acfm"))
            || node.label().is_some_and(|label| label.contains("acfm"))
    });
    assert!(shown.count() > 0, "no flow in acfm");
}

#[test]
fn one_field_can_be_shown_by_its_button() {
    let mut harness = window(demonstration_backdrop(), UiState::default(), WIDE);
    harness
        .get_by(|node| node.role() == Role::Button && node.label().as_deref() == Some("3"))
        .click();
    harness.run_steps(2);
    let shown = harness.state().ui.window;
    assert!(
        (shown.start_m - 6.0).abs() < 1e-4 && (shown.length_m - 3.0).abs() < 1e-4,
        "{shown:?}"
    );
    harness.get_by_label("Plan").click();
    harness.run_steps(2);
    assert!((harness.state().ui.window.length_m - 12.0).abs() < 1e-4);
    harness.get_by_label("Collector").click();
    harness.run_steps(2);
    assert_eq!(harness.state().ui.rung, Rung::Elevation);
}

#[test]
fn the_ladder_leads_to_the_wire_of_the_field_that_is_shown_and_back() {
    let mut harness = window(demonstration_backdrop(), UiState::default(), WIDE);
    harness
        .get_by(|node| node.role() == Role::Button && node.label().as_deref() == Some("2"))
        .click();
    harness.run_steps(2);
    harness.get_by_label("Wire").click();
    harness.run_steps(2);
    assert_eq!(
        (harness.state().ui.rung, harness.state().ui.field),
        (Rung::Wire, 1)
    );
    // Its checks stand in the strip, its cautions below it.
    for words in [
        "computed V0 against Peek",
        "charge after the set is off",
        "can light gas",
        "makes ozone",
    ] {
        assert!(
            harness.query_by_label_contains(words).is_some(),
            "no \"{words}\""
        );
    }
    harness.get_by_label("Gas passage").click();
    harness.run_steps(2);
    let shown = harness.state().ui.window;
    assert_eq!(harness.state().ui.rung, Rung::Plan);
    // A metre in the middle of the second field.
    assert!(
        (shown.start_m - 4.0).abs() < 1e-4 && (shown.length_m - 1.0).abs() < 1e-4,
        "{shown:?}"
    );
}

#[test]
fn a_field_that_is_awaited_or_failed_is_told_where_it_is_drawn() {
    let mut harness = window(demonstration_backdrop(), UiState::default(), WIDE);
    assert!(
        harness
            .query_by_label_contains("computing the field")
            .is_none()
    );
    harness.state_mut().waits_for_field = true;
    harness.state_mut().field_trouble = Some("too much of everything");
    // A spinner asks for frames without end.
    harness.run_steps(2);
    for words in [
        "computing the field",
        "too much of everything. The field before still holds",
    ] {
        assert!(
            harness.query_by_label_contains(words).is_some(),
            "no \"{words}\""
        );
    }
}

#[test]
fn the_last_step_of_the_ladder_follows_a_grain_of_the_size_asked_for() {
    let ui = UiState {
        rung: Rung::Grain,
        ..UiState::default()
    };
    let mut harness = window(demonstration_backdrop(), ui, WIDE);
    harness.get_by_label("30").click();
    harness.run_steps(2);
    let wanted = |command: &UiCommand| matches!(command, UiCommand::Follow(wish) if wish.diameter_m == 30e-6);
    assert!(
        harness.state().out.iter().any(wanted),
        "{:?}",
        harness.state().out
    );
}

#[test]
fn arrow_keys_read_the_field_round_the_wire() {
    let ui = UiState {
        rung: Rung::Wire,
        ..UiState::default()
    };
    let mut harness = window(demonstration_backdrop(), ui, WIDE);
    harness
        .get_by(|node| {
            node.label()
                .is_some_and(|label| label.contains("Close look at one wire"))
        })
        .focus();
    harness.run_steps(2);
    for _ in 0..4 {
        harness.key_press(Key::ArrowUp);
        harness.run_steps(1);
    }
    harness.key_press(Key::ArrowRight);
    harness.run_steps(1);
    let (x_m, y_m) = harness.state().ui.probe_m.expect("a place");
    assert!(
        (x_m - 5e-3).abs() < 1e-9 && (y_m - 20e-3).abs() < 1e-9,
        "{x_m} {y_m}"
    );
}

#[test]
fn mixing_can_be_chosen() {
    let mut harness = window(
        demonstration_backdrop(),
        UiState::default(),
        [1440.0, 1800.0],
    );
    harness.get_by_value("computed, with gusts").click();
    harness.run_steps(3);
    harness.get_by_label("full (Deutsch–Anderson)").click();
    harness.run_steps(2);
    let mixing = ashlane_shared::conditions::Mixing::Full;
    let expected = UiCommand::Set {
        path: "teaching.mixing",
        value: Some(Value::Mixing(mixing)),
    };
    assert!(
        harness.state().out.contains(&expected),
        "{:?}",
        harness.state().out
    );
}

#[test]
fn the_verdict_and_the_three_penetrations_can_be_read_out() {
    let harness = window(demonstration_backdrop(), UiState::default(), WIDE);
    let strip = harness.get_by_label_contains("Agreement of count and theory");
    let words = strip.accesskit_node().label().expect("words");
    for word in [
        "counted",
        "finite mixing",
        "Deutsch–Anderson",
        "agree",
        "efficiency",
        "3σ",
    ] {
        assert!(words.contains(word), "no \"{word}\" in {words}");
    }
}

#[test]
fn looking_into_a_typed_value_and_leaving_changes_nothing() {
    let mut harness = window(demonstration_backdrop(), UiState::default(), WIDE);
    let shown = |harness: &egui_kittest::Harness<'_, crate::support::Bench>| {
        let field = harness.get_by(|node| {
            node.role() == Role::SpinButton && node.label().is_some_and(|label| label == "Gas flow")
        });
        field.accesskit_node().value().expect("a value")
    };
    assert_eq!(shown(&harness), "118.8 m³/s");
    let field = harness.get_by_role_and_label(Role::SpinButton, "Gas flow");
    field.click();
    harness.run_steps(3);
    harness.key_press(Key::Tab);
    harness.run_steps(3);
    let changed = harness.state().out.iter();
    let changed: Vec<_> = changed
        .filter(|command| matches!(command, UiCommand::Set { .. }))
        .collect();
    assert!(changed.is_empty(), "{changed:?}");
}
