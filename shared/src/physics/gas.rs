//! What the gas is like at this temperature and pressure: how heavy, how sticky, how far its molecules fly and how
//! fast its ions drift.
//!
//! `ρ = pM/(RT)`, `μ = μ₀ (T/T₀)^1.5 (T₀+S)/(T+S)`, `λ = λ₀ (T/T₀)² (p₀/p)(T₀+S)/(T+S)`,
//! `Cc = 1 + Kn(1.257 + 0.400 e^(−1.10/Kn))`, `δ = (p/p₀)(293.15/T)`, `b = b₀/δ`.

use std::f64::consts::PI;

use super::constants::{GAS_CONSTANT_J_MOL_K, STANDARD_PRESSURE_PA};

/// Temperature at which ISO 15900 states viscosity and mean free path, K. Source: Kim et al. 2005.
const ISO_TEMPERATURE_K: f64 = 296.15;
/// Sutherland's constant of air, K. Source: Kim et al. 2005.
const SUTHERLAND_K: f64 = 110.4;
/// Viscosity of air at `ISO_TEMPERATURE_K`, Pa·s. Source: Kim et al. 2005.
const ISO_VISCOSITY_PA_S: f64 = 1.832_45e-5;
/// Mean free path in air at `ISO_TEMPERATURE_K` and one atmosphere, m. Source: from memory of Kim et al. 2005.
const ISO_MEAN_FREE_PATH_M: f64 = 67.3e-9;
/// Temperature at which the relative density is 1 at one atmosphere, K. Chosen here; Peek used 298.15, White 293.
const RELATIVE_DENSITY_TEMPERATURE_K: f64 = 293.15;
/// Mobility of negative ions at `RELATIVE_DENSITY_TEMPERATURE_K`, m²/V/s. Source: from memory of White 1963.
const REFERENCE_ION_MOBILITY_M2_V_S: f64 = 2.2e-4;
/// Molar mass of the ion O₂⁻, kg/mol.
const ION_MOLAR_MASS_KG_MOL: f64 = 0.032;

/// Volume shares and molar masses (kg/mol) of dry flue gas: nitrogen, carbon dioxide, oxygen.
///
/// Hard coal burnt with about 40 % excess air; common practice, no source. Molar masses: IUPAC.
pub(crate) const DRY_FLUE_GAS: [(f64, f64); 3] =
    [(0.80, 28.0134e-3), (0.14, 44.0095e-3), (0.06, 31.9988e-3)];
/// Molar mass of water, kg/mol. Source: IUPAC.
pub(crate) const WATER_MOLAR_MASS_KG_MOL: f64 = 18.0153e-3;

/// Mean molar mass of flue gas with this share of water vapour, kg/mol.
///
/// `M = Σ x_i M_i`, the dry part being 80 % N₂, 14 % CO₂, 6 % O₂ by volume.
///
/// # Arguments
/// * `moisture` – water vapour, fraction by volume, 0 to 1.
///
/// # Source
/// Definition of the mean molar mass; the dry composition is common practice, no source.
///
/// # Validity
/// Gas of burnt coal; kiln gas with more CO₂ is up to 8 % heavier.
#[must_use]
pub fn molar_mass_kg_mol(moisture: f64) -> f64 {
    let dry: f64 = DRY_FLUE_GAS.iter().map(|(share, mass)| share * mass).sum();
    (1.0 - moisture) * dry + moisture * WATER_MOLAR_MASS_KG_MOL
}

/// Density of the gas, kg/m³.
///
/// `ρ = pM/(RT)`
///
/// # Arguments
/// * `pressure_pa` – absolute pressure, Pa, above 0.
/// * `temperature_k` – temperature, K, above 0.
/// * `molar_mass_kg_mol` – mean molar mass, kg/mol, above 0.
///
/// # Source
/// Ideal gas (Clapeyron 1834).
///
/// # Validity
/// Within 0.1 % for flue gas near one atmosphere and above its dew point.
///
/// ```
/// let density = ashlane_shared::physics::gas::density_kg_m3(101_325.0, 423.15, 0.029);
/// assert!((density - 0.83519).abs() < 1e-5);
/// ```
#[must_use]
pub fn density_kg_m3(pressure_pa: f64, temperature_k: f64, molar_mass_kg_mol: f64) -> f64 {
    pressure_pa * molar_mass_kg_mol / (GAS_CONSTANT_J_MOL_K * temperature_k)
}

