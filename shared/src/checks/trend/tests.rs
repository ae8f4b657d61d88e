//! The checks of the plant clock on real readings of the demonstration, and each with one number falsified.

use std::sync::OnceLock;

use super::*;
use crate::{
    checks::TwoWays,
    conditions::{Conditions, Resistivity, demonstration},
    count::{Count, CountResult},
    plant::{Plant, PlantReading, Rates},
    simulation::{FieldEnergization, electrics, energization_of},
};

const HOUR_S: f64 = 3600.0;

struct Days {
    conditions: Conditions,
    rates: Rates,
    count: CountResult,
    readings: Vec<PlantReading>,
}

/// Two days of the demonstration.
fn days() -> &'static Days {
    static DAYS: OnceLock<Days> = OnceLock::new();
    DAYS.get_or_init(|| {
        let conditions = demonstration();
        let rates = Rates::count(&conditions, 20_000, 3, |_| true)
            .expect("possible")
            .expect("to its end");
        let mut count = Count::new(&conditions, 40_960, 1).expect("possible");
        count.run(|_| true);
        let mut plant = Plant::new(&conditions, rates.clone()).expect("possible");
        Days {
            readings: plant.readings(48.0 * HOUR_S, 1200.0).expect("possible"),
            count: count.result(),
            conditions,
            rates,
        }
    })
}

#[track_caller]
fn agree(both: TwoWays, tolerance: f64) {
    assert!((both.ratio() - 1.0).abs() <= tolerance, "{both:?}");
}

#[track_caller]
fn differ(both: TwoWays, tolerance: f64) {
    assert!((both.ratio() - 1.0).abs() > tolerance, "{both:?}");
}

/// Readings with one of them changed.
fn falsified(change: impl Fn(&mut PlantReading)) -> Vec<PlantReading> {
    let mut readings = days().readings.clone();
    let middle = readings.len() / 2;
    change(&mut readings[middle]);
    readings.last_mut().map(&change);
    readings
}

#[test]
fn every_kilogram_of_two_days_is_found_at_any_spacing_of_the_readings() {
    let days = days();
    agree(
        dust_balance(&days.conditions, &days.readings).expect("readings"),
        1e-9,
    );
    agree(
        dust_balance(&days.conditions, &days.readings[17..58]).expect("readings"),
        1e-9,
    );
    assert!(dust_balance(&days.conditions, &days.readings[..1]).is_none());
    for lost in [
        falsified(|reading| reading.fields[0].hopper_kg -= 1.0),
        falsified(|reading| reading.fields[3].layer_kg += 1.0),
        falsified(|reading| reading.ash.silo_kg += 1.0),
        falsified(|reading| reading.emission_kg_m3 *= 1.01),
    ] {
        differ(
            dust_balance(&days.conditions, &lost).expect("readings"),
            1e-9,
        );
    }
}

#[test]
fn what_the_layers_owe_makes_any_time_the_long_run() {
    let days = days();
    let settled = |readings: &[PlantReading]| {
        settled_penetration(&days.conditions, &days.rates, readings).expect("readings")
    };
    // Rates of the mean wear stand for rates that change with it.
    agree(settled(&days.readings), 0.02);
    agree(settled(&days.readings[40..90]), 0.02);
    differ(
        settled(&falsified(|reading| reading.emission_kg_m3 *= 10.0)),
        0.02,
    );
    differ(
        settled(&falsified(|reading| reading.fields[3].layer_kg *= 1.5)),
        0.02,
    );
}

#[test]
fn the_stack_is_as_dark_as_the_shadows_of_the_grains() {
    let days = days();
    let light = |readings: &[PlantReading]| {
        optical_depth(&days.conditions, &days.rates, readings)
            .expect("possible")
            .expect("dust")
    };
    agree(light(&days.readings), 0.02);
    agree(light(&days.readings[30..70]), 0.02);
    let mut dark = days.readings.clone();
    for reading in &mut dark {
        reading.opacity *= 1.05;
    }
    differ(light(&dark), 0.03);
    // A stack through which no light comes does not tell how much dust is in it.
    dark[50].opacity = 1.0;
    let black = optical_depth(&days.conditions, &days.rates, &dark);
    assert!(black.expect("possible").is_none());
    let large = mass_extinction_by_shadows_m2_kg(2300.0, &[20e-6], &[0.3]);
    let large = large.expect("possible").expect("dust");
    // By hand: 3·2/(2·2300·20e-6) = 65.2 m²/kg, the limit of large spheres (van de Hulst 1957).
    assert!((large / 65.2 - 1.0).abs() < 0.05, "{large}");
}

