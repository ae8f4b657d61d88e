//! How the gas on the board behaves: a fan that runs up, air that is exchanged, water that condenses.

use ashlane_shared::{
    conditions::Conditions,
    physics::{
        PhysicsError,
        gas_path::{leakage::OutsideAir, saturation::boiling_temperature_k},
    },
};

/// Time in which the fan comes within 1/e of its flow, s. Teaching value, no source.
pub(super) const FAN_S: f64 = 60.0;
/// Flow of a purge over that of the sheet, where nothing else is said. Teaching value, no source.
pub const PURGE_SHARE: f64 = 0.3;
/// Outside of the casing, K. Teaching value, no source.
pub(super) const OUTSIDE_K: f64 = OutsideAir::TEACHING.temperature_k;

/// Volume in which gas is exchanged: the fields between casing walls, m³.
pub(super) fn volume_m3(conditions: &Conditions) -> f64 {
    conditions.face_area_m2() * conditions.length_m()
}

/// A purge at a flow that stays the same.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Purge {
    /// Volume in which gas is exchanged, m³.
    pub volume_m3: f64,
    /// Flow, m³/s.
    pub flow_m3_s: f64,
    /// Volume changes that are wanted.
    pub changes: f64,
    /// Time that it takes, s.
    pub time_s: f64,
}

impl Purge {
    /// At the flow that a fan usually gives for it.
    ///
    /// `t = n V / Q`
    pub(super) fn usual(conditions: &Conditions, changes: f64) -> Self {
        let volume_m3 = volume_m3(conditions);
        let flow_m3_s = PURGE_SHARE * conditions.gas.flow_m3_s;
        Self {
            volume_m3,
            flow_m3_s,
            changes,
            time_s: changes * volume_m3 / flow_m3_s,
        }
    }
}

/// Gas that a fan moves in a time while it runs from one flow towards another, m³, and its flow then, m³/s.
///
/// `Q(t) = Q₁ + (Q₀ − Q₁) e^(−t/τ)`, `∫Q dt = Q₁ t + (Q₀ − Q₁) τ (1 − e^(−t/τ))`
pub(super) fn moved(from_m3_s: f64, to_m3_s: f64, time_s: f64) -> (f64, f64) {
    let left = (-time_s / FAN_S).exp();
    let away = from_m3_s - to_m3_s;
    (
        to_m3_s * time_s + away * FAN_S * (1.0 - left),
        to_m3_s + away * left,
    )
}

/// Dew point of the water in the sheet's gas, K. Acid condenses at a higher temperature: that one belongs to the site.
///
/// # Errors
/// No water, or more than the saturation line has.
pub(super) fn dew_point_k(conditions: &Conditions) -> Result<f64, PhysicsError> {
    let gas = &conditions.gas;
    boiling_temperature_k(gas.moisture * gas.pressure_pa)
}
