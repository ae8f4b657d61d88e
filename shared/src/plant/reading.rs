//! What instruments would show of a collector on the plant clock.

use serde::Serialize;

use super::Plant;
use crate::physics::{
    PhysicsError, rapping,
    stack::{grain_extinction, mass_extinction_m2_kg, opacity},
};

/// Light of the opacity monitor, m: green, where the eye is keenest; common practice, no source.
const WAVELENGTH_M: f64 = 550e-9;
/// Refractive index of fly ash; common practice, no source.
const REFRACTIVE_INDEX: f64 = 1.5;
/// Width of the stack where the monitor looks across, m. Teaching value, no source.
const STACK_M: f64 = 5.0;

/// One moment of the whole collector.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PlantReading {
    /// Time since the start, s.
    pub time_s: f64,
    /// By field.
    pub fields: Vec<FieldReading>,
    /// Mean penetration since the reading before.
    pub penetration: f64,
    /// Mean dust in the outlet gas since then, kg per actual m³.
    pub emission_kg_m3: f64,
    /// Opacity that this mean load has in a stack of 5 m (invented).
    pub opacity: f64,
    /// How long a puff of a rap lasts at the outlet, s.
    pub puff_s: f64,
}

/// One field.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FieldReading {
    /// Dust on the plates, kg.
    pub layer_kg: f64,
    /// Thickness of the layer, m.
    pub layer_m: f64,
    /// Field in the layer, V/m: current density times resistivity, held at breakdown.
    pub layer_field_v_m: f64,
    /// Voltage that is lost in the layer, V; it does not act on the field's own voltage yet.
    pub layer_drop_v: f64,
    /// Whether the layer breaks down: back corona.
    pub back_corona: bool,
    /// Ash in the hoppers below, kg.
    pub hopper_kg: f64,
    /// Share of their volume that is full; above 1 the ash stands in the field.
    pub hopper_filled: f64,
    /// Level as a share of their height.
    pub hopper_level: f64,
    /// Time until the level alarm at the rate at which the field catches dust, s, if nobody empties them.
    pub hopper_alarm_s: f64,
}

pub(super) fn reading(plant: &Plant) -> Result<PlantReading, PhysicsError> {
    let conditions = &plant.conditions;
    let since_s = plant.time_s - plant.read_at_s;
    let left_kg: f64 = plant.left_kg.iter().sum();
    let (inlet_kg, gas_m3) = (
        conditions.inlet_mass_kg_s() * since_s,
        conditions.gas.flow_m3_s * since_s,
    );
    let over = |part: f64, whole: f64| if whole > 0.0 { part / whole } else { 0.0 };
    let emission_kg_m3 = over(left_kg, gas_m3);
    Ok(PlantReading {
        time_s: plant.time_s,
        fields: (0..plant.layers.len())
            .map(|field| field_reading(plant, field))
            .collect::<Result<_, _>>()?,
        penetration: over(left_kg, inlet_kg),
        emission_kg_m3,
        opacity: if left_kg > 0.0 {
            opacity(extinction_m2_kg(plant, left_kg)?, emission_kg_m3, STACK_M)?
        } else {
            0.0
        },
        puff_s: rapping::puff_duration_s(
            conditions.collector.plate_height_m,
            conditions.collector.field_length_m,
            conditions.gas_velocity_m_s(),
        )?,
    })
}

fn field_reading(plant: &Plant, field: usize) -> Result<FieldReading, PhysicsError> {
    let (layer, row) = (&plant.layers[field], &plant.rows[field]);
    let caught: f64 = plant.rates.fresh.caught[field].iter().sum();
    let rate_kg_s = caught * plant.conditions.inlet_mass_kg_s();
    let layer_m = layer.thickness_m()?;
    Ok(FieldReading {
        layer_kg: layer.total_kg(),
        layer_m,
        layer_field_v_m: plant.electric.field_v_m(field),
        layer_drop_v: plant.electric.drop_v(field, layer_m),
        back_corona: plant.electric.has_back_corona(field),
        hopper_kg: row.kg,
        hopper_filled: row.filled(),
        hopper_level: row.level()?,
        hopper_alarm_s: row.until_alarm_kg()? / rate_kg_s,
    })
}

/// Extinction of the dust that left, m²/kg: the classes by their mass.
fn extinction_m2_kg(plant: &Plant, left_kg: f64) -> Result<f64, PhysicsError> {
    let density_kg_m3 = plant.conditions.dust.density_kg_m3;
    let mut sum_m2_kg = 0.0;
    for (diameter_m, kg) in plant.rates.diameters_m.iter().zip(&plant.left_kg) {
        let extinction = grain_extinction(*diameter_m, WAVELENGTH_M, REFRACTIVE_INDEX)?;
        sum_m2_kg += kg / left_kg * mass_extinction_m2_kg(*diameter_m, density_kg_m3, extinction)?;
    }
    Ok(sum_m2_kg)
}
