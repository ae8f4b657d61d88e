//! One field under its set: the voltage that it reaches with its dust, and what holds it there.

use std::sync::Arc;

use super::{
    DustCharge, FieldState, HeldBy,
    ripple::Ripple,
    state::{corona, wire_row},
    supply::{FieldSupply, SPARK_SCATTER},
};
use crate::{
    conditions::Conditions,
    physics::{
        PhysicsError,
        corona::{
            CoronaSolver, WireField, WireRow,
            solver::{CoronaSolution, Fineness},
        },
    },
};

/// Rounds in which the amount of dust is fitted to a current.
const BALANCING_ROUNDS: usize = 5;

/// Share that is kept of so much dust that no field carries the current through it.
const TOO_MUCH: f64 = 0.9;

/// Share of the way from the clean onset to the set's voltage that the dust may hold the onset back while current flows.
const MOST_HELD_BACK: f64 = 0.9999;

/// Share of the current's limit below which a field has no corona, if the dust that comes charged from the field before
/// holds it back alone.
const LEAST_SHARE: f64 = 1e-6;

/// A field sparks when it is wanted above this share of the mean voltage at which its peak reaches the spark voltage: what
/// the scatter of its gap lets happen some times a minute.
const SPARKS_FROM: f64 = 1.0 - 3.0 * SPARK_SCATTER;

/// Rounds of voltage and ripple with the same dust, and the change of voltage and current below which they agree.
const RIPPLE_ROUNDS: usize = 6;
const RIPPLE_AGREES: f64 = 2e-4;
/// The same while dust and field are still on their way.
pub(super) const RIPPLE_NEAR: f64 = 0.01;

/// The solver of one field with the limits of its set.
#[derive(Clone, Debug)]
pub(super) struct Set {
    solver: CoronaSolver<WireRow>,
    supply: FieldSupply,
    limit_a_m: f64,
    clean_onset_v: f64,
    ripple: Ripple,
    sparks: bool,
}

/// What the set aims for.
#[derive(Clone, Copy, Debug)]
struct Aim {
    /// Highest mean voltage without sparks, or the wanted one if that is lower, V.
    free_v: f64,
    /// Mean voltage that is left of it, V: less where it sparks.
    left_v: f64,
    /// Largest current of the field at mean voltage, A/m.
    limit_a_m: f64,
}

impl Set {
    /// The sets of all fields, in clean gas and without ripple.
    pub(super) fn all(conditions: &Conditions) -> Result<Vec<Self>, PhysicsError> {
        let row = wire_row(conditions)?;
        let electrical = &conditions.electrical;
        let limit_a_m2 = electrical
            .current_limit_a_m2
            .min(electrical.rated_current_a_m2);
        let limit_a_m = limit_a_m2 * 2.0 * row.pitch_m();
        let solver = CoronaSolver::new(row, corona(conditions), Fineness::default())?;
        let set = |field| {
            let supply = FieldSupply::new(conditions, field)?;
            Ok(Self {
                clean_onset_v: solver.onset_v(),
                solver: solver.clone(),
                limit_a_m,
                ripple: Ripple::NONE,
                sparks: supply.wanted_v > supply.spark_v,
                supply,
            })
        };
        (0..conditions.collector.fields).map(set).collect()
    }

    /// Least current that counts, A/m.
    pub(super) fn least_a_m(&self) -> f64 {
        LEAST_SHARE * self.limit_a_m
    }

    /// State and field with this dust in the gas and the ripple that is known; `near` saves rounds.
    pub(super) fn field(
        &mut self,
        dust: &DustCharge,
        near: Option<&CoronaSolution>,
    ) -> Result<(FieldState, WireField), PhysicsError> {
        if dust.mean_c_m3() == 0.0 {
            self.solver.clean();
        } else {
            self.solver
                .fill_with_dust(|depth_m| dust.at_c_m3(depth_m))?;
        }
        let aim = self.aim()?;
        // A voltage that no solution carries lies far above the limit of the current.
        let free = self
            .solver
            .at_voltage_from(aim.free_v, near)
            .ok()
            .filter(|free| free.current_a_m <= aim.limit_a_m);
        let (solution, held_by) = match free {
            Some(free) if self.sparks => (
                self.solver.at_voltage_from(aim.left_v, Some(&free))?,
                HeldBy::Sparking,
            ),
            Some(free) => (free, HeldBy::Setting),
            None => match self.solver.at_current_from(aim.limit_a_m, near) {
                Ok(limited) => (limited, HeldBy::CurrentLimit),
                // So much charge in the gas that the field turns back: no current flows through it.
                Err(_turned) if dust.mean_c_m3() > 0.0 => (
                    self.solver
                        .without_ions(aim.free_v.min(self.solver.onset_v())),
                    HeldBy::Setting,
                ),
                Err(error) => return Err(error),
            },
        };
        Ok(self.state(dust, solution, held_by))
    }

