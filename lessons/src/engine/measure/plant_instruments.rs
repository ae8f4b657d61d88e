//! What is read off a run of the plant clock: one function a quantity.

use ashlane_shared::{
    checks::alarm_volume_m3,
    conditions::Conditions,
    count::Counted,
    physics::{PhysicsError, gas_path::saturation::saturation_pressure_pa},
    plant::{PlantReading, WATER_KG_M3},
};

use super::plant_run::PlantRun;

/// Reads a run; the field is from 0.
pub(in crate::engine) type ReadRun = fn(&PlantRun, usize) -> Result<Counted, PhysicsError>;

const GAS_CONSTANT_J_MOL_K: f64 = 8.314_462_618;
const WATER_KG_MOL: f64 = 18.0153e-3;
const DAY_S: f64 = 86_400.0;

/// A value that no count stands behind.
fn exactly(share: f64) -> Counted {
    Counted {
        share,
        standard_error: 0.0,
    }
}

/// A value that goes with a share of the counted parcels: `σ/x = √((1−p)/(pN))`.
fn counted(run: &PlantRun, value: f64, share: f64) -> Counted {
    let error = ((1.0 - share) / (share * run.parcels as f64)).sqrt();
    Counted {
        share: value,
        standard_error: value.abs() * error,
    }
}

/// A value that goes with what a field catches.
fn of_field(run: &PlantRun, value: f64, field: usize) -> Counted {
    let share = run.arriving.get(field).copied().unwrap_or(f64::NAN);
    counted(run, value, share.min(1.0))
}

fn last(run: &PlantRun) -> Result<&PlantReading, PhysicsError> {
    run.readings.last().ok_or_else(|| missing("a reading"))
}

fn missing(what: &str) -> PhysicsError {
    PhysicsError::Impossible {
        reason: format!("the run has not {what}"),
    }
}

/// Dust on plates and wires, in hoppers and in the silo, kg.
fn held_kg(reading: &PlantReading) -> f64 {
    let fields = reading.fields.iter();
    let kept_kg: f64 = fields.map(|field| field.layer_kg + field.hopper_kg).sum();
    kept_kg + reading.ash.silo_kg
}

/// Dust that was found: more of it on plates and wires, in hoppers and silo, and what left by the stack, kg/s.
pub(super) fn dust_found_kg_s(run: &PlantRun, _: usize) -> Result<Counted, PhysicsError> {
    let first = run.readings.first().ok_or_else(|| missing("a reading"))?;
    let kept_kg_s = (held_kg(last(run)?) - held_kg(first)) / run.time_s();
    let left_kg_s = run.conditions.gas.flow_m3_s * run.mean(|reading| reading.emission_kg_m3);
    Ok(exactly(kept_kg_s + left_kg_s))
}

/// Mean penetration over the time.
pub(super) fn mean_penetration(run: &PlantRun, _: usize) -> Result<Counted, PhysicsError> {
    let mean = run.mean(|reading| reading.penetration);
    Ok(counted(run, mean, mean))
}

/// Ash that falls into a row of hoppers, kg/s.
pub(super) fn row_ash_kg_s(run: &PlantRun, field: usize) -> Result<Counted, PhysicsError> {
    let fallen_kg = run.fallen_kg.get(field).copied();
    let fallen_kg = fallen_kg.ok_or_else(|| missing("such a field"))?;
    Ok(of_field(run, fallen_kg / run.time_s(), field))
}

/// Time from the last emptying of a row, or from the start, until it holds so much ash, s; without end if it never does.
fn time_to_s(run: &PlantRun, field: usize, kg: f64) -> Counted {
    let held = |reading: &PlantReading| reading.fields.get(field).map(|field| field.hopper_kg);
    let empty = |reading: &&PlantReading| held(reading) == Some(0.0);
    let mut empty_s = run.readings.first().filter(empty).map(|first| first.time_s);
    for pair in run.readings.windows(2) {
        let (Some(one), Some(other)) = (held(&pair[0]), held(&pair[1])) else {
            break;
        };
        if other < one {
            empty_s = Some(pair[1].time_s);
        } else if let Some(from_s) = empty_s.filter(|_| one < kg && other >= kg) {
            let part = (kg - one) / (other - one);
            let at_s = pair[0].time_s + part * (pair[1].time_s - pair[0].time_s);
            return of_field(run, at_s - from_s, field);
        }
    }
    exactly(f64::INFINITY)
}

/// Time from empty to the level alarm of a row, s.
pub(super) fn time_to_alarm_s(run: &PlantRun, field: usize) -> Result<Counted, PhysicsError> {
    let kg = alarm_volume_m3(&run.conditions) * run.conditions.hoppers.ash_density_kg_m3;
    Ok(time_to_s(run, field, kg))
}

/// Time from empty to the brim of a row, s.
pub(super) fn time_to_brim_s(run: &PlantRun, field: usize) -> Result<Counted, PhysicsError> {
    let hoppers = &run.conditions.hoppers;
    Ok(time_to_s(
        run,
        field,
        hoppers.volume_m3 * hoppers.ash_density_kg_m3,
    ))
}

