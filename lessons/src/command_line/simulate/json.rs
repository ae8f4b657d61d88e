//! `simulate --json`: one object, numbers in SI.

use ashlane_shared::{checks::Verdict, conditions::Conditions, simulation::HeldBy};
use serde::Serialize;

use super::Simulated;
use crate::{
    command_line::{Failure, output::one_object},
    engine::NOTICE,
};

#[derive(Serialize)]
struct Output<'s> {
    notice: &'static str,
    conditions: &'s Conditions,
    parcels: u64,
    seed: u64,
    penetration: Penetration,
    agreement: Compared,
    deutsch_number: f64,
    /// 0 for full mixing, null for none.
    peclet_number: Option<f64>,
    diffusivity_m2_s: Option<f64>,
    by_size: Vec<Size>,
    by_field: Vec<Field>,
    mass_kg_per_s: Mass,
    mass_relative_error: f64,
}

#[derive(Serialize)]
struct Penetration {
    counted: f64,
    /// One standard error.
    standard_error: f64,
    finite_mixing: f64,
    deutsch_anderson: f64,
    laminar: f64,
}

#[derive(Serialize)]
struct Compared {
    difference: f64,
    tolerance: f64,
    verdict: Verdict,
}

#[derive(Serialize)]
struct Size {
    diameter_m: f64,
    inlet_share: f64,
    counted: f64,
    standard_error: f64,
    expected: Option<f64>,
}

#[derive(Serialize)]
struct Field {
    field: usize,
    collected_fraction: f64,
    /// Mean.
    voltage_v: f64,
    peak_voltage_v: f64,
    sparks_per_min: f64,
    held_by: HeldBy,
    current_a: f64,
    current_density_a_m2: f64,
}

/// Rapping is not simulated yet: all dust that is caught stays on the plates, and the stream is steady.
#[derive(Serialize)]
struct Mass {
    inlet: f64,
    layers: f64,
    hoppers: f64,
    taken_away: f64,
    outlet: f64,
    airborne_change: f64,
}

impl Mass {
    fn new(simulated: &Simulated) -> Self {
        let inlet = simulated.conditions.inlet_mass_kg_s();
        let caught = simulated.caught();
        Self {
            inlet,
            layers: caught * inlet,
            hoppers: 0.0,
            taken_away: 0.0,
            outlet: simulated.count.penetration.share * inlet,
            airborne_change: 0.0,
        }
    }

    /// What the books are off by, over the inlet.
    fn relative_error(&self) -> f64 {
        let rest =
            self.layers + self.hoppers + self.taken_away + self.outlet + self.airborne_change;
        (self.inlet - rest).abs() / self.inlet
    }
}

/// The object as text.
pub(super) fn json(simulated: &Simulated) -> Result<String, Failure> {
    let Simulated {
        conditions,
        count,
        theory,
        agreement,
        ..
    } = simulated;
    let mass = Mass::new(simulated);
    let output = Output {
        notice: NOTICE,
        conditions,
        parcels: count.parcels,
        seed: simulated.seed,
        penetration: Penetration {
            counted: count.penetration.share,
            standard_error: count.penetration.standard_error,
            finite_mixing: theory.finite_mixing,
            deutsch_anderson: theory.deutsch_anderson,
            laminar: theory.laminar,
        },
        agreement: Compared {
            difference: count.penetration.share - theory.finite_mixing,
            tolerance: agreement.tolerance,
            verdict: agreement.verdict,
        },
        deutsch_number: theory.deutsch_number,
        peclet_number: theory.peclet_number,
        diffusivity_m2_s: theory.diffusivity_m2_s,
        by_size: sizes(simulated),
        by_field: fields(simulated),
        mass_relative_error: mass.relative_error().max(count.imbalance),
        mass_kg_per_s: mass,
    };
    one_object(&output)
}

fn sizes(simulated: &Simulated) -> Vec<Size> {
    let expected = &simulated.theory.by_size;
    let classes = simulated.count.by_size.iter().enumerate();
    classes
        .map(|(index, class)| Size {
            diameter_m: class.diameter_m,
            inlet_share: class.inlet_share,
            counted: class.counted.share,
            standard_error: class.counted.standard_error,
            expected: expected.get(index).copied(),
        })
        .collect()
}

fn fields(simulated: &Simulated) -> Vec<Field> {
    let area_m2 = simulated.field_area_m2();
    let fields = simulated.count.by_field.iter().enumerate();
    fields
        .map(|(index, field)| Field {
            field: index + 1,
            collected_fraction: field.collected,
            voltage_v: field.state.voltage_v,
            peak_voltage_v: field.state.peak_voltage_v,
            sparks_per_min: field.state.sparks_per_min,
            held_by: field.state.held_by,
            current_a: field.state.current_density_a_m2 * area_m2,
            current_density_a_m2: field.state.current_density_a_m2,
        })
        .collect()
}
