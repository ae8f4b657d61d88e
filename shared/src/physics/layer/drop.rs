//! What the layer of dust costs: the current must cross it, and that takes voltage from the gas.
//!
//! `E_l = jρ`, `ΔV = jρh`

/// Electric field in a layer that only resists, V/m.
///
/// `E_l = jρ`
///
/// # Arguments
/// * `current_density_a_m2` – j through the layer, A/m², 0 or more (1 nA/cm² is 1e-5 A/m²).
/// * `resistivity_ohm_m` – ρ of the layer, Ω·m, 0 or more (1 Ω·cm is 0.01 Ω·m).
///
/// # Source
/// Ohm's law.
///
/// # Validity
/// Steady current below breakdown of the layer, see [`super::back_corona::held_field_v_m`].
#[must_use]
pub fn ohmic_field_v_m(current_density_a_m2: f64, resistivity_ohm_m: f64) -> f64 {
    current_density_a_m2 * resistivity_ohm_m
}

/// Voltage across a layer that only resists, V; by so much the curve of voltage against current moves up.
///
/// `ΔV = jρh`
///
/// # Arguments
/// * `current_density_a_m2` – j through the layer, A/m², 0 or more.
/// * `resistivity_ohm_m` – ρ of the layer, Ω·m, 0 or more.
/// * `thickness_m` – h of the layer, m, 0 or more.
///
/// # Source
/// Ohm's law.
///
/// # Validity
/// As [`ohmic_field_v_m`]; an even layer, thin beside the gap.
///
/// ```
/// use ashlane_shared::physics::layer::drop::ohmic_drop_v;
/// // 30 nA/cm² through 5 mm of 1e11 Ω·cm: 1.5 kV.
/// assert!((ohmic_drop_v(30e-5, 1e9, 5e-3) - 1500.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn ohmic_drop_v(current_density_a_m2: f64, resistivity_ohm_m: f64, thickness_m: f64) -> f64 {
    ohmic_field_v_m(current_density_a_m2, resistivity_ohm_m) * thickness_m
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_drop_is_the_field_over_the_thickness() {
        let (density, resistivity, thickness) = (20e-5, 5e9, 5e-3);
        let slope = (ohmic_drop_v(density, resistivity, 2.0 * thickness)
            - ohmic_drop_v(density, resistivity, thickness))
            / thickness;
        let field = ohmic_field_v_m(density, resistivity);
        assert!((slope / field - 1.0).abs() < 1e-14, "{slope} {field}");
        // By hand: 20 nA/cm² through 5e11 Ω·cm is 10 kV/cm.
        assert!((field / 1e6 - 1.0).abs() < 1e-14, "{field}");
    }
}
