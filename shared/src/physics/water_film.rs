//! Water that runs down the plates of a wet collector: how thick its film is and how it flows.
//!
//! `δ = (3μΓ/(ρ²g))^⅓`, `Re = 4Γ/μ`

use super::PhysicsError;
use super::constants::GRAVITY_M_S2;
use super::error::{not_negative, positive, require};

/// Reynolds number above which the film is turbulent. Source: from memory of Bird, Stewart & Lightfoot, section 2.2.
pub const TURBULENT_REYNOLDS: f64 = 1500.0;

/// Viscosity of water, Pa·s.
///
/// `μ = 2.414e-5·10^(247.8/(T − 140))`
///
/// # Arguments
/// * `temperature_k` – T, K, 273.15 to 643.
///
/// # Source
/// Vogel's form with the usual coefficients for water, from memory of Al-Shemmeri 2012, *Engineering Fluid Mechanics*.
///
/// # Validity
/// Liquid water, within 2.5 %.
///
/// # Errors
/// A temperature outside its range.
pub fn water_viscosity_pa_s(temperature_k: f64) -> Result<f64, PhysicsError> {
    require(
        (273.15..=643.0).contains(&temperature_k),
        "temperature_k",
        temperature_k,
        "273.15 to 643",
    )?;
    Ok(2.414e-5 * 10.0_f64.powf(247.8 / (temperature_k - 140.0)))
}

/// Thickness of a film that runs down a wall, m.
///
/// `δ = (3μΓ/(ρ²g))^⅓`
///
/// # Arguments
/// * `flow_kg_s_m` – Γ, water per width of wall, kg/(s·m), 0 or more.
/// * `viscosity_pa_s` – μ, Pa·s, above 0, see [`water_viscosity_pa_s`].
/// * `density_kg_m3` – ρ of the water, kg/m³, above 0.
///
/// # Source
/// Nusselt 1916, Z. Ver. Dtsch. Ing. 60:541: weight against the friction of a laminar film.
///
/// # Validity
/// Smooth below [`film_reynolds`] of about 20, with waves but of nearly this mean thickness up to
/// [`TURBULENT_REYNOLDS`]; no drag of the gas, wall wetted everywhere.
///
/// # Errors
/// A number outside its range.
///
/// ```
/// use ashlane_shared::physics::water_film::film_thickness_m;
/// // Eight times the water runs in a film twice as thick.
/// let (one, eight) = (film_thickness_m(0.01, 1e-3, 1e3)?, film_thickness_m(0.08, 1e-3, 1e3)?);
/// assert!((eight / one - 2.0).abs() < 1e-12);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn film_thickness_m(
    flow_kg_s_m: f64,
    viscosity_pa_s: f64,
    density_kg_m3: f64,
) -> Result<f64, PhysicsError> {
    not_negative("flow_kg_s_m", flow_kg_s_m)?;
    positive("viscosity_pa_s", viscosity_pa_s)?;
    positive("density_kg_m3", density_kg_m3)?;
    let weight = density_kg_m3 * density_kg_m3 * GRAVITY_M_S2;
    Ok((3.0 * viscosity_pa_s * flow_kg_s_m / weight).cbrt())
}

/// Reynolds number of a falling film.
///
/// `Re = 4Γ/μ`
///
/// # Arguments
/// * `flow_kg_s_m` – Γ, kg/(s·m), 0 or more.
/// * `viscosity_pa_s` – μ, Pa·s, above 0.
///
/// # Source
/// Definition with the hydraulic diameter 4δ.
///
/// # Validity
/// Any film.
///
/// # Errors
/// A number outside its range.
pub fn film_reynolds(flow_kg_s_m: f64, viscosity_pa_s: f64) -> Result<f64, PhysicsError> {
    not_negative("flow_kg_s_m", flow_kg_s_m)?;
    Ok(4.0 * flow_kg_s_m / positive("viscosity_pa_s", viscosity_pa_s)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_film_carries_what_was_poured_on() {
        // Independent of the closed form: the parabola ρg(δy − y²/2)/μ summed over thin slices of the film.
        let (viscosity_pa_s, density_kg_m3, flow_kg_s_m) = (0.6e-3, 990.0, 0.07);
        let film_m = film_thickness_m(flow_kg_s_m, viscosity_pa_s, density_kg_m3).expect("a film");
        let slices = 2000;
        let slice_m = film_m / f64::from(slices);
        let carried: f64 = (0..slices)
            .map(|slice| {
                let y_m = (f64::from(slice) + 0.5) * slice_m;
                let speed = density_kg_m3 * GRAVITY_M_S2 / viscosity_pa_s
                    * (film_m * y_m - 0.5 * y_m * y_m);
                density_kg_m3 * speed * slice_m
            })
            .sum();
        // Midpoint rule: relative error 1/(8 n²).
        assert!((carried / flow_kg_s_m - 1.0).abs() < 1e-6, "{carried}");
    }

    #[test]
    fn impossible_films_are_refused() {
        assert!(film_thickness_m(-0.1, 1e-3, 1e3).is_err(), "upwards");
        assert!(film_thickness_m(0.1, 0.0, 1e3).is_err(), "no viscosity");
        assert!(water_viscosity_pa_s(250.0).is_err(), "ice");
        assert!(film_reynolds(0.1, f64::NAN).is_err(), "no number");
    }
}
