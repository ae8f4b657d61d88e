//! How each check reads a machine; nothing here knows which fault is in it.

use ashlane_shared::{
    physics::{PhysicsError, gas_path::pressure::Station},
    plant::{FieldReading, PlantReading},
    simulation::{FieldEnergization, electrics, energization_of, layer_resistivity_ohm_m},
};

use super::Shown;

/// Time over which the stack is read, s: as many readings of the trend.
const STACK_S: f64 = 4.0 * 3600.0;
/// Share of the wanted voltage at which currents are compared. Teaching value, no source.
const TEST_SHARE: f64 = 0.9;

/// One number of a check.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Number {
    pub(super) what: &'static str,
    pub(super) field: Option<usize>,
    pub(super) value: f64,
}

pub(super) type Numbers = Result<Vec<Number>, PhysicsError>;

fn whole(what: &'static str, value: f64) -> Number {
    Number {
        what,
        field: None,
        value,
    }
}

fn by_field(shown: &Shown, what: &'static str, value: impl Fn(&FieldReading) -> f64) -> Numbers {
    let fields = shown.fields().iter().enumerate();
    let number = |(field, reading): (usize, &FieldReading)| Number {
        what,
        field: Some(field),
        value: value(reading),
    };
    Ok(fields.map(number).collect())
}

pub(super) fn kilovolts(shown: &Shown) -> Numbers {
    by_field(shown, "secondary voltage", |field| field.metered_v)
}

pub(super) fn milliamperes(shown: &Shown) -> Numbers {
    let area_m2 = shown.field_area_m2();
    by_field(shown, "secondary current", |field| {
        field.metered_a_m2 * area_m2
    })
}

pub(super) fn sparks(shown: &Shown) -> Numbers {
    by_field(shown, "sparks", |field| field.sparks_per_min / 60.0)
}

pub(super) fn power(shown: &Shown) -> Numbers {
    let area_m2 = shown.field_area_m2();
    by_field(shown, "mean kV × mean mA", |field| {
        field.metered_v * field.metered_a_m2 * area_m2
    })
}

pub(super) fn swing(shown: &Shown) -> Numbers {
    by_field(shown, "swing of the needle", |field| {
        field.highest_v - field.lowest_v
    })
}

pub(super) fn hopper_level(shown: &Shown) -> Numbers {
    by_field(shown, "level in the hoppers", |field| field.hopper_level)
}

/// The voltage of the field itself, as the primary side and the ratio of the set tell it.
pub(super) fn from_primary(shown: &Shown) -> Numbers {
    by_field(shown, "kV worked back from the primary", |field| {
        field.voltage_v
    })
}

/// The last hours of the stack.
fn late(shown: &Shown) -> impl Iterator<Item = &PlantReading> + Clone {
    let end_s = shown.trend.last().map_or(0.0, |last| last.time_s);
    let recent = move |reading: &&PlantReading| reading.time_s > end_s - STACK_S;
    shown.trend.iter().filter(recent)
}

fn mean(values: impl Iterator<Item = f64> + Clone) -> f64 {
    let count = values.clone().count();
    if count == 0 {
        0.0
    } else {
        values.sum::<f64>() / count as f64
    }
}

/// Mean opacity of the last hours.
pub(super) fn opacity(shown: &Shown) -> Numbers {
    let value = mean(late(shown).map(|reading| reading.opacity));
    Ok(vec![whole("mean opacity, last 4 h", value)])
}

/// How far the spikes stand out at the blows of the last hours.
pub(super) fn spikes(shown: &Shown) -> Numbers {
    let struck = late(shown).filter(|reading| reading.peak_at_s.is_some());
    let value = mean(struck.map(|reading| reading.peak_opacity - reading.opacity));
    Ok(vec![whole("spikes at the blows, over the mean", value)])
}

