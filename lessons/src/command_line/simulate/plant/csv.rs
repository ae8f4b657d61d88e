//! `simulate --csv`: the readings of the plant clock as a table for other programs, in SI.

use std::path::Path;

use ashlane_shared::{
    conditions::sheet::write_atomically,
    plant::{FieldReading, PlantReading},
};

use crate::command_line::Failure;

/// A column: its name and its value, as text.
type Column<R> = (&'static str, fn(&R) -> String);

/// Columns of the whole collector.
const WHOLE: &[Column<PlantReading>] = &[
    ("time_s", |reading| reading.time_s.to_string()),
    ("penetration", |reading| {
        format!("{:.6e}", reading.penetration)
    }),
    ("emission_kg_m3", |reading| {
        format!("{:.6e}", reading.emission_kg_m3)
    }),
    ("opacity", |reading| format!("{:.6e}", reading.opacity)),
    ("peak_opacity", |reading| {
        format!("{:.6e}", reading.peak_opacity)
    }),
    ("silo_kg", |reading| format!("{:.6e}", reading.ash.silo_kg)),
    ("money", |reading| format!("{:.2}", reading.ash.money)),
];

/// Columns of each field; its number is added to the name.
const FIELD: &[Column<FieldReading>] = &[
    ("layer_m", |field| format!("{:.6e}", field.layer_m)),
    ("layer_kg", |field| format!("{:.6e}", field.layer_kg)),
    ("voltage_v", |field| format!("{:.1}", field.voltage_v)),
    ("metered_v", |field| format!("{:.1}", field.metered_v)),
    ("lowest_v", |field| format!("{:.1}", field.lowest_v)),
    ("highest_v", |field| format!("{:.1}", field.highest_v)),
    ("metered_a_m2", |field| {
        format!("{:.6e}", field.metered_a_m2)
    }),
    ("sparks_per_min", |field| {
        format!("{:.2}", field.sparks_per_min)
    }),
    ("layer_drop_v", |field| format!("{:.1}", field.layer_drop_v)),
    ("hopper_kg", |field| format!("{:.6e}", field.hopper_kg)),
    ("hopper_level", |field| format!("{:.6}", field.hopper_level)),
    ("hopper_alarm_s", |field| {
        format!("{:.1}", field.hopper_alarm_s)
    }),
    ("thickest_m", |field| format!("{:.6e}", field.thickest_m)),
    ("wire_coating_m", |field| {
        format!("{:.6e}", field.wire_coating_m)
    }),
];

/// Writes the whole table over time or nothing.
pub(super) fn write(path: &Path, readings: &[PlantReading]) -> Result<(), Failure> {
    Ok(write_atomically(path, csv(readings))?)
}

fn csv(readings: &[PlantReading]) -> String {
    let fields = readings.first().map_or(0, |reading| reading.fields.len());
    let whole = WHOLE.iter().map(|(name, _)| (*name).to_owned());
    let each =
        (1..=fields).flat_map(|field| FIELD.iter().map(move |(name, _)| format!("{name}_{field}")));
    let head: Vec<String> = whole.chain(each).collect();
    let rows = readings.iter().map(|reading| {
        let whole = WHOLE.iter().map(|(_, value)| value(reading));
        let each =
            (reading.fields.iter()).flat_map(|field| FIELD.iter().map(|(_, value)| value(field)));
        whole.chain(each).collect::<Vec<String>>()
    });
    let lines = std::iter::once(head).chain(rows);
    lines.fold(String::new(), |text, cells| text + &cells.join(",") + "\n")
}
