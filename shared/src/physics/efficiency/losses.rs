//! The floor under every collector: gas that sneaks past the plates and dust that rapping throws back.
//!
//! `p_s = LF + (1−LF)p_c`, `LF = S_N + RR(1−S_N)`, `P = p_s^n ≥ LF^n`; bypass alone
//! `P = [S+(1−S)e^(−De/N)]^N`

use crate::physics::PhysicsError;
use crate::physics::error::{not_negative, require, share};

/// Loss factor of a section: what escapes it however large it is.
///
/// `LF = S_N + RR(1−S_N)`
///
/// # Arguments
/// * `sneakage` – `S_N`, share of the gas that bypasses the charged zone, 0 to below 1 (0.07 dry, 0.05 wet).
/// * `reentrained` – RR, share of the caught dust that leaves with the gas again, 0 to below 1 (0.124 coal ash).
///
/// # Source
/// US EPA *Air Pollution Control Cost Manual* (EPA/452/B-02-001), Sec. 6 Ch. 3, from memory of it.
///
/// # Validity
/// Losses equal in every section.
///
/// # Errors
/// A share outside its range.
///
/// ```
/// let factor = ashlane_shared::physics::efficiency::losses::loss_factor(0.07, 0.14)?;
/// assert!((factor - 0.2002).abs() < 1e-12);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn loss_factor(sneakage: f64, reentrained: f64) -> Result<f64, PhysicsError> {
    share("sneakage", sneakage)?;
    share("reentrained", reentrained)?;
    Ok(sneakage + reentrained * (1.0 - sneakage))
}

/// Penetration of one section with its losses.
///
/// `p_s = LF + (1−LF)p_c`
///
/// # Arguments
/// * `loss_factor` – LF, 0 to below 1.
/// * `charged_penetration` – `p_c` between the plates, 0 to 1.
///
/// # Source
/// As [`loss_factor`].
///
/// # Validity
/// As [`loss_factor`].
#[must_use]
pub fn section_penetration(loss_factor: f64, charged_penetration: f64) -> f64 {
    loss_factor + (1.0 - loss_factor) * charged_penetration
}

/// Penetration that no size of plates can undercut.
///
/// `P ≥ LF^n`
///
/// # Arguments
/// * `loss_factor` – LF, 0 to below 1.
/// * `sections` – n equal sections in series.
///
/// # Source
/// As [`loss_factor`].
///
/// # Validity
/// As [`loss_factor`].
#[must_use]
pub fn floor(loss_factor: f64, sections: i32) -> f64 {
    loss_factor.powi(sections)
}

/// Penetration with bypass alone, by Deutsch's law between the plates.
///
/// `P = [S+(1−S)e^(−De/N)]^N`; the bypass does not slow the gas between the plates, and behind each section the
/// bypassed gas rejoins spread evenly over the gap
///
/// # Arguments
/// * `deutsch` – De of the whole collector, 0 or more.
/// * `sections` – N, 1 or more.
/// * `sneakage` – S, 0 to below 1.
///
/// # Source
/// From memory of White 1963; the product of equal sections, computed.
///
/// # Validity
/// Perfect mixing between sections.
///
/// # Errors
/// A number outside its range.
///
/// ```
/// let escaped = ashlane_shared::physics::efficiency::losses::sneakage_penetration(6.9078, 4, 0.05)?;
/// assert!((escaped / 2.297513e-3 - 1.0).abs() < 1e-5);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn sneakage_penetration(
    deutsch: f64,
    sections: i32,
    sneakage: f64,
) -> Result<f64, PhysicsError> {
    not_negative("deutsch", deutsch)?;
    require(sections > 0, "sections", f64::from(sections), "1 or more")?;
    share("sneakage", sneakage)?;
    let charged = (-deutsch / f64::from(sections)).exp();
    Ok(section_penetration(sneakage, charged).powi(sections))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_three_ways_out_add_up() {
        // p_s = S_N + p_c(1−S_N) + RR(1−S_N)(1−p_c): past the plates, through them, thrown back.
        let (sneakage, reentrained, charged) = (0.07, 0.124, 0.3);
        let ways = sneakage
            + charged * (1.0 - sneakage)
            + reentrained * (1.0 - sneakage) * (1.0 - charged);
        let section =
            section_penetration(loss_factor(sneakage, reentrained).expect("shares"), charged);
        assert!((ways - section).abs() < 1e-15, "{ways} {section}");
    }

    #[test]
    fn endless_plates_leave_the_floor() {
        let escaped = sneakage_penetration(1e4, 3, 0.05).expect("in range");
        assert!((escaped / floor(0.05, 3) - 1.0).abs() < 1e-14, "{escaped}");
    }

    #[test]
    fn impossible_shares_are_refused() {
        assert!(loss_factor(1.0, 0.1).is_err(), "all gas bypasses");
        assert!(loss_factor(0.1, -0.1).is_err(), "negative rapping loss");
        assert!(sneakage_penetration(1.0, 0, 0.1).is_err(), "no section");
    }
}
