//! How dark the gas in the stack looks: the share of light that its dust takes away.
//!
//! `O = 1 − e^(−kcL)`, `k = 3Q_ext/(2ρ_p d)`

use std::f64::consts::PI;

use super::PhysicsError;
use super::efficiency::SizeClass;
use super::error::{not_negative, positive, share};

/// Light that a grain takes away over the light that meets it, for grains that are large beside the wavelength.
///
/// Source: van de Hulst 1957, *Light Scattering by Small Particles* (half is stopped, half is bent away).
pub const COARSE_EXTINCTION: f64 = 2.0;

/// Phase shift below which the difference of large terms would lose its digits, and the series serves.
const SMALL_PHASE_SHIFT: f64 = 1e-2;

/// Opacity: share of the light that does not come through.
///
/// `O = 1 − e^(−kcL)`
///
/// # Arguments
/// * `mass_extinction_m2_kg` – k of the dust, m²/kg, 0 or more (teaching value 500), see [`mass_extinction_m2_kg`].
/// * `load_kg_m3` – c of dust per actual volume of gas, kg/m³, 0 or more.
/// * `path_m` – L of the light through the gas, m, 0 or more; mostly the diameter of the stack.
///
/// # Source
/// Bouguer 1729, Lambert 1760, Beer 1852.
///
/// # Validity
/// Dust spread evenly, light that is scattered once at most; no droplets, no NO₂.
///
/// # Errors
/// A number outside its range.
///
/// ```
/// // 16 mg/m³ of 0.5 m²/g over 2.9 m: 2.3 %.
/// let opacity = ashlane_shared::physics::stack::opacity(500.0, 16e-6, 2.9)?;
/// assert!((opacity - 0.023).abs() < 5e-4);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn opacity(
    mass_extinction_m2_kg: f64,
    load_kg_m3: f64,
    path_m: f64,
) -> Result<f64, PhysicsError> {
    not_negative("mass_extinction_m2_kg", mass_extinction_m2_kg)?;
    not_negative("load_kg_m3", load_kg_m3)?;
    not_negative("path_m", path_m)?;
    Ok(-(-mass_extinction_m2_kg * load_kg_m3 * path_m).exp_m1())
}

/// Opacity of the same gas over another path, or of more or less of the same dust.
///
/// `O₂ = 1 − (1−O₁)^r`, `r = L₂/L₁` or `r = c₂/c₁`
///
/// # Arguments
/// * `opacity` – `O₁`, 0 to below 1.
/// * `ratio` – r of the paths or of the loads, 0 or more.
///
/// # Source
/// [`opacity`] solved for `kcL`.
///
/// # Validity
/// As [`opacity`].
///
/// # Errors
/// A number outside its range.
///
/// ```
/// // 20 % over the duct; the stack is twice as wide: 1 − 0.8² = 36 %.
/// let stack = ashlane_shared::physics::stack::scaled_opacity(0.20, 2.0)?;
/// assert!((stack - 0.36).abs() < 1e-12);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn scaled_opacity(opacity: f64, ratio: f64) -> Result<f64, PhysicsError> {
    share("opacity", opacity)?;
    not_negative("ratio", ratio)?;
    Ok(-(ratio * (-opacity).ln_1p()).exp_m1())
}

/// Light that a mass of equal grains takes away: area per mass, m²/kg.
///
/// `k = 3Q_ext/(2ρ_p d)`
///
/// # Arguments
/// * `diameter_m` – d, m, above 0.
/// * `density_kg_m3` – `ρ_p` of a grain, kg/m³, above 0.
/// * `extinction` – `Q_ext` of a grain, 0 or more: [`COARSE_EXTINCTION`] or [`grain_extinction`].
///
/// # Source
/// Geometry of a sphere: its shadow `πd²/4` over its mass `ρ_p πd³/6`, times `Q_ext`.
///
/// # Validity
/// Spheres. With `Q_ext` = 2 in green light a tenth low above 7 µm and a quarter low at 3 µm (Mie's series, n = 1.5);
/// far too high below 0.3 µm: fine dust needs [`grain_extinction`].
///
/// # Errors
/// A number outside its range.
pub fn mass_extinction_m2_kg(
    diameter_m: f64,
    density_kg_m3: f64,
    extinction: f64,
) -> Result<f64, PhysicsError> {
    positive("diameter_m", diameter_m)?;
    positive("density_kg_m3", density_kg_m3)?;
    not_negative("extinction", extinction)?;
    Ok(1.5 * extinction / (density_kg_m3 * diameter_m))
}

/// Light that dust of many sizes takes away: area per mass, m²/kg.
///
/// `k = Σ f_i k(d_i)/Σ f_i`
///
/// # Arguments
/// * `classes` – diameters `d_i` and shares or masses `f_i`, at least one of them above 0.
/// * `density_kg_m3` – `ρ_p` of a grain, kg/m³, above 0.
/// * `extinction_at` – `Q_ext` of a diameter in m: `|_| COARSE_EXTINCTION` or [`grain_extinction`] at one wavelength.
///
/// # Source
/// The shadows of the grains add up; as [`mass_extinction_m2_kg`].
///
/// # Validity
/// As [`mass_extinction_m2_kg`].
///
/// # Errors
/// A number outside its range, no mass at all.
pub fn mixture_extinction_m2_kg(
    classes: &[SizeClass],
    density_kg_m3: f64,
    extinction_at: impl Fn(f64) -> f64,
) -> Result<f64, PhysicsError> {
    let (mut mass, mut area) = (0.0, 0.0);
    for class in classes {
        let fraction = not_negative("mass_fraction", class.mass_fraction)?;
        let extinction = extinction_at(class.diameter_m);
        mass += fraction;
        area += fraction * mass_extinction_m2_kg(class.diameter_m, density_kg_m3, extinction)?;
    }
    Ok(area / positive("sum of the mass fractions", mass)?)
}

