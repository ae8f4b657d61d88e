//! What uneven gas costs: fast lanes lose more than slow lanes gain.
//!
//! `P = ∫ v P(De/v) g(v) dv / ∫ v g(v) dv`, v the velocity over its mean, g a bell curve cut off at v = 0

use super::limits;
use crate::physics::PhysicsError;
use crate::physics::error::require;
use crate::physics::normal;
use crate::physics::quadrature::gauss_legendre;

/// Deviations on each side of the mean that are integrated.
const REACH: f64 = 8.0;
/// Points of Gauss's rule; 64 leave 1e-10 at spreads up to 30 %, 1e-7 at 50 %.
const POINTS: usize = 64;

/// One lane of the gas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lane {
    /// Velocity over the mean velocity.
    pub relative_velocity: f64,
    /// Share of the gas that flows in it.
    pub gas_share: f64,
}

/// Lanes whose weighted sum is the integral over all velocities; the gas shares add up to 1.
///
/// `share ∝ v g(v)`
///
/// # Arguments
/// * `spread` – RMS of the velocity over its mean, 0 to 0.5; 0 is one lane.
///
/// # Source
/// Definition of the flux mean.
///
/// # Validity
/// Normal spread over the face; no mixing between lanes.
///
/// # Errors
/// A spread outside its range.
pub fn lanes(spread: f64) -> Result<Vec<Lane>, PhysicsError> {
    require((0.0..=0.5).contains(&spread), "spread", spread, "0 to 0.5")?;
    if spread < 1e-9 {
        return Ok(vec![Lane {
            relative_velocity: 1.0,
            gas_share: 1.0,
        }]);
    }
    let low = (1.0 - REACH * spread).max(0.0);
    let mut lanes: Vec<Lane> = gauss_legendre(POINTS, low, 1.0 + REACH * spread)
        .into_iter()
        .map(|(velocity, weight)| Lane {
            relative_velocity: velocity,
            gas_share: weight * velocity * normal::density((velocity - 1.0) / spread),
        })
        .collect();
    let total: f64 = lanes.iter().map(|lane| lane.gas_share).sum();
    for lane in &mut lanes {
        lane.gas_share /= total;
    }
    Ok(lanes)
}

/// Penetration of unevenly spread gas, from the penetration at each velocity.
///
/// `P = Σ share·P(v)`
///
/// # Arguments
/// * `spread` – RMS of the velocity over its mean, 0 to 0.5.
/// * `at_velocity` – penetration of a lane from its velocity over the mean.
///
/// # Source
/// Definition of the flux mean.
///
/// # Validity
/// As [`lanes`].
///
/// # Errors
/// As [`lanes`].
pub fn mean_penetration(
    spread: f64,
    at_velocity: impl Fn(f64) -> f64,
) -> Result<f64, PhysicsError> {
    let escaped = lanes(spread)?
        .iter()
        .map(|lane| lane.gas_share * at_velocity(lane.relative_velocity))
        .sum();
    Ok(escaped)
}

/// Penetration of unevenly spread gas by Deutsch's law in every lane.
///
/// `P = ∫ v e^(−De/v) g(v) dv / ∫ v g(v) dv`
///
/// # Arguments
/// * `deutsch` – De at the mean velocity, 0 or more.
/// * `spread` – RMS of the velocity over its mean, 0 to 0.5.
///
/// # Source
/// Flux mean of Deutsch's law, computed.
///
/// # Validity
/// As [`lanes`].
///
/// # Errors
/// As [`lanes`].
///
/// ```
/// use ashlane_shared::physics::efficiency::velocity_spread::deutsch_penetration;
/// let worse = deutsch_penetration(3.0, 0.15)? / (-3.0_f64).exp();
/// assert!((worse / 1.0995 - 1.0).abs() < 0.005);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn deutsch_penetration(deutsch: f64, spread: f64) -> Result<f64, PhysicsError> {
    mean_penetration(spread, |velocity| limits::deutsch(deutsch / velocity))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lanes_carry_all_the_gas() {
        for spread in [0.0, 1e-6, 0.1, 0.25, 0.5] {
            let total: f64 = lanes(spread)
                .expect("lanes")
                .iter()
                .map(|lane| lane.gas_share)
                .sum();
            assert!((total - 1.0).abs() < 1e-13, "{total} at {spread}");
        }
    }

    #[test]
    fn even_gas_changes_nothing_and_uneven_gas_always_costs() {
        let even = deutsch_penetration(4.0, 0.0).expect("in range");
        assert!((even / limits::deutsch(4.0) - 1.0).abs() < 1e-15, "{even}");
        let mut before = even;
        for spread in [0.05, 0.1, 0.2, 0.4] {
            let now = deutsch_penetration(4.0, spread).expect("in range");
            assert!(now > before, "{now} at {spread}");
            before = now;
        }
    }

    #[test]
    fn small_spread_follows_the_expansion() {
        // ⟨v f(v)⟩ ≈ f + σ²(f' + f''/2) with f = e^(−De/v): factor 1 + σ²De²/2 at v = 1.
        let (deutsch, spread) = (3.0, 0.01);
        let worse =
            deutsch_penetration(deutsch, spread).expect("in range") / limits::deutsch(deutsch);
        assert!(
            ((worse - 1.0) / (0.5 * (spread * deutsch).powi(2)) - 1.0).abs() < 1e-2,
            "{worse}"
        );
    }

    #[test]
    fn impossible_spreads_are_refused() {
        assert!(
            lanes(-0.1).is_err() && lanes(0.6).is_err() && lanes(f64::NAN).is_err(),
            "accepted"
        );
    }
}
