//! What lessons hold wet plates against: water and vapour that come in, the wet bulb, dust in the blowdown, no layer.
//!
//! The rows that name them stand in `formulas.rs`.

use super::{
    formulas::{Evaluate, Formula},
    on_plant::{OnPlant, field_m2, field_of, landing_kg_s},
};
use crate::{
    conditions::{Conditions, Kind},
    physics::{
        PhysicsError, constants::GAS_CONSTANT_J_MOL_K, gas::WATER_MOLAR_MASS_KG_MOL,
        root::root_of_rising,
    },
    simulation::{electrics, layer_resistivity_ohm_m},
    units::Dimension,
};

pub(super) const WATER_THAT_CAME: Formula = Formula {
    name: "water_that_came",
    title: "water and vapour that came in",
    equation: "spray + M W p Q/(R T₁)",
    source: "balance of water, law of ideal gases",
    validity: "steady",
    gives: Dimension::MassFlow,
    evaluate: Evaluate::Whole(|conditions| Ok(water_that_came_kg_s(conditions))),
};
pub(super) const WET_BULB: Formula = Formula {
    name: "wet_bulb",
    title: "wet bulb",
    equation: "(c_g + y₁ c_v)(T₁ − T₂) = L_v (y₂ − y₁)",
    source: "balance of heat; Alduchov and Eskridge 1996",
    validity: "0 to 75 °C behind the water, 0.5 K",
    gives: Dimension::Temperature,
    evaluate: Evaluate::Whole(|conditions| Ok(wet_bulb_k(conditions))),
};
pub(super) const FRESH_WATER: Formula = Formula {
    name: "fresh_water",
    title: "fresh water",
    equation: "evaporated + (1 − recycled)(spray − evaporated)",
    source: "balance of water",
    validity: "steady; no droplets with the gas",
    gives: Dimension::MassFlow,
    evaluate: Evaluate::Whole(|conditions| Ok(fresh_water_kg_s(conditions))),
};
pub(super) const BLOWDOWN_SOLIDS: Formula = Formula {
    name: "blowdown_solids",
    title: "dust over blowdown",
    equation: "C Q (1−P)/Q_b",
    source: "mass balance",
    validity: "one migration velocity, full mixing, even gas; steady",
    gives: Dimension::Density,
    evaluate: Evaluate::Whole(blowdown_solids_kg_m3),
};
pub(super) const OHMIC_DROP: Formula = Formula {
    name: "ohmic_layer_drop",
    title: "Ohm's law in the layer",
    equation: "ΔV = j ρ h, h = C Q η t/(A ρ_b); washed plates: h = 0",
    source: "Ohm 1827, mass balance",
    validity: "before the first blow, below breakdown",
    gives: Dimension::Voltage,
    evaluate: Evaluate::OnPlant(ohmic_layer_drop_v),
};

/// Density of water at 50 °C, kg/m³. Source: from memory of the CRC Handbook of Chemistry and Physics.
pub(super) const WATER_KG_M3: f64 = 988.0;
/// Molar heat of flue gas without its vapour near 100 °C: 0.80 N₂ of 29.2, 0.14 CO₂ of 40, 0.06 O₂ of 29.9 J/(mol·K).
/// Source: from memory of the JANAF tables.
const FLUE_GAS_J_MOL_K: f64 = 30.8;
/// Molar heat of water vapour near 100 °C, J/(mol·K). Source: as above.
const VAPOUR_J_MOL_K: f64 = 34.0;

/// Moles of dry gas, 1/s, and moles of vapour for each of them.
pub(super) fn dry_gas(conditions: &Conditions) -> (f64, f64) {
    let gas = &conditions.gas;
    let moles_s = gas.pressure_pa * gas.flow_m3_s / (GAS_CONSTANT_J_MOL_K * gas.temperature_k);
    let share = gas.moisture;
    (moles_s * (1.0 - share), share / (1.0 - share))
}

/// Water sprayed on a wet collector, kg/s.
pub(super) fn sprayed_kg_s(conditions: &Conditions) -> f64 {
    match conditions.collector.kind {
        Kind::Dry => 0.0,
        Kind::Wet => conditions.water.per_gas * conditions.gas.flow_m3_s * WATER_KG_M3,
    }
}

