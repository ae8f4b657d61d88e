//! How much current a field takes at each voltage, as a table: none below corona onset, more and more above it.
//!
//! `I(V)` is straight between the entries, 0 below the first and goes on with the last slope above the last.

use crate::physics::PhysicsError;
use crate::physics::error::{not_negative, positive, require};

/// The voltage–current curve of a field.
///
/// # Source
/// Straight lines between measured or computed points; common practice, no source.
///
/// # Validity
/// Current that never falls with voltage. A curve that bends back (strong back corona) cannot be written so.
#[derive(Clone, Debug, PartialEq)]
pub struct VoltageCurrent {
    /// (voltage V, current A), voltages rising.
    points: Vec<(f64, f64)>,
}

impl VoltageCurrent {
    /// The curve through these points.
    ///
    /// # Arguments
    /// * `points` – (voltage V, current A), two or more; voltages 0 or more and rising, the first current 0, no current
    ///   below the one before it. The first point is the corona onset; a plain resistor starts at (0, 0).
    ///
    /// # Source
    /// As [`VoltageCurrent`].
    ///
    /// # Validity
    /// As [`VoltageCurrent`].
    ///
    /// # Errors
    /// Fewer than two points, or a point that is out of order.
    ///
    /// ```
    /// use ashlane_shared::physics::energization::VoltageCurrent;
    /// let curve = VoltageCurrent::new(vec![(20e3, 0.0), (40e3, 0.2), (50e3, 0.5)])?;
    /// assert_eq!(curve.current_a(10e3), 0.0);
    /// assert!((curve.current_a(45e3) - 0.35).abs() < 1e-12);
    /// assert!((curve.current_a(60e3) - 0.8).abs() < 1e-12);
    /// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
    /// ```
    pub fn new(points: Vec<(f64, f64)>) -> Result<Self, PhysicsError> {
        if points.len() < 2 {
            return Err(PhysicsError::WrongLength {
                argument: "points",
                got: points.len(),
                expected: 2,
            });
        }
        not_negative("voltage_v", points[0].0)?;
        require(
            points[0].1 == 0.0,
            "current_a",
            points[0].1,
            "0 in the first entry",
        )?;
        for pair in points.windows(2) {
            let ((lower_v, lower_a), (upper_v, upper_a)) = (pair[0], pair[1]);
            require(
                upper_v > lower_v && upper_v.is_finite(),
                "voltage_v",
                upper_v,
                "above the entry before it",
            )?;
            require(
                upper_a >= lower_a && upper_a.is_finite(),
                "current_a",
                upper_a,
                "no less than in the entry before it",
            )?;
        }
        Ok(Self { points })
    }

    /// The curve of a formula, taken at evenly spaced voltages from onset up.
    ///
    /// # Arguments
    /// * `onset_v` – voltage at which the corona starts, V, 0 or more.
    /// * `top_v` – highest voltage of the table, V, above onset.
    /// * `current_a` – the formula: A at a voltage in V, never falling; its value at onset is taken as 0.
    ///
    /// # Source
    /// As [`VoltageCurrent`].
    ///
    /// # Validity
    /// 24 steps; a parabola is at most 1/2304 of its top value too high between two entries.
    ///
    /// # Errors
    /// A number outside its range, or a formula that falls.
    pub fn from_formula(
        onset_v: f64,
        top_v: f64,
        current_a: impl Fn(f64) -> f64,
    ) -> Result<Self, PhysicsError> {
        const STEPS: u32 = 24;
        let width_v = positive("top_v less onset_v", top_v - onset_v)?;
        let rest = (1..=STEPS).map(|step| {
            let voltage_v = onset_v + width_v * f64::from(step) / f64::from(STEPS);
            (voltage_v, current_a(voltage_v))
        });
        Self::new([(onset_v, 0.0)].into_iter().chain(rest).collect())
    }

    /// Voltage from which on current flows, V: the first entry.
    ///
    /// # Source
    /// As [`VoltageCurrent`].
    ///
    /// # Validity
    /// As [`VoltageCurrent`].
    #[must_use]
    pub fn onset_v(&self) -> f64 {
        self.points[0].0
    }

    /// Current at a voltage, A.
    ///
    /// # Arguments
    /// * `voltage_v` – V, V; 0 A below the first entry.
    ///
    /// # Source
    /// As [`VoltageCurrent`].
    ///
    /// # Validity
    /// As [`VoltageCurrent`].
    #[must_use]
    pub fn current_a(&self, voltage_v: f64) -> f64 {
        if voltage_v <= self.points[0].0 {
            return 0.0;
        }
        let (base_v, base_a, slope_s) =
            self.segment(self.points.partition_point(|point| point.0 <= voltage_v));
        base_a + slope_s * (voltage_v - base_v)
    }

    /// Start and slope of the segment that ends at entry `upper`; the last one also serves beyond the table.
    fn segment(&self, upper: usize) -> (f64, f64, f64) {
        let upper = upper.clamp(1, self.points.len() - 1);
        let ((lower_v, lower_a), (upper_v, upper_a)) = (self.points[upper - 1], self.points[upper]);
        (lower_v, lower_a, (upper_a - lower_a) / (upper_v - lower_v))
    }

