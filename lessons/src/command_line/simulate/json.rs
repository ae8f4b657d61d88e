//! `simulate --json`: one object, numbers in SI.

use ashlane_shared::{
    checks::Verdict,
    conditions::Conditions,
    count::Emission,
    physics::{PhysicsError, hopper::fill_time_s, layer::growth::growth_m_s},
    simulation::{GasAlong, HeldBy},
};
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
    layers: Vec<Layer>,
    hoppers: Vec<HopperRow>,
    emission: Emission,
    gas_path: &'s GasAlong,
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
    /// Around the charged zone, shares of the inlet mass.
    over_top_fraction: f64,
    through_hoppers_fraction: f64,
    /// Mean.
    voltage_v: f64,
    peak_voltage_v: f64,
    sparks_per_min: f64,
    held_by: HeldBy,
    current_a: f64,
    current_density_a_m2: f64,
}

/// The dust on the plates of a field.
#[derive(Serialize)]
struct Layer {
    field: usize,
    layer_m: f64,
    /// What it grows by between two raps.
    growth_m_s: f64,
}

/// The hoppers under a field, when all dust that stays on its plates falls into them in the long run.
#[derive(Serialize)]
struct HopperRow {
    field: usize,
    inflow_kg_s: f64,
    /// From empty to full; null where nothing falls in.
    fill_time_s: Option<f64>,
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
    let impossible = |error: PhysicsError| Failure::Physics {
        name: simulated.name.clone(),
        error,
    };
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
        layers: layers(simulated).map_err(impossible)?,
        hoppers: hoppers(simulated).map_err(impossible)?,
        emission: simulated.emission,
        gas_path: &simulated.gas_along,
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
            over_top_fraction: field.over_top.share,
            through_hoppers_fraction: field.through_hoppers.share,
            voltage_v: field.state.voltage_v,
            peak_voltage_v: field.state.peak_voltage_v,
            sparks_per_min: field.state.sparks_per_min,
            held_by: field.state.held_by,
            current_a: field.state.current_density_a_m2 * area_m2,
            current_density_a_m2: field.state.current_density_a_m2,
        })
        .collect()
}

/// What stays on the plates of each field, kg/s.
fn caught_kg_s(simulated: &Simulated) -> impl Iterator<Item = f64> {
    let inlet_kg_s = simulated.conditions.inlet_mass_kg_s();
    let fields = simulated.count.by_field.iter();
    fields.map(move |field| field.collected * inlet_kg_s)
}

fn layers(simulated: &Simulated) -> Result<Vec<Layer>, PhysicsError> {
    let conditions = &simulated.conditions;
    let (area_m2, density_kg_m3) = (
        simulated.field_area_m2(),
        conditions.dust.layer_density_kg_m3,
    );
    caught_kg_s(simulated)
        .zip(&conditions.rapping.layer_m)
        .zip(1..)
        .map(|((caught_kg_s, &layer_m), field)| {
            Ok(Layer {
                field,
                layer_m,
                growth_m_s: growth_m_s(caught_kg_s, area_m2, density_kg_m3)?,
            })
        })
        .collect()
}

fn hoppers(simulated: &Simulated) -> Result<Vec<HopperRow>, PhysicsError> {
    let hoppers = &simulated.conditions.hoppers;
    caught_kg_s(simulated)
        .zip(1..)
        .map(|(inflow_kg_s, field)| {
            let fill_time_s =
                fill_time_s(hoppers.volume_m3, hoppers.ash_density_kg_m3, inflow_kg_s)?;
            Ok(HopperRow {
                field,
                inflow_kg_s,
                fill_time_s: Some(fill_time_s).filter(|time_s| time_s.is_finite()),
            })
        })
        .collect()
}
