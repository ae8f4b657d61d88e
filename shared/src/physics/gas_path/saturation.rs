//! What a wet collector does to the gas: water evaporates until it is saturated, which cools and shrinks it.
//!
//! `h_d(T₁) + y₁h_v(T₁) + (y₂−y₁)h_w(T₂) = h_d(T₂) + y₂h_v(T₂)` with `y₂ = p_s(T₂)/(p − p_s(T₂))`

use super::heat::water_heat_j_mol;
use super::stream::{GasStream, dry_flow_mol_s};
use crate::physics::PhysicsError;
use crate::physics::error::{not_negative, require};
use crate::physics::gas::WATER_MOLAR_MASS_KG_MOL;
use crate::physics::root::root_of_rising;

/// Coefficients n₁ to n₁₀ of the saturation line. Source: IAPWS-IF97 (Wagner et al. 2000), table 34.
const LINE: [f64; 10] = [
    1_167.052_145_276_7,
    -724_213.167_032_06,
    -17.073_846_940_092,
    12_020.824_702_470,
    -3_232_555.032_233_3,
    14.915_108_613_530,
    -4_823.265_736_159_1,
    405_113.405_420_57,
    -0.238_555_575_678_49,
    650.175_348_447_98,
];
const COLDEST_K: f64 = 273.15;
const CRITICAL_K: f64 = 647.096;
/// Saturation pressure at `COLDEST_K` and at `CRITICAL_K`, Pa. Source: IAPWS-IF97, section 8.2.
const LOWEST_PA: f64 = 611.213;
const HIGHEST_PA: f64 = 22.064e6;
/// Rounding that a gas may lie above saturation and still count as saturated.
const ROUNDING: f64 = 1e-9;

/// Gas that took up all the water it can.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SaturatedGas {
    /// The gas behind: cooler, wetter, less of it.
    pub stream: GasStream,
    /// Water that evaporated into it, kg/s.
    pub evaporated_kg_s: f64,
}

/// The water of a wet collector, kg/s.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WaterBalance {
    /// Sprayed on the gas and the plates.
    pub sprayed_kg_s: f64,
    /// Left with the gas.
    pub evaporated_kg_s: f64,
    /// Drained from the plates and sprayed again.
    pub recycled_kg_s: f64,
    /// Drained and taken away with the dust.
    pub purged_kg_s: f64,
    /// Fresh water that replaces what left.
    pub fresh_kg_s: f64,
}

/// Pressure at which water of this temperature boils, Pa.
///
/// `p_s = 10⁶ [2C/(−B + √(B²−4AC))]⁴`, `A = ϑ²+n₁ϑ+n₂`, `B = n₃ϑ²+n₄ϑ+n₅`, `C = n₆ϑ²+n₇ϑ+n₈`, `ϑ = T + n₉/(T−n₁₀)`
///
/// # Arguments
/// * `temperature_k` – temperature T, K, 273.15 to 647.096.
///
/// # Source
/// IAPWS-IF97 region 4, equation 30: Wagner et al. 2000, J. Eng. Gas Turbines Power 122:150.
///
/// # Validity
/// The whole range, within 0.03 %; over ice it does not hold.
///
/// # Errors
/// A temperature outside its range.
///
/// ```
/// let pressure = ashlane_shared::physics::gas_path::saturation::saturation_pressure_pa(300.0)?;
/// assert!((pressure / 3536.58941 - 1.0).abs() < 1e-8);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn saturation_pressure_pa(temperature_k: f64) -> Result<f64, PhysicsError> {
    require(
        (COLDEST_K..=CRITICAL_K).contains(&temperature_k),
        "temperature_k",
        temperature_k,
        "273.15 to 647.096",
    )?;
    Ok(line_pa(temperature_k))
}

