//! The readings board: what the operator's panel shows of every field and of the gas, quiet and without colours of alarm.

mod drawing;

pub use drawing::drawing;

use ashlane_shared::{
    conditions::Conditions,
    physics::gas_path::pressure::Station,
    simulation::{FieldState, HeldBy},
    units::{Dimension, number_text},
};

use crate::elevation::ElevationView;

/// A row of the board: its name and a cell for every column.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// What is read.
    pub name: &'static str,
    /// One cell a field, or one for the whole machine.
    pub cells: Vec<String>,
}

/// Plate area of one field, m².
fn area_m2(conditions: &Conditions) -> f64 {
    conditions.collecting_area_m2() / conditions.collector.fields as f64
}

/// What the milliammeter of a field shows, A.
pub(crate) fn amperes(state: &FieldState, conditions: &Conditions) -> f64 {
    state.metered_a_m2() * area_m2(conditions)
}

/// What every field shows.
#[must_use]
pub fn field_rows(view: &ElevationView<'_>) -> Vec<Row> {
    let row = |name, cell: &dyn Fn(&FieldState) -> String| Row {
        name,
        cells: view.fields.iter().map(cell).collect(),
    };
    let amperes = |state: &FieldState| amperes(state, view.conditions);
    let mut rows = vec![
        row("kV, mean", &|state| {
            view.text(state.metered_v(), Dimension::Voltage)
        }),
        row("kV, peak", &|state| {
            view.text(state.metered_peak_v(), Dimension::Voltage)
        }),
        row("current", &|state| {
            view.text(amperes(state), Dimension::Current)
        }),
        row("sparks a minute", &|state| {
            format!("{:.0}", state.sparks_per_min)
        }),
        row("power", &|state| {
            view.text(state.metered_v() * amperes(state), Dimension::Power)
        }),
        row("held by", &|state| held(state).to_owned()),
    ];
    let of_hoppers = |name, cell: &dyn Fn(usize) -> Option<String>| Row {
        name,
        cells: (0..view.fields.len())
            .map(|field| cell(field).unwrap_or_else(|| "–".to_owned()))
            .collect(),
    };
    rows.push(of_hoppers("hopper level", &|field| {
        let row = view.hoppers.get(field)?;
        let alarm = if row.alarm { ", HIGH" } else { "" };
        Some(format!("{:.0} % high{alarm}", 100.0 * row.level))
    }));
    rows.push(of_hoppers("plate rappers", &|field| {
        let plates = view.plates.get(field)?;
        Some(plates.turn.map_or_else(
            || "at rest".to_owned(),
            |turn| format!("blow {} of {}", turn.blow.0, turn.blow.1),
        ))
    }));
    rows
}

/// What the instruments at both ends show.
#[must_use]
pub fn gas_rows(view: &ElevationView<'_>) -> Vec<Row> {
    let ends = [Station::InletDuct, Station::OutletDuct];
    let cells = |cell: &dyn Fn(&ashlane_shared::simulation::GasStation) -> String| {
        ends.iter()
            .map(|end| {
                let station = view.gas.and_then(|gas| gas.at(*end));
                station.map_or_else(|| "–".to_owned(), cell)
            })
            .collect()
    };
    vec![
        Row {
            name: "temperature",
            cells: cells(&|end| view.text(end.temperature_k, Dimension::Temperature)),
        },
        Row {
            name: "oxygen, dry",
            cells: cells(&|end| {
                format!(
                    "{} %",
                    number_text((1e3 * end.oxygen_dry).round() / 10.0, 3)
                )
            }),
        },
        Row {
            name: "draught",
            cells: cells(&|end| view.text(end.static_gauge_pa, Dimension::Pressure)),
        },
        Row {
            name: "gas velocity",
            cells: cells(&|end| view.text(end.velocity_m_s, Dimension::Velocity)),
        },
    ]
}

pub(crate) fn held(state: &FieldState) -> &'static str {
    if state.wanted_v <= 0.0 {
        return "off";
    }
    match state.held_by {
        HeldBy::Setting => "setting",
        HeldBy::CurrentLimit => "current limit",
        HeldBy::Supply => "supply",
        HeldBy::Sparking => "sparking",
    }
}
