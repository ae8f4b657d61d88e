//! What presses the layer of dust to the plate or pulls it off: the electric fields on its two sides.
//!
//! `p = ½ε₀(ε_r E_l² − E_g²)`

use crate::physics::constants::VACUUM_PERMITTIVITY_F_M;

/// Electric stress on the layer, Pa: above 0 it is pressed to the plate, below 0 it is pulled off.
///
/// `p = ½ε₀(ε_r E_l² − E_g²)`
///
/// # Arguments
/// * `layer_field_v_m` – `E_l` in the layer, V/m, see [`super::back_corona::held_field_v_m`].
/// * `gas_field_v_m` – `E_g` in the gas at the layer, V/m.
/// * `layer_permittivity` – `ε_r` of the layer with its voids, 1 or more (about 2, lower than that of a grain).
///
/// # Source
/// Maxwell 1873, stress of the field on both sides of a surface.
///
/// # Validity
/// Even layer, fields square to the plate; cohesion and the weight of the dust are apart.
///
/// ```
/// use ashlane_shared::physics::layer::stress::clamping_stress_pa;
/// assert!((clamping_stress_pa(1e6, 3e5, 2.0) - 8.456).abs() < 1e-3);
/// assert!(clamping_stress_pa(0.0, 3e5, 2.0) < 0.0);
/// ```
#[must_use]
pub fn clamping_stress_pa(
    layer_field_v_m: f64,
    gas_field_v_m: f64,
    layer_permittivity: f64,
) -> f64 {
    0.5 * VACUUM_PERMITTIVITY_F_M
        * (layer_permittivity * layer_field_v_m * layer_field_v_m - gas_field_v_m * gas_field_v_m)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_resisting_layer_is_held_and_a_conducting_one_is_pulled() {
        // At E_l = E_g/√ε_r the two sides balance.
        let balance = clamping_stress_pa(3e5 / 2.0_f64.sqrt(), 3e5, 2.0);
        assert!(balance.abs() < 1e-12, "{balance}");
        assert!(clamping_stress_pa(3e5, 3e5, 2.0) > 0.0, "held");
        assert!(clamping_stress_pa(1e5, 3e5, 2.0) < 0.0, "pulled");
    }
}
