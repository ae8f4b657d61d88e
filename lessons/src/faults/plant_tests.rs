//! The signs of faults over hours of the plant clock (training.md 4, physics.md 13; the rows are from memory of EPA operation
//! manuals and of APTI course 412B).

use ashlane_shared::{
    conditions::{Conditions, Resistivity, demonstration},
    plant::{FieldReading, Plant, PlantReading, Rates},
    simulation::{HeldBy, struck_field},
};

use super::{FAULTS, electrical_tests::sparking, read};

const HOUR_S: f64 = 3600.0;
const SEED: u64 = 5;

fn readings(conditions: &Conditions, hours: f64) -> Vec<PlantReading> {
    let rates = Rates::count(conditions, 12_000, 3, |_| true)
        .expect("possible")
        .expect("to its end");
    let mut plant = Plant::new(conditions, rates).expect("possible");
    let readings = plant
        .readings(hours * HOUR_S, 0.25 * HOUR_S)
        .expect("possible");
    assert!(plant.ledger().imbalance() < 1e-9);
    readings
}

/// Hours of a sound collector and of one with a fault.
fn both(name: &str, sound: &Conditions, hours: f64) -> [Vec<PlantReading>; 2] {
    let ill = read(name)
        .expect("a fault")
        .strike(sound, SEED)
        .expect("possible");
    [readings(sound, hours), readings(&ill, hours)]
}

/// The field that is struck.
fn place() -> usize {
    struck_field(SEED, 4)
}

fn of(reading: &PlantReading) -> &FieldReading {
    &reading.fields[place()]
}

fn last(readings: &[PlantReading]) -> &PlantReading {
    readings.last().expect("readings")
}

/// 1e11 Ω·cm and 20 nA/cm²: the example of physics.md 13.
fn current_limited() -> Conditions {
    let mut conditions = demonstration();
    conditions.dust.load_kg_m3 = 2e-3;
    conditions.rapping.interval_s.fill(2.0 * HOUR_S);
    conditions.dust.resistivity = Resistivity::Given(1e9);
    conditions.electrical.voltage_v = vec![50e3; 4];
    conditions.electrical.current_limit_a_m2 = 20e-5;
    conditions
}

#[test]
fn every_fault_that_darkens_the_stack_lets_more_dust_through() {
    // "Opacity ↑" of every row that has a fault, but T27, whose opacity stays.
    let sound = readings(&demonstration(), 48.0);
    for fault in FAULTS {
        let ill = read(fault.name)
            .expect("a fault")
            .strike(&demonstration(), SEED);
        // Ash takes a day and a half to the frame of the second field, whose plates are rapped twice a day.
        let slow = ["T8", "T14"].contains(&fault.row);
        let hours = if slow { 48.0 } else { 12.0 };
        let ill = readings(&ill.expect("possible"), hours);
        // The last four hours by the rates of the long run: the blows of the last field alone make single hours uneven.
        let late = |readings: &[PlantReading]| {
            let hours = &readings[ill.len() - 17..ill.len()];
            hours.iter().map(|reading| reading.long_run).sum::<f64>()
        };
        let more = late(&ill) / late(&sound);
        let expected = if fault.row == "T27" {
            0.97..1.03
        } else {
            1.03..1e3
        };
        assert!(expected.contains(&more), "{}: {more}", fault.name);
    }
}

#[test]
fn a_swinging_wire_shakes_voltage_and_sparks_in_bursts() {
    // Row T7: kV and mA in rhythm, bursts of sparks.
    let mut calm = demonstration();
    calm.electrical.voltage_v = vec![38e3; 4];
    let [sound, ill] = both("swinging-wire", &calm, 0.5);
    let (before, after) = (of(last(&sound)), of(last(&ill)));
    assert_eq!(before.lowest_v, before.highest_v);
    assert!(after.lowest_v < 0.95 * after.highest_v, "{after:?}");
    // It sparks on part of the way, a field that sparks all the time 20 times a minute.
    let aim_per_min = 60.0 * demonstration().electrical.spark_target_per_s;
    assert_eq!(before.sparks_per_min, 0.0);
    assert!(
        after.sparks_per_min > 0.0 && after.sparks_per_min < aim_per_min,
        "{after:?}"
    );
    assert!(after.metered_a_m2 < before.metered_a_m2);
}