/// How the ISO 15900 quantities scale with temperature: `(T₀+S)/(T+S)`.
fn sutherland_ratio(temperature_k: f64) -> f64 {
    (ISO_TEMPERATURE_K + SUTHERLAND_K) / (temperature_k + SUTHERLAND_K)
}

/// Dynamic viscosity of the gas, Pa·s.
///
/// `μ = 1.83245e-5 (T/296.15)^1.5 (296.15+110.4)/(T+110.4)`
///
/// # Arguments
/// * `temperature_k` – temperature, K, above 0.
///
/// # Source
/// Sutherland's law with the constants of ISO 15900: Kim et al. 2005, J. Res. NIST 110:31.
///
/// # Validity
/// Dry air 250–700 K; 0.7 % above reference data at 423 K, 1.8 % at 623 K. Moist flue gas is a few per cent lower.
///
/// ```
/// let viscosity = ashlane_shared::physics::gas::viscosity_pa_s(423.15);
/// assert!((viscosity / 2.384761e-5 - 1.0).abs() < 1e-6);
/// ```
#[must_use]
pub fn viscosity_pa_s(temperature_k: f64) -> f64 {
    ISO_VISCOSITY_PA_S
        * (temperature_k / ISO_TEMPERATURE_K).powf(1.5)
        * sutherland_ratio(temperature_k)
}

/// Mean free path of the gas molecules, m.
///
/// `λ = 67.3e-9 (T/296.15)² (101325/p)(296.15+110.4)/(T+110.4)`
///
/// # Arguments
/// * `temperature_k` – temperature, K, above 0.
/// * `pressure_pa` – absolute pressure, Pa, above 0.
///
/// # Source
/// From memory of Kim et al. 2005 (ISO 15900), the same as Willeke 1976, J. Aerosol Sci. 7:381.
///
/// # Validity
/// Air; authors differ by 1.8 %.
///
/// ```
/// let path = ashlane_shared::physics::gas::mean_free_path_m(423.15, 101_325.0);
/// assert!((path / 104.693e-9 - 1.0).abs() < 1e-4);
/// ```
#[must_use]
pub fn mean_free_path_m(temperature_k: f64, pressure_pa: f64) -> f64 {
    let ratio = temperature_k / ISO_TEMPERATURE_K;
    ISO_MEAN_FREE_PATH_M
        * ratio
        * ratio
        * (STANDARD_PRESSURE_PA / pressure_pa)
        * sutherland_ratio(temperature_k)
}

/// Slip factor: by how much a fine grain slips more easily through the gas than its size suggests.
///
/// `Cc = 1 + Kn(1.257 + 0.400 e^(−1.10/Kn))`, `Kn = 2λ/d`
///
/// # Arguments
/// * `diameter_m` – grain diameter, m, above 0.
/// * `mean_free_path_m` – mean free path λ of the gas, m, 0 or more (0 switches slip off).
///
/// # Source
/// Davies 1945, Proc. Phys. Soc. 57:259.
///
/// # Validity
/// All Knudsen numbers; authors differ by 2.6 %.
///
/// ```
/// let slip = ashlane_shared::physics::gas::slip_factor(1e-6, 66.0e-9);
/// assert!((slip / 1.16594 - 1.0).abs() < 1e-5);
/// ```
#[must_use]
pub fn slip_factor(diameter_m: f64, mean_free_path_m: f64) -> f64 {
    let knudsen = 2.0 * mean_free_path_m / diameter_m;
    1.0 + knudsen * (1.257 + 0.400 * (-1.10 / knudsen).exp())
}

