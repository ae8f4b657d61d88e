//! How long a row of hoppers takes to its level alarm: by hand from the shape of a cut pyramid and from the count.

use super::super::TwoWays;
use crate::{
    conditions::Conditions,
    plant::{ALARM_LEVEL, OUTLET_SHARE, PlantReading, Rates},
};

/// Ash of one row up to the level alarm, m³.
///
/// `V [(λ+(1−λ)ζ)³ − λ³]/(1 − λ³)`: a pyramid less its tip, λ the outlet over the top, ζ the level of the alarm.
///
/// # Source
/// Euclid, *Elements* XII: a pyramid is a third of its prism, and similar ones go with the cube of their sides.
///
/// # Validity
/// Outlet and top of the same shape, level ash.
#[must_use]
pub fn alarm_volume_m3(conditions: &Conditions) -> f64 {
    let cube = |side: f64| side * side * side;
    let tip = cube(OUTLET_SHARE);
    let side = OUTLET_SHARE + (1.0 - OUTLET_SHARE) * ALARM_LEVEL;
    conditions.hoppers.volume_m3 * (cube(side) - tip) / (1.0 - tip)
}

/// Time to the level alarm of a reading against that by hand, s: missing volume times density over what the count says the
/// field catches.
///
/// `t = (V_alarm ρ − m)/(C Q η_f)`
///
/// The count is of plates as the sheet has them; what lies on them by now changes its catch as it changes the rates.
///
/// Nothing where the alarm is on, or where the field catches nothing.
#[must_use]
pub fn hours_to_alarm(
    conditions: &Conditions,
    rates: &Rates,
    reading: &PlantReading,
    field: usize,
    caught: f64,
) -> Option<TwoWays> {
    let row = reading.fields.get(field)?;
    let readings = std::slice::from_ref(reading);
    let caught = caught * changed_by_wear(conditions, rates, readings, field)?;
    let missing_kg =
        alarm_volume_m3(conditions) * conditions.hoppers.ash_density_kg_m3 - row.hopper_kg;
    let expected = missing_kg / (conditions.inlet_mass_kg_s() * caught);
    (expected.is_finite() && missing_kg > 0.0).then_some(TwoWays {
        shown: row.hopper_alarm_s,
        expected,
    })
}

/// When the level of a row first crosses its alarm against the time by hand, s: since the row was emptied last, or since
/// the first reading.
///
/// By hand: ash up to the alarm, and what came to lie on the plates meanwhile, over what the count says the field catches.
///
/// `t = (V_alarm ρ − m₀ + Δm_layer)/(C Q η_f)`
///
/// Nothing where the level does not cross.
#[must_use]
pub fn time_of_alarm(
    conditions: &Conditions,
    rates: &Rates,
    readings: &[PlantReading],
    field: usize,
    caught: f64,
) -> Option<TwoWays> {
    let row = |index: usize| readings[index].fields.get(field);
    let alarmed = |reading: &PlantReading| {
        let row = reading.fields.get(field);
        row.is_some_and(|row| row.hopper_level >= ALARM_LEVEL)
    };
    let crosses = readings.iter().position(alarmed)?;
    let before = crosses.checked_sub(1)?;
    let is_emptied = |index: &usize| {
        let rows = row(index - 1).zip(row(*index));
        rows.is_some_and(|(one, other)| other.hopper_kg < one.hopper_kg)
    };
    let start = (1..=before).rev().find(is_emptied).unwrap_or(0);
    let (first, low, high) = (row(start)?, row(before)?, row(crosses)?);
    let alarm_kg = alarm_volume_m3(conditions) * conditions.hoppers.ash_density_kg_m3;
    let part = (alarm_kg - low.hopper_kg) / (high.hopper_kg - low.hopper_kg);
    let at = |from: f64, to: f64| from + part * (to - from);
    let caught = caught * changed_by_wear(conditions, rates, &readings[start..=crosses], field)?;
    let laid_kg = at(low.layer_kg, high.layer_kg) - first.layer_kg;
    Some(TwoWays {
        shown: at(readings[before].time_s, readings[crosses].time_s) - readings[start].time_s,
        expected: (alarm_kg - first.hopper_kg + laid_kg) / (conditions.inlet_mass_kg_s() * caught),
    })
}

/// What comes to lie in a field by the rates in the mean wear of some readings over that with which they were counted.
fn changed_by_wear(
    conditions: &Conditions,
    rates: &Rates,
    readings: &[PlantReading],
    field: usize,
) -> Option<f64> {
    let reentrained = conditions.returned_share();
    let worn = rates
        .in_the_mean_of(conditions, readings)
        .arriving(reentrained);
    Some(worn.get(field)? / rates.arriving(reentrained).get(field)?)
}
