//! How much heat dry gas, water vapour and water hold.
//!
//! `h(T) = R (a₁T + a₂T²/2 + a₃T³/3 + a₄T⁴/4 + a₅T⁵/5)`, counted from 0 °C

use crate::physics::constants::GAS_CONSTANT_J_MOL_K;
use crate::physics::gas::{DRY_FLUE_GAS, WATER_MOLAR_MASS_KG_MOL};

/// Temperature from which heat is counted, K.
const ZERO_CELSIUS_K: f64 = 273.15;
/// Coefficients of `c_p/R` below 1000 K. Source: from memory of NASA TM-4513 (1993).
const NITROGEN: [f64; 5] = [
    3.531_005_28,
    -1.236_609_88e-4,
    -5.029_994_33e-7,
    2.435_306_12e-9,
    -1.408_812_35e-12,
];
const OXYGEN: [f64; 5] = [
    3.782_456_36,
    -2.996_734_16e-3,
    9.847_302_01e-6,
    -9.681_295_09e-9,
    3.243_728_37e-12,
];
const CARBON_DIOXIDE: [f64; 5] = [
    2.356_773_52,
    8.984_596_77e-3,
    -7.123_562_69e-6,
    2.459_190_22e-9,
    -1.436_995_48e-13,
];
const WATER_VAPOUR: [f64; 5] = [
    4.198_640_56,
    -2.036_434_10e-3,
    6.520_402_11e-6,
    -5.487_970_62e-9,
    1.771_978_17e-12,
];
/// Heat that turns water of 0 °C into vapour, J/kg. Source: from memory of the steam tables of IAPWS-IF97 (2500.9 kJ/kg).
const EVAPORATION_AT_ZERO_J_KG: f64 = 2.5009e6;
/// Heat capacity of water, J/kg/K, mean from 0 to 60 °C. Source: from memory of the same tables (251.2 kJ/kg at 60 °C).
const WATER_HEAT_CAPACITY_J_KG_K: f64 = 4187.0;

/// What the gas is made of besides water vapour, fractions by volume that add up to 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DryGas {
    /// Nitrogen, with the argon of the air.
    pub nitrogen: f64,
    /// Carbon dioxide.
    pub carbon_dioxide: f64,
    /// Oxygen.
    pub oxygen: f64,
}

impl DryGas {
    /// Air: 20.9 % oxygen; its argon counts as nitrogen, which is 0.3 % too much heat.
    pub const AIR: Self = Self {
        nitrogen: 0.791,
        carbon_dioxide: 0.0,
        oxygen: super::leakage::OXYGEN_OF_AIR,
    };
    /// The dry flue gas of [`molar_mass_kg_mol`](crate::physics::gas::molar_mass_kg_mol).
    pub const FLUE_GAS: Self = Self {
        nitrogen: DRY_FLUE_GAS[0].0,
        carbon_dioxide: DRY_FLUE_GAS[1].0,
        oxygen: DRY_FLUE_GAS[2].0,
    };

    /// Dry flue gas of the same fuel burnt with more or less air, so that it has this much oxygen.
    ///
    /// [`Self::FLUE_GAS`] less its air, and air again: `(1−a) burnt + a air`, `a = O₂/20.9 %`. Oxygen from 0 to 0.209.
    #[must_use]
    pub fn with_oxygen(oxygen: f64) -> Self {
        let (air, flue) = (Self::AIR, Self::FLUE_GAS);
        let (share, usual) = (oxygen / air.oxygen, flue.oxygen / air.oxygen);
        let burnt = (1.0 - share) / (1.0 - usual);
        let mix = |flue: f64, air: f64| share * air + burnt * (flue - usual * air);
        Self {
            nitrogen: mix(flue.nitrogen, air.nitrogen),
            carbon_dioxide: mix(flue.carbon_dioxide, air.carbon_dioxide),
            oxygen,
        }
    }

    /// This gas and `parts` of another for each part of it.
    #[must_use]
    pub fn with(&self, other: &Self, parts: f64) -> Self {
        let mix = |own: f64, others: f64| (own + parts * others) / (1.0 + parts);
        Self {
            nitrogen: mix(self.nitrogen, other.nitrogen),
            carbon_dioxide: mix(self.carbon_dioxide, other.carbon_dioxide),
            oxygen: mix(self.oxygen, other.oxygen),
        }
    }
}

