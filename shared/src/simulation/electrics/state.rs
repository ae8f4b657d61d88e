//! What each electrical field reaches: the wanted voltage, unless the current limit or sparking holds it back.

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::DustCharge;
use crate::{
    conditions::Conditions,
    physics::{
        PhysicsError,
        corona::{
            CoronaSolver, WireField, WireRow, onset,
            solver::{Corona, CoronaSolution, Fineness},
        },
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
    /// Voltage at which the corona starts in clean gas, V.
    pub onset_v: f64,
    /// Voltage at which it starts with the dust that is in the gas, V.
    pub dusty_onset_v: f64,
    /// Voltage at which the gap sparks, V.
    pub spark_v: f64,
    /// Mean current density on the plates, A/m².
    pub current_density_a_m2: f64,
    /// Mean charge of the dust in the gas, C/m³.
    pub dust_charge_c_m3: f64,
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

/// The corona of its wires: Peek's field at their gas and roughness, and the mobility of the ions.
#[must_use]
pub fn corona(conditions: &Conditions) -> Corona {
    let delta = gas::relative_density(conditions.gas.temperature_k, conditions.gas.pressure_pa);
    Corona {
        onset_field_v_m: onset::peek_field_v_m(
            0.5 * conditions.collector.wire_diameter_m,
            delta,
            conditions.collector.wire_roughness,
        ),
        ion_mobility_m2_v_s: conditions.ion_mobility_m2_v_s(),
    }
}

/// Rounds in which the amount of dust is fitted to a current.
const BALANCING_ROUNDS: usize = 4;

/// Share of the current's limit below which a field has no corona, if the dust that comes charged from the field before
/// holds it back alone.
const LEAST_SHARE: f64 = 1e-6;

/// The solver of one collector with the limits of its sets.
#[derive(Clone, Debug)]
pub(super) struct Sets {
    solver: CoronaSolver<WireRow>,
    wanted_v: Vec<f64>,
    spark_v: f64,
    limit_a_m: f64,
    clean_onset_v: f64,
}

impl Sets {
    pub(super) fn new(conditions: &Conditions) -> Result<Self, PhysicsError> {
        let row = wire_row(conditions)?;
        let limit_a_m = conditions.electrical.current_limit_a_m2 * 2.0 * row.pitch_m();
        let solver = CoronaSolver::new(row, corona(conditions), Fineness::default())?;
        Ok(Self {
            clean_onset_v: solver.onset_v(),
            solver,
            wanted_v: (0..conditions.collector.fields)
                .map(|field| conditions.wanted_voltage_v(field))
                .collect(),
            spark_v: conditions.spark_field_v_m() * conditions.gap_m(),
            limit_a_m,
        })
    }

    /// Least current that counts, A/m.
    pub(super) fn least_a_m(&self) -> f64 {
        LEAST_SHARE * self.limit_a_m
    }

    /// State and field of one electrical field with this dust in its gas; `near` saves rounds.
    pub(super) fn field(
        &mut self,
        field: usize,
        dust: &DustCharge,
        near: Option<&CoronaSolution>,
    ) -> Result<(FieldState, WireField), PhysicsError> {
        if dust.mean_c_m3() == 0.0 {
            self.solver.clean();
        } else {
            self.solver
                .fill_with_dust(|depth_m| dust.at_c_m3(depth_m))?;
        }
        let wanted_v = self.wanted_v[field];
        let (set_v, unlimited) = if wanted_v <= self.spark_v {
            (wanted_v, HeldBy::Setting)
        } else {
            (self.spark_v, HeldBy::Sparking)
        };
        // A voltage that no solution carries lies far above the limit of the current.
        let free = self
            .solver
            .at_voltage_from(set_v, near)
            .ok()
            .filter(|free| free.current_a_m <= self.limit_a_m);
        let (solution, held_by) = match free {
            Some(free) => (free, unlimited),
            None => (
                self.solver.at_current_from(self.limit_a_m, near)?,
                HeldBy::CurrentLimit,
            ),
        };
        Ok(self.state(field, dust, solution, held_by))
    }

    /// State and field with the current `current_a_m`, and the dust that goes with it: of the distribution of `dust`, as
    /// much as lets the set's voltage drive that current.
    pub(super) fn balanced(
        &mut self,
        field: usize,
        dust: &DustCharge,
        current_a_m: f64,
        near: &CoronaSolution,
    ) -> Result<(FieldState, WireField, DustCharge), PhysicsError> {
        let set_v = self.wanted_v[field].min(self.spark_v);
        let mut used = dust.clone();
        if current_a_m <= self.least_a_m() {
            let (state, wires) = self.field(field, &used, Some(near))?;
            return Ok((state, wires, used));
        }
        let current_a_m = current_a_m.min(self.limit_a_m);
        for _ in 0..BALANCING_ROUNDS {
            self.solver
                .fill_with_dust(|depth_m| used.at_c_m3(depth_m))?;
            let rise_v = self.solver.onset_v() - self.clean_onset_v;
            if rise_v <= 0.0 {
                break;
            }
            let there = self.solver.at_current_from(current_a_m, Some(near))?;
            if current_a_m >= self.limit_a_m && there.voltage_v <= set_v {
                // The limit holds the voltage back: the dust is what it is.
                break;
            }
            used.scale(((rise_v + set_v - there.voltage_v) / rise_v).clamp(0.05, 20.0));
        }
        let (state, wires) = self.field(field, &used, Some(near))?;
        Ok((state, wires, used))
    }

    fn state(
        &self,
        field: usize,
        dust: &DustCharge,
        solution: CoronaSolution,
        held_by: HeldBy,
    ) -> (FieldState, WireField) {
        let row = self.solver.geometry().clone();
        let mobility = self.solver.corona().ion_mobility_m2_v_s;
        let state = FieldState {
            wanted_v: self.wanted_v[field],
            voltage_v: solution.voltage_v,
            held_by,
            onset_v: self.clean_onset_v,
            dusty_onset_v: solution.onset_v,
            spark_v: self.spark_v,
            current_density_a_m2: solution.current_a_m / (2.0 * row.pitch_m()),
            dust_charge_c_m3: dust.mean_c_m3(),
        };
        (state, WireField::new(row, mobility, Arc::new(solution)))
    }
}
