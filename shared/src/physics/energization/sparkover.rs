//! At which voltage the gap sparks: the mean field that gas of this density holds, and how much that scatters.
//!
//! `E_bd = 6.3e5·(273/T · p/p₀)^0.8` V/m

use crate::physics::PhysicsError;
use crate::physics::error::{positive, share};
use crate::physics::normal;

/// Mean field at sparkover in gas at 273 K and 1 atm, V/m. Source: from memory of the US EPA Cost Manual.
const REFERENCE_FIELD_V_M: f64 = 6.3e5;
/// Temperature of the reference, K. Source: from memory of the US EPA Cost Manual.
const REFERENCE_TEMPERATURE_K: f64 = 273.0;
/// Pressure of the reference, 1 atm, Pa.
const REFERENCE_PRESSURE_PA: f64 = 101_325.0;
/// Exponent of the gas density. Source: from memory of the US EPA Cost Manual; other editions print 1.65.
const DENSITY_EXPONENT: f64 = 0.8;

/// Mean field in the gap at sparkover, V/m.
///
/// `E_bd = 6.3e5·(273/T · p/p₀)^0.8`
///
/// # Arguments
/// * `temperature_k` – T, K, above 0.
/// * `pressure_pa` – p, Pa, above 0.
///
/// # Source
/// From memory of the US EPA Cost Manual, section on electrostatic precipitators.
///
/// # Validity
/// Clean, aligned electrodes. In service the gap sparks at 3 to 5 kV/cm; common practice, no source.
///
/// # Errors
/// A number outside its range.
///
/// ```
/// use ashlane_shared::physics::energization::sparkover::gap_field_v_m;
/// assert!((gap_field_v_m(273.0, 101_325.0)? - 6.3e5).abs() < 1.0);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn gap_field_v_m(temperature_k: f64, pressure_pa: f64) -> Result<f64, PhysicsError> {
    let warmth = positive("temperature_k", temperature_k)? / REFERENCE_TEMPERATURE_K;
    let density = positive("pressure_pa", pressure_pa)? / REFERENCE_PRESSURE_PA / warmth;
    Ok(REFERENCE_FIELD_V_M * density.powf(DENSITY_EXPONENT))
}

/// A gap that sparks around a voltage: each half cycle is one trial, its strength log-normal about the middle.
///
/// # Source
/// The normal scatter of sparkover about a 50 % voltage is usual in high-voltage testing; log-normal keeps it above 0.
/// Common practice, no source.
///
/// # Validity
/// Trials that know nothing of each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SparkGap {
    /// Voltage that half of all half cycles withstand as their peak, V.
    middle_v: f64,
    scatter: f64,
}

impl SparkGap {
    /// A gap with this spark voltage and scatter.
    ///
    /// # Arguments
    /// * `middle_v` – peak voltage at which one half cycle sparks with a chance of 50 %, V, above 0.
    /// * `scatter` – standard deviation of its logarithm, 0 (sparks exactly there) to below 1.
    ///
    /// # Source
    /// As [`SparkGap`].
    ///
    /// # Validity
    /// As [`SparkGap`].
    ///
    /// # Errors
    /// A number outside its range.
    pub fn new(middle_v: f64, scatter: f64) -> Result<Self, PhysicsError> {
        Ok(Self {
            middle_v: positive("middle_v", middle_v)?,
            scatter: share("scatter", scatter)?,
        })
    }

    /// Voltage at which half of all half cycles spark, V.
    #[must_use]
    pub fn middle_v(&self) -> f64 {
        self.middle_v
    }

    /// Strength of the gap in one half cycle, V.
    ///
    /// `V = V_50·exp(σ·Φ⁻¹(u))`
    ///
    /// # Arguments
    /// * `chance` – u, share of all half cycles that are weaker, in (0, 1).
    ///
    /// # Source
    /// As [`SparkGap`].
    ///
    /// # Validity
    /// As [`SparkGap`].
    #[must_use]
    pub fn strength_v(&self, chance: f64) -> f64 {
        self.middle_v * (self.scatter * normal::quantile(chance)).exp()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hot_thin_gas_sparks_earlier() {
        let field = |t, p| gap_field_v_m(t, p).expect("a field");
        // By hand: (273/423)^0.8 = 0.704 46.
        assert!(
            (field(423.0, 101_325.0) / (6.3e5 * 0.704_46) - 1.0).abs() < 1e-4,
            "{}",
            field(423.0, 101_325.0)
        );
        assert!(field(423.0, 90_000.0) < field(423.0, 101_325.0), "thin gas");
        assert!(gap_field_v_m(0.0, 101_325.0).is_err(), "no temperature");
    }

    #[test]
    fn strength_scatters_about_the_middle() {
        let gap = SparkGap::new(50e3, 0.03).expect("a gap");
        assert!((gap.strength_v(0.5) / 50e3 - 1.0).abs() < 1e-12, "median");
        // One standard deviation below the median lies 15.865 525 % of a normal quantity.
        let weak_v = gap.strength_v(0.158_655_254);
        assert!(
            (weak_v / (50e3 * (-0.03_f64).exp()) - 1.0).abs() < 1e-8,
            "{weak_v}"
        );
        let sharp = SparkGap::new(50e3, 0.0).expect("a gap");
        assert!((sharp.strength_v(1e-9) - 50e3).abs() < 1e-9, "no scatter");
        assert!(SparkGap::new(50e3, -0.1).is_err(), "negative scatter");
    }
}