/// What the ash brought less what it cost, for a day, in the money of the site.
pub(super) fn ash_money_per_day(run: &PlantRun, _: usize) -> Result<Counted, PhysicsError> {
    let first = run.readings.first().ok_or_else(|| missing("a reading"))?;
    let money = last(run)?.ash.money - first.ash.money;
    let caught: f64 = 1.0 - run.mean(|reading| reading.penetration);
    Ok(counted(run, money * DAY_S / run.time_s(), caught))
}

/// Loss on ignition of the ash in the silo.
pub(super) fn silo_loss_on_ignition(run: &PlantRun, _: usize) -> Result<Counted, PhysicsError> {
    Ok(exactly(last(run)?.ash.loss_on_ignition))
}

/// Thickness of the layer of a field at the end, m.
pub(super) fn layer_m(run: &PlantRun, field: usize) -> Result<Counted, PhysicsError> {
    let reading = last(run)?.fields.get(field);
    let reading = reading.ok_or_else(|| missing("such a field"))?;
    Ok(of_field(run, reading.layer_m, field))
}

/// Voltage that the layer of a field takes at the end, V.
pub(super) fn layer_drop_v(run: &PlantRun, field: usize) -> Result<Counted, PhysicsError> {
    let reading = last(run)?.fields.get(field);
    let reading = reading.ok_or_else(|| missing("such a field"))?;
    Ok(of_field(run, reading.layer_drop_v, field))
}

/// How much more light is lost in the darkest puff than where no blow is: by Bouguer's law the dust in the gas, once more.
pub(super) fn puff_contrast(run: &PlantRun, _: usize) -> Result<Counted, PhysicsError> {
    let depth = |opacity: f64| -(-opacity).ln_1p();
    let seen = run.readings.get(1..).unwrap_or_default();
    let darkest = seen
        .iter()
        .map(|one| depth(one.peak_opacity))
        .fold(0.0, f64::max);
    let calm = seen.iter().filter(|one| one.peak_at_s.is_none());
    let calm = calm.min_by(|one, other| one.opacity.total_cmp(&other.opacity));
    let calm = calm.ok_or_else(|| missing("a time without a blow"))?;
    let contrast = darkest / depth(calm.opacity);
    Ok(counted(run, contrast, calm.penetration))
}

/// Water that leaves a wet collector, kg/s: drained, and as vapour of the saturated gas at its temperature. Of a dry one the
/// vapour of its gas.
pub(super) fn water_left_kg_s(run: &PlantRun, _: usize) -> Result<Counted, PhysicsError> {
    let gas = &run.conditions.gas;
    let (dry_mol_s, vapour_per_dry) = dry_gas(&run.conditions);
    let Some(water) = &last(run)?.water else {
        return Ok(exactly(WATER_KG_MOL * dry_mol_s * vapour_per_dry));
    };
    let full_pa = saturation_pressure_pa(water.temperature_k)?;
    let vapour_per_dry = full_pa / (gas.pressure_pa - full_pa);
    let drained_kg_s = WATER_KG_M3 * (water.recycled_m3_s + water.blown_down_m3_s);
    Ok(exactly(
        drained_kg_s + WATER_KG_MOL * dry_mol_s * vapour_per_dry,
    ))
}

/// Moles of dry gas, 1/s, and of vapour for each of them.
fn dry_gas(conditions: &Conditions) -> (f64, f64) {
    let gas = &conditions.gas;
    let moles_s = gas.pressure_pa * gas.flow_m3_s / (GAS_CONSTANT_J_MOL_K * gas.temperature_k);
    (
        moles_s * (1.0 - gas.moisture),
        gas.moisture / (1.0 - gas.moisture),
    )
}

/// Temperature of the gas that leaves, K: that of the water in a wet collector.
pub(super) fn gas_temperature_k(run: &PlantRun, _: usize) -> Result<Counted, PhysicsError> {
    let water = &last(run)?.water;
    let dry_k = run.conditions.gas.temperature_k;
    Ok(exactly(
        water.as_ref().map_or(dry_k, |water| water.temperature_k),
    ))
}

/// Fresh water that a collector takes, kg/s.
pub(super) fn fresh_water_kg_s(run: &PlantRun, _: usize) -> Result<Counted, PhysicsError> {
    let water = &last(run)?.water;
    let taken_m3_s = water.as_ref().map_or(0.0, |water| water.make_up_m3_s);
    Ok(exactly(WATER_KG_M3 * taken_m3_s))
}

/// Dust in the water that is blown down, kg/m³.
pub(super) fn solids_kg_m3(run: &PlantRun, _: usize) -> Result<Counted, PhysicsError> {
    let water = &last(run)?.water;
    let solids_kg_m3 = water.as_ref().map_or(0.0, |water| water.solids_kg_m3);
    let caught: f64 = 1.0 - run.mean(|reading| reading.penetration);
    Ok(counted(run, solids_kg_m3, caught))
}
