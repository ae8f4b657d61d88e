//! How fast a charged grain is pulled to the plate against the drag of the gas.
//!
//! Stokes: `w = qE Cc/(3πμd)`. Schiller & Naumann: `3πμdw(1+0.15Re^0.687)/Cc = qE`, `Re = ρ_g w d/μ`.
//! Relaxation: `τ_p = ρ_p d² Cc/(18μ)`.

use std::f64::consts::PI;

/// Coefficient of the drag correction. Source: Schiller & Naumann 1933.
const NAUMANN_COEFFICIENT: f64 = 0.15;
/// Power of the Reynolds number in it. Source: Schiller & Naumann 1933.
const NAUMANN_POWER: f64 = 0.687;
/// Standard gravity, m/s². Source: CGPM 1901.
const GRAVITY_M_S2: f64 = 9.806_65;

/// Mechanical mobility of a grain by Stokes' law, m/s per newton.
///
/// `Cc/(3πμd)`; times `qE` it is the migration velocity of the textbooks
///
/// # Arguments
/// * `diameter_m` – d, m, above 0.
/// * `slip` – slip factor Cc, 1 or more (see [`super::gas::slip_factor`]).
/// * `viscosity_pa_s` – μ, Pa·s, above 0.
///
/// # Source
/// Stokes 1851, with the slip factor of Cunningham 1910.
///
/// # Validity
/// Re below 0.1; at 10 µm it is 3 %, at 50 µm 22 % too fast.
///
/// ```
/// use ashlane_shared::physics::{charging::field, drag};
/// // de Nevers, Air Pollution Control Engineering, Ex. 9.2 (from memory of it): 0.033 m/s.
/// let force = field::saturation_c(1e-6, 6.0, 300e3) * 300e3;
/// let drift = drag::stokes_mobility_m_n_s(1e-6, 1.0, 1.8e-5) * force;
/// assert!((drift - 0.0332).abs() < 1e-4);
/// ```
#[must_use]
pub fn stokes_mobility_m_n_s(diameter_m: f64, slip: f64, viscosity_pa_s: f64) -> f64 {
    slip / (3.0 * PI * viscosity_pa_s * diameter_m)
}

/// Drag of the gas on a grain that moves through it, N.
///
/// `F = 3πμdv(1+0.15Re^0.687)/Cc`, `Re = ρ_g v d/μ`
///
/// # Arguments
/// * `speed_m_s` – v through the gas, m/s, 0 or more.
/// * `diameter_m` – d, m, above 0.
/// * `slip` – slip factor Cc, 1 or more.
/// * `gas` – density `ρ_g`, kg/m³, 0 or more, and viscosity μ, Pa·s, above 0.
///
/// # Source
/// Schiller & Naumann 1933, Z. VDI 77:318.
///
/// # Validity
/// Re below 1000.
///
/// ```
/// use ashlane_shared::physics::drag::{drag_n, stokes_mobility_m_n_s, terminal_drift_m_s};
/// // The drag at the terminal drift is the force that drives it.
/// let stokes_m_s = stokes_mobility_m_n_s(3e-5, 1.0, 2.4e-5) * 2e-9;
/// let drift_m_s = terminal_drift_m_s(stokes_m_s, 3e-5, 0.84, 2.4e-5);
/// assert!((drag_n(drift_m_s, 3e-5, 1.0, (0.84, 2.4e-5)) / 2e-9 - 1.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn drag_n(
    speed_m_s: f64,
    diameter_m: f64,
    slip: f64,
    (gas_density_kg_m3, viscosity_pa_s): (f64, f64),
) -> f64 {
    let reynolds = gas_density_kg_m3 * speed_m_s * diameter_m / viscosity_pa_s;
    let correction = 1.0 + NAUMANN_COEFFICIENT * reynolds.powf(NAUMANN_POWER);
    speed_m_s * correction / stokes_mobility_m_n_s(diameter_m, slip, viscosity_pa_s)
}

/// Weight of a grain, N.
///
/// `F = (π/6)ρ_p d³ g`
///
/// # Arguments
/// * `diameter_m` – d, m, above 0.
/// * `density_kg_m3` – `ρ_p` of the grain, kg/m³, above 0.
///
/// # Source
/// Newton's second law with the standard gravity of 9.80665 m/s² (CGPM 1901).
///
/// # Validity
/// Spheres; the lift of the gas, a 2000th of it, is left out.
///
/// ```
/// // A sphere of 1 mm of water weighs 5.135 µN: π/6 mg times 9.80665 m/s².
/// let weight_n = ashlane_shared::physics::drag::weight_n(1e-3, 1000.0);
/// assert!((weight_n / 5.1348e-6 - 1.0).abs() < 1e-4);
/// ```
#[must_use]
pub fn weight_n(diameter_m: f64, density_kg_m3: f64) -> f64 {
    PI / 6.0 * density_kg_m3 * diameter_m.powi(3) * GRAVITY_M_S2
}

