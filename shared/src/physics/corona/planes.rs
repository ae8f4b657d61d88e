//! Ions between two flat plates: the simplest space charge, for lessons and for testing solvers.
//!
//! `V = (ε₀b/3j){(E_s²+2jL/(ε₀b))^(3/2) − E_s³}`

use crate::physics::constants::VACUUM_PERMITTIVITY_F_M;

/// Voltage between parallel plates that carry a current of ions, V.
///
/// `V = (ε₀b/3j){(E_s²+2jL/(ε₀b))^(3/2) − E_s³}`, computed as `(2L/3)(a²+aE_s+E_s²)/(a+E_s)`, a the field at the
/// far plate, which keeps its digits at small currents.
///
/// # Arguments
/// * `current_density_a_m2` – j, A/m², 0 or more.
/// * `source_field_v_m` – field `E_s` at the plate that gives the ions, V/m, 0 or more, not 0 together with j.
/// * `distance_m` – L between the plates, m, above 0.
/// * `ion_mobility_m2_v_s` – b, m²/V/s, above 0.
///
/// # Source
/// Integral of Poisson's equation with `ρ = j/(bE)`; `E_s` = 0 is the law of Mott & Gurney 1940.
///
/// # Validity
/// One sort of ions, no dust. Exact within that.
///
/// ```
/// let voltage = ashlane_shared::physics::corona::planes::voltage_v(3e-4, 2e5, 0.1, 2e-4);
/// assert!((voltage - 23_772.8199).abs() < 1e-3);
/// ```
#[must_use]
pub fn voltage_v(
    current_density_a_m2: f64,
    source_field_v_m: f64,
    distance_m: f64,
    ion_mobility_m2_v_s: f64,
) -> f64 {
    let growth =
        2.0 * current_density_a_m2 * distance_m / (VACUUM_PERMITTIVITY_F_M * ion_mobility_m2_v_s);
    let far = (source_field_v_m * source_field_v_m + growth).sqrt();
    let near = source_field_v_m;
    2.0 * distance_m / 3.0 * (far * far + far * near + near * near) / (far + near)
}

/// Largest current density that a voltage can push through ions between parallel plates, A/m².
///
/// `j = (9/8) ε₀ b V²/L³`
///
/// # Arguments
/// * `voltage_v` – V, V, 0 or more.
/// * `distance_m` – L between the plates, m, above 0.
/// * `ion_mobility_m2_v_s` – b, m²/V/s, above 0.
///
/// # Source
/// Mott & Gurney 1940, *Electronic Processes in Ionic Crystals*.
///
/// # Validity
/// No field at the plate that gives the ions.
///
/// ```
/// let current = ashlane_shared::physics::corona::planes::mott_gurney_a_m2(50e3, 0.1, 2e-4);
/// assert!((current - 4.980480645e-3).abs() < 1e-11);
/// ```
#[must_use]
pub fn mott_gurney_a_m2(voltage_v: f64, distance_m: f64, ion_mobility_m2_v_s: f64) -> f64 {
    9.0 / 8.0 * VACUUM_PERMITTIVITY_F_M * ion_mobility_m2_v_s * voltage_v * voltage_v
        / distance_m.powi(3)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn mott_gurney_is_the_law_without_source_field() {
        let voltage = voltage_v(mott_gurney_a_m2(50e3, 0.1, 2e-4), 0.0, 0.1, 2e-4);
        assert!((voltage / 50e3 - 1.0).abs() < 1e-14, "{voltage}");
    }

    #[test]
    fn without_current_the_field_is_uniform() {
        let voltage = voltage_v(1e-15, 2e5, 0.1, 2e-4);
        assert!((voltage / 2e4 - 1.0).abs() < 1e-9, "{voltage}");
    }
}
