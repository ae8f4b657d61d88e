//! Diffusion charging: ions in thermal motion hit fine grains even where the field would pass them by.
//!
//! `q = (2πε₀dkT/e) ln[1 + d e² N₀ v̄ t/(8ε₀kT)]`

use super::thermal_charge_c;
use crate::physics::constants::{BOLTZMANN_J_K, ELEMENTARY_CHARGE_C, VACUUM_PERMITTIVITY_F_M};
use crate::physics::gas::ion_thermal_speed_m_s;

/// Charge after some more time by diffusion alone, C.
///
/// `q = q_k ln[e^(q₀/q_k) + d e² N₀ v̄ t/(8ε₀kT)]`, `q_k = 2πε₀dkT/e`
///
/// # Arguments
/// * `diameter_m` – d, m, above 0.
/// * `temperature_k` – T, K, above 0.
/// * `ion_density_per_m3` – N₀, 1/m³, 0 or more.
/// * `charge_c` – charge q₀ at the start, C.
/// * `duration_s` – t, s, 0 or more.
///
/// # Source
/// White 1951, Trans. AIEE 70:1186, as printed in Tan 2014, *Air Pollution and Greenhouse Gases*.
///
/// # Validity
/// Grains below about 0.2 µm; the ion speed v̄ is that of O₂⁻. It never saturates.
#[must_use]
pub fn charge_later_c(
    diameter_m: f64,
    temperature_k: f64,
    ion_density_per_m3: f64,
    charge_c: f64,
    duration_s: f64,
) -> f64 {
    let unit_c = thermal_charge_c(diameter_m, temperature_k);
    let hits = diameter_m
        * ELEMENTARY_CHARGE_C
        * ELEMENTARY_CHARGE_C
        * ion_density_per_m3
        * ion_thermal_speed_m_s(temperature_k)
        * duration_s
        / (8.0 * VACUUM_PERMITTIVITY_F_M * BOLTZMANN_J_K * temperature_k);
    // The same formula with e^(q₀/q_k) taken out of the logarithm, so that large charges do not overflow.
    charge_c + unit_c * ((-charge_c / unit_c).exp() * hits).ln_1p()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_ions_arrive_at_the_kinetic_rate() {
        // A sphere is hit πd²N₀v̄/4 times a second by neutral kinetics.
        let (diameter_m, density) = (0.1e-6_f64, 1e13);
        let rate =
            std::f64::consts::PI * diameter_m.powi(2) * density * ion_thermal_speed_m_s(423.15)
                / 4.0;
        let charge = charge_later_c(diameter_m, 423.15, density, 0.0, 1e-9) / ELEMENTARY_CHARGE_C;
        assert!((charge / (rate * 1e-9) - 1.0).abs() < 1e-3, "{charge}");
    }
}