/// Heat held by one mole of dry gas beyond what it holds at 0 °C, J/mol.
///
/// `h = Σ x_i R [a₁T + a₂T²/2 + a₃T³/3 + a₄T⁴/4 + a₅T⁵/5]` from 273.15 K to T
///
/// # Arguments
/// * `dry` – what the gas is made of.
/// * `temperature_k` – temperature T, K, 250 to 1000.
///
/// # Source
/// Polynomials from memory of NASA TM-4513 (1993); ideal gas.
///
/// # Validity
/// 200–1000 K; within 0.1 % of the NIST-JANAF tables at 400 and 500 K.
#[must_use]
pub fn dry_heat_j_mol(dry: &DryGas, temperature_k: f64) -> f64 {
    [
        (dry.nitrogen, &NITROGEN),
        (dry.carbon_dioxide, &CARBON_DIOXIDE),
        (dry.oxygen, &OXYGEN),
    ]
    .into_iter()
    .map(|(share, coefficients)| share * sensible_j_mol(coefficients, temperature_k))
    .sum()
}

/// Heat held by one mole of water vapour beyond water of 0 °C, J/mol.
///
/// `h_v = M·2500.9 kJ/kg + R [a₁T + … + a₅T⁵/5]` from 273.15 K to T
///
/// # Arguments
/// * `temperature_k` – temperature T, K, 250 to 1000.
///
/// # Source
/// As [`dry_heat_j_mol`]; heat of evaporation from memory of the steam tables of IAPWS-IF97.
///
/// # Validity
/// Vapour as an ideal gas: 0.1 % too high when saturated at 60 °C.
#[must_use]
pub fn vapour_heat_j_mol(temperature_k: f64) -> f64 {
    EVAPORATION_AT_ZERO_J_KG * WATER_MOLAR_MASS_KG_MOL
        + sensible_j_mol(&WATER_VAPOUR, temperature_k)
}

/// Heat held by one mole of liquid water beyond water of 0 °C, J/mol.
///
/// `h_w = M·4187·(T − 273.15)`
///
/// # Arguments
/// * `temperature_k` – temperature T, K, 273.15 to 373.15.
///
/// # Source
/// Mean heat capacity from memory of the steam tables of IAPWS-IF97.
///
/// # Validity
/// Within 0.2 % from 10 to 100 °C.
#[must_use]
pub fn water_heat_j_mol(temperature_k: f64) -> f64 {
    WATER_MOLAR_MASS_KG_MOL * WATER_HEAT_CAPACITY_J_KG_K * (temperature_k - ZERO_CELSIUS_K)
}

/// The polynomial from 0 °C to a temperature, J/mol.
fn sensible_j_mol(coefficients: &[f64; 5], temperature_k: f64) -> f64 {
    let integral = |t: f64| {
        coefficients
            .iter()
            .zip([1.0, 2.0, 3.0, 4.0, 5.0])
            .rev()
            .fold(0.0, |sum, (a, power)| (sum + a / power) * t)
    };
    GAS_CONSTANT_J_MOL_K * (integral(temperature_k) - integral(ZERO_CELSIUS_K))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_add_up_before_and_after_mixing() {
        let mixed = DryGas::FLUE_GAS.with(&DryGas::AIR, 0.155);
        for gas in [DryGas::AIR, DryGas::FLUE_GAS, mixed] {
            let total = gas.nitrogen + gas.carbon_dioxide + gas.oxygen;
            assert!((total - 1.0).abs() < 1e-12, "{gas:?}");
        }
    }

    #[test]
    fn more_air_is_the_same_as_air_mixed_in_afterwards() {
        let usual = DryGas::with_oxygen(0.06);
        assert!((usual.nitrogen - DryGas::FLUE_GAS.nitrogen).abs() < 1e-15);
        let leak = crate::physics::gas_path::leakage::leak_share(0.06, 0.08).expect("a leak");
        let (mixed, burnt) = (usual.with(&DryGas::AIR, leak), DryGas::with_oxygen(0.08));
        for (one, other) in [
            (mixed.nitrogen, burnt.nitrogen),
            (mixed.carbon_dioxide, burnt.carbon_dioxide),
            (mixed.oxygen, burnt.oxygen),
        ] {
            assert!((one - other).abs() < 1e-14, "{mixed:?} {burnt:?}");
        }
        assert_eq!(DryGas::with_oxygen(0.209).carbon_dioxide, 0.0);
    }

    #[test]
    fn heat_is_counted_from_freezing_water() {
        assert!(dry_heat_j_mol(&DryGas::AIR, 273.15).abs() < 1e-9);
        assert!(water_heat_j_mol(273.15).abs() < 1e-9);
        assert!((vapour_heat_j_mol(273.15) / WATER_MOLAR_MASS_KG_MOL - 2.5009e6).abs() < 1e-3);
    }
}
