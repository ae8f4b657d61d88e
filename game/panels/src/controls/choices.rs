//! Choices among models: how the gas mixes, how grains charge, and the simplifications for teaching.

use ashlane_shared::{
    conditions::{Mixing, Value, find_key},
    units::Dimension,
};
use egui::{ComboBox, RichText, Ui};

use super::slider::{Control, control_ui};
use crate::{
    command::UiCommand,
    state::UiState,
    theme::{Ink, SMALL},
    view::AppView,
};

/// What stands in when a teaching simplification is switched on, SI: the values of the training reference collector.
const ONE_DRIFT_M_S: f64 = 0.0932;
const DIFFUSIVITY_M2_S: f64 = 0.002;
const SINGLE_M: f64 = 5e-6;

/// Words to choose from.
const WORDS: [(&str, &str); 2] = [
    ("teaching.charging", "Charging model"),
    ("teaching.profile", "Velocity profile"),
];
/// Simplifications that can be switched on, and what stands in then, SI.
const OPTIONAL: [(&str, &str, f64); 2] = [
    (
        "teaching.migration_velocity",
        "One migration velocity",
        ONE_DRIFT_M_S,
    ),
    ("teaching.single_diameter", "One grain size", SINGLE_M),
];

/// How the gas mixes across the passage.
pub(super) const MIXING: &str = "teaching.mixing";

/// The choices.
pub(super) fn choices_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    state: &UiState,
    out: &mut Vec<UiCommand>,
) {
    if !super::is_above(view, MIXING) {
        mixing_ui(ui, view, state, out);
    }
    for path in WORDS
        .map(|(path, _)| path)
        .into_iter()
        .chain(OPTIONAL.map(|(path, ..)| path))
    {
        if !super::is_above(view, path) {
            choice_ui(ui, view, state, path, out);
        }
    }
    let note = "Field and ions are solved in two dimensions, with the charge of the dust; averaged along each field.";
    ui.label(
        RichText::new(note)
            .size(SMALL)
            .color(Ink::Faint.colour(state.theme)),
    );
}

/// The choice of this key, if it is one of these.
pub(super) fn choice_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    state: &UiState,
    path: &str,
    out: &mut Vec<UiCommand>,
) -> bool {
    if let Some(words) = WORDS.into_iter().find(|(known, _)| *known == path) {
        words_ui(ui, view, words, out);
        return true;
    }
    let optional = OPTIONAL.into_iter().find(|(known, ..)| *known == path);
    if let Some(optional) = optional {
        optional_ui(ui, view, state, optional, out);
    }
    optional.is_some()
}

pub(super) fn mixing_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    state: &UiState,
    out: &mut Vec<UiCommand>,
) {
    let present = view.controls.teaching.mixing;
    let name = |mixing: Option<Mixing>| match mixing {
        None => "computed, with gusts",
        Some(Mixing::None) => "none (laminar)",
        Some(Mixing::Full) => "full (Deutsch–Anderson)",
        Some(Mixing::Diffusivity(_)) => "by a diffusivity",
    };
    let choices = [
        None,
        Some(Mixing::None),
        Some(Mixing::Full),
        Some(Mixing::Diffusivity(DIFFUSIVITY_M2_S)),
    ];
    ui.label("Mixing across");
    ComboBox::from_id_salt(MIXING)
        .width(ui.available_width() - 8.0)
        .selected_text(name(present))
        .show_ui(ui, |ui| {
            for choice in choices {
                let chosen = name(choice) == name(present);
                if ui.selectable_label(chosen, name(choice)).clicked() && !chosen {
                    out.push(UiCommand::Set {
                        path: MIXING,
                        value: choice.map(Value::Mixing),
                    });
                    out.push(UiCommand::ChangeDone);
                }
            }
        });
    let Some(key) = find_key(MIXING) else { return };
    if let (Some(Mixing::Diffusivity(value)), Some(allowed)) = (present, key.allowed()) {
        let slider = ashlane_shared::conditions::Range {
            min: 1e-4,
            max: 2e-2,
        };
        let control = Control {
            label: "Diffusivity",
            symbol: "D",
            meaning: "Eddy diffusivity across the passage.",
            value,
            slider,
            allowed,
            dimension: Dimension::Diffusivity,
            logarithmic: true,
            whole: false,
            marks: Vec::new(),
        };
        let answer = control_ui(ui, &control, state);
        if let Some(value) = answer.value {
            let value = Some(Value::Mixing(Mixing::Diffusivity(value)));
            out.push(UiCommand::Set {
                path: MIXING,
                value,
            });
        }
        if answer.done {
            out.push(UiCommand::ChangeDone);
        }
    }
}

fn words_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    (path, label): (&'static str, &str),
    out: &mut Vec<UiCommand>,
) {
    let Some(key) = find_key(path) else { return };
    let (Some(Value::Word(present)), ashlane_shared::conditions::Shape::Word { words, .. }) =
        (key.get(view.controls), key.shape)
    else {
        return;
    };
    ui.label(label).on_hover_text(key.meaning);
    ComboBox::from_id_salt(path)
        .width(ui.available_width() - 8.0)
        .selected_text(present)
        .show_ui(ui, |ui| {
            for word in words() {
                if ui.selectable_label(word == present, word).clicked() && word != present {
                    out.push(UiCommand::Set {
                        path,
                        value: Some(Value::Word(word)),
                    });
                    out.push(UiCommand::ChangeDone);
                }
            }
        });
}

/// A simplification with a box to switch it on and a slider for its value.
fn optional_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    state: &UiState,
    (path, label, usual): (&'static str, &str, f64),
    out: &mut Vec<UiCommand>,
) {
    let Some(key) = find_key(path) else { return };
    let present = match key.get(view.controls) {
        Some(Value::Number(value)) => Some(value),
        _ => None,
    };
    let mut on = present.is_some();
    if ui
        .checkbox(&mut on, label)
        .on_hover_text(key.meaning)
        .changed()
    {
        out.push(UiCommand::Set {
            path,
            value: on.then_some(Value::Number(usual)),
        });
        out.push(UiCommand::ChangeDone);
    }
    let (Some(value), Some(slider), Some(allowed), Some(dimension)) =
        (present, key.slider(), key.allowed(), key.dimension())
    else {
        return;
    };
    let control = Control {
        label: "Value",
        symbol: key.symbol,
        meaning: key.meaning,
        value,
        slider,
        allowed,
        dimension,
        logarithmic: slider.min > 0.0 && slider.max / slider.min > 12.0,
        whole: false,
        marks: Vec::new(),
    };
    let answer = ui.push_id(path, |ui| control_ui(ui, &control, state)).inner;
    if let Some(value) = answer.value {
        out.push(UiCommand::Set {
            path,
            value: Some(Value::Number(value)),
        });
    }
    if answer.done {
        out.push(UiCommand::ChangeDone);
    }
}
