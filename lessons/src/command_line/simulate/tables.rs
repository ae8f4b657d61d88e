//! The tables of the report: agreement, by field, by size.

use ashlane_shared::{
    count::Counted,
    plant::PlantReading,
    simulation::HeldBy,
    units::{Dimension, UnitSystem, display, number_text},
};

use super::Simulated;
use crate::command_line::{
    numbers::{decimals, percent, percent_short, thousands},
    table::{Side, Table},
};

/// Digits of a value that is not a share.
const DIGITS: usize = 3;

/// Penetration and efficiency by count and by theory.
pub(super) fn agreement(simulated: &Simulated) -> String {
    let agreement = &simulated.agreement;
    let error = 3.0 * agreement.counted.standard_error;
    let digits = decimals(100.0 * error);
    let mut table = Table::new(&[
        ("Agreement", Side::Left),
        ("penetration %", Side::Right),
        ("± 3 σ", Side::Right),
        ("efficiency %", Side::Right),
        ("", Side::Left),
    ])
    .indented(0);
    let mut row = |name: &str, share: f64, error: String, note: String| {
        table.row([
            format!("  {name}"),
            percent(share, digits),
            error,
            percent(1.0 - share, digits),
            note,
        ]);
    };
    row(
        "counted",
        agreement.counted.share,
        percent(error, digits),
        format!(
            "N = {}, seed {}",
            thousands(agreement.parcels),
            simulated.seed
        ),
    );
    let theories = [
        (
            "finite mixing",
            agreement.finite_mixing,
            "the solver with everything in",
        ),
        (
            "Deutsch–Anderson",
            agreement.deutsch_anderson,
            "full mixing, no losses",
        ),
        ("laminar", agreement.laminar, "no mixing, no losses"),
    ];
    for (name, share, note) in theories {
        row(name, share, String::new(), note.to_owned());
    }
    table.text()
}

/// Voltage, current and catch of every field.
pub(super) fn by_field(simulated: &Simulated) -> String {
    let mut table = Table::new(&[
        ("By field", Side::Left),
        ("mean kV", Side::Right),
        ("peak kV", Side::Right),
        ("held by", Side::Left),
        ("sparks/min", Side::Right),
        ("nA/cm²", Side::Right),
        ("mA", Side::Right),
        ("collected %", Side::Right),
    ])
    .indented(0);
    let shown = |value: f64, dimension: Dimension| {
        number_text(display(value, dimension, UnitSystem::Si).0, DIGITS)
    };
    let area_m2 = simulated.field_area_m2();
    for (index, field) in simulated.count.by_field.iter().enumerate() {
        let state = &field.state;
        let density = state.metered_a_m2();
        table.row([
            format!("  {}", index + 1),
            shown(state.metered_v(), Dimension::Voltage),
            shown(state.metered_peak_v(), Dimension::Voltage),
            held(state.held_by).to_owned(),
            format!("{:.0}", state.sparks_per_min),
            shown(density, Dimension::CurrentDensity),
            shown(density * area_m2, Dimension::Current),
            percent_short(field.collected),
        ]);
    }
    table.text()
}

fn held(by: HeldBy) -> &'static str {
    match by {
        HeldBy::Setting => "setting",
        HeldBy::CurrentLimit => "current limit",
        HeldBy::Supply => "supply",
        HeldBy::Sparking => "sparking",
    }
}

/// Rows of the table over time that are printed.
const PRINTED: usize = 13;

/// The plant clock over time: as many rows as are easily read.
pub(super) fn plant_table(readings: &[PlantReading]) -> String {
    let fields = readings.first().map_or(0, |reading| reading.fields.len());
    let names: Vec<[String; 2]> = (1..=fields)
        .map(|field| [format!("layer {field} mm"), format!("hopper {field} %")])
        .collect();
    let heads = names.iter().flat_map(|[layer, hopper]| {
        [
            (layer.as_str(), Side::Right),
            (hopper.as_str(), Side::Right),
        ]
    });
    let mut columns = vec![
        ("Hours", Side::Right),
        ("penetration %", Side::Right),
        ("mg/m³", Side::Right),
        ("opacity %", Side::Right),
    ];
    columns.extend(heads);
    let mut table = Table::new(&columns).indented(0);
    let last = readings.len().saturating_sub(1);
    let step = last.div_ceil(PRINTED - 1).max(1);
    let shown = (0..readings.len()).filter(|index| index % step == 0 || *index == last);
    for reading in shown.map(|index| &readings[index]) {
        let mut cells = vec![
            number_text(reading.time_s / 3600.0, DIGITS),
            percent_short(reading.penetration),
            number_text(1e6 * reading.emission_kg_m3, DIGITS),
            number_text(100.0 * reading.opacity, DIGITS),
        ];
        for field in &reading.fields {
            cells.push(number_text(1e3 * field.layer_m, DIGITS));
            cells.push(number_text((100.0 * field.hopper_filled).round(), DIGITS));
        }
        table.row(cells);
    }
    table.text()
}

/// Penetration of every size class.
pub(super) fn by_size(simulated: &Simulated) -> String {
    let mut table = Table::new(&[
        ("By size, µm", Side::Left),
        ("of inlet %", Side::Right),
        ("penetration %", Side::Right),
        ("± 3 σ", Side::Right),
        ("expected %", Side::Right),
    ])
    .indented(0);
    let expected = &simulated.theory.by_size;
    for (index, class) in simulated.count.by_size.iter().enumerate() {
        let (diameter, _) = display(class.diameter_m, Dimension::GrainSize, UnitSystem::Si);
        let (share, error) = counted(class.counted);
        table.row([
            format!("  {}", number_text(diameter, DIGITS)),
            percent_short(class.inlet_share),
            share,
            error,
            expected
                .get(index)
                .map_or_else(String::new, |&share| percent_short(share)),
        ]);
    }
    table.text()
}

/// A counted share and its error with the digits that the error allows.
fn counted(counted: Counted) -> (String, String) {
    let error = 3.0 * counted.standard_error;
    let digits = decimals(100.0 * error).saturating_sub(1);
    (percent(counted.share, digits), percent(error, digits))
}