/// Ash that fell into each row of hoppers, kg/s.
pub(super) fn row_ash(shown: &Shown) -> Numbers {
    let over_s = shown.trend.last().map_or(0.0, |last| last.time_s);
    let fell = |field: usize| {
        let kg =
            |reading: &PlantReading| reading.fields.get(field).map_or(0.0, |row| row.hopper_kg);
        let pairs = shown.trend.windows(2);
        let fell_kg: f64 = pairs.map(|two| (kg(&two[1]) - kg(&two[0])).max(0.0)).sum();
        if over_s > 0.0 { fell_kg / over_s } else { 0.0 }
    };
    let fields = 0..shown.conditions.collector.fields;
    Ok(fields
        .map(|field| Number {
            what: "ash into the row",
            field: Some(field),
            value: fell(field),
        })
        .collect())
}

pub(super) fn temperature(shown: &Shown) -> Numbers {
    let outlet = shown.gas.at(Station::OutletDuct);
    let value = outlet.map_or(0.0, |gas| gas.temperature_k);
    Ok(vec![whole("gas temperature, outlet", value)])
}

pub(super) fn oxygen(shown: &Shown) -> Numbers {
    let at = |station| shown.gas.at(station).map_or(0.0, |gas| gas.oxygen_dry);
    Ok(vec![
        whole("oxygen, inlet", at(Station::InletDuct)),
        whole("oxygen, outlet", at(Station::OutletDuct)),
    ])
}

pub(super) fn half_cycles(shown: &Shown) -> Numbers {
    let defects = shown.conditions.defects.iter().enumerate();
    let number = |(field, defects): (usize, &ashlane_shared::conditions::FieldDefects)| Number {
        what: "half cycles that come",
        field: Some(field),
        value: 1.0 - 0.5 * defects.missing_half_cycles,
    };
    Ok(defects.map(number).collect())
}

pub(super) fn resistivity(shown: &Shown) -> Numbers {
    let value = layer_resistivity_ohm_m(&shown.conditions)?;
    Ok(vec![whole("resistivity of the ash", value)])
}

pub(super) fn unevenness(shown: &Shown) -> Numbers {
    let spread = shown.conditions.gas.velocity_spread;
    Ok(vec![whole("unevenness of the gas (RMS)", spread)])
}

/// Current of every field at nine tenths of the voltage that is wanted: a curve beside the one that was saved.
pub(super) fn test_current(shown: &Shown) -> Numbers {
    let conditions = &shown.conditions;
    let solved = electrics(conditions)?;
    let limit_a = conditions.electrical.current_limit_a_m2 * shown.field_area_m2();
    let mut numbers = Vec::with_capacity(conditions.collector.fields);
    for (field, state) in shown.fields().iter().enumerate() {
        let set = energization_of(conditions, &solved, field)?;
        let wanted_v = TEST_SHARE * conditions.wanted_voltage_v(field);
        let leaking_a = conditions
            .defects
            .get(field)
            .map_or(0.0, |defects| defects.leakage_s * wanted_v);
        let current_a = if state.ash_at_frame {
            limit_a
        } else {
            (at_voltage(&set, wanted_v) + leaking_a).min(limit_a)
        };
        numbers.push(Number {
            what: "current at nine tenths of the voltage",
            field: Some(field),
            value: current_a,
        });
    }
    Ok(numbers)
}

/// Where the curve with dust and layer first reaches a voltage, A.
fn at_voltage(set: &FieldEnergization, voltage_v: f64) -> f64 {
    let crossing = set
        .layer_load
        .windows(2)
        .find(|pair| pair[0].voltage_v <= voltage_v && voltage_v < pair[1].voltage_v);
    match (crossing, set.layer_load.last()) {
        (Some(pair), _) => {
            let part = (voltage_v - pair[0].voltage_v) / (pair[1].voltage_v - pair[0].voltage_v);
            pair[0].current_a + part * (pair[1].current_a - pair[0].current_a)
        }
        // The layer glows before: all that the curve has.
        (None, Some(last)) if voltage_v >= set.layer_load[0].voltage_v => last.current_a,
        _ => 0.0,
    }
}
