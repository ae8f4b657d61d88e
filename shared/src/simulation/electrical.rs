//! What each electrical field reaches: the wanted voltage, unless the current limit or sparking holds it back.

use serde::{Deserialize, Serialize};

use crate::{
    conditions::Conditions,
    physics::{
        PhysicsError,
        corona::{FirstOrderField, WireRow, onset, quadratic_law},
        gas,
    },
};

/// What holds a field's voltage.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum HeldBy {
    /// The wanted voltage is reached.
    Setting,
    /// The mean current density on the plates is at its limit.
    CurrentLimit,
    /// The gap would spark.
    Sparking,
}

/// Electrical state of one field.
#[derive(Clone, Debug, PartialEq)]
pub struct FieldState {
    /// Voltage wanted, V.
    pub wanted_v: f64,
    /// Mean voltage reached, V.
    pub voltage_v: f64,
    /// What holds it there.
    pub held_by: HeldBy,
    /// Voltage at which the corona starts, V.
    pub onset_v: f64,
    /// Voltage at which the gap sparks, V.
    pub spark_v: f64,
    /// Mean current density on the plates, A/m².
    pub current_density_a_m2: f64,
}

/// The state of every field.
///
/// # Errors
/// A formula refused its inputs; the message names which.
pub fn field_states(conditions: &Conditions) -> Result<Vec<FieldState>, PhysicsError> {
    let collector = &conditions.collector;
    let row = WireRow::new(
        conditions.gap_m(),
        collector.wire_spacing_m,
        0.5 * collector.wire_diameter_m,
    )?;
    let delta = gas::relative_density(conditions.gas.temperature_k, conditions.gas.pressure_pa);
    let onset_v = onset::onset_voltage_v(
        &row,
        onset::peek_field_v_m(row.wire_radius_m(), delta, collector.wire_roughness),
    );
    let wanted = &conditions.electrical.voltage_v;
    Ok((0..collector.fields)
        .map(|field| {
            let wanted_v = wanted
                .get(field)
                .or_else(|| wanted.last())
                .copied()
                .unwrap_or(0.0);
            field_state(conditions, &row, onset_v, wanted_v)
        })
        .collect())
}

impl FieldState {
    /// The electric field that goes with this state, to first order in the current.
    ///
    /// # Errors
    /// The electrodes or voltages are impossible; the message names which.
    pub fn first_order_field(
        &self,
        conditions: &Conditions,
    ) -> Result<FirstOrderField, PhysicsError> {
        let collector = &conditions.collector;
        let row = WireRow::new(
            conditions.gap_m(),
            collector.wire_spacing_m,
            0.5 * collector.wire_diameter_m,
        )?;
        FirstOrderField::new(row, self.onset_v, self.voltage_v)
    }
}

fn field_state(conditions: &Conditions, row: &WireRow, onset_v: f64, wanted_v: f64) -> FieldState {
    let mobility = conditions.ion_mobility_m2_v_s();
    let limits = &conditions.electrical;
    let spark_v = conditions.spark_field_v_m() * conditions.gap_m();
    let limit_current_a_m = limits.current_limit_a_m2 * 2.0 * row.pitch_m();
    let limit_v = quadratic_law::voltage_v(row, mobility, onset_v, limit_current_a_m);
    let (voltage_v, held_by) = if wanted_v <= spark_v.min(limit_v) {
        (wanted_v, HeldBy::Setting)
    } else if spark_v <= limit_v {
        (spark_v, HeldBy::Sparking)
    } else {
        (limit_v, HeldBy::CurrentLimit)
    };
    let current_a_m = quadratic_law::current_a_m(row, mobility, onset_v, voltage_v);
    FieldState {
        wanted_v,
        voltage_v,
        held_by,
        onset_v,
        spark_v,
        current_density_a_m2: quadratic_law::plate_current_a_m2(row, current_a_m),
    }
}
