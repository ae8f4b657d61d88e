//! The dust of a time on the plant clock: what came in against where it is, and what leaves once everything is struck.

use super::super::TwoWays;
use crate::{
    conditions::Conditions,
    plant::{PlantReading, Rates},
};

/// Dust that was found from the first to the last reading against dust that came in, kg: on plates and wires, in
/// hoppers, in the silo, and out of the stack.
///
/// `Δm_layers + Δm_hoppers + Δm_silo + Σ c Q Δt` against `C Q Δt`
///
/// Nothing of fewer than two readings.
#[must_use]
pub fn dust_balance(conditions: &Conditions, readings: &[PlantReading]) -> Option<TwoWays> {
    let (first, last) = ends(readings)?;
    let held_kg = |reading: &PlantReading| {
        let fields = reading.fields.iter();
        let kept_kg: f64 = fields.map(|field| field.layer_kg + field.hopper_kg).sum();
        kept_kg + reading.ash.silo_kg
    };
    Some(TwoWays {
        shown: held_kg(last) - held_kg(first) + left_kg(conditions, readings),
        expected: conditions.dust.load_kg_m3 * gas_m3(conditions, first, last),
    })
}

/// Penetration of the readings, with what the layers still owe, against that of the long run by the rates.
///
/// `(m_left + RR Σ_f Δm_f L_f)/(C Q Δt)` with `L_f` of [`Rates::escaping_from_behind`] against
/// [`Rates::long_run_penetration`]: the events one after the other against a sum in closed form.
///
/// What lies on plates and wires changes the rates meanwhile: the sum is the mean over time of those of every reading, and
/// what the layers owe is by the rates of their mean.
///
/// Nothing of fewer than two readings.
#[must_use]
pub fn settled_penetration(
    conditions: &Conditions,
    rates: &Rates,
    readings: &[PlantReading],
) -> Option<TwoWays> {
    let (first, last) = ends(readings)?;
    let reentrained = conditions.returned_share();
    let rates = rates.in_the_mean_of(conditions, readings);
    let escaping = rates.escaping_from_behind(reentrained);
    let fields = first.fields.iter().zip(&last.fields).zip(&escaping);
    let owed_kg: f64 = fields
        .map(|((before, after), share)| reentrained * (after.layer_kg - before.layer_kg) * share)
        .sum();
    let inlet_kg = conditions.dust.load_kg_m3 * gas_m3(conditions, first, last);
    Some(TwoWays {
        shown: (left_kg(conditions, readings) + owed_kg) / inlet_kg,
        expected: mean_long_run(readings),
    })
}

/// Mean over time of the penetration that the rates of every reading have in the long run.
pub(super) fn mean_long_run(readings: &[PlantReading]) -> f64 {
    let spans = || {
        readings
            .windows(2)
            .map(|pair| (pair, pair[1].time_s - pair[0].time_s))
    };
    let total_s: f64 = spans().map(|(_, span_s)| span_s).sum();
    let sum_s: f64 = spans()
        .map(|(pair, span_s)| 0.5 * (pair[0].long_run + pair[1].long_run) * span_s)
        .sum();
    sum_s / total_s
}

/// First and last of some readings between which time went by.
fn ends(readings: &[PlantReading]) -> Option<(&PlantReading, &PlantReading)> {
    let (first, last) = (readings.first()?, readings.last()?);
    (last.time_s > first.time_s).then_some((first, last))
}

/// Gas that passed, m³.
fn gas_m3(conditions: &Conditions, first: &PlantReading, last: &PlantReading) -> f64 {
    conditions.gas.flow_m3_s * (last.time_s - first.time_s)
}

/// Dust that left after the first reading, kg: each reading has the mean load since the one before.
fn left_kg(conditions: &Conditions, readings: &[PlantReading]) -> f64 {
    let pairs = readings.windows(2);
    pairs
        .map(|pair| pair[1].emission_kg_m3 * gas_m3(conditions, &pair[0], &pair[1]))
        .sum()
}