/// Temperature at which water boils under this pressure, K.
///
/// `T_s = ½[n₁₀+D − √((n₁₀+D)² − 4(n₉+n₁₀D))]`, `D = 2G/(−F − √(F²−4EG))`, `E = β²+n₃β+n₆`, `F = n₁β²+n₄β+n₇`,
/// `G = n₂β²+n₅β+n₈`, `β = (p/MPa)^¼`
///
/// # Arguments
/// * `pressure_pa` – pressure, Pa, 611.213 to 22.064e6.
///
/// # Source
/// IAPWS-IF97 region 4, equation 31.
///
/// # Validity
/// As [`saturation_pressure_pa`], which it undoes exactly.
///
/// # Errors
/// A pressure outside its range.
pub fn boiling_temperature_k(pressure_pa: f64) -> Result<f64, PhysicsError> {
    require(
        (LOWEST_PA..=HIGHEST_PA).contains(&pressure_pa),
        "pressure_pa",
        pressure_pa,
        "611.213 to 22064000",
    )?;
    let [n1, n2, n3, n4, n5, n6, n7, n8, n9, n10] = LINE;
    let beta = (pressure_pa * 1e-6).powf(0.25);
    let e = (beta + n3) * beta + n6;
    let f = (n1 * beta + n4) * beta + n7;
    let g = (n2 * beta + n5) * beta + n8;
    let d = 2.0 * g / (-f - (f * f - 4.0 * e * g).sqrt());
    let sum = n10 + d;
    Ok(0.5 * (sum - (sum * sum - 4.0 * (n9 + n10 * d)).sqrt()))
}

/// The gas after water that goes round has evaporated into it until it is saturated.
///
/// `h_d(T₁) + y₁h_v(T₁) + (y₂−y₁)h_w(T₂) = h_d(T₂) + y₂h_v(T₂)`, `y₂ = p_s(T₂)/(p − p_s(T₂))`
///
/// # Arguments
/// * `inlet` – the gas before; its pressure 2e3 to 1e6 Pa.
///
/// # Source
/// Balance of heat and water for ideal gases, see [`super::heat`]; saturation line of IAPWS-IF97.
///
/// # Validity
/// Enough water, at the temperature that the gas gets; no heat lost. Within 0.5 K of humid air as a real gas.
///
/// # Errors
/// A stream outside its range; gas that holds more vapour than it can; gas too cold and dry to stay above freezing.
pub fn adiabatic_saturation(inlet: &GasStream) -> Result<SaturatedGas, PhysicsError> {
    inlet.checked()?;
    let pressure_pa = require(
        (2e3..=1e6).contains(&inlet.pressure_pa),
        "pressure_pa",
        inlet.pressure_pa,
        "2000 to 1000000",
    )?;
    let vapour_pa = inlet.moisture * pressure_pa;
    let boiling_k = boiling_temperature_k(pressure_pa)?;
    let hottest_k = inlet.temperature_k.min(boiling_k);
    if inlet.temperature_k < COLDEST_K
        || inlet.temperature_k < boiling_k
            && vapour_pa > line_pa(inlet.temperature_k) * (1.0 + ROUNDING)
    {
        return Err(PhysicsError::Impossible {
            reason: format!(
                "gas of {:.2} K cannot hold {:.1} % of vapour",
                inlet.temperature_k,
                100.0 * inlet.moisture
            ),
        });
    }
    let missing_j_mol = |guess_k: f64| missing_heat_j_mol(inlet, guess_k);
    if missing_j_mol(COLDEST_K) > 0.0 {
        return Err(PhysicsError::Impossible {
            reason: "the gas is so cold and dry that the water would freeze".to_owned(),
        });
    }
    let temperature_k = root_of_rising(missing_j_mol, COLDEST_K, hottest_k);
    let dry_mol_s = dry_flow_mol_s(inlet);
    let vapour_per_dry = vapour_when_saturated(temperature_k, pressure_pa);
    Ok(SaturatedGas {
        stream: GasStream::of_moles(
            dry_mol_s,
            vapour_per_dry,
            temperature_k,
            pressure_pa,
            inlet.dry,
        ),
        evaporated_kg_s: WATER_MOLAR_MASS_KG_MOL
            * dry_mol_s
            * (vapour_per_dry - inlet.vapour_per_dry()).max(0.0),
    })
}

