//! Every size, text size, theme and state: nothing is cut off, every control has a name, Tab comes back to the start.

use ashlane_panels::{
    state::{Rung, Tab, UiState},
    theme::Theme,
};
use ashlane_shared::{
    conditions::{Conditions, Mixing, demonstration},
    units::UnitSystem,
};
use egui::accesskit::Role;
use egui_kittest::{
    Harness,
    kittest::{NodeT, Queryable},
};

use crate::support::{Backdrop, Bench, demonstration_backdrop, window};

/// Screens of the house rules, in pixels.
const SCREENS: [[f32; 2]; 2] = [[1440.0, 900.0], [1024.0, 768.0]];
/// Text sizes, per cent.
const PERCENTS: [u32; 5] = [75, 100, 150, 200, 250];

/// Tabs and steps of the ladder.
const SHOWN: [(Tab, Rung); 11] = [
    (Tab::Section, Rung::Board),
    (Tab::Section, Rung::CrossSection),
    (Tab::Section, Rung::Elevation),
    (Tab::Section, Rung::Plan),
    (Tab::Section, Rung::Wire),
    (Tab::Section, Rung::Grain),
    (Tab::Section, Rung::Energization),
    (Tab::Conditions, Rung::Plan),
    (Tab::Charts, Rung::Plan),
    (Tab::Agreement, Rung::Plan),
    (Tab::Agreement, Rung::Wire),
];

/// Conditions at the edges: one field, many fields, sparking, nothing switched on.
fn extremes() -> Vec<Backdrop> {
    let change = |how: fn(&mut Conditions)| {
        let mut conditions = demonstration();
        how(&mut conditions);
        Backdrop::empty(conditions)
    };
    vec![
        change(|conditions| conditions.set_fields(1)),
        change(|conditions| conditions.set_fields(12)),
        change(|conditions| conditions.electrical.voltage_v = vec![75e3; 4]),
        change(|conditions| conditions.electrical.voltage_v = vec![0.0; 4]),
        change(|conditions| conditions.teaching.mixing = Some(Mixing::Diffusivity(3e-3))),
    ]
}

/// Draws a window and checks it.
#[track_caller]
fn nothing_sticks_out(backdrop: &Backdrop, ui: UiState, size: [f32; 2], what: &str) {
    all_within(&window(backdrop, ui, size), size, what);
}

/// Signs of the face that also has the sign for missing ones: egui cannot tell them from missing. Seen in pictures.
const SYMBOLS: &str = "✔✖⚠▶⏸";

/// The signs of a text that the fonts of the window do not have.
fn missing_signs(context: &egui::Context, text: &str) -> String {
    let font = egui::FontId::proportional(14.0);
    let missing = |sign: &char| {
        !sign.is_whitespace()
            && !SYMBOLS.contains(*sign)
            && !context.fonts_mut(|fonts| fonts.has_glyph(&font, *sign))
    };
    text.chars().filter(missing).collect()
}

/// Checks that every named thing has signs that can be shown and lies on the screen, in whole or behind a scroll bar.
#[track_caller]
pub(crate) fn all_within(harness: &Harness<'_, Bench>, size: [f32; 2], what: &str) {
    let mut seen = 0;
    for node in harness.query_all_by(|node| {
        matches!(
            node.role(),
            Role::Button
                | Role::Label
                | Role::Slider
                | Role::CheckBox
                | Role::ComboBox
                | Role::Image
        )
    }) {
        let rect = node.rect();
        seen += 1;
        let told = node.accesskit_node();
        let text = told.value().or_else(|| told.label()).unwrap_or_default();
        let without = missing_signs(&harness.ctx, &text);
        assert!(
            without.is_empty(),
            "{what}: the fonts lack {without:?} of {text:?}"
        );
        // Sideways nothing may stick out; downwards there may be a scroll area.
        assert!(
            rect.left() >= -1.0 && rect.right() <= size[0] + 1.0,
            "{what}: {:?} from {} to {} in {}",
            node.accesskit_node().label(),
            rect.left(),
            rect.right(),
            size[0]
        );
    }
    assert!(seen > 8, "{what}: only {seen} things on the screen");
}

#[test]
fn nothing_is_cut_off_at_any_screen_and_text_size() {
    for screen in SCREENS {
        for percent in PERCENTS {
            let size = screen.map(|side| side * 100.0 / percent as f32);
            for (tab, rung) in SHOWN {
                let ui = UiState {
                    tab,
                    rung,
                    ..UiState::default()
                };
                let what = format!("{screen:?} at {percent} %, {tab:?}, {rung:?}");
                nothing_sticks_out(demonstration_backdrop(), ui, size, &what);
            }
        }
    }
}

