//! What instruments would show of a collector on the plant clock.

use serde::Serialize;

use super::{AshReading, Plant, WaterReading, layer::rows_m};
use crate::{
    physics::PhysicsError,
    simulation::{HeldBy, Swung},
};

/// One moment of the whole collector.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PlantReading {
    /// Time since the start, s.
    pub time_s: f64,
    /// By field.
    pub fields: Vec<FieldReading>,
    /// Mean penetration since the reading before.
    pub penetration: f64,
    /// Penetration that the present rates have in the long run, all raps included.
    pub long_run: f64,
    /// Mean dust in the outlet gas since then, kg per actual m³.
    pub emission_kg_m3: f64,
    /// Opacity that this mean load has in a stack of 5 m (invented).
    pub opacity: f64,
    /// Opacity of the darkest moment since the reading before: the strongest puff over what leaves all the time; the
    /// mean where no blow was. The mean of a time that is shorter than the puff, which it holds whole, is darker still.
    pub peak_opacity: f64,
    /// When its blow was struck, s; nothing where no blow was.
    pub peak_at_s: Option<f64>,
    /// How long a puff of a rap lasts at the outlet, s.
    pub puff_s: f64,
    /// The ash that was taken away.
    pub ash: AshReading,
    /// The water of a wet collector.
    pub water: Option<WaterReading>,
}

/// One field.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FieldReading {
    /// Dust on plates and wires, kg.
    pub layer_kg: f64,
    /// Mean thickness of the layer on the plates, m.
    pub layer_m: f64,
    /// Thickness at its thickest place, m.
    pub thickest_m: f64,
    /// Thickness by rows of the height, the roof first, each along the gas; mean of all plates, m.
    pub layer_map_m: Vec<Vec<f64>>,
    /// Thickness of the dust on the wires, m.
    pub wire_coating_m: f64,
    /// Mean voltage at the set, V.
    pub voltage_v: f64,
    /// What its kilovolt meter shows, V: the same, if the meter is right.
    pub metered_v: f64,
    /// What holds the voltage.
    pub held_by: HeldBy,
    /// The same where it is lowest, V: less than the mean only where wires swing.
    pub lowest_v: f64,
    /// The same where it is highest, V.
    pub highest_v: f64,
    /// Mean current density through the dust on the plates, A/m².
    pub current_density_a_m2: f64,
    /// What the milliammeter shows, A/m² of plates: that, and what goes past the gas.
    pub metered_a_m2: f64,
    /// Sparks per minute.
    pub sparks_per_min: f64,
    /// Field in the layer, V/m: current density times resistivity, held at breakdown.
    pub layer_field_v_m: f64,
    /// Voltage that is lost in the layer, V.
    pub layer_drop_v: f64,
    /// Whether the layer breaks down: back corona.
    pub back_corona: bool,
    /// Drift of each size class over that when the rates were counted.
    #[serde(skip)]
    pub drifts: Vec<f64>,
    /// Ash in the hoppers below, kg.
    pub hopper_kg: f64,
    /// Share of their volume that is full; above 1 the ash stands over the brim.
    pub hopper_filled: f64,
    /// Level as a share of their height.
    pub hopper_level: f64,
    /// Time until the level alarm at the rate at which ash falls in the long run, s, if nobody empties them.
    pub hopper_alarm_s: f64,
    /// Whether the level alarm is on.
    pub hopper_alarm: bool,
    /// Whether the ash stands up to the frame of the wires.
    pub ash_at_frame: bool,
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
    let load_kg_m3: Vec<f64> = plant.left_kg.iter().map(|kg| over(*kg, gas_m3)).collect();
    let opacity = plant.puffs.opacity(&load_kg_m3)?;
    let darkest = plant.puffs.darkest()?;
    Ok(PlantReading {
        time_s: plant.time_s,
        fields: (0..plant.layers.len())
            .map(|field| field_reading(plant, field))
            .collect::<Result<_, _>>()?,
        penetration: over(left_kg, inlet_kg),
        long_run: (plant.worn).long_run_penetration(conditions.returned_share()),
        emission_kg_m3: over(left_kg, gas_m3),
        opacity,
        peak_opacity: darkest.map_or(opacity, |(_, peak)| peak),
        peak_at_s: darkest.map(|(at_s, _)| at_s),
        puff_s: plant.puffs.duration_s,
        ash: plant.silo.reading(conditions, &plant.rates.diameters_m)?,
        water: plant.water.map(|water| water.reading(washed_kg_s(plant))),
    })
}

fn field_reading(plant: &Plant, field: usize) -> Result<FieldReading, PhysicsError> {
    let (layer, row) = (&plant.layers[field], &plant.rows[field]);
    let layer_m = plant.layer_m(field)?;
    let swung = plant.fields.state(field);
    let shown = |of: fn(&Swung) -> f64| swung.map_or(0.0, of);
    let meter_share = plant.conditions.defects[field].meter_share;
    Ok(FieldReading {
        layer_kg: layer.total_kg() + plant.wires[field].total_kg(),
        layer_m,
        thickest_m: layer.thickest_m()?,
        layer_map_m: rows_m(&layer.map_m()?),
        wire_coating_m: plant.wire_coating_m(field),
        voltage_v: shown(|swung| swung.mean.voltage_v),
        metered_v: meter_share * shown(|swung| swung.mean.voltage_v),
        held_by: swung.map_or(HeldBy::Setting, |swung| swung.mean.held_by),
        lowest_v: shown(|swung| swung.lowest_v),
        highest_v: shown(|swung| swung.highest_v),
        current_density_a_m2: shown(|swung| swung.mean.current_density_a_m2),
        metered_a_m2: shown(|swung| swung.mean.metered_a_m2),
        sparks_per_min: shown(|swung| swung.mean.sparks_per_min),
        layer_field_v_m: shown(|swung| swung.mean.layer_field_v_m),
        layer_drop_v: shown(|swung| swung.mean.layer_drop_v),
        back_corona: swung.is_some_and(|swung| swung.mean.back_corona),
        drifts: plant
            .fields
            .drifts()
            .get(field)
            .cloned()
            .unwrap_or_default(),
        hopper_kg: row.total_kg(),
        hopper_filled: row.filled(),
        hopper_level: row.level()?,
        hopper_alarm_s: row.until_alarm_s(falling_kg_s(plant, field))?,
        hopper_alarm: row.is_alarmed()?,
        ash_at_frame: plant.ash_at_frame(field),
    })
}

/// Fresh dust that a field catches, kg/s.
fn caught_kg_s(plant: &Plant, field: usize) -> f64 {
    let caught: f64 = plant.worn.fresh.caught[field].iter().sum();
    caught * plant.conditions.inlet_mass_kg_s()
}

/// Ash that falls into the hoppers of a field in the long run, kg/s: what comes to lie there less what its raps send back.
pub(super) fn falling_kg_s(plant: &Plant, field: usize) -> f64 {
    let reentrained = plant.conditions.returned_share();
    let arriving = plant.worn.arriving(reentrained)[field];
    (1.0 - reentrained) * arriving * plant.conditions.inlet_mass_kg_s()
}

/// Fresh dust that the water carries off, kg/s.
fn washed_kg_s(plant: &Plant) -> f64 {
    let fields = plant.layers.iter().enumerate();
    fields
        .map(|(field, layer)| (1.0 - layer.dry_share()) * caught_kg_s(plant, field))
        .sum()
}
