//! The run on the plant clock for people: the table over time, its check, its books.

use ashlane_shared::plant::PlantReading;

use super::{HOUR_S, PlantRun, SetTo};
use crate::{
    command_line::{
        Opened,
        numbers::{percent_short, thousands},
        simulate::{ash::ash, gas::stations, tables::plant_table},
    },
    engine::NOTICE,
};

pub(super) fn report(run: &PlantRun<'_>, opened: &Opened) -> String {
    // What is left of rounding is nothing.
    let tonnes = |kg: f64| format!("{:.3} t", kg.round().max(0.0) / 1e3);
    let mass = &run.mass_kg;
    let word = if run.check.agrees {
        "agree"
    } else {
        "DISAGREE"
    };
    format!(
        "{} ({}), {} h on the plant clock\n{NOTICE}\n\n{}\n\
         {}{}{}Long run as it stands at the end: {} % penetration ({} % efficiency) by the counted rates with their raps, {} % by the solver with a steady loss: {word} within {} %.\n\
         N = {}, seed {}. Plates are struck group by group; what grows on them acts on voltage, current and catch.\n\
         mg/m³ of gas as it is; opacity in a stack of 5 m (invented).\n{}\n\
         At the end:\n{}\n\
         Mass balance: in {}, on the plates {}, in the hoppers {}, taken away {}, out {}.\n\
         The books are off by {:.0e} of the inlet.\n",
        run.conditions.title,
        opened.name,
        run.hours,
        plant_table(&run.readings),
        sets(run.readings.last()),
        layers(run.readings.last()),
        faults(&run.faults),
        percent_short(run.check.by_rates),
        percent_short(1.0 - run.check.by_rates),
        percent_short(run.check.finite_mixing),
        percent_short(run.check.tolerance),
        thousands(run.parcels as u64),
        run.seed,
        ash(run.conditions, &run.readings),
        stations(&run.gas_path),
        tonnes(mass.inlet),
        tonnes(mass.layers),
        tonnes(mass.hoppers),
        tonnes(mass.taken_away),
        tonnes(mass.outlet),
        run.mass_relative_error,
    )
}

/// What the meters of the sets show at the end, and what that lets through in the long run.
fn sets(reading: Option<&PlantReading>) -> String {
    let Some(reading) = reading else {
        return String::new();
    };
    let fields = reading.fields.iter().enumerate();
    let words: Vec<String> = fields
        .map(|(field, set)| {
            format!(
                "field {} {:.1} kV, {:.1} nA/cm², {:.0} sparks/min",
                field + 1,
                set.metered_v / 1e3,
                set.metered_a_m2 * 1e5,
                set.sparks_per_min
            )
        })
        .collect();
    format!(
        "Sets at the end: {}.\nWith what lies on plates and wires by then {} % penetration ({} % efficiency) in the long run.\n",
        words.join(" · "),
        percent_short(reading.long_run),
        percent_short(1.0 - reading.long_run),
    )
}

/// What the current does in the layers at the end.
fn layers(reading: Option<&PlantReading>) -> String {
    let fields = reading.map(|reading| reading.fields.as_slice());
    let words: Vec<String> = fields
        .unwrap_or_default()
        .iter()
        .enumerate()
        .map(|(field, layer)| {
            let back = if layer.back_corona {
                ", BACK CORONA"
            } else {
                ""
            };
            format!(
                "field {} {:.2} kV/cm and {:.2} kV{back}",
                field + 1,
                layer.layer_field_v_m / 1e5,
                layer.layer_drop_v / 1e3
            )
        })
        .collect();
    format!(
        "In the layers at the end (E = jρ): {}.\n",
        words.join(" · ")
    )
}

/// A line for every fault.
fn faults(set: &[SetTo]) -> String {
    let line = |fault: &SetTo| {
        format!(
            "Fault {} of severity {} from hour {} {}.\n",
            fault.name,
            fault.severity,
            fault.from_s / HOUR_S,
            fault
                .to_s
                .map_or_else(|| "on".to_owned(), |to_s| format!("to {}", to_s / HOUR_S)),
        )
    };
    set.iter().map(line).collect()
}
