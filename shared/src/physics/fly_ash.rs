//! Whether fly ash is good for concrete: how coarse it is, how much of it burns off, and the limits of the standards.
//!
//! `retained = Σ m_i(d > 45 µm)/Σ m_i`

use super::PhysicsError;
use super::error::{length, not_negative, positive};

/// Opening of the sieve of both standards, m.
pub const SIEVE_M: f64 = 45e-6;

/// What a standard allows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AshLimits {
    /// Name of the standard.
    pub name: &'static str,
    /// Most loss on ignition, share of the mass.
    pub loss_on_ignition: f64,
    /// Most that stays on the 45 µm sieve, share of the mass.
    pub retained: f64,
}

impl AshLimits {
    /// Loss on ignition of category A, fineness of category N.
    ///
    /// # Source
    /// From memory of EN 450-1:2012. Categories B and C allow 7 and 9 %; category S allows 12 % on the sieve.
    pub const EN_450_1: Self = Self {
        name: "EN 450-1",
        loss_on_ignition: 0.05,
        retained: 0.40,
    };
    /// Classes F and C.
    ///
    /// # Source
    /// From memory of ASTM C618 (wet sieve No. 325).
    pub const ASTM_C618: Self = Self {
        name: "ASTM C618",
        loss_on_ignition: 0.06,
        retained: 0.34,
    };

    /// Whether ash keeps both limits; what lies on a limit is within.
    ///
    /// # Arguments
    /// * `loss_on_ignition` – share of the mass, 0 to 1.
    /// * `retained` – share of the mass on the sieve, 0 to 1.
    ///
    /// # Validity
    /// These two limits alone; the standards have more (activity, sulphate, free lime, moisture).
    #[must_use]
    pub fn allow(&self, loss_on_ignition: f64, retained: f64) -> bool {
        loss_on_ignition <= self.loss_on_ignition && retained <= self.retained
    }
}

/// Share of the mass of a dust in size classes that a sieve keeps back.
///
/// `R = Σ m_i g_i/Σ m_i`, `g` = 1 above the sieve, 0 below, and the coarser part of the class that it cuts
///
/// # Arguments
/// * `middles_m` – geometric middles of the classes, m, above 0, rising by one ratio.
/// * `masses_kg` – mass in each class, kg, 0 or more; no mass at all leaves nothing on the sieve.
/// * `sieve_m` – opening of the sieve, m, above 0.
///
/// # Source
/// Definition; a class that the sieve cuts is taken as even in the logarithm of the diameter.
///
/// # Validity
/// Spheres that do not stick together: as wet sieving finds them.
///
/// # Errors
/// Lists of different length, a number outside its range.
///
/// ```
/// use ashlane_shared::physics::fly_ash::retained_share;
/// // Classes from 1 to 100 and from 100 to 10 000: a sieve of 100 keeps the second.
/// let kept = retained_share(&[10e-6, 1000e-6], &[3.0, 1.0], 100e-6)?;
/// assert!((kept - 0.25).abs() < 1e-12);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn retained_share(
    middles_m: &[f64],
    masses_kg: &[f64],
    sieve_m: f64,
) -> Result<f64, PhysicsError> {
    length("masses_kg", masses_kg.len(), middles_m.len())?;
    positive("sieve_m", sieve_m)?;
    let half_width = match middles_m {
        [first, .., last] => {
            0.5 * (positive("middles_m", *last)? / positive("middles_m", *first)?).ln()
                / (middles_m.len() - 1) as f64
        }
        _ => 0.0,
    };
    let (mut kept_kg, mut sum_kg) = (0.0, 0.0);
    for (middle_m, mass_kg) in middles_m.iter().zip(masses_kg) {
        let above = (positive("middles_m", *middle_m)? / sieve_m).ln();
        let coarser = if above.abs() < half_width {
            0.5 * (1.0 + above / half_width)
        } else {
            f64::from(above > 0.0)
        };
        kept_kg += coarser * not_negative("masses_kg", *mass_kg)?;
        sum_kg += mass_kg;
    }
    Ok(if sum_kg > 0.0 { kept_kg / sum_kg } else { 0.0 })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sieve_within_a_class_keeps_its_coarser_part() {
        // Edges 1, 10, 100 µm: a sieve of 10^1.25 µm cuts a quarter of the second class off.
        let middles_m = [10.0_f64.sqrt() * 1e-6, 1000.0_f64.sqrt() * 1e-6];
        let kept = retained_share(&middles_m, &[1.0, 1.0], 10.0_f64.powf(1.25) * 1e-6);
        let kept = kept.expect("a share");
        assert!((kept - 0.375).abs() < 1e-12, "{kept}");
    }

    #[test]
    fn one_class_is_kept_whole_or_not_at_all() {
        let kept = |diameter_m| retained_share(&[diameter_m], &[2.0], SIEVE_M).expect("a share");
        assert!((kept(46e-6) - 1.0).abs() < 1e-15 && kept(44e-6).abs() < 1e-300);
        let none = retained_share(&[50e-6], &[0.0], SIEVE_M).expect("a share");
        assert!(none.abs() < 1e-300, "no ash: {none}");
    }

    #[test]
    fn impossible_sieves_are_refused() {
        assert!(retained_share(&[1e-6], &[], SIEVE_M).is_err(), "lengths");
        assert!(retained_share(&[1e-6], &[-1.0], SIEVE_M).is_err(), "mass");
        assert!(retained_share(&[1e-6], &[1.0], 0.0).is_err(), "no sieve");
    }
}
