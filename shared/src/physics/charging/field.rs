//! Field charging: ions follow the field lines onto a coarse grain until its own charge turns them away.
//!
//! `q_s = π ε₀ p_ε E d²`, `q = q_s t/(t+τ)`, `τ = 4ε₀/(N₀eb) = 4ε₀E/j`

use std::f64::consts::PI;

use super::polarisation;
use crate::physics::constants::{ELEMENTARY_CHARGE_C, VACUUM_PERMITTIVITY_F_M};

/// Charge at which no more ions reach a grain, C.
///
/// `q_s = π ε₀ p_ε E d²`
///
/// # Arguments
/// * `diameter_m` – d, m, above 0.
/// * `permittivity` – `ε_r`, 1 or more.
/// * `field_v_m` – E, V/m, 0 or more.
///
/// # Source
/// Pauthenier & Moreau-Hanot 1932, J. Phys. Radium 3:590.
///
/// # Validity
/// Grains above about 1 µm; below it diffusion adds more than this.
///
/// ```
/// use ashlane_shared::physics::charging::{elementary_charges, field};
/// // de Nevers, Air Pollution Control Engineering, Ex. 9.1 (from memory of it): 117 electrons.
/// let charge = field::saturation_c(1e-6, 6.0, 300e3);
/// assert!((elementary_charges(charge) - 117.0).abs() < 0.5);
/// ```
#[must_use]
pub fn saturation_c(diameter_m: f64, permittivity: f64, field_v_m: f64) -> f64 {
    PI * VACUUM_PERMITTIVITY_F_M * polarisation(permittivity) * field_v_m * diameter_m * diameter_m
}

/// Time in which half of the saturation charge is reached, s; infinite without ions.
///
/// `τ = 4ε₀/(N₀eb)`, with `j = N₀ebE` the same as `4ε₀E/j`
///
/// # Arguments
/// * `ion_density_per_m3` – N₀, 1/m³, 0 or more.
/// * `ion_mobility_m2_v_s` – b, m²/V/s, above 0.
///
/// # Source
/// Pauthenier & Moreau-Hanot 1932.
///
/// # Validity
/// As [`saturation_c`].
#[must_use]
pub fn charging_time_s(ion_density_per_m3: f64, ion_mobility_m2_v_s: f64) -> f64 {
    4.0 * VACUUM_PERMITTIVITY_F_M / (ion_density_per_m3 * ELEMENTARY_CHARGE_C * ion_mobility_m2_v_s)
}

/// Charge after some time on the way to saturation, C.
///
/// `q = q_s t/(t+τ)` from any start: `1/(1−q/q_s)` grows by t/τ. At or above saturation the charge stays.
///
/// # Arguments
/// * `charge_c` – charge at the start, C.
/// * `saturation_c` – `q_s`, C, 0 or more.
/// * `times` – t/τ, 0 or more.
///
/// # Source
/// Integral of `dq/dt = (q_s/τ)(1−q/q_s)²`, Pauthenier & Moreau-Hanot 1932.
///
/// # Validity
/// As [`saturation_c`].
#[must_use]
pub fn approach_c(charge_c: f64, saturation_c: f64, times: f64) -> f64 {
    if charge_c >= saturation_c || times <= 0.0 {
        return charge_c;
    }
    let missing_c = saturation_c - charge_c;
    charge_c + missing_c * (missing_c * times / (saturation_c + missing_c * times))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_of_saturation_after_one_charging_time() {
        assert!((approach_c(0.0, 8.0, 1.0) - 4.0).abs() < 1e-15, "one time");
        assert!(
            (approach_c(0.0, 8.0, 3.0) - 6.0).abs() < 1e-15,
            "three times"
        );
        assert!(
            (approach_c(9.0, 8.0, 3.0) - 9.0).abs() < 1e-15,
            "above saturation"
        );
    }

    #[test]
    fn charging_time_is_4_permittivities_times_field_over_current() {
        // Case X of the specification: 0.035417 s, computed from 4ε₀E/j.
        let density = 3e-4 / (ELEMENTARY_CHARGE_C * 2.2e-4 * 3e5);
        let time_s = charging_time_s(density, 2.2e-4);
        assert!((time_s / 0.035_417 - 1.0).abs() < 1e-4, "{time_s}");
    }
}
