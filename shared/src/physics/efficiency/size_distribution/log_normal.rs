//! Dust whose logarithm of size is bell-shaped by mass.
//!
//! `F = Φ(ln(d/MMD)/ln GSD)`

use super::SizeClass;
use crate::physics::PhysicsError;
use crate::physics::error::{positive, require};
use crate::physics::normal;

/// Deviations on each side that the classes cover; 3e-12 of the mass lies beyond, which still matters where all but
/// 1e-6 of the dust is caught.
const REACH: f64 = 7.0;

/// Median and deviation of ln d.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct LogNormal {
    log_median: f64,
    log_deviation: f64,
}

impl LogNormal {
    pub(super) fn new(median_m: f64, geometric_deviation: f64) -> Result<Self, PhysicsError> {
        positive("mass_median_diameter_m", median_m)?;
        require(
            geometric_deviation > 1.0 && geometric_deviation.is_finite(),
            "geometric_deviation",
            geometric_deviation,
            "finite and above 1",
        )?;
        Ok(Self {
            log_median: median_m.ln(),
            log_deviation: geometric_deviation.ln(),
        })
    }

    fn deviate(&self, log_diameter: f64) -> f64 {
        (log_diameter - self.log_median) / self.log_deviation
    }

    pub(super) fn cumulative(&self, log_diameter: f64) -> f64 {
        normal::cumulative(self.deviate(log_diameter))
    }

    pub(super) fn density(&self, log_diameter: f64) -> f64 {
        normal::density(self.deviate(log_diameter)) / self.log_deviation
    }

    /// ln d.
    pub(super) fn quantile(&self, share: f64) -> f64 {
        self.log_median + self.log_deviation * normal::quantile(share)
    }

    pub(super) fn classes(&self, count: usize) -> Vec<SizeClass> {
        let spacing = 2.0 * REACH / count as f64;
        let deviates: Vec<f64> = (0..count)
            .map(|index| (index as f64 + 0.5) * spacing - REACH)
            .collect();
        let total: f64 = deviates
            .iter()
            .map(|deviate| normal::density(*deviate))
            .sum();
        deviates
            .iter()
            .map(|deviate| SizeClass {
                diameter_m: (self.log_median + self.log_deviation * deviate).exp(),
                mass_fraction: normal::density(*deviate) / total,
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_of_the_mass_is_finer_than_the_median() {
        let dust = LogNormal::new(16e-6, 3.0).expect("a distribution");
        let share = dust.cumulative(f64::ln(16e-6));
        assert!((share - 0.5).abs() < 1e-15, "{share}");
        // One deviation holds 84.13 % (tables of the normal distribution).
        let share = dust.cumulative(f64::ln(48e-6));
        assert!((share - 0.841_344_746).abs() < 1e-9, "{share}");
    }

    #[test]
    fn a_deviation_of_one_is_no_distribution() {
        assert!(LogNormal::new(16e-6, 1.0).is_err(), "GSD 1");
        assert!(LogNormal::new(0.0, 2.0).is_err(), "no size");
        assert!(LogNormal::new(16e-6, f64::INFINITY).is_err(), "endless");
    }
}
