//! How we know that a formula is right: for each a check value that stands outside this program, to be worked out anew.

use super::{
    OnPlant, find_formula, proofs_of_the_plant::PROOFS_OF_THE_PLANT,
    proofs_of_the_set::PROOFS_OF_THE_SET,
};
use crate::{
    conditions::{Conditions, Mixing, demonstration},
    physics::PhysicsError,
};

/// One value that a formula must give.
#[derive(Clone, Copy, Debug)]
pub struct Proof {
    /// Name of the formula.
    pub formula: &'static str,
    /// What goes in, for people.
    pub inputs: &'static str,
    /// What must come out, SI.
    pub expected: f64,
    /// How far off it may be, share of the expected value; of nothing, the value itself.
    pub within: f64,
    /// Where the value comes from.
    pub source: &'static str,
    pub(super) conditions: fn() -> Conditions,
    pub(super) size_m: Option<f64>,
    /// The time on the plant clock, where the formula needs one.
    pub(super) time: Option<Time>,
}

/// A time on the plant clock that a proof asks about.
#[derive(Clone, Copy, Debug)]
pub(super) struct Time {
    /// Conditions before the change.
    pub(super) before: fn() -> Conditions,
    /// How long the plant ran under them, hours.
    pub(super) settle_h: f64,
    /// How long the time is, hours.
    pub(super) hours: f64,
    /// The field that is meant, from 0.
    pub(super) field: usize,
}

const HOUR_S: f64 = 3600.0;

impl Proof {
    /// What comes out.
    ///
    /// # Errors
    /// The formula refused its inputs.
    pub fn compute(&self) -> Result<f64, PhysicsError> {
        let formula = find_formula(self.formula).ok_or_else(|| PhysicsError::Impossible {
            reason: format!("there is no formula {}", self.formula),
        })?;
        let conditions = (self.conditions)();
        match self.time {
            Some(time) => formula.value_on_plant(&OnPlant {
                before: &(time.before)(),
                settle_s: HOUR_S * time.settle_h,
                conditions: &conditions,
                time_s: HOUR_S * time.hours,
                field: time.field,
            }),
            None => formula.value(&conditions, self.size_m),
        }
    }

    /// Whether a value is the expected one.
    #[must_use]
    pub fn holds(&self, computed: f64) -> bool {
        let scale = if self.expected == 0.0 {
            1.0
        } else {
            self.expected.abs()
        };
        (computed - self.expected).abs() <= self.within * scale
    }
}

/// Every check value.
pub fn proofs() -> impl Iterator<Item = &'static Proof> {
    PROOFS
        .iter()
        .chain(PROOFS_OF_THE_PLANT)
        .chain(PROOFS_OF_THE_SET)
}

/// The proofs of a formula.
pub fn proofs_of(formula: &str) -> impl Iterator<Item = &'static Proof> {
    proofs().filter(move |proof| proof.formula == formula)
}

/// One migration velocity, full mixing, no losses: wA/Q is this number.
pub(super) fn ideal(deutsch: f64) -> Conditions {
    let mut conditions = demonstration();
    conditions.collector.sneakage = 0.0;
    conditions.rapping.reentrained = 0.0;
    conditions.gas.velocity_spread = 0.0;
    conditions.teaching.mixing = Some(Mixing::Full);
    let area = conditions.specific_collection_area_s_m();
    conditions.teaching.migration_velocity_m_s = Some(deutsch / area);
    conditions
}

fn ninety_per_cent() -> Conditions {
    ideal(10f64.ln())
}

pub(super) fn ninety_nine_per_cent() -> Conditions {
    ideal(100f64.ln())
}

fn half() -> Conditions {
    ideal(0.5)
}

/// The losses of the cost manual's example: 7 % past each of four fields, 14 % comes back.
fn lost() -> Conditions {
    let mut conditions = ideal(1.0);
    conditions.collector.sneakage = 0.07;
    conditions.rapping.reentrained = 0.14;
    conditions
}

fn slipping() -> Conditions {
    let mut conditions = ideal(6.9078);
    conditions.collector.sneakage = 0.05;
    conditions
}

fn uneven() -> Conditions {
    let mut conditions = ideal(100f64.ln());
    conditions.gas.velocity_spread = 0.25;
    conditions
}

fn at_30_kv() -> Conditions {
    let mut conditions = demonstration();
    conditions.electrical.voltage_v = vec![30e3; 4];
    conditions
}

/// Clean gas and wires of 5.4 mm: 45 kV make 3 kV/cm and nearly 20 nA/cm².
pub(super) fn by_hand() -> Conditions {
    let mut conditions = demonstration();
    conditions.dust.load_kg_m3 = 1e-6;
    conditions.collector.wire_diameter_m = 5.4e-3;
    conditions.electrical.voltage_v = vec![45e3; 4];
    conditions
}

