//! The control of the two clocks: reached and worked by keyboard, its speed always on screen, its blow by field.

use ashlane_panels::{command::UiCommand, state::UiState};
use ashlane_shared::simulation::Clock;
use egui::{Key, accesskit::Role};
use egui_kittest::kittest::Queryable;

use crate::support::{Bench, demonstration_backdrop, window};

const WIDE: [f32; 2] = [1440.0, 900.0];

/// Whether a text with these words is on screen.
fn shows(harness: &egui_kittest::Harness<'_, Bench>, words: &str) -> bool {
    harness.query_by_label_contains(words).is_some()
}

#[test]
fn the_plant_clock_is_chosen_by_keyboard_alone() {
    let mut harness = window(demonstration_backdrop(), UiState::default(), WIDE);
    harness
        .get_by(|node| {
            node.role() == Role::ComboBox && node.value().as_deref() == Some("flight ×1")
        })
        .focus();
    harness.run_steps(2);
    harness.key_press(Key::Enter);
    harness.run_steps(2);
    harness.get_by_label("plant 1 h/s").focus();
    harness.run_steps(2);
    harness.key_press(Key::Enter);
    harness.run_steps(2);
    let wanted = UiCommand::Clock(Clock::Plant { times: 3600.0 });
    assert_eq!(harness.state().out, vec![wanted]);
}

#[test]
fn from_the_plant_clock_a_speed_of_the_flight_leads_back() {
    let mut harness = window(demonstration_backdrop(), UiState::default(), WIDE);
    harness.state_mut().clock.asked = Clock::Plant { times: 600.0 };
    harness.run_steps(2);
    harness
        .get_by(|node| {
            node.role() == Role::ComboBox && node.value().as_deref() == Some("plant 10 min/s")
        })
        .click();
    harness.run_steps(2);
    harness.get_by_label("flight ×0.5").click();
    harness.run_steps(2);
    assert_eq!(
        harness.state().out,
        vec![UiCommand::Clock(Clock::Flight), UiCommand::Speed(0.5)]
    );
}

#[test]
fn how_many_times_faster_the_plant_is_stands_on_screen() {
    let mut harness = window(demonstration_backdrop(), UiState::default(), WIDE);
    let plant = Clock::Plant { times: 21_600.0 };
    for (asked, runs, counts_rates, words) in [
        (Clock::Flight, Clock::Flight, false, "plant 2.0 h ×1"),
        (plant, Clock::Flight, true, "plant ×21600: counting rates"),
        (plant, Clock::Flight, false, "plant ×21600 comes"),
        (plant, plant, false, "plant 2.0 h ×21600"),
    ] {
        let clock = &mut harness.state_mut().clock;
        (clock.asked, clock.runs) = (asked, runs);
        (clock.time_s, clock.counts_rates) = (7200.0, counts_rates);
        harness.run_steps(2);
        assert!(shows(&harness, words), "no \"{words}\"");
    }
}

#[test]
fn rap_now_asks_for_the_blow_of_the_chosen_field() {
    let mut harness = window(demonstration_backdrop(), UiState::default(), WIDE);
    harness.get_by_label("Rap now").click();
    harness.run_steps(2);
    assert!(!shows(&harness, "Field 5"), "a fifth of four fields");
    harness
        .get_by(|node| node.role() == Role::Button && node.label().as_deref() == Some("Field 3"))
        .click();
    harness.run_steps(2);
    assert_eq!(harness.state().out, vec![UiCommand::RapNow(2)]);
}

/// A projector at 200 % has the control on another tab than the drawing.
#[test]
fn how_fast_the_clock_runs_stands_beside_the_tabs_too() {
    let mut harness = window(demonstration_backdrop(), UiState::default(), [720.0, 450.0]);
    assert!(shows(&harness, "flight ×1") && !shows(&harness, "Rap now"));
    harness.state_mut().clock.asked = Clock::Plant { times: 600.0 };
    harness.run_steps(2);
    assert!(shows(&harness, "plant ×600"));
}