/// Density of the gas relative to 20 °C and one atmosphere.
///
/// `δ = (p/101325)(293.15/T)`
///
/// # Arguments
/// * `temperature_k` – temperature, K, above 0.
/// * `pressure_pa` – absolute pressure, Pa, above 0.
///
/// # Source
/// Definition; the base of 293.15 K is our choice (Peek used 298.15 K, White 293 K).
///
/// # Validity
/// Ideal gas.
///
/// ```
/// let delta = ashlane_shared::physics::gas::relative_density(423.15, 101_325.0);
/// assert!((delta - 0.69278).abs() < 1e-5);
/// ```
#[must_use]
pub fn relative_density(temperature_k: f64, pressure_pa: f64) -> f64 {
    (pressure_pa / STANDARD_PRESSURE_PA) * (RELATIVE_DENSITY_TEMPERATURE_K / temperature_k)
}

/// Mobility of the negative ions, m²/V/s, where the site states none.
///
/// `b = 2.2e-4 (T/293.15)(101325/p) = 2.2e-4/δ`
///
/// # Arguments
/// * `temperature_k` – temperature, K, above 0.
/// * `pressure_pa` – absolute pressure, Pa, above 0.
///
/// # Source
/// From memory of White 1963, *Industrial Electrostatic Precipitation*.
///
/// # Validity
/// Air; "effective" values of flue gas at 150 °C are 2e-4 to 5e-4.
#[must_use]
pub fn ion_mobility_m2_v_s(temperature_k: f64, pressure_pa: f64) -> f64 {
    REFERENCE_ION_MOBILITY_M2_V_S / relative_density(temperature_k, pressure_pa)
}

/// Mean thermal speed of the ions, m/s: how hard they hit a grain even without a field.
///
/// `v̄ = √(8RT/(πM))` with M of O₂⁻
///
/// # Arguments
/// * `temperature_k` – temperature, K, above 0.
///
/// # Source
/// Kinetic theory of gases (Maxwell 1860); authors take 239 m/s (clusters) or 530 m/s (O₂⁻) at 150 °C, here O₂⁻.
///
/// # Validity
/// Single oxygen ions.
///
/// ```
/// let speed = ashlane_shared::physics::gas::ion_thermal_speed_m_s(423.15);
/// assert!((speed - 529.13).abs() < 0.01);
/// ```
#[must_use]
pub fn ion_thermal_speed_m_s(temperature_k: f64) -> f64 {
    (8.0 * GAS_CONSTANT_J_MOL_K * temperature_k / (PI * ION_MOLAR_MASS_KG_MOL)).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wet_coal_flue_gas_has_the_molar_mass_of_the_trade() {
        // The trade's range for wet coal flue gas is 0.0290–0.0298 kg/mol.
        for moisture in [0.06, 0.08, 0.10] {
            let mass = molar_mass_kg_mol(moisture);
            assert!((0.0290..0.0298).contains(&mass), "M = {mass} at {moisture}");
        }
    }

    #[test]
    fn the_dry_composition_is_complete() {
        let total: f64 = DRY_FLUE_GAS.iter().map(|(share, _)| share).sum();
        assert!((total - 1.0).abs() < 1e-12, "shares add up to {total}");
    }

    #[test]
    fn slip_vanishes_for_coarse_grains_and_without_free_path() {
        assert!(
            (slip_factor(1e-2, 66e-9) - 1.0).abs() < 1e-4,
            "coarse grain slips"
        );
        assert!(
            (slip_factor(1e-6, 0.0) - 1.0).abs() < 1e-15,
            "slip not switched off"
        );
    }

    #[test]
    fn hot_thin_gas_lets_ions_run() {
        let cold = ion_mobility_m2_v_s(293.15, 101_325.0);
        assert!(
            (cold - 2.2e-4).abs() < 1e-18,
            "reference mobility is {cold}"
        );
        let hot = ion_mobility_m2_v_s(586.3, 50_662.5);
        assert!((hot / cold - 4.0).abs() < 1e-12, "ratio {}", hot / cold);
    }
}
