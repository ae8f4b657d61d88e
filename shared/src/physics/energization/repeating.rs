//! The half cycle that is like the last one: found at once, not by waiting until a large field has charged.

use std::f64::consts::PI;

use super::half_cycle::{HalfCycle, Order, State, run};
use super::sums::Point;
use super::{FieldLoad, TransformerRectifier};
use crate::physics::PhysicsError;

/// Steps of a half cycle.
pub(super) const STEPS: u32 = 400;
/// Most half cycles that the search for the repeating state may take, and the last settling after it.
const MOST_TRIALS: u32 = 100;
const MOST_SETTLING: u32 = 200;
/// The state repeats when it moves less than this from one half cycle to the next, relative.
const REPEATS_WITHIN: f64 = 1e-6;
/// Share of open-circuit voltage and short-circuit current below which there is nothing to compare.
const NOTHING: f64 = 1e-3;

/// Set, field and firing angle while the repeating state is searched.
pub(super) struct Circuit<'a> {
    pub(super) set: &'a TransformerRectifier,
    pub(super) load: &'a FieldLoad,
    pub(super) firing_angle_rad: f64,
}

impl<'a> Circuit<'a> {
    /// Runs one half cycle.
    pub(super) fn pass(
        &self,
        start: State,
        see: impl FnMut(f64, &Point),
    ) -> (State, HalfCycle<'a>) {
        let order = Order {
            firing_angle_rad: self.firing_angle_rad,
            strength_v: f64::INFINITY,
            shorted: false,
            steps: STEPS,
        };
        run(self.set, self.load, start, order, see)
    }

    /// Voltage won in a half cycle that starts at this voltage, with the current that goes with it.
    fn gain_v(&self, voltage_v: f64) -> (f64, State) {
        let mut start = State {
            voltage_v,
            current_a: 0.0,
        };
        let mut end = self.pass(start, |_, _| ()).0;
        for _ in 0..4 {
            if (end.current_a - start.current_a).abs() <= 1e-9 * end.current_a {
                break;
            }
            start.current_a = end.current_a;
            end = self.pass(start, |_, _| ()).0;
        }
        (end.voltage_v - voltage_v, start)
    }

    /// A state close to the repeating one: the lowest voltage at which a half cycle wins nothing any more.
    ///
    /// A higher start wins less, so the voltage can be bracketed (false position, Illinois variant); this is as quick for
    /// a large capacitance, which would take thousands of half cycles to charge, as for a small one.
    fn near_repeating(&self) -> State {
        let open_v = self.set.open_peak_v();
        let nothing_v = 1e-13 * open_v;
        let (first_gain_v, mut found) = self.gain_v(0.0);
        let (mut low, mut high) = ((0.0, first_gain_v), (2.0 * open_v, 0.0));
        if first_gain_v <= nothing_v {
            return found;
        }
        let mut last_was_low = false;
        for trial in 0..MOST_TRIALS {
            let bisect = trial % 8 == 7 || high.1 >= -nothing_v;
            let voltage_v = if bisect {
                0.5 * (low.0 + high.0)
            } else {
                low.0 + (high.0 - low.0) * low.1 / (low.1 - high.1)
            };
            let (gain_v, state) = self.gain_v(voltage_v);
            found = state;
            let missing_v = gain_v.abs() * (high.0 - low.0) / (low.1 - high.1);
            if missing_v <= 1e-9 * open_v && !bisect || high.0 - low.0 <= 1e-10 * open_v {
                break;
            }
            let is_low = gain_v > nothing_v;
            let again = trial > 0 && is_low == last_was_low;
            if is_low {
                low = (voltage_v, gain_v);
                high.1 *= if again { 0.5 } else { 1.0 };
            } else {
                high = (voltage_v, gain_v);
                low.1 *= if again { 0.5 } else { 1.0 };
            }
            last_was_low = is_low;
        }
        found
    }

    /// Runs half cycles until the state repeats.
    pub(super) fn repeating(&self) -> Result<State, PhysicsError> {
        let open_v = self.set.open_peak_v();
        let reactance_ohm = PI / self.set.half_cycle_s() * self.set.inductance_h;
        let short_a = open_v / reactance_ohm.hypot(self.set.resistance_ohm);
        let mut state = self.near_repeating();
        for _ in 0..MOST_SETTLING {
            let (next, cycle) = self.pass(state, |_, _| ());
            let allowed_v = REPEATS_WITHIN * cycle.sums.peak_v.max(NOTHING * open_v);
            let allowed_a = REPEATS_WITHIN * cycle.sums.peak_a.max(NOTHING * short_a);
            if (next.voltage_v - state.voltage_v).abs() <= allowed_v
                && (next.current_a - state.current_a).abs() <= allowed_a
            {
                return Ok(state);
            }
            state = next;
        }
        Err(PhysicsError::Impossible {
            reason: format!(
                "at a firing angle of {:.3} rad the set and this field do not settle to a repeating half cycle",
                self.firing_angle_rad
            ),
        })
    }
}
