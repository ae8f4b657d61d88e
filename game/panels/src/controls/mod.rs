//! The conditions that can be turned while the dust flies: slider, typed value, unit and reference mark for each.

mod choices;
mod slider;
mod voltage;

use ashlane_shared::{
    conditions::{Sizes, Value, find_key},
    units::{Dimension, format},
};
use egui::{RichText, ScrollArea, Ui};

use crate::{
    command::UiCommand,
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

const GAS: [Row; 3] = [
    Row {
        path: "gas.flow",
        label: "Gas flow",
    },
    Row {
        path: "gas.temperature",
        label: "Temperature",
    },
    Row {
        path: "gas.velocity_spread",
        label: "Velocity spread",
    },
];
const COLLECTOR: [Row; 2] = [
    Row {
        path: "collector.plate_spacing",
        label: "Plate spacing",
    },
    Row {
        path: "collector.sneakage",
        label: "Sneakage per field",
    },
];
const DUST: [Row; 3] = [
    Row {
        path: "dust.load",
        label: "Dust load",
    },
    Row {
        path: "dust.mass_median_diameter",
        label: "Median size",
    },
    Row {
        path: "rapping.reentrained",
        label: "Rapping loss",
    },
];

/// All controls.
pub(crate) fn controls_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    state: &UiState,
    out: &mut Vec<UiCommand>,
) {
    ScrollArea::vertical()
        .auto_shrink([false, false])
        .show(ui, |ui| {
            heading(ui, "Gas", state.theme);
            rows_ui(ui, view, state, &GAS, out);
            derived_ui(ui, view, state);
            heading(ui, "Electrical", state.theme);
            voltage::voltage_ui(ui, view, state, out);
            heading(ui, "Collector", state.theme);
            rows_ui(ui, view, state, &COLLECTOR, out);
            heading(ui, "Dust", state.theme);
            rows_ui(ui, view, state, &DUST, out);
            sizes_note(ui, view, state);
            heading(ui, "Mixing and models", state.theme);
            choices::choices_ui(ui, view, state, out);
            ui.add_space(10.0);
        });
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
    for row in rows {
        row_ui(ui, view, state, row, out);
    }
}

fn row_ui(ui: &mut Ui, view: &AppView<'_>, state: &UiState, row: &Row, out: &mut Vec<UiCommand>) {
    let Some(key) = find_key(row.path) else {
        return;
    };
    // A table of sizes has no median to turn.
    let (Some(Value::Number(value)), Some(range), Some(allowed), Some(dimension)) = (
        key.get(view.conditions),
        key.slider(),
        key.allowed(),
        key.dimension(),
    ) else {
        return;
    };
    let reference = match key.get(view.sheet) {
        Some(Value::Number(value)) => vec![Mark {
            value,
            text: "sheet",
            ink: Ink::Faint,
        }],
        _ => Vec::new(),
    };
    let control = Control {
        label: row.label,
        symbol: key.symbol,
        meaning: key.meaning,
        value,
        slider: range,
        allowed,
        dimension,
        logarithmic: range.min > 0.0 && range.max / range.min > 12.0,
        marks: reference,
    };
    let answer = control_ui(ui, &control, state);
    if let Some(value) = answer.value {
        out.push(UiCommand::Set {
            path: row.path,
            value: Some(Value::Number(value)),
        });
    }
    if answer.done {
        out.push(UiCommand::ChangeDone);
    }
}

/// What follows from the gas flow.
fn derived_ui(ui: &mut Ui, view: &AppView<'_>, state: &UiState) {
    let conditions = view.conditions;
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
    let text = match &view.conditions.dust.sizes {
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
