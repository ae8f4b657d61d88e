//! Where a field stands under its set: at the wanted voltage, at the limit of the current, sparking, or with a broken layer.

use super::{HeldBy, set::Set};
use crate::physics::{PhysicsError, corona::solver::CoronaSolution};

/// Rounds in which a voltage or a current is met, and how closely, as a share of it.
const ROUNDS: usize = 40;
const MET: f64 = 1e-7;

/// Least charge that is left in the gas of a glowing field, over that where its layer breaks down. Teaching value, no source:
/// the positive ions never take it all.
pub(super) const LEAST_NET: f64 = 0.05;

/// Gap voltage, and how far what is looked for is above what is wanted.
type Place = (f64, f64);

/// Where a field stands.
pub(super) struct Operation {
    /// The gas between wires and plates, at mean voltage.
    pub(super) solution: CoronaSolution,
    /// What holds it there.
    pub(super) held_by: HeldBy,
    /// Mean current density on the plates, A/m².
    pub(super) density_a_m2: f64,
    /// Negative ions in the gas over those of the solution.
    pub(super) ion_share: f64,
    /// Mean gap voltage at which the breakdown of the layer sparks, if that holds it, V.
    pub(super) broken_at_v: Option<f64>,
}

impl Set {
    /// Where the field stands with the dust that is in the solver.
    pub(super) fn operate(
        &mut self,
        dusty: bool,
        near: Option<&CoronaSolution>,
    ) -> Result<Operation, PhysicsError> {
        let aim = self.aim()?;
        let most_a_m = self.unbroken_a_m();
        // A voltage that no solution carries lies far above the limit of the current.
        let free = if self.aims_at_gap() {
            self.solver.at_voltage_from(aim.free_v, near)
        } else {
            self.at_terminal(aim.free_v, near)
        };
        let free = free
            .ok()
            .filter(|free| self.is_within_limit(free) && free.current_a_m <= most_a_m);
        if let Some(free) = free {
            return Ok(if self.missing.is_some() {
                self.unbroken(free, HeldBy::Supply)
            } else if self.sparks {
                let left = self.solver.at_voltage_from(aim.left_v, Some(&free))?;
                self.unbroken(left, HeldBy::Sparking)
            } else {
                self.unbroken(free, HeldBy::Setting)
            });
        }
        if most_a_m < aim.limit_a_m
            && let Ok(breaking) = self.solver.at_current_from(most_a_m, near)
            && self.is_within_limit(&breaking)
        {
            return self.broken(&breaking);
        }
        match self.at_limit(aim.limit_a_m, near) {
            Ok(limited) => Ok(self.unbroken(limited, HeldBy::CurrentLimit)),
            // So much charge in the gas that the field turns back: no current flows through it.
            Err(_turned) if dusty => {
                let quenched = self
                    .solver
                    .without_ions(aim.free_v.min(self.solver.onset_v()));
                Ok(self.unbroken(quenched, HeldBy::Setting))
            }
            Err(error) => Err(error),
        }
    }

    /// Mean voltage of the set over that of a solution of the gap: with what the layer takes, V.
    pub(super) fn terminal_v(&self, solution: &CoronaSolution) -> f64 {
        solution.voltage_v + self.layer.drop_v(self.density_a_m2(solution))
    }

    /// Whether the aim is a voltage of the gap, and not of the set.
    fn aims_at_gap(&self) -> bool {
        self.sparks || self.missing.is_some()
    }

    /// The voltage that is held against the aim, V.
    pub(super) fn aimed_v(&self, solution: &CoronaSolution) -> f64 {
        if self.aims_at_gap() {
            solution.voltage_v
        } else {
            self.terminal_v(solution)
        }
    }

    /// Whether the milliammeter stays within the limit.
    pub(super) fn is_within_limit(&self, solution: &CoronaSolution) -> bool {
        self.metered_a_m(solution) <= self.limit_a_m
    }

    fn metered_a_m(&self, solution: &CoronaSolution) -> f64 {
        solution.current_a_m * self.current_share() + self.leakage_s_m * self.terminal_v(solution)
    }

    /// Mean current density on the plates, A/m².
    fn density_a_m2(&self, solution: &CoronaSolution) -> f64 {
        solution.current_a_m * self.current_share() / (2.0 * self.solver.geometry().pitch_m())
    }

    /// Largest current of the field at mean voltage that the layer carries unbroken, A/m.
    pub(super) fn unbroken_a_m(&self) -> f64 {
        self.layer.unbroken_a_m2() * 2.0 * self.solver.geometry().pitch_m() / self.current_share()
    }

    fn unbroken(&self, solution: CoronaSolution, held_by: HeldBy) -> Operation {
        Operation {
            density_a_m2: self.density_a_m2(&solution),
            solution,
            held_by,
            ion_share: 1.0,
            broken_at_v: None,
        }
    }