#[test]
fn the_field_in_the_layer_is_current_density_times_resistivity() {
    let days = days();
    let last = days.readings.last().expect("readings");
    for field in &last.fields {
        let both = layer_field(&days.conditions, field)
            .expect("possible")
            .expect("a layer");
        agree(both, 1e-9);
        let mut wrong = field.clone();
        wrong.layer_drop_v *= 1.01;
        differ(
            layer_field(&days.conditions, &wrong)
                .expect("possible")
                .expect("a layer"),
            1e-3,
        );
    }
    let clean = &days.readings[0].fields[0];
    assert!(
        layer_field(&days.conditions, clean)
            .expect("possible")
            .is_none()
    );
}

#[test]
fn hours_to_the_alarm_follow_from_volume_density_and_what_was_counted() {
    let days = days();
    let last = days.readings.last().expect("readings");
    for (field, counted) in days.count.by_field.iter().enumerate() {
        let both = hours_to_alarm(
            &days.conditions,
            &days.rates,
            last,
            field,
            counted.collected,
        );
        // 4σ of the fewest parcels, 480 of 40 960; the rates have about half as many.
        agree(both.expect("ash"), if field < 2 { 0.05 } else { 0.25 });
    }
    let mut wrong = last.clone();
    wrong.fields[0].hopper_alarm_s *= 0.9;
    let caught = days.count.by_field[0].collected;
    differ(
        hours_to_alarm(&days.conditions, &days.rates, &wrong, 0, caught).expect("ash"),
        0.05,
    );
}

#[test]
fn the_level_crosses_its_alarm_when_the_hand_calculation_says() {
    let days = days();
    let mut late = days.conditions.clone();
    late.hoppers.evacuation_interval_s = vec![12.0 * HOUR_S; 4];
    let mut plant = Plant::new(&late, days.rates.clone()).expect("possible");
    let readings = plant.readings(11.0 * HOUR_S, 300.0).expect("possible");
    let caught = days.count.by_field[0].collected;
    let both = time_of_alarm(&late, &days.rates, &readings, 0, caught).expect("the alarm");
    agree(both, 0.05);
    differ(
        time_of_alarm(&late, &days.rates, &readings, 0, 1.1 * caught).expect("the alarm"),
        0.05,
    );
    assert!(
        time_of_alarm(&late, &days.rates, &readings, 3, caught).is_none(),
        "the last row stays low"
    );
}

#[test]
fn a_layer_moves_the_curve_by_its_drop_and_bends_it_back_where_it_breaks() {
    let conditions = demonstration();
    let found = electrics(&conditions).expect("fields");
    let set: FieldEnergization = energization_of(&conditions, &found, 2).expect("a set");
    for (resistivity_ohm_m, breaks) in [(2e8, false), (1e9, false), (1e10, true)] {
        let (layer, curve) = set.with_layer(resistivity_ohm_m, 5e-3);
        let both = layer_drop(&set, &curve, resistivity_ohm_m, 5e-3).expect("a layer");
        agree(both, 1e-6);
        let bent = curve
            .windows(2)
            .any(|pair| pair[1].voltage_v < pair[0].voltage_v);
        assert_eq!(bent, breaks, "{resistivity_ohm_m}: {curve:?}");
        // physics.md B1: 10 kV/cm in 1e11 and 1e12 Ω·cm is 100 and 10 nA/cm².
        let most = layer.unbroken_a_m2() * resistivity_ohm_m;
        assert!((most / 1e6 - 1.0).abs() < 1e-9, "{most}");
    }
    let (_, curve) = set.with_layer(1e9, 5e-3);
    differ(
        layer_drop(&set, &curve, 1.2e9, 5e-3).expect("a layer"),
        0.05,
    );
    assert!(layer_drop(&set, &curve, 1e9, 0.0).is_none());
}

#[test]
fn the_checks_follow_rates_that_bad_layers_change() {
    let mut conditions = demonstration();
    conditions.dust.resistivity = Resistivity::Given(1e10);
    let rates = Rates::count(&conditions, 20_000, 3, |_| true)
        .expect("possible")
        .expect("to its end");
    let mut count = Count::new(&conditions, 40_960, 1).expect("possible");
    count.run(|_| true);
    let mut plant = Plant::new(&conditions, rates.clone()).expect("possible");
    let mut readings = plant.readings(24.0 * HOUR_S, 600.0).expect("possible");
    let settled = settled_penetration(&conditions, &rates, &readings).expect("readings");
    agree(settled, 0.05);
    let clean = rates.long_run_penetration(conditions.returned_share());
    assert!(
        settled.shown > 2.0 * clean,
        "{settled:?}, {clean} on clean plates"
    );
    let light = optical_depth(&conditions, &rates, &readings);
    agree(light.expect("possible").expect("light"), 0.05);
    let last = readings.last_mut().expect("readings");
    let caught = count.result().by_field[3].collected;
    let hours =
        |last: &PlantReading| hours_to_alarm(&conditions, &rates, last, 3, caught).expect("ash");
    // 4σ of the fewest parcels, as above; the last row is behind three fields that catch less.
    agree(hours(last), 0.25);
    for field in &mut last.fields {
        field.drifts.fill(1.0);
    }
    differ(hours(last), 0.25);
}
