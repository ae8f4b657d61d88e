//! The water of a wet collector: how much runs, evaporates and is blown down, how thick its film is, what it carries.

use serde::Serialize;

use crate::{
    conditions::{Conditions, Kind},
    physics::{
        PhysicsError,
        gas_path::{
            heat::DryGas,
            saturation::{
                WaterBalance, adiabatic_saturation, boiling_temperature_k, saturation_pressure_pa,
                water_balance,
            },
            stream::GasStream,
        },
        water_film::{film_thickness_m, water_viscosity_pa_s},
    },
};

/// Density of the water, kg/m³: at 50 °C. Source: from memory of the CRC Handbook of Chemistry and Physics.
pub const WATER_KG_M3: f64 = 988.0;

/// The water of a wet collector, steady.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Water {
    balance: WaterBalance,
    film_m: f64,
    temperature_k: f64,
}

/// The water at one moment.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WaterReading {
    /// Sprayed on gas and plates, m³/s.
    pub sprayed_m3_s: f64,
    /// Evaporated until the gas is saturated, m³/s of liquid.
    pub evaporated_m3_s: f64,
    /// Drained and sprayed again, m³/s.
    pub recycled_m3_s: f64,
    /// Blown down with the dust, m³/s.
    pub blown_down_m3_s: f64,
    /// Fresh water that makes up for both, m³/s.
    pub make_up_m3_s: f64,
    /// Dust in the drained water, kg/m³ (g/L), once as much is blown down as is caught.
    pub solids_kg_m3: f64,
    /// Mean thickness of the film at the foot of the plates, m.
    pub film_m: f64,
    /// Temperature of the saturated gas and of its water, K.
    pub temperature_k: f64,
}

impl Water {
    /// Nothing in a dry collector.
    pub(super) fn new(conditions: &Conditions) -> Result<Option<Self>, PhysicsError> {
        if conditions.collector.kind == Kind::Dry {
            return Ok(None);
        }
        let (evaporated_kg_s, temperature_k) = saturated(conditions)?;
        let water = &conditions.water;
        let balance = water_balance(
            water.per_gas * conditions.gas.flow_m3_s * WATER_KG_M3,
            evaporated_kg_s,
            water.recycled,
        )?;
        let drained_kg_s = balance.recycled_kg_s + balance.purged_kg_s;
        Ok(Some(Self {
            balance,
            film_m: film_m(conditions, drained_kg_s, temperature_k)?,
            temperature_k,
        }))
    }

    /// With this much dust washed off all plates, kg/s.
    pub(super) fn reading(&self, washed_kg_s: f64) -> WaterReading {
        let volume = |kg_s: f64| kg_s / WATER_KG_M3;
        let blown_down_m3_s = volume(self.balance.purged_kg_s);
        WaterReading {
            sprayed_m3_s: volume(self.balance.sprayed_kg_s),
            evaporated_m3_s: volume(self.balance.evaporated_kg_s),
            recycled_m3_s: volume(self.balance.recycled_kg_s),
            blown_down_m3_s,
            make_up_m3_s: volume(self.balance.fresh_kg_s),
            solids_kg_m3: washed_kg_s / blown_down_m3_s,
            film_m: self.film_m,
            temperature_k: self.temperature_k,
        }
    }
}

/// Water that evaporates into the gas, kg/s, and the temperature that both then have, K. A sheet may well give the gas
/// as it is behind the sprays: saturated gas takes up nothing.
fn saturated(conditions: &Conditions) -> Result<(f64, f64), PhysicsError> {
    let gas = &conditions.gas;
    let vapour_pa = gas.moisture * gas.pressure_pa;
    let boils = gas.temperature_k >= boiling_temperature_k(gas.pressure_pa)?;
    if !boils && vapour_pa >= saturation_pressure_pa(gas.temperature_k)? {
        return Ok((0.0, gas.temperature_k));
    }
    let behind = adiabatic_saturation(&GasStream {
        flow_m3_s: gas.flow_m3_s,
        temperature_k: gas.temperature_k,
        pressure_pa: gas.pressure_pa,
        moisture: gas.moisture,
        dry: DryGas::FLUE_GAS,
    })?;
    Ok((behind.evaporated_kg_s, behind.stream.temperature_k))
}

/// The film on the plates that water reaches.
fn film_m(
    conditions: &Conditions,
    drained_kg_s: f64,
    temperature_k: f64,
) -> Result<f64, PhysicsError> {
    let dry = conditions.defects.iter().map(|defects| defects.dry_share);
    let wet_share = 1.0 - dry.sum::<f64>() / conditions.defects.len() as f64;
    let width_m = wet_share * conditions.collecting_area_m2() / conditions.collector.plate_height_m;
    if width_m <= 0.0 {
        return Ok(0.0);
    }
    film_thickness_m(
        drained_kg_s / width_m,
        water_viscosity_pa_s(temperature_k)?,
        WATER_KG_M3,
    )
}