/// Water and vapour that come into a wet collector, kg/s.
///
/// `ρ r Q + M p W Q/(R T)`
///
/// # Arguments
/// * `conditions` – of the collector; a dry one sprays nothing.
///
/// # Source
/// Balance of water; law of ideal gases.
///
/// # Validity
/// Steady.
#[must_use]
pub fn water_that_came_kg_s(conditions: &Conditions) -> f64 {
    let (dry_mol_s, vapour_per_dry) = dry_gas(conditions);
    sprayed_kg_s(conditions) + WATER_MOLAR_MASS_KG_MOL * dry_mol_s * vapour_per_dry
}

/// Temperature at which water that goes round saturates the gas, K.
///
/// `(c_g + y₁c_v)(T₁−T₂) = L(T₂)(y₂−y₁)`, `y₂ = p_s/(p−p_s)`, `p_s = 610.94 Pa·e^(17.625 t/(t+243.04))`
///
/// # Arguments
/// * `conditions` – the gas before the water.
///
/// # Source
/// Balance of heat; saturation after Alduchov & Eskridge 1996, J. Appl. Meteorol. 35:601; heat of vaporisation a straight
/// line through 2501 kJ/kg at 0 °C and 2382 at 50 °C, from memory of steam tables.
///
/// # Validity
/// 0 to 75 °C behind the water, within 0.5 K; heats that do not change with temperature.
#[must_use]
pub fn wet_bulb_k(conditions: &Conditions) -> f64 {
    wet_bulb_of(conditions, FLUE_GAS_J_MOL_K)
}

fn wet_bulb_of(conditions: &Conditions, dry_j_mol_k: f64) -> f64 {
    let gas = &conditions.gas;
    let (_, before) = dry_gas(conditions);
    let warms = dry_j_mol_k + before * VAPOUR_J_MOL_K;
    let missing = |temperature_k: f64| {
        let celsius = temperature_k - 273.15;
        let heat_j_mol = WATER_MOLAR_MASS_KG_MOL * (2501e3 - 2380.0 * celsius);
        let evaporated = saturated_vapour(celsius, gas.pressure_pa) - before;
        heat_j_mol * evaporated - warms * (gas.temperature_k - temperature_k)
    };
    root_of_rising(missing, 273.15, gas.temperature_k.min(370.0))
}

/// Moles of vapour for each mole of dry gas where the gas is saturated.
fn saturated_vapour(celsius: f64, pressure_pa: f64) -> f64 {
    let saturation_pa = 610.94 * (17.625 * celsius / (celsius + 243.04)).exp();
    saturation_pa / (pressure_pa - saturation_pa)
}

/// Water that evaporates, kg/s, by the wet bulb.
pub(super) fn evaporated_kg_s(conditions: &Conditions) -> f64 {
    let (dry_mol_s, before) = dry_gas(conditions);
    let after = saturated_vapour(wet_bulb_k(conditions) - 273.15, conditions.gas.pressure_pa);
    WATER_MOLAR_MASS_KG_MOL * dry_mol_s * (after - before).max(0.0)
}

/// Water of a wet collector that is blown down, kg/s.
pub(super) fn blown_down_kg_s(conditions: &Conditions) -> f64 {
    let drained_kg_s = sprayed_kg_s(conditions) - evaporated_kg_s(conditions);
    (1.0 - conditions.water.recycled) * drained_kg_s.max(0.0)
}

/// Fresh water that a wet collector takes, kg/s.
///
/// `E + (1−r)(spray − E)`
///
/// # Arguments
/// * `conditions` – of the collector; a dry one takes none.
///
/// # Source
/// Balance of water; evaporation by [`wet_bulb_k`].
///
/// # Validity
/// As [`wet_bulb_k`]; droplets that the gas carries off are not counted.
#[must_use]
pub fn fresh_water_kg_s(conditions: &Conditions) -> f64 {
    match conditions.collector.kind {
        Kind::Dry => 0.0,
        Kind::Wet => evaporated_kg_s(conditions) + blown_down_kg_s(conditions),
    }
}

/// Dust in the water that is blown down, kg/m³.
///
/// `C Q (1−P) ρ/ṁ_blowdown`
///
/// # Arguments
/// * `conditions` – of a wet collector.
///
/// # Source
/// Mass balance; P by sections with losses (US EPA *Air Pollution Control Cost Manual*).
///
/// # Validity
/// As [`super::section_loss_penetration`] and [`fresh_water_kg_s`]; steady. Nothing is blown down by a dry collector: 0.
///
/// # Errors
/// A formula refused the conditions.
pub fn blowdown_solids_kg_m3(conditions: &Conditions) -> Result<f64, PhysicsError> {
    let blown_down_m3_s = blown_down_kg_s(conditions) / WATER_KG_M3;
    let caught = 1.0 - super::section_loss_penetration(conditions)?;
    Ok(if blown_down_m3_s > 0.0 {
        conditions.inlet_mass_kg_s() * caught / blown_down_m3_s
    } else {
        0.0
    })
}