/// Velocity that a grain really reaches, m/s, from the one Stokes' law would give it.
///
/// `w(1+0.15Re^0.687) = w_Stokes`, `Re = ρ_g |w| d/μ`, solved by Newton's method to 1e-13; the sign is kept.
///
/// # Arguments
/// * `stokes_m_s` – w by Stokes' law, m/s, any sign.
/// * `diameter_m` – d, m, above 0.
/// * `gas_density_kg_m3` – `ρ_g`, kg/m³, 0 or more.
/// * `viscosity_pa_s` – μ, Pa·s, above 0.
///
/// # Source
/// Schiller & Naumann 1933, Z. VDI 77:318.
///
/// # Validity
/// Re below 1000; a grain needs [`relaxation_time_s`] to get there.
#[must_use]
pub fn terminal_drift_m_s(
    stokes_m_s: f64,
    diameter_m: f64,
    gas_density_kg_m3: f64,
    viscosity_pa_s: f64,
) -> f64 {
    let target = stokes_m_s.abs();
    let reynolds_per_speed = gas_density_kg_m3 * diameter_m / viscosity_pa_s;
    let mut speed = target;
    // The left side is convex and rising, so from above Newton's steps fall onto the root and never pass it.
    for _ in 0..50 {
        let correction = NAUMANN_COEFFICIENT * (reynolds_per_speed * speed).powf(NAUMANN_POWER);
        let surplus = speed * (1.0 + correction) - target;
        let step = surplus / (1.0 + (1.0 + NAUMANN_POWER) * correction);
        speed -= step;
        if step.abs() <= 1e-13 * speed {
            break;
        }
    }
    speed.copysign(stokes_m_s)
}

/// Time in which a grain follows a change of the force, s.
///
/// `τ_p = ρ_p d² Cc/(18μ)`
///
/// # Arguments
/// * `diameter_m` – d, m, above 0.
/// * `density_kg_m3` – `ρ_p` of the grain, kg/m³, above 0.
/// * `slip` – slip factor Cc, 1 or more.
/// * `viscosity_pa_s` – μ, Pa·s, above 0.
///
/// # Source
/// Stokes 1851 and Newton's second law.
///
/// # Validity
/// Re below 0.1.
#[must_use]
pub fn relaxation_time_s(
    diameter_m: f64,
    density_kg_m3: f64,
    slip: f64,
    viscosity_pa_s: f64,
) -> f64 {
    density_kg_m3 * diameter_m * diameter_m * slip / (18.0 * viscosity_pa_s)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn terminal_drift_balances_drag(log_drift in -8.0..1.5_f64, log_diameter in -8.0..-3.0_f64) {
            let (target, diameter_m) = (10_f64.powf(log_drift), 10_f64.powf(log_diameter));
            let (density, viscosity) = (0.84, 2.4e-5);
            let speed = terminal_drift_m_s(target, diameter_m, density, viscosity);
            let reynolds = density * speed * diameter_m / viscosity;
            let back = speed * (1.0 + 0.15 * reynolds.powf(0.687));
            prop_assert!((back / target - 1.0).abs() < 1e-12);
            prop_assert!((terminal_drift_m_s(-target, diameter_m, density, viscosity) + speed).abs() < 1e-300);
        }
    }

    #[test]
    fn no_pull_no_drift() {
        let drift = terminal_drift_m_s(0.0, 1e-5, 0.84, 2.4e-5);
        assert!(drift.abs() < 1e-300, "{drift}");
    }

    #[test]
    fn relaxation_times_of_coarse_ash() {
        // Specification section 4: 2, 13 and 54 ms at 20, 50, 100 µm; ash of 2300 kg/m³ in gas of 150 °C, to the digits.
        for (diameter_m, expected_s, tolerance_s) in [
            (20e-6, 2e-3, 0.5e-3),
            (50e-6, 13e-3, 0.5e-3),
            (100e-6, 54e-3, 0.5e-3),
        ] {
            let time_s = relaxation_time_s(diameter_m, 2300.0, 1.0, 2.384_761e-5);
            assert!(
                (time_s - expected_s).abs() < tolerance_s,
                "{time_s} at {diameter_m}"
            );
        }
    }
}
