//! What each electrical field reaches, as the rest of the library reads it; its wires and its corona by the sheet.

use serde::{Deserialize, Serialize};

use crate::{
    conditions::{Conditions, FieldDefects},
    physics::{
        PhysicsError,
        corona::{WireRow, onset, solver::Corona},
        gas,
    },
};

/// What holds a field's voltage.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum HeldBy {
    /// The wanted voltage is reached.
    Setting,
    /// The mean current of the set is at its limit.
    CurrentLimit,
    /// The set gives no more.
    Supply,
    /// The gap sparks at the peak of the ripple.
    Sparking,
}

/// Electrical state of one field.
#[derive(Clone, Debug, PartialEq)]
pub struct FieldState {
    /// Voltage wanted, V.
    pub wanted_v: f64,
    /// Mean voltage reached, V; of a field that sparks, over whole times from spark to spark.
    pub voltage_v: f64,
    /// Peak voltage: the highest that the ripple of the set reaches, V; of a field that sparks, the spark voltage.
    pub peak_voltage_v: f64,
    /// What holds it there.
    pub held_by: HeldBy,
    /// Sparks per minute: the number that the control aims for where sparking holds the voltage, else 0.
    pub sparks_per_min: f64,
    /// Voltage at which the corona starts in clean gas, V.
    pub onset_v: f64,
    /// Voltage at which it starts with the dust that is in the gas, V.
    pub dusty_onset_v: f64,
    /// Voltage at which the gap sparks, V.
    pub spark_v: f64,
    /// Mean current of the set over the plate area, A/m²: what its milliammeter shows, of a field that sparks from spark to
    /// spark. More than that of the
    /// field at mean voltage ([`WireField::plate_current_a_m2`](crate::physics::corona::WireField::plate_current_a_m2)),
    /// because the current grows faster than the voltage.
    pub current_density_a_m2: f64,
    /// Mean current that goes past the gas, over insulators or a short, over the plate area, A/m²: the milliammeter shows it
    /// too.
    pub leakage_a_m2: f64,
    /// Voltage that is lost in the layer on the plates, V.
    pub layer_drop_v: f64,
    /// Field in the layer, V/m.
    pub layer_field_v_m: f64,
    /// Whether the layer has broken down and glows: back corona.
    pub back_corona: bool,
    /// Share of their charge that grains keep: less than 1 under back corona, whose ions have the other sign.
    pub charge_share: f64,
    /// Negative ions in the gas over those of the solved field: more than 1 under back corona, whose solved field has only
    /// what is left of them beside the positive ones.
    pub ion_share: f64,
    /// Mean charge of the dust in the gas, C/m³.
    pub dust_charge_c_m3: f64,
    /// What the kilovolt meter shows over the voltage: 1 of a right one.
    pub meter_share: f64,
}

impl FieldState {
    /// What the milliammeter shows over the plate area, A/m².
    #[must_use]
    pub fn metered_a_m2(&self) -> f64 {
        self.current_density_a_m2 + self.leakage_a_m2
    }

    /// What the kilovolt meter shows, V.
    #[must_use]
    pub fn metered_v(&self) -> f64 {
        self.meter_share * self.voltage_v
    }

    /// The highest that it has shown, V.
    #[must_use]
    pub fn metered_peak_v(&self) -> f64 {
        self.meter_share * self.peak_voltage_v
    }

    /// Mean voltage across the gap, without that which is lost in the layer, V.
    #[must_use]
    pub fn gap_v(&self) -> f64 {
        self.voltage_v - self.layer_drop_v
    }
}

/// What is wrong with a field, 0 for the first.
pub(crate) fn defects(conditions: &Conditions, field: usize) -> FieldDefects {
    conditions.defects.get(field).copied().unwrap_or_default()
}

/// The wire row of one field, with what sticks to its wires.
pub(super) fn wire_row_of(conditions: &Conditions, field: usize) -> Result<WireRow, PhysicsError> {
    let collector = &conditions.collector;
    WireRow::new(
        conditions.gap_m(),
        collector.wire_spacing_m,
        wire_radius_m(conditions, field),
    )
}

/// The corona of the wires of one field, with what sticks to them.
pub(super) fn corona_of(conditions: &Conditions, field: usize) -> Corona {
    let delta = gas::relative_density(conditions.gas.temperature_k, conditions.gas.pressure_pa);
    Corona {
        onset_field_v_m: onset::peek_field_v_m(
            wire_radius_m(conditions, field),
            delta,
            conditions.collector.wire_roughness,
        ),
        ion_mobility_m2_v_s: conditions.ion_mobility_m2_v_s(),
    }
}

fn wire_radius_m(conditions: &Conditions, field: usize) -> f64 {
    0.5 * conditions.collector.wire_diameter_m + defects(conditions, field).wire_coating_m
}

/// The wire row of a collector.
///
/// # Errors
/// Lengths that make no row; the message names which.
pub fn wire_row(conditions: &Conditions) -> Result<WireRow, PhysicsError> {
    let collector = &conditions.collector;
    WireRow::new(
        conditions.gap_m(),
        collector.wire_spacing_m,
        0.5 * collector.wire_diameter_m,
    )
}

/// The corona of clean wires: Peek's field at their gas and roughness, and the mobility of the ions.
#[must_use]
pub fn corona(conditions: &Conditions) -> Corona {
    let mut clean = conditions.clone();
    clean.defects.clear();
    corona_of(&clean, 0)
}
