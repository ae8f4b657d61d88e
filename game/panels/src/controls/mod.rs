//! The conditions that can be turned while the dust flies: slider, typed value, unit and reference mark for each.

mod choices;
mod slider;
mod voltage;

use ashlane_shared::{
    conditions::{Conditions, Key, Range, Shape, Sizes, Value, find_key},
    units::{Dimension, format},
};
use egui::{RichText, ScrollArea, Ui};

use crate::{
    command::UiCommand,
    compare::compare_controls_ui,
    playback::playback_ui,
    state::UiState,
    theme::{Ink, SMALL, Theme},
    view::AppView,
};
use slider::{Control, Mark, control_ui};

/// One row: the key it turns and what it is called.
struct Row {
    path: &'static str,
    label: &'static str,
}

const fn row(path: &'static str, label: &'static str) -> Row {
    Row { path, label }
}

const GAS: [Row; 3] = [
    row("gas.flow", "Gas flow"),
    row("gas.temperature", "Temperature"),
    row("gas.velocity_spread", "Velocity spread"),
];
const COLLECTOR: [Row; 4] = [
    row("collector.fields", "Fields"),
    row("collector.field_length", "Field length"),
    row("collector.plate_spacing", "Plate spacing"),
    row("collector.sneakage", "Sneakage per field"),
];
const DUST: [Row; 3] = [
    row("dust.load", "Dust load"),
    row("dust.mass_median_diameter", "Median size"),
    row("rapping.reentrained", "Rapping loss"),
];

/// What a control is called.
#[must_use]
pub fn label(key: &Key) -> &str {
    let rows = GAS.iter().chain(&COLLECTOR).chain(&DUST);
    let mut named = rows.filter(|row| row.path == key.path);
    match named.next() {
        Some(row) => row.label,
        None => match key.path {
            voltage::PATH => "Voltage",
            choices::MIXING => "Mixing across",
            _ => key.meaning.trim_end_matches('.'),
        },
    }
}

/// All controls; in a lesson the free ones first and the others locked.
pub(crate) fn controls_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    scrolled(ui, |ui| list_ui(ui, view, state, out));
}

/// The same below the playback, where a small screen has no other place for it.
pub(crate) fn controls_with_playback_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    scrolled(ui, |ui| {
        playback_ui(ui, view, state, out);
        list_ui(ui, view, state, out);
    });
}

fn scrolled(ui: &mut Ui, content: impl FnOnce(&mut Ui)) {
    ScrollArea::vertical()
        .id_salt("controls")
        .auto_shrink([false, false])
        .show(ui, content);
}

fn list_ui(ui: &mut Ui, view: &AppView<'_>, state: &mut UiState, out: &mut Vec<UiCommand>) {
    compare_controls_ui(ui, view, state, out);
    let state = &*state;
    if let Some(free) = view.free() {
        free_ui(ui, view, state, free, out);
    }
    ui.add_enabled_ui(view.free().is_none(), |ui| {
        ui.push_id("all", |ui| all_ui(ui, view, state, out));
    });
    ui.add_space(10.0);
}

/// The controls that a lesson leaves free, or the one of a comparison.
fn free_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    state: &UiState,
    free: &[&'static str],
    out: &mut Vec<UiCommand>,
) {
    let (open, closed) = if view.lessons.is_some() {
        ("Free in this step", "Locked in this step")
    } else {
        ("The one that is free", "Locked while A is pinned")
    };
    heading(ui, open, state.theme);
    if free.is_empty() {
        ui.label("None at the moment.");
    }
    for &path in free {
        match path {
            voltage::PATH => voltage::voltage_ui(ui, view, state, out),
            choices::MIXING => choices::mixing_ui(ui, view, state, out),
            _ if choices::choice_ui(ui, view, state, path, out) => {}
            _ => {
                let Some(key) = find_key(path) else { continue };
                let label = label(key);
                row_ui(ui, view, state, &Row { path, label }, out);
            }
        }
    }
    ui.separator();
    ui.label(
        RichText::new(closed)
            .size(SMALL)
            .color(Ink::Faint.colour(state.theme)),
    );
}

