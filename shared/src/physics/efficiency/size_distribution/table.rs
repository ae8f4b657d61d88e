//! Dust known from a sieve or an impactor: mass finer than a few diameters.
//!
//! F runs straight over ln d between the points, from 0 at a quarter of the first diameter to 1 at the largest.

use super::SizeClass;
use crate::physics::PhysicsError;
use crate::physics::error::{positive, require};
use crate::physics::quadrature::gauss_legendre;

/// The finest share is spread down to this part of its diameter. Common practice, no source.
const FINEST_SPREAD: f64 = 0.25;

/// Corners (ln d, F) of the broken line, from F = 0 to F = 1.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Table {
    corners: Vec<(f64, f64)>,
}

impl Table {
    pub(super) fn new(finer: &[(f64, f64)], largest_m: f64) -> Result<Self, PhysicsError> {
        let Some((finest_m, finest_share)) = finer.first().copied() else {
            return Err(PhysicsError::WrongLength {
                argument: "finer",
                got: 0,
                expected: 1,
            });
        };
        positive("diameter of the table, m", finest_m)?;
        let mut corners = Vec::with_capacity(finer.len() + 2);
        if finest_share > 0.0 {
            corners.push(((FINEST_SPREAD * finest_m).ln(), 0.0));
        }
        let (mut last_m, mut last_share) = (0.0, -1.0);
        for (diameter_m, share) in finer.iter().copied() {
            require(
                diameter_m > last_m && diameter_m.is_finite(),
                "diameter of the table, m",
                diameter_m,
                "finite and strictly rising",
            )?;
            require(
                (0.0..1.0).contains(&share) && share >= last_share,
                "mass fraction of the table",
                share,
                "0 or more, below 1, never falling",
            )?;
            corners.push((diameter_m.ln(), share));
            (last_m, last_share) = (diameter_m, share);
        }
        require(
            largest_m > last_m && largest_m.is_finite(),
            "largest_m",
            largest_m,
            "above the last diameter of the table",
        )?;
        corners.push((largest_m.ln(), 1.0));
        Ok(Self { corners })
    }

    /// Corners of the stretches, in pairs.
    fn stretches(&self) -> impl Iterator<Item = ((f64, f64), (f64, f64))> {
        self.corners
            .iter()
            .copied()
            .zip(self.corners.iter().copied().skip(1))
    }

    pub(super) fn cumulative(&self, log_diameter: f64) -> f64 {
        let mut share = 0.0;
        for ((low, before), (high, after)) in self.stretches() {
            if log_diameter < high {
                let part = ((log_diameter - low) / (high - low)).max(0.0);
                return before + part * (after - before);
            }
            share = after;
        }
        share
    }

    pub(super) fn density(&self, log_diameter: f64) -> f64 {
        self.stretches()
            .find(|((low, _), (high, _))| (*low..*high).contains(&log_diameter))
            .map_or(0.0, |((low, before), (high, after))| {
                (after - before) / (high - low)
            })
    }

    /// ln d.
    pub(super) fn quantile(&self, share: f64) -> f64 {
        let mut end = 0.0;
        for ((low, before), (high, after)) in self.stretches() {
            if share < after {
                return low + (high - low) * (share - before) / (after - before);
            }
            end = high;
        }
        end
    }

    pub(super) fn classes(&self, count: usize) -> Vec<SizeClass> {
        let each = (count / (self.corners.len() - 1)).max(3);
        self.stretches()
            .flat_map(|((low, before), (high, after))| {
                let density = (after - before) / (high - low);
                gauss_legendre(each, low, high)
                    .into_iter()
                    .map(move |(log_diameter, weight)| SizeClass {
                        diameter_m: log_diameter.exp(),
                        mass_fraction: weight * density,
                    })
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_line_passes_through_the_points_and_the_ends() {
        let points = [(2e-6, 0.1), (5e-6, 0.3), (20e-6, 0.75)];
        let table = Table::new(&points, 90e-6).expect("a table");
        for (diameter_m, share) in [(0.5e-6, 0.0), (90e-6, 1.0), (200e-6, 1.0), (0.1e-6, 0.0)]
            .iter()
            .chain(&points)
        {
            let got = table.cumulative(f64::ln(*diameter_m));
            assert!(
                (got - share).abs() < 1e-12,
                "{got} not {share} at {diameter_m}"
            );
        }
        // Halfway in ln d between 5 and 20 µm is 10 µm; a quarter of the finest share lies below 2/4·√2 µm.
        let middle = table.cumulative(f64::ln(10e-6));
        assert!((middle - 0.525).abs() < 1e-12, "{middle}");
        let finest = table.cumulative(f64::ln(1e-6));
        assert!((finest - 0.05).abs() < 1e-12, "{finest}");
    }

    #[test]
    fn a_table_that_starts_at_zero_has_no_finer_dust() {
        let table = Table::new(&[(2e-6, 0.0), (5e-6, 0.3)], 90e-6).expect("a table");
        assert!(
            (table.quantile(0.0) - f64::ln(2e-6)).abs() < 1e-12,
            "{}",
            table.quantile(0.0).exp()
        );
    }

    #[test]
    fn tables_that_do_not_rise_are_refused() {
        let bad: [&[(f64, f64)]; 6] = [
            &[],
            &[(0.0, 0.1)],
            &[(2e-6, 0.2), (5e-6, 0.1)],
            &[(2e-6, 0.2), (1e-6, 0.3)],
            &[(2e-6, 1.0)],
            &[(2e-6, f64::NAN)],
        ];
        for points in bad {
            assert!(Table::new(points, 90e-6).is_err(), "{points:?}");
        }
        assert!(
            Table::new(&[(2e-6, 0.2)], 2e-6).is_err(),
            "largest not larger"
        );
    }
}