    /// The field whose layer breaks down at a state of the gap: it sparks there if streamers cross the gap; else the
    /// current runs to its limit while the ions that come back take the charge out of the gas and the voltage falls.
    fn broken(&mut self, breaking: &CoronaSolution) -> Result<Operation, PhysicsError> {
        let breaks_v = breaking.voltage_v;
        if self.ripple.peak_share * breaks_v >= self.layer.streamer_v {
            let left_v = self.supply.sparking_mean_v(breaks_v)?;
            let left = self.solver.at_voltage_from(left_v, Some(breaking))?;
            return Ok(Operation {
                broken_at_v: Some(breaks_v),
                ..self.unbroken(left, HeldBy::Sparking)
            });
        }
        let width_m = 2.0 * self.solver.geometry().pitch_m();
        // What leaks is taken at the voltage of the breakdown; it is no more than that.
        let leaking_a_m = self.leakage_s_m * self.terminal_v(breaking);
        let density_a_m2 = (self.limit_a_m - leaking_a_m) / width_m;
        let least_a_m2 = LEAST_NET * self.layer.unbroken_a_m2();
        let net_a_m2 = self.layer.net_a_m2(density_a_m2).max(least_a_m2);
        let net_a_m = net_a_m2 * width_m / self.current_share();
        Ok(Operation {
            solution: self.solver.at_current_from(net_a_m, Some(breaking))?,
            held_by: HeldBy::CurrentLimit,
            density_a_m2,
            ion_share: self.layer.forward_a_m2(density_a_m2) / net_a_m2,
            broken_at_v: None,
        })
    }

    /// The gap where the set has this mean voltage.
    fn at_terminal(
        &mut self,
        terminal_v: f64,
        near: Option<&CoronaSolution>,
    ) -> Result<CoronaSolution, PhysicsError> {
        let mut found = if self.layer.is_none() {
            return self.solver.at_voltage_from(terminal_v, near);
        } else {
            let drop_v = near.map_or(0.0, |near| self.terminal_v(near) - near.voltage_v);
            let start_v = (terminal_v - drop_v).max(self.solver.onset_v().min(terminal_v));
            self.solver.at_voltage_from(start_v, near)?
        };
        // The set's voltage rises with the gap's, and faster: a secant between the nearest below and above.
        let (mut low, mut high): (Option<Place>, Option<Place>) = (None, None);
        for _ in 0..ROUNDS {
            let over_v = self.terminal_v(&found) - terminal_v;
            if over_v.abs() <= MET * terminal_v {
                break;
            }
            let here = Some((found.voltage_v, over_v));
            if over_v < 0.0 {
                low = here;
            } else {
                high = here;
            }
            let next_v = match (low, high) {
                (Some(low), Some(high)) => between(low, high),
                (Some((gap_v, over_v)), None) => gap_v - over_v,
                (None, Some((gap_v, over_v))) => (gap_v - over_v).max(0.0),
                (None, None) => terminal_v,
            };
            found = self.solver.at_voltage_from(next_v, Some(&found))?;
        }
        Ok(found)
    }

    /// The gap where the milliammeter stands at its limit.
    fn at_limit(
        &mut self,
        limit_a_m: f64,
        near: Option<&CoronaSolution>,
    ) -> Result<CoronaSolution, PhysicsError> {
        if self.leakage_s_m == 0.0 {
            return self.solver.at_current_from(limit_a_m, near);
        }
        let leaks_v = self.limit_a_m / self.leakage_s_m;
        let onset_v = self.solver.onset_v();
        if leaks_v <= onset_v {
            return Ok(self.solver.without_ions(leaks_v));
        }
        let mut found = self.solver.at_voltage_from(onset_v, near)?;
        let mut low = (onset_v, self.metered_a_m(&found) - self.limit_a_m);
        let mut high: Option<Place> = None;
        for _ in 0..ROUNDS {
            let next_v = high.map_or_else(|| leaks_v.min(1.5 * low.0), |high| between(low, high));
            match self.solver.at_voltage_from(next_v, Some(&found)) {
                Ok(there) => found = there,
                // Far above any limit.
                Err(_carried) => {
                    high = Some((next_v, self.limit_a_m));
                    continue;
                }
            }
            let over_a_m = self.metered_a_m(&found) - self.limit_a_m;
            if over_a_m.abs() <= MET * self.limit_a_m {
                break;
            }
            if over_a_m < 0.0 {
                low = (found.voltage_v, over_a_m);
            } else {
                high = Some((found.voltage_v, over_a_m));
            }
        }
        Ok(found)
    }
}

/// Where a straight line between two points crosses zero, but not too near either.
fn between(low: Place, high: Place) -> f64 {
    let share = (low.1 / (low.1 - high.1)).clamp(0.02, 0.98);
    low.0 + share * (high.0 - low.0)
}