    /// State and field in which the set's half cycle has the mean current `current_a_m`, and the dust that goes with it: of
    /// the distribution of `dust`, as much as lets the set's voltage drive that current.
    pub(super) fn balanced(
        &mut self,
        dust: &DustCharge,
        current_a_m: f64,
        near: &CoronaSolution,
    ) -> Result<(FieldState, WireField, DustCharge), PhysicsError> {
        let aim = self.aim()?;
        let mut used = dust.clone();
        if current_a_m <= self.least_a_m() {
            let (state, wires) = self.field(&used, Some(near))?;
            return Ok((state, wires, used));
        }
        let current_a_m = (current_a_m / self.ripple.current_share).min(aim.limit_a_m);
        for _ in 0..BALANCING_ROUNDS {
            self.solver
                .fill_with_dust(|depth_m| used.at_c_m3(depth_m))?;
            let rise_v = self.solver.onset_v() - self.clean_onset_v;
            if rise_v <= 0.0 || aim.left_v <= self.clean_onset_v {
                break;
            }
            // Dust that starts the corona above the set's voltage lets no current flow: so much never gets its charge.
            let most_v = MOST_HELD_BACK * (aim.left_v - self.clean_onset_v);
            if rise_v > most_v {
                used.scale(most_v / rise_v);
                continue;
            }
            let Ok(there) = self.solver.at_current_from(current_a_m, Some(near)) else {
                used.scale(TOO_MUCH);
                continue;
            };
            if current_a_m >= aim.limit_a_m && there.voltage_v <= aim.free_v {
                // The limit holds the voltage back: the dust is what it is.
                break;
            }
            used.scale(((rise_v + aim.left_v - there.voltage_v) / rise_v).clamp(0.05, 20.0));
        }
        let (state, wires) = self.field(&used, Some(near))?;
        Ok((state, wires, used))
    }

    /// State and field with this dust, voltage and ripple in turn until they agree.
    pub(super) fn settled(
        &mut self,
        dust: &DustCharge,
        near: Option<&CoronaSolution>,
    ) -> Result<(FieldState, WireField), PhysicsError> {
        let (mut state, mut wires) = self.field(dust, near)?;
        for _ in 0..RIPPLE_ROUNDS {
            self.learn(state.held_by, wires.solution(), RIPPLE_AGREES)?;
            (state, wires) = self.field(dust, Some(wires.solution()))?;
            if self.ripple.is_of(wires.solution(), RIPPLE_AGREES) {
                break;
            }
        }
        Ok((state, wires))
    }

    /// Takes over the ripple about a state whose dust is still in the solver, unless it was known for a state that differs
    /// by less than a share of `within`.
    pub(super) fn learn(
        &mut self,
        held_by: HeldBy,
        solution: &CoronaSolution,
        within: f64,
    ) -> Result<(), PhysicsError> {
        if !self.ripple.is_of(solution, within) {
            // A field that sparks is looked at where it does.
            let peak_at_v = match held_by {
                HeldBy::Sparking => Some(self.aim()?.free_v),
                HeldBy::Setting | HeldBy::CurrentLimit => None,
            };
            let (supply, solver) = (&self.supply, &mut self.solver);
            self.ripple = Ripple::of(supply, solver, (solution, peak_at_v), &self.ripple)?;
            self.sparks = self.supply.wanted_v > SPARKS_FROM * self.strongest_v();
        }
        Ok(())
    }

    /// Mean current of the set's half cycle over the current of the field at mean voltage.
    pub(super) fn current_share(&self) -> f64 {
        self.ripple.current_share
    }

    /// Mean voltage at which the peak of the ripple sparks, V.
    fn strongest_v(&self) -> f64 {
        self.supply.spark_v / self.ripple.peak_share
    }

    fn aim(&self) -> Result<Aim, PhysicsError> {
        let limit_a_m = self.limit_a_m / self.ripple.current_share;
        let (free_v, left_v) = if self.sparks {
            let highest_v = self.strongest_v().min(self.supply.wanted_v);
            (highest_v, self.supply.sparking_mean_v(highest_v)?)
        } else {
            (self.supply.wanted_v, self.supply.wanted_v)
        };
        Ok(Aim {
            free_v,
            left_v,
            limit_a_m,
        })
    }

    fn state(
        &self,
        dust: &DustCharge,
        solution: CoronaSolution,
        held_by: HeldBy,
    ) -> (FieldState, WireField) {
        let row = self.solver.geometry().clone();
        let mobility = self.solver.corona().ion_mobility_m2_v_s;
        let sparks = held_by == HeldBy::Sparking && self.supply.sparks_per_min() > 0.0;
        let ripple = self.ripple;
        let wires = WireField::new(row, mobility, Arc::new(solution));
        let solution = wires.solution();
        let state = FieldState {
            wanted_v: self.supply.wanted_v,
            voltage_v: solution.voltage_v,
            peak_voltage_v: if sparks {
                self.supply.spark_v
            } else {
                ripple.peak_share * solution.voltage_v
            },
            held_by,
            sparks_per_min: if sparks {
                self.supply.sparks_per_min()
            } else {
                0.0
            },
            onset_v: self.clean_onset_v,
            dusty_onset_v: solution.onset_v,
            spark_v: self.supply.spark_v,
            current_density_a_m2: ripple.current_share * wires.plate_current_a_m2(),
            dust_charge_c_m3: dust.mean_c_m3(),
        };
        (state, wires)
    }
}