pub(super) const fn row(
    (formula, size_m): (&'static str, Option<f64>),
    inputs: &'static str,
    conditions: fn() -> Conditions,
    (expected, within): (f64, f64),
    source: &'static str,
) -> Proof {
    Proof {
        formula,
        inputs,
        expected,
        within,
        source,
        conditions,
        size_m,
        time: None,
    }
}

pub(super) const BY_HAND: &str = "worked out by hand from the equation";
pub(super) const TEACHING: &str =
    "worked out by hand for the demonstration collector, from the equation and its constants";
const COST_MANUAL: &str =
    "worked out by hand from the US EPA cost manual's equation, from memory of it";

/// Check values of penetration, charge, speed and corona.
// One row a line, so that it reads as the table it is.
#[rustfmt::skip]
const PROOFS: &[Proof] = &[
    row(("deutsch_anderson_penetration", None), "wA/Q = 4.605, full mixing, no losses", ninety_nine_per_cent, (0.01, 1e-9), BY_HAND),
    row(("laminar_penetration", None), "wA/Q = 0.5, no mixing, no losses", half, (0.5, 1e-9), BY_HAND),
    row(("finite_mixing_penetration", None), "wA/Q = 4.605 with full mixing and no losses, where it must be Deutsch's law", ninety_nine_per_cent, (0.01, 1e-7), BY_HAND),
    row(("section_loss_penetration", None), "wA/Q = 6.9078 in four fields, 5 % of the gas past each", slipping, (2.297_513e-3, 1e-5), COST_MANUAL),
    row(("loss_floor", None), "four fields, 7 % past each, 14 % of the rest comes back", lost, (1.6064e-3, 1e-4), COST_MANUAL),
    row(("uneven_gas_penetration", None), "wA/Q = 4.605, velocity spread 25 %: 1.6325 times the even gas", uneven, (0.016_325, 0.005), "integral worked out with another program than this one"),
    row(("pilot_plant_penetration", None), "30 kV", at_30_kv, (0.057, 0.01), "US EPA pilot precipitator experiments 1978, published fit"),
    row(("deutsch_after_doubling_area", None), "efficiency 90 %, twice the area", ninety_per_cent, (0.01, 1e-7), BY_HAND),
    row(("matts_ohnfeldt_after_doubling_area", None), "efficiency 99 %, twice the area, k = 0.5", ninety_nine_per_cent, (1.4845e-3, 1e-3), BY_HAND),
    row(("deutsch_size_penetration", Some(5e-6)), "wA/Q = 4.605 for every size, full mixing, no losses", ninety_nine_per_cent, (0.01, 1e-6), BY_HAND),
    row(("deutsch_worst_size", None), "demonstration collector, 46 to 43 kV: 0.2 to 0.6 µm", demonstration, (0.4e-6, 0.5), "handbooks on fractional efficiency, from memory of US EPA APTI 413"),
    row(("cochet_worst_size", None), "3 kV/cm, εr = 5, 150 °C", by_hand, (0.34e-6, 0.3), "table of Cochet's law, ±0.1 µm"),
    row(("lawless_charge", Some(1e-6)), "1 µm, 3 kV/cm, 20 nA/cm², 10 s, εr = 5, 150 °C", by_hand, (210.0, 0.01), TEACHING),
    row(("pauthenier_charge", Some(10e-6)), "10 µm, 3 kV/cm, 20 nA/cm², 10 s, εr = 5", by_hand, (11_102.0, 0.003), TEACHING),
    row(("half_charge_time", None), "3 kV/cm, 20 nA/cm²", by_hand, (0.053, 0.02), TEACHING),
    row(("stokes_migration_velocity", Some(5e-6)), "5 µm, 3 kV/cm, 20 nA/cm², 150 °C", by_hand, (0.145, 0.01), TEACHING),
    row(("drag_migration_velocity", Some(10e-6)), "10 µm with 11,943 electrons, 3 kV/cm, 150 °C, 8 % moisture: 26.21 cm/s by Stokes, 97.2 % of it with Re = 0.091", by_hand, (0.2548, 0.01), TEACHING),
    row(("force_over_weight", Some(10e-6)), "10 µm of 2300 kg/m³, 3 kV/cm", by_hand, (49.0, 0.02), TEACHING),
    row(("white_peek_onset", None), "wire 2.7 mm, roughness 0.85, 150 °C", demonstration, (24.9e3, 0.003), TEACHING),
    row(("added_up_onset", None), "wire 2.7 mm, roughness 0.85, 150 °C", demonstration, (24.9e3, 0.003), TEACHING),
    row(("quadratic_current", None), "wires of 5.4 mm, 250 mm apart, plates 300 mm apart, 45 kV, 150 °C, 2.2·10⁻⁴ m²/(V·s)", by_hand, (1.723e-4, 0.01), TEACHING),
    row(("glow_depth", None), "wire 2.7 mm, roughness 0.85, 150 °C", demonstration, (0.9232e-3, 0.002), TEACHING),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::{FORMULAS, WITHOUT_OUTSIDE_VALUE};

    #[test]
    fn every_formula_passes_the_check_values_that_are_shown_of_it() {
        for formula in FORMULAS {
            let has_one = proofs_of(formula.name).count() > 0;
            let excused = WITHOUT_OUTSIDE_VALUE.contains(&formula.name);
            assert!(has_one != excused, "{}: check value?", formula.name);
        }
        let mut wrong = Vec::new();
        for proof in proofs() {
            let computed = proof.compute().expect("possible inputs");
            // A proof that another value passes too proves nothing.
            let other = 2.5 * computed + if computed == 0.0 { 1.0 } else { 0.0 };
            if !proof.holds(computed) || proof.holds(other) {
                wrong.push((proof.formula, computed, proof.expected));
            }
        }
        assert!(wrong.is_empty(), "{wrong:?}");
    }
}
