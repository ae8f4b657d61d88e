//! How charged dust holds the corona back: its own charge pushes against the wires ("quenching").
//!
//! `ρ_q = 6 p_ε ε₀ E C/(ρ_p d)`, `ΔV₀ = ρ_q s²/(2ε₀)` between plates, `ρ_q R²/(4ε₀)` in a tube

use crate::physics::charging::polarisation;
use crate::physics::constants::VACUUM_PERMITTIVITY_F_M;

/// A cloud of equal grains.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cloud {
    /// Mass of dust per volume of gas C, kg/m³, 0 or more.
    pub load_kg_m3: f64,
    /// Diameter d of a grain, m, above 0.
    pub diameter_m: f64,
    /// Density `ρ_p` of a grain, kg/m³, above 0.
    pub density_kg_m3: f64,
    /// Relative permittivity `ε_r` of a grain, 1 or more.
    pub permittivity: f64,
}

/// Charge density of a cloud whose grains are saturated by field charging, C/m³.
///
/// `ρ_q = 6 p_ε ε₀ E C/(ρ_p d)`, `p_ε = 3ε_r/(ε_r+2)`
///
/// # Arguments
/// * `cloud` – the dust.
/// * `field_v_m` – charging field E, V/m, 0 or more.
///
/// # Source
/// Pauthenier & Moreau-Hanot 1932 for the charge of a grain, times grains per volume.
///
/// # Validity
/// Coarse dust (above 1 µm) after several charging times.
#[must_use]
pub fn saturated_charge_c_m3(cloud: &Cloud, field_v_m: f64) -> f64 {
    6.0 * polarisation(cloud.permittivity) * VACUUM_PERMITTIVITY_F_M * field_v_m * cloud.load_kg_m3
        / (cloud.density_kg_m3 * cloud.diameter_m)
}

/// Rise of the onset voltage between plates by uniformly charged dust, V.
///
/// `ΔV₀ = ρ_q s²/(2ε₀)`
///
/// # Arguments
/// * `charge_c_m3` – `ρ_q`, C/m³, 0 or more.
/// * `gap_m` – s from wire to plate, m, above 0.
///
/// # Source
/// Poisson's equation and superposition.
///
/// # Validity
/// Exact for uniform charge.
///
/// ```
/// let rise = ashlane_shared::physics::corona::space_charge::onset_shift_duct_v(1.4849e-5, 0.15);
/// assert!((rise / 18_866.5 - 1.0).abs() < 1e-4);
/// ```
#[must_use]
pub fn onset_shift_duct_v(charge_c_m3: f64, gap_m: f64) -> f64 {
    charge_c_m3 * gap_m * gap_m / (2.0 * VACUUM_PERMITTIVITY_F_M)
}

/// Rise of the onset voltage in a tube by uniformly charged dust, V.
///
/// `ΔV₀ = ρ_q R²/(4ε₀)`
///
/// # Arguments
/// * `charge_c_m3` – `ρ_q`, C/m³, 0 or more.
/// * `tube_radius_m` – R, m, above 0.
///
/// # Source
/// Poisson's equation and superposition.
///
/// # Validity
/// Exact for uniform charge and a thin wire.
#[must_use]
pub fn onset_shift_tube_v(charge_c_m3: f64, tube_radius_m: f64) -> f64 {
    charge_c_m3 * tube_radius_m * tube_radius_m / (4.0 * VACUUM_PERMITTIVITY_F_M)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn charge_of_the_cloud_is_grains_times_charge() {
        use std::f64::consts::PI;
        let cloud = Cloud {
            load_kg_m3: 5e-3,
            diameter_m: 5e-6,
            density_kg_m3: 2300.0,
            permittivity: 5.0,
        };
        let grains = cloud.load_kg_m3 / (cloud.density_kg_m3 * PI / 6.0 * cloud.diameter_m.powi(3));
        let charge = crate::physics::charging::field::saturation_c(
            cloud.diameter_m,
            cloud.permittivity,
            3e5,
        );
        let total = saturated_charge_c_m3(&cloud, 3e5);
        assert!((grains * charge / total - 1.0).abs() < 1e-12, "{total}");
    }

    #[test]
    fn the_shift_is_the_peak_of_the_parabola() {
        // Computed: φ of uniform charge between grounded plates obeys φ'' = −ρ/ε₀; second difference at the middle.
        let peak = onset_shift_duct_v(1e-5, 0.115);
        let fall = 1e-5 * 0.05 * 0.05 / (2.0 * VACUUM_PERMITTIVITY_F_M);
        let at_plate = peak - fall * (0.115_f64 / 0.05).powi(2);
        assert!(at_plate.abs() < 1e-9 * peak, "{at_plate} V at the plate");
        assert!(
            (onset_shift_tube_v(1e-5, 0.115) / peak - 0.5).abs() < 1e-15,
            "tube is half of it"
        );
    }
}
