//! Voltage: one slider for all fields together, one for each on request, with onset and sparking marked.

use ashlane_shared::{
    conditions::{Range, Value, find_key},
    simulation::HeldBy,
    units::{Dimension, format},
};
use egui::{CollapsingHeader, RichText, Ui};

use super::slider::{Answer, Control, Mark, control_ui};
use crate::{
    command::UiCommand,
    state::UiState,
    theme::{Ink, SMALL},
    view::AppView,
};

/// Wanted mean voltage of every field.
pub(super) const PATH: &str = "electrical.voltage";

/// The voltage controls.
pub(super) fn voltage_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    state: &UiState,
    out: &mut Vec<UiCommand>,
) {
    let Some(key) = find_key(PATH) else { return };
    let (Some(slider), Some(allowed)) = (key.slider(), key.allowed()) else {
        return;
    };
    let wanted = &view.controls.electrical.voltage_v;
    let mean_v = mean(wanted);
    let all = Control {
        label: "Voltage, mean of all fields",
        symbol: key.symbol,
        meaning: key.meaning,
        value: mean_v,
        slider,
        allowed,
        dimension: Dimension::Voltage,
        logarithmic: false,
        whole: false,
        marks: marks(view, mean(&view.sheet.electrical.voltage_v)),
    };
    let answer = control_ui(ui, &all, state);
    let scaled = answer.value.map(|value| {
        if mean_v > 0.0 {
            wanted
                .iter()
                .map(|field_v| (field_v * value / mean_v).min(allowed.max))
                .collect()
        } else {
            vec![value; wanted.len()]
        }
    });
    tell(out, scaled, answer);
    reached_ui(ui, view, state);
    CollapsingHeader::new("Fields one by one")
        .id_salt("voltages")
        .show(ui, |ui| {
            for index in 0..wanted.len() {
                field_ui(ui, view, state, (index, slider, allowed), out);
            }
        });
}

fn field_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    state: &UiState,
    (index, slider, allowed): (usize, Range, Range),
    out: &mut Vec<UiCommand>,
) {
    let wanted = &view.controls.electrical.voltage_v;
    let sheet = view
        .sheet
        .electrical
        .voltage_v
        .get(index)
        .copied()
        .unwrap_or(wanted[index]);
    let name = view.controls.field_title(index);
    let one = Control {
        label: &name,
        symbol: "V",
        meaning: "Wanted mean voltage of this field.",
        value: wanted[index],
        slider,
        allowed,
        dimension: Dimension::Voltage,
        logarithmic: false,
        whole: false,
        marks: marks(view, sheet),
    };
    let answer = control_ui(ui, &one, state);
    let changed = answer.value.map(|value| {
        let mut list = wanted.clone();
        list[index] = value;
        list
    });
    tell(out, changed, answer);
}

fn tell(out: &mut Vec<UiCommand>, list: Option<Vec<f64>>, answer: Answer) {
    if let Some(list) = list {
        out.push(UiCommand::Set {
            path: PATH,
            value: Some(Value::PerField(list)),
        });
    }
    if answer.done {
        out.push(UiCommand::ChangeDone);
    }
}

fn mean(list: &[f64]) -> f64 {
    list.iter().sum::<f64>() / list.len().max(1) as f64
}

/// Where the corona starts, where the gap sparks, and what the sheet says.
fn marks(view: &AppView<'_>, sheet_v: f64) -> Vec<Mark> {
    let mut marks = vec![Mark {
        value: sheet_v,
        text: "sheet",
        ink: Ink::Faint,
    }];
    if let Some(field) = view.fields.first() {
        marks.push(Mark {
            value: field.onset_v,
            text: "onset of the corona",
            ink: Ink::HighVoltage,
        });
        marks.push(Mark {
            value: field.spark_v,
            text: "the gap sparks",
            ink: Ink::Trouble,
        });
    }
    marks
}

/// What the fields reach, and what holds them.
fn reached_ui(ui: &mut Ui, view: &AppView<'_>, state: &UiState) {
    let Some(first) = view.fields.first() else {
        return;
    };
    let text = |value: f64| format(value, Dimension::Voltage, state.units);
    let mut line = format!(
        "corona from {} in clean gas, sparks at a peak of {}",
        text(first.onset_v),
        text(first.spark_v)
    );
    let held = |by: HeldBy| {
        view.fields
            .iter()
            .filter(|field| field.held_by == by)
            .count()
    };
    let (limited, sparking) = (held(HeldBy::CurrentLimit), held(HeldBy::Sparking));
    if limited > 0 {
        line += &format!("; {limited} of {} at the current limit", view.fields.len());
    }
    if sparking > 0 {
        line += &format!(
            "; {sparking} of {} held back by sparking",
            view.fields.len()
        );
    }
    ui.label(
        RichText::new(line)
            .size(SMALL)
            .color(Ink::Faint.colour(state.theme)),
    );
}