#[test]
fn both_themes_and_unit_systems_fit() {
    for theme in [Theme::Dark, Theme::Light] {
        for units in [UnitSystem::Si, UnitSystem::Us] {
            let ui = UiState {
                theme,
                units,
                ..UiState::default()
            };
            nothing_sticks_out(
                demonstration_backdrop(),
                ui,
                [1024.0, 768.0],
                &format!("{theme:?} {units:?}"),
            );
        }
    }
}

#[test]
fn empty_and_extreme_states_fit() {
    for (index, backdrop) in extremes().iter().enumerate() {
        nothing_sticks_out(
            backdrop,
            UiState::default(),
            [1024.0, 768.0],
            &format!("extreme {index}"),
        );
    }
}

#[test]
fn every_interactive_thing_has_a_name() {
    let harness = window(
        demonstration_backdrop(),
        UiState::default(),
        [1440.0, 1800.0],
    );
    let interactive = harness.query_all_by(|node| {
        matches!(
            node.role(),
            Role::Button
                | Role::Slider
                | Role::CheckBox
                | Role::ComboBox
                | Role::SpinButton
                | Role::TextInput
        )
    });
    let mut count = 0;
    for node in interactive {
        let node = node.accesskit_node();
        let named = node.label().is_some_and(|label| !label.is_empty())
            || node.value().is_some_and(|value| !value.is_empty())
            || node.labelled_by().next().is_some();
        assert!(named, "a {:?} without a name", node.role());
        count += 1;
    }
    assert!(count > 20, "only {count} interactive things");
}

#[test]
fn tab_reaches_the_controls_and_the_plan() {
    let mut harness = window(
        demonstration_backdrop(),
        UiState::default(),
        [1440.0, 900.0],
    );
    let mut reached = std::collections::BTreeSet::new();
    for _ in 0..80 {
        harness.key_press(egui::Key::Tab);
        harness.run_steps(1);
        for node in harness.query_all_by(|node| node.is_focused()) {
            let node = node.accesskit_node();
            reached.insert(node.label().or_else(|| node.value()).unwrap_or_default());
        }
    }
    for wanted in [
        "File",
        "Plan of one gas passage",
        "Gas flow slider",
        "Restart",
    ] {
        assert!(
            reached.iter().any(|name| name.contains(wanted)),
            "Tab never reaches {wanted}: {reached:?}"
        );
    }
}

/// Panels are painted one over the other, so a panel that takes more room than it has covers what lies below it.
#[test]
fn nothing_lies_over_the_agreement_strip_or_the_notice() {
    const PROTECTED: [&str; 2] = ["Agreement of count and theory", "Not a procedure."];
    for screen in SCREENS {
        for percent in PERCENTS {
            let size = screen.map(|side| side * 100.0 / percent as f32);
            let mut strips = 0;
            for (tab, rung) in SHOWN {
                let ui = UiState {
                    tab,
                    rung,
                    ..UiState::default()
                };
                let harness = window(demonstration_backdrop(), ui, size);
                for label in PROTECTED {
                    let Some(node) = harness.query_by_label_contains(label) else {
                        continue;
                    };
                    strips += usize::from(label == PROTECTED[0]);
                    if label == PROTECTED[0] && tab == Tab::Agreement {
                        // There it scrolls, as everything in a tab.
                        continue;
                    }
                    let what = format!("{label} on {screen:?} at {percent} %, {tab:?}, {rung:?}");
                    uncovered(&harness, node.rect(), &what);
                }
            }
            assert!(strips > 0, "no strip on {screen:?} at {percent} %");
        }
    }
}

/// Checks that no filled rectangle covers a part of this one; what lies inside it or holds all of it is its own.
#[track_caller]
fn uncovered(harness: &Harness<'_, Bench>, own: egui::Rect, what: &str) {
    let covers = |shape: &egui::epaint::ClippedShape| {
        let egui::Shape::Rect(fill) = &shape.shape else {
            return false;
        };
        let seen = fill.rect.intersect(shape.clip_rect);
        let common = seen.intersect(own);
        fill.fill.is_opaque()
            && common.width() > 1.0
            && common.height() > 1.0
            && !seen.expand(1.0).contains_rect(own)
            && !own.expand(1.0).contains_rect(seen)
    };
    let over = harness.output().shapes.iter().find(|shape| covers(shape));
    assert!(over.is_none(), "{what}: {over:?} over {own:?}");
}