/// Voltage that the layer of a field takes, V.
///
/// `ΔV = j ρ h`, `h = C Q η_f t/(A ρ_b)`; washed plates have no layer
///
/// # Arguments
/// * `asked` – conditions, the time since the plates were clean, and the field.
///
/// # Source
/// Ohm's law and mass balance.
///
/// # Validity
/// Before the first blow, and below the breakdown of the layer.
///
/// # Errors
/// No such field, or a formula refused the conditions.
pub fn ohmic_layer_drop_v(asked: &OnPlant<'_>) -> Result<f64, PhysicsError> {
    let (conditions, field) = (asked.conditions, field_of(asked)?);
    if conditions.collector.kind == Kind::Wet {
        return Ok(0.0);
    }
    let held_kg_m3 = conditions.dust.layer_density_kg_m3 * field_m2(conditions);
    let time_s = asked.settle_s + asked.time_s;
    let thickness_m = landing_kg_s(conditions, field)? * time_s / held_kg_m3;
    let mut laid = conditions.clone();
    laid.rapping.layer_m[field] = thickness_m;
    let density_a_m2 = electrics(&laid)?.states[field].current_density_a_m2;
    Ok(density_a_m2 * layer_resistivity_ohm_m(conditions)? * thickness_m)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::conditions::demonstration;

    #[test]
    fn the_wet_bulb_is_that_of_humid_air() {
        // physics.md V1, CoolProp, humid air at 1 atm: 52.5, 60.3 and 56.3 °C, within 0.5 K; air has 29.3 J/(mol·K).
        for (celsius, moisture, expected) in [
            (150.0, 0.08, 52.5),
            (150.0, 0.15, 60.3),
            (170.0, 0.10, 56.3),
        ] {
            let mut conditions = demonstration();
            conditions.gas.temperature_k = celsius + 273.15;
            conditions.gas.moisture = moisture;
            let found = wet_bulb_of(&conditions, 29.3) - 273.15;
            assert!((found - expected).abs() < 0.5, "{found}, not {expected}");
        }
    }

    #[test]
    fn what_comes_in_is_spray_and_vapour() {
        let mut conditions = demonstration();
        // By hand: 101325·118.8/(8.31446·423.15) = 3421.4 mol/s, 8 % of it water of 18.015 g/mol: 4.931 kg/s.
        let dry = water_that_came_kg_s(&conditions);
        assert!((dry - 4.931).abs() < 2e-3, "{dry}");
        assert_eq!(fresh_water_kg_s(&conditions), 0.0);
        conditions.collector.kind = Kind::Wet;
        // By hand: 0.67 L of 988 g/L in each of 118.8 m³/s are 78.64 kg/s.
        let wet = water_that_came_kg_s(&conditions);
        assert!((wet - dry - 78.64).abs() < 5e-3, "{wet}");
        conditions.water.recycled = 0.0;
        // Without recycling all that is sprayed is fresh.
        assert!((fresh_water_kg_s(&conditions) - 78.64).abs() < 5e-3);
        conditions.gas.temperature_k = wet_bulb_k(&conditions);
        conditions.gas.moisture = 0.2;
        assert!(evaporated_kg_s(&conditions) < 1e-9, "wetter than it can be");
    }

    #[test]
    fn washed_plates_take_no_voltage_and_dusty_ones_as_ohm_says() {
        let mut conditions = demonstration();
        fn asked(conditions: &Conditions) -> OnPlant<'_> {
            OnPlant {
                before: conditions,
                settle_s: 0.0,
                conditions,
                time_s: 3600.0,
                field: 0,
            }
        }
        conditions.teaching.migration_velocity_m_s = Some(0.09);
        conditions.teaching.mixing = Some(crate::conditions::Mixing::Full);
        conditions.dust.resistivity = crate::conditions::Resistivity::Given(1e8);
        // By hand: 0.95 (1 − e^(−1.5)) of 3421.4 kg/h on 1980 m² of 600 kg/m³ are 2.126 mm; the limit of 50 nA/cm² is reached.
        let dry_v = ohmic_layer_drop_v(&asked(&conditions)).expect("possible");
        assert!((dry_v / 106.3 - 1.0).abs() < 5e-3, "{dry_v}");
        conditions.collector.kind = Kind::Wet;
        assert_eq!(ohmic_layer_drop_v(&asked(&conditions)), Ok(0.0));
    }
}
