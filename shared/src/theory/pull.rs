//! How one grain charges and drifts, tabulated over its charge for every zone of the passage.

use super::{medium::Medium, zones::Zone};
use crate::physics::charging::Exposure;

/// Charges at which the rate, and drifts at which the drag, are tabulated.
const KNOTS: usize = 32;

/// Values at [`KNOTS`] charges.
type Table = [f64; KNOTS];

/// One grain's charging and drift.
#[derive(Clone, Debug)]
pub(super) struct Pull {
    /// Charging rate over a step of the count by zone and charge, C/s; charges stand at the squares of equal steps up to `largest_c`.
    rates: Vec<Table>,
    /// Mean square of the rate, C²/s².
    squares: Vec<Table>,
    largest_c: f64,
    /// Terminal drift by Stokes drift, in steps of `knot_m_s`.
    drifts_m_s: Table,
    knot_m_s: f64,
    stokes_mobility: f64,
}

impl Pull {
    /// Tabulates a grain for these zones; drifts go up to those in `strongest_drift_v_m`. Where mixing is perfect
    /// the spread of the rates is tabulated too.
    pub(super) fn new(
        medium: &Medium,
        diameter_m: f64,
        zones: &[&Zone],
        strongest_drift_v_m: f64,
        mixed: bool,
    ) -> Self {
        let exposures = || zones.iter().flat_map(|zone| zone.iter());
        let strongest = exposures()
            .map(|(exposure, _)| exposure.field_v_m)
            .fold(0.0, f64::max);
        let densest = exposures()
            .map(|(exposure, _)| exposure.ion_density_per_m3)
            .fold(0.0, f64::max);
        let most = Exposure {
            field_v_m: strongest,
            ion_density_per_m3: densest,
        };
        // Somewhat above what the strongest field gives in a minute.
        let largest_c = 1.05 * medium.charge_c(diameter_m, &most, 60.0);
        let table = |zone: &Zone, of: &dyn Fn(f64, &Exposure) -> f64| -> Table {
            std::array::from_fn(|knot| {
                let charge_c = largest_c * square(knot);
                zone.iter()
                    .map(|(exposure, share)| share * of(charge_c, exposure))
                    .sum()
            })
        };
        let rate = |charge_c: f64, exposure: &Exposure| {
            medium.step_rate_c_s(diameter_m, charge_c, exposure)
        };
        let squared = |charge_c: f64, exposure: &Exposure| rate(charge_c, exposure).powi(2);
        let stokes_mobility = medium.stokes_mobility(diameter_m);
        let fastest_m_s = stokes_mobility * largest_c * strongest_drift_v_m;
        let knot_m_s = (fastest_m_s / (KNOTS - 1) as f64).max(f64::MIN_POSITIVE);
        Self {
            rates: zones.iter().map(|zone| table(zone, &rate)).collect(),
            squares: if mixed {
                zones.iter().map(|zone| table(zone, &squared)).collect()
            } else {
                Vec::new()
            },
            largest_c,
            drifts_m_s: std::array::from_fn(|knot| {
                medium.terminal_drift_m_s(diameter_m, knot as f64 * knot_m_s)
            }),
            knot_m_s,
            stokes_mobility,
        }
    }

    /// Charge after `time_s` in a zone, C, by linearly implicit steps of second order.
    pub(super) fn charge_later_c(&self, zone: usize, charge_c: f64, time_s: f64) -> f64 {
        /// Share of the way to saturation that one step may go.
        const BOLD: f64 = 2.0;
        if self.largest_c <= 0.0 {
            return charge_c;
        }
        let (rate_c_s, slope_1_s) = self.interpolated(&self.rates[zone], charge_c);
        let stiffness = -slope_1_s.min(0.0) * time_s;
        if stiffness <= BOLD {
            return charge_c + time_s * rate_c_s / (1.0 + 0.5 * stiffness);
        }
        let steps = ((stiffness / BOLD).ceil() as u32).min(4);
        let step_s = time_s / f64::from(steps);
        (0..steps).fold(charge_c, |charge_c, _| {
            let (rate_c_s, slope_1_s) = self.interpolated(&self.rates[zone], charge_c);
            charge_c + step_s * rate_c_s / (1.0 - 0.5 * step_s * slope_1_s.min(0.0))
        })
    }

    /// Variance of the gain in one step of the count over that step squared, C²/s², for grains that may be anywhere in
    /// the zone.
    pub(super) fn rate_variance_c2_s2(&self, zone: usize, charge_c: f64) -> f64 {
        if self.largest_c <= 0.0 {
            return 0.0;
        }
        let (mean, _) = self.interpolated(&self.rates[zone], charge_c);
        let (square, _) = self.interpolated(&self.squares[zone], charge_c);
        (square - mean * mean).max(0.0)
    }

    /// Value and slope of a table over the charge.
    fn interpolated(&self, table: &Table, charge_c: f64) -> (f64, f64) {
        let root = (charge_c.max(0.0) / self.largest_c).sqrt() * (KNOTS - 1) as f64;
        let below = (root as usize).min(KNOTS - 2);
        let (low_c, high_c) = (
            self.largest_c * square(below),
            self.largest_c * square(below + 1),
        );
        let slope = (table[below + 1] - table[below]) / (high_c - low_c);
        (table[below] + slope * (charge_c - low_c), slope)
    }

    /// Terminal drift, m/s.
    pub(super) fn drift_m_s(&self, charge_c: f64, field_v_m: f64) -> f64 {
        let place = (self.stokes_mobility * charge_c * field_v_m / self.knot_m_s).max(0.0);
        let below = (place as usize).min(KNOTS - 2);
        let [low, high] = [self.drifts_m_s[below], self.drifts_m_s[below + 1]];
        low + (high - low) * (place - below as f64)
    }
}

/// Where a knot stands, as a share of the largest.
fn square(knot: usize) -> f64 {
    (knot as f64 / (KNOTS - 1) as f64).powi(2)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::conditions::{Charging, demonstration};

    #[test]
    fn charges_in_an_even_field_follow_the_exact_law_of_every_model() {
        for model in [
            Charging::Lawless,
            Charging::Cochet,
            Charging::White,
            Charging::Field,
        ] {
            let mut conditions = demonstration();
            conditions.teaching.charging = model;
            let medium = Medium::new(&conditions);
            let exposure = Exposure {
                field_v_m: 3e5,
                ion_density_per_m3: 1e14,
            };
            for diameter_m in [0.1e-6, 1e-6, 10e-6] {
                let pull = Pull::new(&medium, diameter_m, &[&vec![(exposure, 1.0)]], 3e5, false);
                let mut charge_c = 0.0;
                for step in 1..=120_u32 {
                    charge_c = pull.charge_later_c(0, charge_c, 0.01);
                    let exact_c = medium.charge_c(diameter_m, &exposure, 0.01 * f64::from(step));
                    let allowed = if step < 40 { 0.2 } else { 0.05 };
                    let error = charge_c / exact_c - 1.0;
                    assert!(
                        error.abs() < allowed,
                        "{model:?}, {diameter_m} m, step {step}: {error}"
                    );
                }
            }
        }
    }
}