    /// The V with `V + a·I(V) = b`: one implicit step, exact because the curve is straight in pieces.
    pub(super) fn balance_v(&self, resistance_ohm: f64, sum_v: f64) -> f64 {
        if sum_v <= self.points[0].0 {
            return sum_v;
        }
        let below = |point: &(f64, f64)| point.0 + resistance_ohm * point.1 <= sum_v;
        let (base_v, base_a, slope_s) = self.segment(self.points.partition_point(below));
        let rest_v = sum_v - base_v - resistance_ohm * base_a;
        base_v + rest_v / (1.0 + resistance_ohm * slope_s)
    }

    /// Voltage that is left of a charged capacitance after a while, V; exact.
    ///
    /// `C dV/dt = −I(V)`, an exponential in each piece of the curve
    ///
    /// # Arguments
    /// * `voltage_v` – voltage at the start, V, 0 or more.
    /// * `capacitance_f` – C, F, above 0.
    /// * `time_s` – how long, s, 0 or more.
    ///
    /// # Source
    /// Discharge of a capacitor; textbook.
    ///
    /// # Validity
    /// As [`VoltageCurrent`].
    #[must_use]
    pub fn decayed_v(&self, voltage_v: f64, capacitance_f: f64, time_s: f64) -> f64 {
        let (mut now_v, mut left_s) = (voltage_v, time_s);
        let mut upper = self.points.partition_point(|point| point.0 < voltage_v);
        while upper > 0 && left_s > 0.0 {
            let (base_v, base_a, slope_s) = self.segment(upper);
            let now_a = base_a + slope_s * (now_v - base_v);
            let rate_1_s = slope_s / capacitance_f;
            let to_base_s = if slope_s == 0.0 {
                capacitance_f * (now_v - base_v) / now_a
            } else {
                (now_a / base_a).ln() / rate_1_s
            };
            if to_base_s.is_nan() || to_base_s >= left_s {
                let lost_v = if slope_s == 0.0 {
                    now_a * left_s / capacitance_f
                } else {
                    -now_a / slope_s * (-rate_1_s * left_s).exp_m1()
                };
                return (now_v - lost_v).max(base_v);
            }
            now_v = base_v;
            left_s -= to_base_s;
            upper = upper.min(self.points.len() - 1) - 1;
        }
        now_v
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_capacitor_discharges_through_a_resistor_exponentially() {
        // 50 MΩ on 60 nF: τ = 3 s; exact but for rounding.
        let resistor =
            VoltageCurrent::new(vec![(0.0, 0.0), (10e3, 0.2e-3), (50e3, 1e-3)]).expect("a curve");
        for time_s in [1e-3, 0.5, 3.0, 20.0] {
            let left_v = resistor.decayed_v(60e3, 60e-9, time_s);
            let expected_v = 60e3 * (-time_s / 3.0_f64).exp();
            assert!(
                (left_v / expected_v - 1.0).abs() < 1e-12,
                "{left_v} not {expected_v}"
            );
        }
    }

    #[test]
    fn a_field_stays_charged_at_its_onset() {
        let curve = VoltageCurrent::new(vec![(20e3, 0.0), (30e3, 0.1), (40e3, 0.1), (50e3, 0.4)])
            .expect("a curve");
        let left_v = curve.decayed_v(48e3, 60e-9, 10.0);
        assert!((left_v / 20e3 - 1.0).abs() < 1e-9, "{left_v}");
        let untouched_v = curve.decayed_v(15e3, 60e-9, 10.0);
        assert!((untouched_v - 15e3).abs() < 1e-9, "{untouched_v}");
        // One step or many: the same, also across the flat piece.
        let by_steps = (0..1000).fold(48e3, |v, _| curve.decayed_v(v, 60e-9, 1e-5));
        let at_once = curve.decayed_v(48e3, 60e-9, 1e-2);
        assert!(
            (by_steps / at_once - 1.0).abs() < 1e-9,
            "{by_steps} {at_once}"
        );
    }

    #[test]
    fn an_implicit_step_is_solved_exactly() {
        let curve =
            VoltageCurrent::new(vec![(20e3, 0.0), (30e3, 0.1), (50e3, 0.4)]).expect("a curve");
        for sum_v in [-5e3, 10e3, 25e3, 41e3, 200e3] {
            let voltage_v = curve.balance_v(3e4, sum_v);
            let back_v = voltage_v + 3e4 * curve.current_a(voltage_v);
            assert!((back_v - sum_v).abs() < 1e-6, "{back_v} not {sum_v}");
        }
    }

    #[test]
    fn tables_out_of_order_are_refused() {
        for points in [
            vec![(20e3, 0.0)],
            vec![(20e3, 0.1), (30e3, 0.2)],
            vec![(20e3, 0.0), (20e3, 0.2)],
            vec![(20e3, 0.0), (30e3, 0.2), (40e3, 0.1)],
            vec![(20e3, 0.0), (30e3, f64::NAN)],
            vec![(f64::NAN, 0.0), (30e3, 1.0)],
        ] {
            assert!(VoltageCurrent::new(points.clone()).is_err(), "{points:?}");
        }
    }
}