fn all_ui(ui: &mut Ui, view: &AppView<'_>, state: &UiState, out: &mut Vec<UiCommand>) {
    heading(ui, "Gas", state.theme);
    rows_ui(ui, view, state, &GAS, out);
    derived_ui(ui, view, state);
    if !is_above(view, voltage::PATH) {
        heading(ui, "Electrical", state.theme);
        voltage::voltage_ui(ui, view, state, out);
    }
    heading(ui, "Collector", state.theme);
    rows_ui(ui, view, state, &COLLECTOR, out);
    heading(ui, "Dust", state.theme);
    rows_ui(ui, view, state, &DUST, out);
    sizes_note(ui, view, state);
    heading(ui, "Mixing and models", state.theme);
    choices::choices_ui(ui, view, state, out);
}

/// Whether a control stands already among the free ones of a lesson.
fn is_above(view: &AppView<'_>, path: &str) -> bool {
    view.free().is_some_and(|free| free.contains(&path))
}

fn heading(ui: &mut Ui, text: &str, theme: Theme) {
    ui.add_space(6.0);
    ui.label(
        RichText::new(text.to_uppercase())
            .size(SMALL)
            .color(Ink::Faint.colour(theme))
            .strong(),
    );
}

fn rows_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    state: &UiState,
    rows: &[Row],
    out: &mut Vec<UiCommand>,
) {
    for row in rows.iter().filter(|row| !is_above(view, row.path)) {
        row_ui(ui, view, state, row, out);
    }
}

fn row_ui(ui: &mut Ui, view: &AppView<'_>, state: &UiState, row: &Row, out: &mut Vec<UiCommand>) {
    let Some(key) = find_key(row.path) else {
        return;
    };
    // A table of sizes has no median to turn.
    let (Some(value), Some((range, allowed))) = (number(key, view.controls), ranges(key)) else {
        return;
    };
    let reference = number(key, view.sheet).map(|value| Mark {
        value,
        text: "sheet",
        ink: Ink::Faint,
    });
    let whole = matches!(key.shape, Shape::Count { .. });
    let control = Control {
        label: row.label,
        symbol: key.symbol,
        meaning: key.meaning,
        value,
        slider: range,
        allowed,
        dimension: key.dimension().unwrap_or(Dimension::Number),
        logarithmic: !whole && range.min > 0.0 && range.max / range.min > 12.0,
        whole,
        marks: reference.into_iter().collect(),
    };
    let answer = control_ui(ui, &control, state);
    if let Some(value) = answer.value {
        let value = if whole {
            Value::Count(value.round() as usize)
        } else {
            Value::Number(value)
        };
        out.push(UiCommand::Set {
            path: row.path,
            value: Some(value),
        });
    }
    if answer.done {
        out.push(UiCommand::ChangeDone);
    }
}

/// What the slider offers, and what may be typed.
fn ranges(key: &Key) -> Option<(Range, Range)> {
    if let Shape::Count {
        min, max, sample, ..
    } = key.shape
    {
        let range = |max: usize| Range {
            min: min as f64,
            max: max as f64,
        };
        // Three times the usual count is as far as a slider is of use.
        return Some((range(max.min(3 * sample)), range(max)));
    }
    key.slider().zip(key.allowed())
}

/// A number or a count as a number.
fn number(key: &Key, conditions: &Conditions) -> Option<f64> {
    match key.get(conditions) {
        Some(Value::Number(value)) => Some(value),
        Some(Value::Count(count)) => Some(count as f64),
        _ => None,
    }
}

/// What follows from the gas flow.
fn derived_ui(ui: &mut Ui, view: &AppView<'_>, state: &UiState) {
    let conditions = view.controls;
    let units = state.units;
    let velocity = format(conditions.gas_velocity_m_s(), Dimension::Velocity, units);
    let time = format(conditions.treatment_time_s(), Dimension::Time, units);
    let area = format(
        conditions.specific_collection_area_s_m(),
        Dimension::SpecificArea,
        units,
    );
    let text = format!("gives {velocity}, {time} in the fields, SCA {area}");
    ui.label(
        RichText::new(text)
            .size(SMALL)
            .color(Ink::Faint.colour(state.theme)),
    );
}

fn sizes_note(ui: &mut Ui, view: &AppView<'_>, state: &UiState) {
    let text = match &view.controls.dust.sizes {
        Sizes::LogNormal {
            geometric_deviation,
            ..
        } => {
            format!("log-normal, geometric deviation {geometric_deviation:.2}")
        }
        Sizes::Table { finer, .. } => format!("sizes from a table of {} points", finer.len()),
    };
    ui.label(
        RichText::new(text)
            .size(SMALL)
            .color(Ink::Faint.colour(state.theme)),
    );
}
