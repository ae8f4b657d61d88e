//! Charging of grains of all sizes by one saturation charge: ions within a free path of a grain count as caught.
//!
//! `q_∞ = [(1+2λ/d)² + (2/(1+2λ/d))(ε_r−1)/(ε_r+2)] π ε₀ d² E`, `q = q_∞ t/(t+τ)`

use std::f64::consts::PI;

use super::Grain;
use crate::physics::constants::VACUUM_PERMITTIVITY_F_M;

/// Charge that a grain approaches, C.
///
/// `q_∞ = [(1+2λ/d)² + (2/(1+2λ/d))(ε_r−1)/(ε_r+2)] π ε₀ d² E`
///
/// # Arguments
/// * `grain` – diameter and permittivity.
/// * `mean_free_path_m` – λ, m, 0 or more.
/// * `field_v_m` – E, V/m, 0 or more.
///
/// # Source
/// Cochet 1961, Colloques Int. CNRS 102:331.
///
/// # Validity
/// 0.05–50 µm in a field; between 0.2 and 0.5 µm it gives about half of what Lawless 1996 gives.
#[must_use]
pub fn saturation_c(grain: &Grain, mean_free_path_m: f64, field_v_m: f64) -> f64 {
    let diameter_m = grain.diameter_m;
    let reach = 1.0 + 2.0 * mean_free_path_m / diameter_m;
    // (ε_r−1)/(ε_r+2) divided by ε_r, so that a conductor gives 1.
    let inverse = 1.0 / grain.permittivity;
    let polarised = (1.0 - inverse) / (1.0 + 2.0 * inverse);
    (reach * reach + 2.0 / reach * polarised)
        * PI
        * VACUUM_PERMITTIVITY_F_M
        * diameter_m
        * diameter_m
        * field_v_m
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::charging::field;

    #[test]
    fn coarse_grains_charge_by_the_field_alone() {
        for permittivity in [1.0, 5.0, f64::INFINITY] {
            let grain = Grain {
                diameter_m: 1e-4,
                permittivity,
            };
            let cochet = saturation_c(&grain, 1e-12, 3e5);
            let pauthenier = field::saturation_c(1e-4, permittivity, 3e5);
            assert!(
                (cochet / pauthenier - 1.0).abs() < 1e-6,
                "{cochet} not {pauthenier}"
            );
        }
    }
}
