//! Outside air that is sucked in through leaks: how much, told by the oxygen, and what it does to the gas.
//!
//! `leak/inlet = (O₂out − O₂in)/(20.9 % − O₂out)`, and a balance of heat and water

use super::heat::DryGas;
use super::stream::{GasStream, dry_flow_mol_s};
use crate::physics::PhysicsError;
use crate::physics::error::{not_negative, require};
use crate::physics::root::root_of_rising;

/// Oxygen in dry air, fraction by volume. Source: the rounded 20.9 % of the trade; 20.95 % in standard air.
pub const OXYGEN_OF_AIR: f64 = 0.209;

/// Temperatures of gas that is computed, K.
const COLDEST_K: f64 = 250.0;
const HOTTEST_K: f64 = 1000.0;
/// Oxygen that rounding may leave below none.
const ROUNDING: f64 = 1e-12;

/// Outside air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OutsideAir {
    /// Temperature, K, 250 to 1000.
    pub temperature_k: f64,
    /// Water vapour, fraction by volume, 0 or more and below 1.
    pub moisture: f64,
}

impl OutsideAir {
    /// A cool, half dry day. Teaching value, no source.
    pub const TEACHING: Self = Self {
        temperature_k: 288.15,
        moisture: 0.01,
    };

    /// None of it yet, at this pressure.
    fn at_pressure(&self, pressure_pa: f64) -> GasStream {
        GasStream {
            flow_m3_s: 0.0,
            temperature_k: self.temperature_k,
            pressure_pa,
            moisture: self.moisture,
            dry: DryGas::AIR,
        }
    }
}

/// Air sucked in for each part of gas that came in, both dry and by volume at equal temperature.
///
/// `leak/inlet = (O₂out − O₂in)/(20.9 % − O₂out)`
///
/// # Arguments
/// * `oxygen_in` – oxygen before the leak, dry, fraction by volume, 0 or more and below 0.209.
/// * `oxygen_out` – oxygen behind it, dry, fraction by volume, from `oxygen_in` to below 0.209.
///
/// # Source
/// Balance of oxygen between gas and air of 20.9 %.
///
/// # Validity
/// Both readings dry and well mixed over the duct; nothing burns in between.
///
/// # Errors
/// A reading outside its range; less oxygen behind than before.
///
/// ```
/// let leak = ashlane_shared::physics::gas_path::leakage::leak_share(0.06, 0.08)?;
/// assert!((leak - 0.155).abs() < 5e-4);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn leak_share(oxygen_in: f64, oxygen_out: f64) -> Result<f64, PhysicsError> {
    let before = oxygen_of_gas("oxygen_in", oxygen_in)?;
    let behind = oxygen_of_gas("oxygen_out", oxygen_out)?;
    require(
        behind >= before,
        "oxygen_out",
        behind,
        "oxygen_in or more, because a leak only adds oxygen",
    )?;
    Ok((behind - before) / (OXYGEN_OF_AIR - behind))
}

/// Oxygen behind a leak, dry, fraction by volume.
///
/// `O₂out = (O₂in + 20.9 %·leak)/(1 + leak)`
///
/// # Arguments
/// * `oxygen_in` – oxygen before the leak, dry, fraction by volume, 0 or more and below 0.209.
/// * `leak_share` – dry air for each part of dry gas, 0 or more.
///
/// # Source
/// As [`leak_share`], solved for the oxygen behind.
///
/// # Validity
/// As [`leak_share`].
///
/// # Errors
/// An argument outside its range.
pub fn oxygen_behind_leak(oxygen_in: f64, leak_share: f64) -> Result<f64, PhysicsError> {
    let before = oxygen_of_gas("oxygen_in", oxygen_in)?;
    let leak = not_negative("leak_share", leak_share)?;
    Ok((before + OXYGEN_OF_AIR * leak) / (1.0 + leak))
}