#[test]
fn a_plugged_hopper_sounds_its_alarm_then_sparks_then_shorts_its_field() {
    // Row T8: alarm, kV down over hours, sparks up late, then T1.
    let [_, ill] = both("plugged-hopper", &demonstration(), 40.0);
    let first = |what: fn(&FieldReading) -> bool| {
        let reading = ill.iter().position(|reading| what(of(reading)));
        reading.expect("it comes to that")
    };
    let alarm = first(|field| field.hopper_alarm);
    let short = first(|field| field.ash_at_frame);
    assert!(alarm < short, "alarm {alarm}, short {short}");
    let buried = of(&ill[short]);
    let limit_a_m2 = demonstration().electrical.current_limit_a_m2;
    assert_eq!((buried.voltage_v, buried.sparks_per_min), (0.0, 0.0));
    assert!((buried.metered_a_m2 / limit_a_m2 - 1.0).abs() < 1e-9);
    for (field, reading) in last(&ill).fields.iter().enumerate() {
        assert_eq!(reading.ash_at_frame, field == place(), "field {field}");
    }
}

#[test]
fn lost_rappers_raise_the_voltage_of_a_limited_set_and_lower_that_of_one_that_sparks() {
    // Row T14 and physics.md 13: held by the current limit kV up by jρh, mA as before.
    let [sound, ill] = both("lost-rapper", &current_limited(), 30.0);
    let (before, after) = (of(last(&sound)), of(last(&ill)));
    assert_eq!(
        (before.held_by, after.held_by),
        (HeldBy::CurrentLimit, HeldBy::CurrentLimit)
    );
    assert!((after.metered_a_m2 / before.metered_a_m2 - 1.0).abs() < 1e-6);
    assert!(after.layer_m > 2.0 * before.layer_m, "{} m", after.layer_m);
    // By hand: 20e-5 A/m² · 1e9 Ω·m is 200 kV/m.
    let by_hand_v = 2e5 * (after.layer_m - before.layer_m);
    let risen_v = after.voltage_v - before.voltage_v;
    assert!(
        (risen_v / by_hand_v - 1.0).abs() < 0.1,
        "{risen_v} and {by_hand_v} V"
    );
    // Held by sparks: kV and mA down.
    let [sound, ill] = both("lost-rapper", &sparking(), 12.0);
    let (before, after) = (of(last(&sound)), of(last(&ill)));
    assert_eq!(
        (before.held_by, after.held_by),
        (HeldBy::Sparking, HeldBy::Sparking)
    );
    assert!(after.voltage_v < before.voltage_v, "{before:?} {after:?}");
    assert!(after.metered_a_m2 < before.metered_a_m2);
    // At a fixed voltage just below sparks it begins to spark.
    let [sound, ill] = both("lost-rapper", &demonstration(), 40.0);
    let sparks = |readings: &[PlantReading]| {
        readings
            .iter()
            .map(|reading| of(reading).sparks_per_min)
            .sum::<f64>()
    };
    assert!(
        sparks(&ill) > sparks(&sound),
        "{} {}",
        sparks(&ill),
        sparks(&sound)
    );
}

#[test]
fn a_false_meter_is_wrong_alone() {
    // Row T27: one reading wrong, everything else as before.
    let [sound, ill] = both("false-meter", &demonstration(), 6.0);
    for (before, after) in sound.iter().zip(&ill) {
        for (field, (before, after)) in before.fields.iter().zip(&after.fields).enumerate() {
            let share = after.metered_v / after.voltage_v;
            assert_eq!(share, if field == place() { 0.5 } else { 1.0 });
            let mut right = after.clone();
            right.metered_v = before.metered_v;
            assert_eq!(&right, before);
        }
    }
}

#[test]
fn hard_rapping_is_seen_as_darker_spikes_at_the_blows() {
    // Row T13: kV, mA and sparks as before, sharp spikes timed with the rappers.
    let [sound, ill] = both("hard-rapping", &demonstration(), 5.0);
    let metered_v = |readings: &[PlantReading]| of(&readings[1]).metered_v;
    assert!((metered_v(&sound) / metered_v(&ill) - 1.0).abs() < 1e-12);
    let spikes = |readings: &[PlantReading]| {
        let struck = readings
            .iter()
            .filter(|reading| reading.peak_at_s.is_some());
        struck
            .map(|reading| (reading.peak_opacity, reading.opacity, reading.time_s))
            .collect::<Vec<_>>()
    };
    let (sound, ill) = (spikes(&sound), spikes(&ill));
    let times_s = |spikes: &[(f64, f64, f64)]| {
        spikes
            .iter()
            .map(|(_, _, time_s)| *time_s)
            .collect::<Vec<_>>()
    };
    assert_eq!(times_s(&sound), times_s(&ill), "blows come when they did");
    for ((before, ..), (after, mean, _)) in sound.iter().zip(&ill) {
        assert!(after >= before && after > mean, "{before} then {after}");
    }
    let sum = |spikes: &[(f64, f64, f64)]| {
        spikes
            .iter()
            .map(|spike| -(1.0 - spike.0).ln())
            .sum::<f64>()
    };
    assert!(
        sum(&ill) > 1.2 * sum(&sound),
        "{} then {}",
        sum(&sound),
        sum(&ill)
    );
}