/// Light that a clear grain takes away over the light that meets it, `Q_ext`.
///
/// `Q = 2 − (4/ϱ) sin ϱ + (4/ϱ²)(1 − cos ϱ)`, `ϱ = 2πd(n−1)/λ`
///
/// # Arguments
/// * `diameter_m` – d, m, 0 or more.
/// * `wavelength_m` – λ of the light, m, above 0 (green 0.55e-6).
/// * `refractive_index` – n of the grain, above 1 (fly ash about 1.5; common practice, no source).
///
/// # Source
/// van de Hulst 1957, *Light Scattering by Small Particles*, ch. 11 (anomalous diffraction), from memory of it.
///
/// # Validity
/// Clear spheres, n near 1. At n = 1.5 it is up to a quarter low from 0.4 µm on (Mie's series) and has the maximum in the
/// right place; below 0.25 µm it is much too high: real grains fall with d⁴, this one with d².
///
/// # Errors
/// A number outside its range.
pub fn grain_extinction(
    diameter_m: f64,
    wavelength_m: f64,
    refractive_index: f64,
) -> Result<f64, PhysicsError> {
    not_negative("diameter_m", diameter_m)?;
    positive("wavelength_m", wavelength_m)?;
    let contrast = positive("refractive_index - 1", refractive_index - 1.0)?;
    let shift = 2.0 * PI * diameter_m * contrast / wavelength_m;
    if shift < SMALL_PHASE_SHIFT {
        return Ok(shift * shift * (0.5 - shift * shift / 36.0));
    }
    let (sine, cosine) = shift.sin_cos();
    Ok(2.0 - 4.0 / shift * sine + 4.0 / (shift * shift) * (1.0 - cosine))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_paths_in_a_row_are_one_long_path() {
        let whole = opacity(500.0, 150e-6, 7.0).expect("in range");
        let first = opacity(500.0, 150e-6, 3.0).expect("in range");
        let second = opacity(500.0, 150e-6, 4.0).expect("in range");
        let joined = 1.0 - (1.0 - first) * (1.0 - second);
        assert!((whole - joined).abs() < 1e-15, "{whole} {joined}");
        let scaled = scaled_opacity(first, 7.0 / 3.0).expect("in range");
        assert!((whole - scaled).abs() < 1e-14, "{whole} {scaled}");
    }

    #[test]
    fn a_trace_of_dust_keeps_its_digits() {
        let trace = opacity(500.0, 1e-18, 2.0).expect("in range");
        assert!((trace / 1e-15 - 1.0).abs() < 1e-12, "{trace}");
        let half = scaled_opacity(1e-15, 0.5).expect("in range");
        assert!((half / 5e-16 - 1.0).abs() < 1e-12, "{half}");
    }

    #[test]
    fn a_mixture_lies_between_its_grains_and_is_weighted_by_mass() {
        let class = |diameter_m, mass_fraction| SizeClass {
            diameter_m,
            mass_fraction,
        };
        let both = [class(5e-6, 0.3), class(10e-6, 0.1)];
        let mixture = mixture_extinction_m2_kg(&both, 2000.0, |_| COARSE_EXTINCTION);
        // By hand: 3/(2000·5e-6) = 300 and 150 m²/kg; (3·300 + 150)/4 = 262.5.
        let mixture = mixture.expect("a mixture");
        assert!((mixture - 262.5).abs() < 1e-9, "{mixture}");
        let none = mixture_extinction_m2_kg(&[class(5e-6, 0.0)], 2000.0, |_| 2.0);
        assert!(none.is_err(), "no dust");
        assert!(mixture_extinction_m2_kg(&[], 2000.0, |_| 2.0).is_err());
    }

    #[test]
    fn the_series_joins_the_closed_form() {
        // ϱ = 2πd·0.5/λ passes 0.01 here; the closed form keeps about ten digits there.
        let wavelength_m = 0.55e-6;
        let join_m = SMALL_PHASE_SHIFT * wavelength_m / PI;
        let extinction = |share: f64| {
            grain_extinction(join_m * share, wavelength_m, 1.5).expect("in range") / (share * share)
        };
        let (below, above) = (extinction(1.0 - 1e-9), extinction(1.0 + 1e-9));
        assert!((below / above - 1.0).abs() < 1e-7, "{below} {above}");
    }

    #[test]
    fn impossible_light_is_refused() {
        assert!(opacity(500.0, -1e-6, 3.0).is_err(), "negative dust");
        assert!(scaled_opacity(1.0, 2.0).is_err(), "black");
        assert!(mass_extinction_m2_kg(0.0, 2300.0, 2.0).is_err(), "no grain");
        assert!(grain_extinction(1e-6, 0.55e-6, 1.0).is_err(), "no contrast");
    }
}