/// The gas behind a leak: more of it, cooler, drier and with more oxygen.
///
/// `n_d h(T) = n_1 h_1(T_1) + n_a h_a(T_a)`, `n_a = leak·n_1`, water and dry gases added up, `Q = nRT/p`
///
/// # Arguments
/// * `gas` – the gas before the leak.
/// * `air` – the air outside.
/// * `leak_share` – dry air for each part of dry gas, by volume at equal temperature, 0 or more.
///
/// # Source
/// Balances of dry gas, water and heat for ideal gases, see [`super::heat`].
///
/// # Validity
/// Well mixed, no heat lost through the casing, nothing condenses: a mixture below its dew point is not noticed.
///
/// # Errors
/// A stream, an air or a share outside its range.
pub fn behind_leak(
    gas: &GasStream,
    air: &OutsideAir,
    leak_share: f64,
) -> Result<GasStream, PhysicsError> {
    gas.checked()?;
    let leak = not_negative("leak_share", leak_share)?;
    let air = air.at_pressure(gas.pressure_pa);
    air.checked()?;
    let vapour_per_dry = (gas.vapour_per_dry() + leak * air.vapour_per_dry()) / (1.0 + leak);
    let of_temperature = |temperature_k: f64| {
        GasStream::of_moles(
            dry_flow_mol_s(gas) * (1.0 + leak),
            vapour_per_dry,
            temperature_k,
            gas.pressure_pa,
            gas.dry.with(&DryGas::AIR, leak),
        )
    };
    let held_j_mol = (gas.heat_per_dry_j_mol(gas.temperature_k)
        + leak * air.heat_per_dry_j_mol(air.temperature_k))
        / (1.0 + leak);
    let cold_k = gas.temperature_k.min(air.temperature_k);
    let hot_k = gas.temperature_k.max(air.temperature_k);
    let mixed_k = root_of_rising(
        |guess_k| of_temperature(guess_k).heat_per_dry_j_mol(guess_k) - held_j_mol,
        cold_k,
        hot_k,
    );
    Ok(of_temperature(mixed_k))
}

/// The gas before a leak, from what it is behind it: the other way round of [`behind_leak`].
///
/// `n_1 h_1(T_1) = n_d h(T) − n_a h_a(T_a)`, `n_1 = n_d/(1 + leak)`, water and dry gases less those of the air
///
/// # Arguments
/// * `gas` – the gas behind the leak.
/// * `air` – the air outside.
/// * `leak_share` – dry air for each part of dry gas before the leak, 0 or more.
///
/// # Source
/// As [`behind_leak`].
///
/// # Validity
/// As [`behind_leak`]; the gas before was no hotter than 1000 K.
///
/// # Errors
/// A stream, an air or a share outside its range; less water or oxygen than the air alone brought; a hotter gas before.
pub fn before_leak(
    gas: &GasStream,
    air: &OutsideAir,
    leak_share: f64,
) -> Result<GasStream, PhysicsError> {
    gas.checked()?;
    let leak = not_negative("leak_share", leak_share)?;
    let air = air.at_pressure(gas.pressure_pa);
    air.checked()?;
    let less = |own: f64, airs: f64| (1.0 + leak) * own - leak * airs;
    let vapour_per_dry = less(gas.vapour_per_dry(), air.vapour_per_dry());
    let enough =
        "as much as the air that leaked in brought, or more; less in-leakage or more of this";
    require(vapour_per_dry >= 0.0, "moisture", gas.moisture, enough)?;
    let dry = DryGas {
        nitrogen: less(gas.dry.nitrogen, air.dry.nitrogen),
        carbon_dioxide: less(gas.dry.carbon_dioxide, air.dry.carbon_dioxide),
        oxygen: less(gas.dry.oxygen, air.dry.oxygen),
    };
    require(dry.oxygen > -ROUNDING, "oxygen", gas.dry.oxygen, enough)?;
    let of_temperature = |temperature_k: f64| {
        let dry_mol_s = dry_flow_mol_s(gas) / (1.0 + leak);
        GasStream::of_moles(
            dry_mol_s,
            vapour_per_dry,
            temperature_k,
            gas.pressure_pa,
            dry,
        )
    };
    let held_j_mol = less(
        gas.heat_per_dry_j_mol(gas.temperature_k),
        air.heat_per_dry_j_mol(air.temperature_k),
    );
    let missing_j_mol =
        |guess_k: f64| of_temperature(guess_k).heat_per_dry_j_mol(guess_k) - held_j_mol;
    require(
        missing_j_mol(HOTTEST_K) >= 0.0 && missing_j_mol(COLDEST_K) <= 0.0,
        "leak_share",
        leak,
        "so little that the gas before it was between 250 and 1000 K",
    )?;
    Ok(of_temperature(root_of_rising(
        missing_j_mol,
        COLDEST_K,
        HOTTEST_K,
    )))
}

fn oxygen_of_gas(argument: &'static str, oxygen: f64) -> Result<f64, PhysicsError> {
    require(
        (0.0..OXYGEN_OF_AIR).contains(&oxygen),
        argument,
        oxygen,
        "0 or more and below 0.209, the oxygen of air",
    )
}

#[cfg(test)]
mod tests {
    use super::super::stream::{heat_flow_w, vapour_flow_kg_s};
    use super::*;

