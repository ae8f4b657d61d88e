//! A high-frequency set: rectifier, fast inverter, small transformer; its direct voltage has next to no ripple.

use super::half_cycle::State;
use super::sums::{Point, Sums};
use super::{FieldLoad, VoltageCurrent};
use crate::physics::PhysicsError;
use crate::physics::error::{positive, require};

/// Steps of a control period.
const STEPS: u32 = 100;

/// A set that holds any voltage up to its rating without ripple, as long as its rated current is enough.
///
/// # Source
/// Common practice, no source.
///
/// # Validity
/// Switching much faster than the field discharges; ripple left out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HighFrequencySet {
    /// Rated voltage, V, above 0.
    pub rated_voltage_v: f64,
    /// Rated current, A, above 0.
    pub rated_current_a: f64,
    /// How often the control acts, Hz, 1 to 1000; twice the line frequency to compare with a thyristor set.
    pub control_hz: f64,
}

/// What is asked of the set for one control period.
#[derive(Clone, Copy, Debug)]
pub(super) struct SmoothOrder {
    /// Wanted voltage at start and end, V; `None` while blocked.
    pub(super) wanted_v: Option<(f64, f64)>,
    pub(super) strength_v: f64,
    pub(super) shorted: bool,
}

impl HighFrequencySet {
    /// The set itself, if its numbers are possible.
    ///
    /// # Source
    /// Ranges of the fields.
    ///
    /// # Validity
    /// Always.
    ///
    /// # Errors
    /// A number outside its range.
    pub fn checked(self) -> Result<Self, PhysicsError> {
        positive("rated_voltage_v", self.rated_voltage_v)?;
        positive("rated_current_a", self.rated_current_a)?;
        require(
            (1.0..=1000.0).contains(&self.control_hz),
            "control_hz",
            self.control_hz,
            "1 to 1000",
        )?;
        Ok(self)
    }

    /// Highest voltage on a field, V: the rating, or where the field takes the rated current.
    pub(super) fn highest_v(&self, curve: &VoltageCurrent) -> f64 {
        let (mut low_v, mut high_v) = (0.0, self.rated_voltage_v);
        if curve.current_a(high_v) <= self.rated_current_a {
            return high_v;
        }
        for _ in 0..60 {
            let middle_v = 0.5 * (low_v + high_v);
            if curve.current_a(middle_v) <= self.rated_current_a {
                low_v = middle_v;
            } else {
                high_v = middle_v;
            }
        }
        low_v
    }

    /// One control period; true if the gap sparked. After a spark the set is blocked at once.
    pub(super) fn run(
        &self,
        load: &FieldLoad,
        start: State,
        order: SmoothOrder,
    ) -> (State, Sums, bool) {
        let step_s = 1.0 / (self.control_hz * f64::from(STEPS));
        let (mut sums, mut shorted) = (Sums::default(), order.shorted);
        let mut from = self.point(load, start.voltage_v, 0.0);
        for step in 1..=STEPS {
            let part = f64::from(step) / f64::from(STEPS);
            let wanted_v = order
                .wanted_v
                .map(|(first, last)| first + part * (last - first));
            let (voltage_v, current_a) = if shorted {
                (0.0, 0.0)
            } else {
                self.step(load, from.voltage_v, wanted_v, step_s)
            };
            let to = self.point(load, voltage_v, current_a);
            from.current_a = current_a;
            sums.add(step_s, &from, &to, current_a > 0.0);
            from = to;
            if !shorted && voltage_v >= order.strength_v {
                shorted = true;
                from = Point::default();
            }
        }
        let end = State {
            voltage_v: from.voltage_v,
            current_a: 0.0,
        };
        (end, sums, shorted && !order.shorted)
    }

    /// Voltage after a step and the current during it, A.
    fn step(
        &self,
        load: &FieldLoad,
        voltage_v: f64,
        wanted_v: Option<f64>,
        step_s: f64,
    ) -> (f64, f64) {
        let capacitance_f = load.capacitance_f();
        let decayed_v = load.curve().decayed_v(voltage_v, capacitance_f, step_s);
        let Some(wanted_v) = wanted_v.filter(|&wanted_v| wanted_v > decayed_v) else {
            return (decayed_v, 0.0);
        };
        let needed_a =
            load.curve().current_a(wanted_v) + capacitance_f * (wanted_v - voltage_v) / step_s;
        if needed_a <= self.rated_current_a {
            return (wanted_v, needed_a.max(0.0));
        }
        // Implicit Euler with the rated current; stable however small the capacitance is.
        let per_capacitance = step_s / capacitance_f;
        let sum_v = voltage_v + per_capacitance * self.rated_current_a;
        let charged_v = load.curve().balance_v(per_capacitance, sum_v);
        (charged_v, self.rated_current_a)
    }

    fn point(&self, load: &FieldLoad, voltage_v: f64, current_a: f64) -> Point {
        Point {
            voltage_v,
            current_a,
            source_v: self.rated_voltage_v,
            field_a: load.curve().current_a(voltage_v),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn charging_takes_the_charge_over_the_rated_current() {
        // 60 nF to 40 kV with 0.6 A below onset: 4 ms; the control period is 10 ms.
        let curve = VoltageCurrent::new(vec![(45e3, 0.0), (60e3, 0.6)]).expect("a curve");
        let load = FieldLoad::new(60e-9, curve).expect("a load");
        let set = HighFrequencySet {
            rated_voltage_v: 70e3,
            rated_current_a: 0.6,
            control_hz: 100.0,
        };
        let order = SmoothOrder {
            wanted_v: Some((40e3, 40e3)),
            strength_v: f64::INFINITY,
            shorted: false,
        };
        let (end, sums, sparked) = set.run(&load, State::default(), order);
        assert!(!sparked && (end.voltage_v - 40e3).abs() < 1e-6, "{end:?}");
        let charge_c = sums.mean_a() * 0.01;
        assert!((charge_c / (60e-9 * 40e3) - 1.0).abs() < 1e-9, "{charge_c}");
        // A ramp of 4 ms to 40 kV, then 6 ms there: mean 32 kV, to the last step.
        assert!(
            (sums.mean_v() / 32e3 - 1.0).abs() < 0.01,
            "{}",
            sums.mean_v()
        );
        assert!(
            (set.highest_v(load.curve()) - 60e3).abs() < 1e-3,
            "rated current"
        );
    }
}
