//! What a perforated plate in the gas costs in pressure and how far it evens out the flow.
//!
//! `ζ = [0.707 √(1−f) + 1−f]²/f²`, `Δp = ζ ρu²/2`, smoothing `(1+α−αζ)/(1+α+ζ)` with `α = 1.1/√(1+ζ)`

use crate::physics::PhysicsError;
use crate::physics::error::{not_negative, require};

/// Root of half the loss of a sharp edge in Idelchik's formula. Source: from memory of Idelchik, diagram 8-1.
const EDGE_COEFFICIENT: f64 = 0.707;
/// Coefficient of the bending of the flow at a screen. Source: from memory of Taylor & Batchelor 1949.
const BENDING_COEFFICIENT: f64 = 1.1;

/// Loss coefficient ζ of a thin perforated plate, in dynamic pressures of the gas before it.
///
/// `ζ = [0.707 √(1−f) + 1−f]²/f²`
///
/// # Arguments
/// * `open_share` – open area over whole area f, above 0, at most 1 (no plate).
///
/// # Source
/// From memory of Idelchik, *Handbook of Hydraulic Resistance*, diagram 8-1.
///
/// # Validity
/// Sharp-edged holes in a thin plate across a straight duct, Reynolds number of a hole above 1e5; other formulas of the
/// same plate lie within 9 %.
///
/// # Errors
/// An open share outside its range.
///
/// ```
/// let loss = ashlane_shared::physics::gas_path::perforated_plate::loss_coefficient(0.4)?;
/// assert!((loss / 8.2317 - 1.0).abs() < 1e-4);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn loss_coefficient(open_share: f64) -> Result<f64, PhysicsError> {
    require(
        open_share > 0.0 && open_share <= 1.0,
        "open_share",
        open_share,
        "above 0 and at most 1",
    )?;
    let closed = 1.0 - open_share;
    Ok(((EDGE_COEFFICIENT * closed.sqrt() + closed) / open_share).powi(2))
}

/// Pressure that a loss takes from the gas, Pa.
///
/// `Δp = ζ ρu²/2`
///
/// # Arguments
/// * `loss_coefficient` – ζ, 0 or more.
/// * `density_kg_m3` – density ρ of the gas, kg/m³, 0 or more.
/// * `velocity_m_s` – velocity u that ζ refers to, m/s, 0 or more.
///
/// # Source
/// Definition of the loss coefficient (Weisbach 1845).
///
/// # Validity
/// Turbulent flow, in which ζ does not depend on velocity.
///
/// # Errors
/// An argument outside its range.
pub fn pressure_loss_pa(
    loss_coefficient: f64,
    density_kg_m3: f64,
    velocity_m_s: f64,
) -> Result<f64, PhysicsError> {
    let loss = not_negative("loss_coefficient", loss_coefficient)?;
    let density = not_negative("density_kg_m3", density_kg_m3)?;
    let velocity = not_negative("velocity_m_s", velocity_m_s)?;
    Ok(0.5 * loss * density * velocity * velocity)
}

/// What is left of a small unevenness of the velocity behind a plate; below 0 where fast gas has become slow gas.
///
/// `(1+α−αζ)/(1+α+ζ)`, `α = 1.1/√(1+ζ)`
///
/// # Arguments
/// * `loss_coefficient` – ζ of the plate, 0 or more.
///
/// # Source
/// From memory of Taylor & Batchelor 1949, Q. J. Mech. Appl. Math. 2:1.
///
/// # Validity
/// Small unevenness, wide beside the holes. Around ζ = 2.76 nothing is left; denser plates overshoot and, in practice,
/// let the jets of the holes run together.
///
/// # Errors
/// A loss coefficient outside its range.
pub fn smoothing_factor(loss_coefficient: f64) -> Result<f64, PhysicsError> {
    let loss = not_negative("loss_coefficient", loss_coefficient)?;
    let bending = BENDING_COEFFICIENT / (1.0 + loss).sqrt();
    Ok((1.0 + bending - bending * loss) / (1.0 + bending + loss))
}

/// What is left of a small unevenness behind several plates, one after the other.
///
/// `Π (1+α_k−α_k ζ_k)/(1+α_k+ζ_k)`
///
/// # Arguments
/// * `open_shares` – open share f of each plate, above 0, at most 1; no plate leaves everything.
///
/// # Source
/// As [`smoothing_factor`]; each plate meets what the one before has left.
///
/// # Validity
/// As [`smoothing_factor`]; plates far apart beside their holes.
///
/// # Errors
/// An open share outside its range.
pub fn smoothing_of_plates(open_shares: &[f64]) -> Result<f64, PhysicsError> {
    open_shares.iter().try_fold(1.0, |left, &open_share| {
        Ok(left * smoothing_factor(loss_coefficient(open_share)?)?)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_plate_costs_nothing_and_smooths_nothing() {
        assert!(loss_coefficient(1.0).expect("open").abs() < 1e-15);
        let left = smoothing_factor(0.0).expect("no loss");
        assert!((left - 1.0).abs() < 1e-15, "{left}");
        let left = smoothing_of_plates(&[]).expect("no plate");
        assert!((left - 1.0).abs() < 1e-15, "{left}");
    }

    #[test]
    fn a_closed_plate_is_refused() {
        for open_share in [0.0, -0.1, 1.01, f64::NAN] {
            assert!(loss_coefficient(open_share).is_err(), "{open_share} passed");
            assert!(smoothing_of_plates(&[0.5, open_share]).is_err());
        }
    }

    #[test]
    fn plates_in_series_leave_the_product() {
        let one = smoothing_of_plates(&[0.5]).expect("a plate");
        let other = smoothing_of_plates(&[0.4]).expect("a plate");
        let both = smoothing_of_plates(&[0.5, 0.4]).expect("two plates");
        assert!((both - one * other).abs() < 1e-15, "{one} {other} {both}");
    }

    #[test]
    fn loss_grows_with_the_square_of_the_velocity() {
        let slow = pressure_loss_pa(4.0, 0.8, 1.0).expect("in range");
        let fast = pressure_loss_pa(4.0, 0.8, 2.0).expect("in range");
        assert!((fast / slow - 4.0).abs() < 1e-15 && (slow - 1.6).abs() < 1e-15);
    }
}
