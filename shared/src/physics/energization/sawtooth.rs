//! How often a field sparks and where its voltage stands when the control ramps up, sparks, waits and starts again.
//!
//! `f = 60/(ΔV/R + t_q)`, `V̄ = (V_s − ΔV/2)(ΔV/R)/(ΔV/R + t_q)`

use crate::physics::PhysicsError;
use crate::physics::error::{not_negative, positive, require};

/// A voltage that rises at a steady rate to the spark voltage, is cut for the quench time and starts again lower.
///
/// # Source
/// Common practice, no source.
///
/// # Validity
/// No ripple, no scatter of the spark voltage, no time to charge the field again, nil volts during the quench.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sawtooth {
    /// Spark voltage `V_s`, V, above 0.
    pub spark_voltage_v: f64,
    /// How far below it the voltage starts again ΔV, V, above 0, up to `V_s`.
    pub setback_v: f64,
    /// Rate of rise R, V/s, above 0.
    pub ramp_v_s: f64,
    /// Quench time `t_q`, s, 0 or more.
    pub quench_s: f64,
}

impl Sawtooth {
    /// Sparks per minute.
    ///
    /// `f = 60/(ΔV/R + t_q)`
    ///
    /// # Source
    /// Computed from the shape.
    ///
    /// # Validity
    /// As [`Sawtooth`].
    ///
    /// # Errors
    /// A number outside its range.
    ///
    /// ```
    /// use ashlane_shared::physics::energization::sawtooth::Sawtooth;
    /// let sawtooth = Sawtooth { spark_voltage_v: 50e3, setback_v: 5e3, ramp_v_s: 5e3, quench_s: 0.05 };
    /// assert!((sawtooth.sparks_per_min()? - 57.14).abs() < 0.01);
    /// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
    /// ```
    pub fn sparks_per_min(&self) -> Result<f64, PhysicsError> {
        Ok(60.0 / (self.rise_s()? + self.quench_s))
    }

    /// Mean voltage over whole cycles, V.
    ///
    /// `V̄ = (V_s − ΔV/2)(ΔV/R)/(ΔV/R + t_q)`
    ///
    /// # Source
    /// Computed from the shape: the ramp's mean for its time, nil volts for the quench.
    ///
    /// # Validity
    /// As [`Sawtooth`].
    ///
    /// # Errors
    /// A number outside its range.
    pub fn mean_voltage_v(&self) -> Result<f64, PhysicsError> {
        let rise_s = self.rise_s()?;
        Ok((self.spark_voltage_v - 0.5 * self.setback_v) * rise_s / (rise_s + self.quench_s))
    }

    /// Time of one ramp `ΔV/R`, s, after all numbers were checked.
    fn rise_s(&self) -> Result<f64, PhysicsError> {
        positive("spark_voltage_v", self.spark_voltage_v)?;
        positive("ramp_v_s", self.ramp_v_s)?;
        not_negative("quench_s", self.quench_s)?;
        require(
            self.setback_v > 0.0 && self.setback_v <= self.spark_voltage_v,
            "setback_v",
            self.setback_v,
            "above 0, up to the spark voltage",
        )?;
        Ok(self.setback_v / self.ramp_v_s)
    }
}

/// The rate of rise that gives a wanted number of sparks per minute, V/s.
///
/// `R = ΔV/(60/f − t_q)`
///
/// # Arguments
/// * `setback_v` – ΔV, V, above 0.
/// * `quench_s` – `t_q`, s, 0 or more.
/// * `sparks_per_min` – f, 1/min, above 0, below `60/t_q`.
///
/// # Source
/// [`Sawtooth::sparks_per_min`] turned round.
///
/// # Validity
/// As [`Sawtooth`].
///
/// # Errors
/// A number outside its range; so many sparks that the quench alone takes longer.
pub fn ramp_for_v_s(
    setback_v: f64,
    quench_s: f64,
    sparks_per_min: f64,
) -> Result<f64, PhysicsError> {
    positive("setback_v", setback_v)?;
    not_negative("quench_s", quench_s)?;
    positive("sparks_per_min", sparks_per_min)?;
    let rise_s = 60.0 / sparks_per_min - quench_s;
    require(
        rise_s > 0.0,
        "sparks_per_min",
        sparks_per_min,
        "below 60 over the quench time in s",
    )?;
    Ok(setback_v / rise_s)
}

#[cfg(test)]
mod tests {
    use super::*;

    const PLAIN: Sawtooth = Sawtooth {
        spark_voltage_v: 50e3,
        setback_v: 5e3,
        ramp_v_s: 5e3,
        quench_s: 0.05,
    };

    #[test]
    fn the_mean_is_that_of_the_drawn_curve() {
        // Summed over one cycle in a million steps.
        let (cycle_s, steps) = (1.05, 1_000_000);
        let sum_v: f64 = (0..steps)
            .map(|step| (f64::from(step) + 0.5) / f64::from(steps) * cycle_s)
            .map(|time_s| {
                if time_s < 1.0 {
                    45e3 + 5e3 * time_s
                } else {
                    0.0
                }
            })
            .sum();
        let mean_v = PLAIN.mean_voltage_v().expect("a mean");
        assert!(
            (mean_v / (sum_v / f64::from(steps)) - 1.0).abs() < 1e-5,
            "{mean_v}"
        );
    }

    #[test]
    fn the_ramp_for_a_rate_gives_that_rate() {
        for sparks_per_min in [0.1, 10.0, 57.1, 1100.0] {
            let ramp_v_s = ramp_for_v_s(5e3, 0.05, sparks_per_min).expect("a ramp");
            let back = Sawtooth { ramp_v_s, ..PLAIN }
                .sparks_per_min()
                .expect("a rate");
            assert!((back / sparks_per_min - 1.0).abs() < 1e-12, "{back}");
        }
        assert!(
            ramp_for_v_s(5e3, 0.05, 1200.0).is_err(),
            "quench takes all the time"
        );
    }

    #[test]
    fn impossible_shapes_are_refused() {
        for wrong in [
            Sawtooth {
                setback_v: 60e3,
                ..PLAIN
            },
            Sawtooth {
                ramp_v_s: 0.0,
                ..PLAIN
            },
            Sawtooth {
                quench_s: f64::NAN,
                ..PLAIN
            },
        ] {
            assert!(wrong.sparks_per_min().is_err(), "{wrong:?}");
        }
    }
}
