//! One field under its set: the voltage that it reaches with its dust, and what holds it there.

use std::sync::Arc;

use super::{
    DustCharge, FieldState, HeldBy,
    layer::LayerLoad,
    missing::Missing,
    operating::Operation,
    ripple::{Ripple, SparksAt},
    state::{corona_of, defects, wire_row_of},
    supply::{FieldSupply, SPARK_SCATTER},
};
use crate::{
    conditions::Conditions,
    physics::{
        PhysicsError,
        corona::{
            CoronaSolver, WireField, WireRow,
            onset::onset_voltage_v,
            quadratic_law,
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

/// Share of the current that breaks the layer from which on it is looked whether it does.
const BREAKING: f64 = 0.95;

/// A field sparks when it is wanted above this share of the mean voltage at which its peak reaches the spark voltage: what
/// the scatter of its gap lets happen some times a minute.
pub(super) const SPARKS_FROM: f64 = 1.0 - 3.0 * SPARK_SCATTER;

/// Rounds of voltage and ripple with the same dust, and the change of voltage and current below which they agree.
const RIPPLE_ROUNDS: usize = 6;
const RIPPLE_AGREES: f64 = 2e-4;
/// The same while dust and field are still on their way.
pub(super) const RIPPLE_NEAR: f64 = 0.01;

/// The solver of one field with the limits of its set.
#[derive(Clone, Debug)]
pub(super) struct Set {
    pub(super) solver: CoronaSolver<WireRow>,
    pub(super) supply: FieldSupply,
    pub(super) layer: LayerLoad,
    /// Largest mean current of the set over the wires, A/m.
    pub(super) limit_a_m: f64,
    /// Conductance past the gas over the wires, S/m.
    pub(super) leakage_s_m: f64,
    clean_onset_v: f64,
    pub(super) ripple: Ripple,
    /// Current of a frame out of the middle over that of one in it.
    displaced_share: f64,
    pub(super) sparks: bool,
    /// Voltage that the layer takes where the gap just sparks, V.
    pub(super) drop_at_spark_v: f64,
    /// What a set gives that has lost some of its half cycles.
    pub(super) missing: Option<Missing>,
    /// Mean gap voltage at which the breakdown of the layer sparks, where it was found to, V.
    broken_at_v: Option<f64>,
}

/// What the set aims for, as gap voltages where it sparks and as its own voltages where it does not.
#[derive(Clone, Copy, Debug)]
pub(super) struct Aim {
    /// Highest mean voltage without sparks, or the wanted one if that is lower, V.
    pub(super) free_v: f64,
    /// Mean voltage that is left of it, V: less where it sparks.
    pub(super) left_v: f64,
    /// Largest current of the field at mean voltage, A/m.
    pub(super) limit_a_m: f64,
}

impl Set {
    /// The sets of all fields, in clean gas and without ripple.
    pub(super) fn all(conditions: &Conditions) -> Result<Vec<Self>, PhysicsError> {
        let electrical = &conditions.electrical;
        let limit_a_m2 = electrical
            .current_limit_a_m2
            .min(electrical.rated_current_a_m2);
        let mut solvers: Vec<CoronaSolver<WireRow>> = Vec::new();
        let mut set = |field| {
            let row = wire_row_of(conditions, field)?;
            let known = solvers.iter().find(|known| *known.geometry() == row);
            let solver = match known {
                Some(known) => known.clone(),
                None => {
                    let wires = corona_of(conditions, field);
                    let solver = CoronaSolver::new(row, wires, Fineness::default())?;
                    solvers.push(solver.clone());
                    solver
                }
            };
            let supply = FieldSupply::new(conditions, field)?;
            let pitch_m = solver.geometry().pitch_m();
            Ok(Self {
                clean_onset_v: solver.onset_v(),
                limit_a_m: limit_a_m2 * 2.0 * pitch_m,
                leakage_s_m: supply.leakage_s * 2.0 * pitch_m / supply.plate_area_m2,
                layer: LayerLoad::new(conditions, field)?,
                displaced_share: displaced_share(conditions, field, &solver, &supply)?,
                solver,
                ripple: Ripple::NONE,
                sparks: supply.wanted_v > supply.spark_v,
                drop_at_spark_v: 0.0,
                missing: None,
                broken_at_v: None,
                supply,
            })
        };
        (0..conditions.collector.fields).map(&mut set).collect()
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
        let operation = self.operate(dust.mean_c_m3() > 0.0, near)?;
        self.broken_at_v = operation.broken_at_v;
        Ok(self.state(dust, operation))
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
        if current_a_m >= BREAKING * self.unbroken_a_m() * self.current_share() {
            let (state, wires) = self.field(&used, Some(near))?;
            if self.has_broken(&state) {
                // The layer holds the current, whatever the set drives: the dust is what it is.
                return Ok((state, wires, used));
            }
        }
        let current_a_m = (current_a_m / self.current_share()).min(aim.limit_a_m);
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
            let reached_v = self.aimed_v(&there);
            let limited = current_a_m >= aim.limit_a_m || !self.is_within_limit(&there);
            if limited && reached_v <= aim.free_v {
                // The limit holds the voltage back: the dust is what it is.
                break;
            }
            used.scale(((rise_v + aim.left_v - reached_v) / rise_v).clamp(0.05, 20.0));
        }
        let (state, wires) = self.field(&used, Some(near))?;
        Ok((state, wires, used))
    }

    /// Whether the layer has broken down in the state that was just found.
    fn has_broken(&self, state: &FieldState) -> bool {
        self.broken_at_v.is_some() || state.back_corona
    }

    /// Mean current of the half cycle that the set drives in a state that was just found, A/m: up to what breaks the layer.
    pub(super) fn driven_a_m(&self, state: &FieldState, solution: &CoronaSolution) -> f64 {
        let current_a_m = if self.has_broken(state) {
            self.unbroken_a_m()
        } else {
            solution.current_a_m
        };
        current_a_m * self.current_share()
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
            let sparks_at = match (held_by, self.broken_at_v) {
                (HeldBy::Sparking, Some(broken_at_v)) => Some(SparksAt::Mean(broken_at_v)),
                (HeldBy::Sparking, None) => Some(SparksAt::Peak(self.aim()?.free_v)),
                (HeldBy::Setting | HeldBy::CurrentLimit | HeldBy::Supply, _) => None,
            };
            let (supply, solver) = (&self.supply, &mut self.solver);
            self.ripple = Ripple::of(supply, solver, (solution, sparks_at), &self.ripple)?;
            if !self.layer.is_none() {
                // So much voltage that no solution carries it is never reached.
                let strongest = self
                    .solver
                    .at_voltage_from(self.strongest_v(), Some(solution));
                self.drop_at_spark_v = strongest.map_or(0.0, |strongest| {
                    self.terminal_v(&strongest) - strongest.voltage_v
                });
            }
            let share = self.supply.missing_half_cycles;
            if share > 0.0 {
                self.missing = self.missing(share, solution)?;
            }
            self.sparks =
                self.supply.wanted_v > SPARKS_FROM * (self.strongest_v() + self.drop_at_spark_v);
        }
        Ok(())
    }

    /// Mean current of the set's half cycle over the current of the field at mean voltage.
    pub(super) fn current_share(&self) -> f64 {
        match self.missing {
            Some(missing) => missing.current_share,
            None => self.ripple.current_share * self.displaced_share,
        }
    }

    /// Mean voltage of the gap at which the peak of the ripple sparks, V.
    pub(super) fn strongest_v(&self) -> f64 {
        self.supply.spark_v / self.ripple.peak_share
    }

    pub(super) fn aim(&self) -> Result<Aim, PhysicsError> {
        let limit_a_m = self.limit_a_m / self.current_share();
        let (free_v, left_v) = if let Some(missing) = self.missing {
            (missing.gap_v, missing.gap_v)
        } else if self.sparks {
            let wanted_v = self.supply.wanted_v - self.drop_at_spark_v;
            let highest_v = self.strongest_v().min(wanted_v);
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

    fn state(&self, dust: &DustCharge, operation: Operation) -> (FieldState, WireField) {
        let Operation {
            solution,
            held_by,
            density_a_m2,
            ion_share,
            broken_at_v,
        } = operation;
        let row = self.solver.geometry().clone();
        let mobility = self.solver.corona().ion_mobility_m2_v_s;
        let sparks = held_by == HeldBy::Sparking && self.supply.sparks_per_min() > 0.0;
        let ripple = self.ripple;
        let wires = WireField::new(row, mobility, Arc::new(solution));
        let solution = wires.solution();
        let drop_v = self.layer.drop_v(density_a_m2);
        let back_corona = density_a_m2 > self.layer.unbroken_a_m2() * (1.0 + 1e-9);
        let gap_spark_v = match broken_at_v {
            Some(broken_at_v) => broken_at_v * ripple.peak_share,
            None if back_corona => self.layer.streamer_v.min(self.supply.spark_v),
            None => self.supply.spark_v,
        };
        let state = FieldState {
            wanted_v: self.supply.wanted_v,
            voltage_v: solution.voltage_v + drop_v,
            peak_voltage_v: drop_v
                + if sparks {
                    gap_spark_v
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
            spark_v: gap_spark_v + drop_v,
            current_density_a_m2: density_a_m2,
            leakage_a_m2: self.leakage_s_m * (solution.voltage_v + drop_v)
                / (2.0 * self.solver.geometry().pitch_m()),
            layer_drop_v: drop_v,
            layer_field_v_m: self.layer.field_v_m(density_a_m2),
            back_corona,
            charge_share: if back_corona {
                self.layer.charge_share(density_a_m2)
            } else {
                1.0
            },
            ion_share,
            dust_charge_c_m3: dust.mean_c_m3(),
            meter_share: self.supply.meter_share,
        };
        (state, wires)
    }
}

/// Current at a given voltage of a frame that stands out of the middle, over that of one in it: the textbook's law for the
/// narrow and for the wide side, where the set aims. More, because the current grows faster than the gap shrinks.
fn displaced_share(
    conditions: &Conditions,
    field: usize,
    solver: &CoronaSolver<WireRow>,
    supply: &FieldSupply,
) -> Result<f64, PhysicsError> {
    let displaced_m = defects(conditions, field).displaced_m;
    if displaced_m == 0.0 {
        return Ok(1.0);
    }
    let (middle, wires) = (solver.geometry(), solver.corona());
    let at_v = supply.wanted_v.min(supply.spark_v);
    let current_a_m = |gap_m: f64| {
        let row = WireRow::new(gap_m, middle.pitch_m(), middle.wire_radius_m())?;
        let onset_v = onset_voltage_v(&row, wires.onset_field_v_m);
        Ok::<_, PhysicsError>(quadratic_law::current_a_m(
            &row,
            wires.ion_mobility_m2_v_s,
            onset_v,
            at_v,
        ))
    };
    let gap_m = middle.gap_m();
    let sides = current_a_m(gap_m - displaced_m)? + current_a_m(gap_m + displaced_m)?;
    let sound = current_a_m(gap_m)?;
    Ok(if sound > 0.0 {
        0.5 * sides / sound
    } else {
        1.0
    })
}