/// Where the water of a wet collector goes.
///
/// `drained = sprayed − evaporated`, `recycled = r·drained`, `fresh = evaporated + (1−r)·drained`
///
/// # Arguments
/// * `sprayed_kg_s` – water sprayed, kg/s, at least what evaporates.
/// * `evaporated_kg_s` – water that leaves with the gas, kg/s, 0 or more.
/// * `recycled_share` – r, share of the drained water that is sprayed again, 0 to 1.
///
/// # Source
/// Balance of water. In practice about 0.67 kg are sprayed for each m³ of gas and 80 to 95 % recycled: common practice,
/// no source.
///
/// # Validity
/// Steady; droplets carried away with the gas are not counted.
///
/// # Errors
/// An argument outside its range; less water sprayed than evaporates, which leaves plates dry.
pub fn water_balance(
    sprayed_kg_s: f64,
    evaporated_kg_s: f64,
    recycled_share: f64,
) -> Result<WaterBalance, PhysicsError> {
    not_negative("sprayed_kg_s", sprayed_kg_s)?;
    not_negative("evaporated_kg_s", evaporated_kg_s)?;
    require(
        (0.0..=1.0).contains(&recycled_share),
        "recycled_share",
        recycled_share,
        "0 to 1",
    )?;
    require(
        sprayed_kg_s >= evaporated_kg_s,
        "sprayed_kg_s",
        sprayed_kg_s,
        "evaporated_kg_s or more, else plates run dry",
    )?;
    let drained_kg_s = sprayed_kg_s - evaporated_kg_s;
    let purged_kg_s = (1.0 - recycled_share) * drained_kg_s;
    Ok(WaterBalance {
        sprayed_kg_s,
        evaporated_kg_s,
        recycled_kg_s: recycled_share * drained_kg_s,
        purged_kg_s,
        fresh_kg_s: evaporated_kg_s + purged_kg_s,
    })
}

/// The saturation line inside its range, Pa.
fn line_pa(temperature_k: f64) -> f64 {
    let [n1, n2, n3, n4, n5, n6, n7, n8, n9, n10] = LINE;
    let theta = temperature_k + n9 / (temperature_k - n10);
    let a = (theta + n1) * theta + n2;
    let b = (n3 * theta + n4) * theta + n5;
    let c = (n6 * theta + n7) * theta + n8;
    1e6 * (2.0 * c / (-b + (b * b - 4.0 * a * c).sqrt())).powi(4)
}

/// Moles of vapour for each mole of dry gas at saturation; without bound where water boils.
fn vapour_when_saturated(temperature_k: f64, pressure_pa: f64) -> f64 {
    let vapour_pa = line_pa(temperature_k);
    if vapour_pa < pressure_pa {
        vapour_pa / (pressure_pa - vapour_pa)
    } else {
        f64::INFINITY
    }
}

/// Heat that saturated gas of this temperature would hold beyond what gas and water bring, J per mole of dry gas.
fn missing_heat_j_mol(inlet: &GasStream, temperature_k: f64) -> f64 {
    let vapour_per_dry = vapour_when_saturated(temperature_k, inlet.pressure_pa);
    if vapour_per_dry.is_infinite() {
        return f64::INFINITY;
    }
    let behind = GasStream::of_moles(
        1.0,
        vapour_per_dry,
        temperature_k,
        inlet.pressure_pa,
        inlet.dry,
    );
    let evaporated = vapour_per_dry - inlet.vapour_per_dry();
    behind.heat_per_dry_j_mol(temperature_k)
        - inlet.heat_per_dry_j_mol(inlet.temperature_k)
        - evaporated * water_heat_j_mol(temperature_k)
}