    const GAS: GasStream = GasStream {
        flow_m3_s: 118.8,
        temperature_k: 423.15,
        pressure_pa: 101_325.0,
        moisture: 0.08,
        dry: DryGas::FLUE_GAS,
    };
    const AIR: OutsideAir = OutsideAir {
        temperature_k: 293.15,
        moisture: 0.01,
    };

    #[test]
    fn oxygen_of_the_mixture_tells_the_leak_that_made_it() {
        for leak in [0.0, 0.02, 0.155, 1.0] {
            // The mixture adds up its gases; the formula knows oxygen alone.
            let mixed = behind_leak(&GAS, &AIR, leak).expect("a mixture");
            let told = leak_share(GAS.dry.oxygen, mixed.dry.oxygen).expect("a leak");
            assert!((told - leak).abs() < 1e-12, "{told} for {leak}");
            let oxygen = oxygen_behind_leak(GAS.dry.oxygen, leak).expect("oxygen");
            assert!((oxygen - mixed.dry.oxygen).abs() < 1e-15, "{oxygen}");
        }
    }

    #[test]
    fn heat_and_water_are_kept() {
        let leak = 0.155;
        let mixed = behind_leak(&GAS, &AIR, leak).expect("a mixture");
        let air = GasStream::of_moles(
            leak * dry_flow_mol_s(&GAS),
            0.01 / 0.99,
            AIR.temperature_k,
            GAS.pressure_pa,
            DryGas::AIR,
        );
        let heat = heat_flow_w(&GAS) + heat_flow_w(&air);
        assert!(
            (heat_flow_w(&mixed) / heat - 1.0).abs() < 1e-12,
            "{mixed:?}"
        );
        let water = vapour_flow_kg_s(&GAS) + vapour_flow_kg_s(&air);
        assert!((vapour_flow_kg_s(&mixed) / water - 1.0).abs() < 1e-12);
        // Equal heat capacities and pressures would keep the volume exactly; they differ by a few per cent.
        let volume = GAS.flow_m3_s + air.flow_m3_s;
        assert!((mixed.flow_m3_s / volume - 1.0).abs() < 5e-3, "{mixed:?}");
        assert!(mixed.temperature_k < GAS.temperature_k && mixed.moisture < GAS.moisture);
    }

    #[test]
    fn taking_the_air_out_again_gives_the_gas_before_the_leak() {
        for leak in [0.0, 0.02, 0.155, 0.6] {
            let mixed = behind_leak(&GAS, &AIR, leak).expect("a mixture");
            let again = before_leak(&mixed, &AIR, leak).expect("the gas before");
            for (name, found, expected) in [
                ("flow", again.flow_m3_s, GAS.flow_m3_s),
                ("temperature", again.temperature_k, GAS.temperature_k),
                ("moisture", again.moisture, GAS.moisture),
                ("oxygen", again.dry.oxygen, GAS.dry.oxygen),
                ("nitrogen", again.dry.nitrogen, GAS.dry.nitrogen),
            ] {
                assert!(
                    (found / expected - 1.0).abs() < 1e-9,
                    "{name} at {leak}: {found}"
                );
            }
        }
    }

    #[test]
    fn gas_that_the_air_alone_would_have_made_wetter_or_hotter_is_refused() {
        let dry = GasStream {
            moisture: 0.0,
            ..GAS
        };
        assert!(before_leak(&dry, &AIR, 0.1).is_err());
        let hot = GasStream {
            temperature_k: 700.0,
            ..GAS
        };
        assert!(before_leak(&hot, &AIR, 1.0).is_err(), "hotter than 1000 K");
        let poor = GasStream {
            dry: DryGas::with_oxygen(0.01),
            ..GAS
        };
        assert!(before_leak(&poor, &AIR, 0.1).is_err(), "oxygen below none");
    }

    #[test]
    fn no_leak_changes_nothing() {
        let same = behind_leak(&GAS, &AIR, 0.0).expect("a mixture");
        assert!((same.temperature_k - GAS.temperature_k).abs() < 1e-9);
        assert!((same.flow_m3_s / GAS.flow_m3_s - 1.0).abs() < 1e-12);
    }

    #[test]
    fn readings_that_no_leak_explains_are_refused() {
        for (before, behind) in [(0.08, 0.06), (0.06, 0.209), (-0.01, 0.06), (f64::NAN, 0.06)] {
            assert!(leak_share(before, behind).is_err(), "{before} {behind}");
        }
        assert!(oxygen_behind_leak(0.06, -0.1).is_err());
        assert!(behind_leak(&GAS, &AIR, f64::NAN).is_err());
        assert!(
            behind_leak(
                &GAS,
                &OutsideAir {
                    temperature_k: 20.0,
                    ..AIR
                },
                0.1
            )
            .is_err()
        );
    }
}