#[cfg(test)]
mod tests {
    use super::super::heat::DryGas;
    use super::super::stream::{heat_flow_w, vapour_flow_kg_s};
    use super::*;

    const INLET: GasStream = GasStream {
        flow_m3_s: 118.8,
        temperature_k: 423.15,
        pressure_pa: 101_325.0,
        moisture: 0.08,
        dry: DryGas::FLUE_GAS,
    };

    #[test]
    fn boiling_temperature_undoes_saturation_pressure() {
        for temperature_k in [273.15, 300.0, 330.0, 373.15, 500.0, 640.0] {
            let pressure_pa = saturation_pressure_pa(temperature_k).expect("in range");
            let back_k = boiling_temperature_k(pressure_pa.max(LOWEST_PA)).expect("in range");
            assert!(
                (back_k - temperature_k).abs() < 1e-5,
                "{temperature_k}: {back_k}"
            );
        }
    }

    #[test]
    fn heat_and_water_are_kept() {
        let behind = adiabatic_saturation(&INLET).expect("saturated");
        let water_k = behind.stream.temperature_k;
        let brought_w =
            behind.evaporated_kg_s / WATER_MOLAR_MASS_KG_MOL * water_heat_j_mol(water_k);
        let heat = heat_flow_w(&INLET) + brought_w;
        assert!((heat_flow_w(&behind.stream) / heat - 1.0).abs() < 1e-9);
        let water = vapour_flow_kg_s(&INLET) + behind.evaporated_kg_s;
        assert!((vapour_flow_kg_s(&behind.stream) / water - 1.0).abs() < 1e-12);
        let vapour_pa = behind.stream.moisture * 101_325.0;
        let full_pa = saturation_pressure_pa(water_k).expect("in range");
        assert!((vapour_pa / full_pa - 1.0).abs() < 1e-9, "{vapour_pa}");
    }

    #[test]
    fn saturated_gas_takes_up_nothing_more() {
        let once = adiabatic_saturation(&INLET).expect("saturated");
        let twice = adiabatic_saturation(&once.stream).expect("saturated");
        assert!((twice.stream.temperature_k - once.stream.temperature_k).abs() < 1e-6);
        assert!(twice.evaporated_kg_s < 1e-6 * once.evaporated_kg_s);
    }

    #[test]
    fn gas_that_cannot_be_is_refused() {
        let wet = GasStream {
            temperature_k: 303.15,
            moisture: 0.3,
            ..INLET
        };
        let freezing = GasStream {
            temperature_k: 274.0,
            moisture: 0.0,
            ..INLET
        };
        for gas in [wet, freezing] {
            let refusal = adiabatic_saturation(&gas);
            assert!(
                matches!(refusal, Err(PhysicsError::Impossible { .. })),
                "{refusal:?}"
            );
        }
        let hot_steam = GasStream {
            temperature_k: 700.0,
            moisture: 0.5,
            ..INLET
        };
        assert!(adiabatic_saturation(&hot_steam).is_ok());
        assert!(
            adiabatic_saturation(&GasStream {
                moisture: 1.0,
                ..INLET
            })
            .is_err()
        );
        assert!(saturation_pressure_pa(200.0).is_err() && boiling_temperature_k(0.0).is_err());
    }

    #[test]
    fn fresh_water_replaces_what_leaves() {
        let water = water_balance(80.0, 4.0, 0.9).expect("a balance");
        assert!((water.fresh_kg_s - water.evaporated_kg_s - water.purged_kg_s).abs() < 1e-12);
        assert!((water.fresh_kg_s + water.recycled_kg_s - water.sprayed_kg_s).abs() < 1e-12);
        assert!((water.recycled_kg_s - 68.4).abs() < 1e-12, "{water:?}");
        assert!(water_balance(3.0, 4.0, 0.9).is_err(), "a dry patch passed");
        assert!(water_balance(80.0, 4.0, 1.1).is_err());
    }
}
