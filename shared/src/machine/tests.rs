//! The two clocks share one set of books: the drawn dust moves them on one, rates on the other, and none is lost between.

use super::*;
use crate::{
    conditions::{Mixing, Resistivity, demonstration},
    simulation::Account,
};

/// The demonstration with one drift for all and no spread: quick to count.
fn plain() -> Conditions {
    let mut conditions = demonstration();
    conditions.teaching.migration_velocity_m_s = Some(0.09);
    conditions.teaching.mixing = Some(Mixing::Full);
    conditions.gas.velocity_spread = 0.0;
    conditions
}

fn machine(conditions: &Conditions) -> Machine {
    let machine = Machine::new(conditions.clone(), 1).expect("possible");
    machine.with_rate_parcels(8000)
}

fn fly(machine: &mut Machine, steps: u64) {
    for _ in 0..steps {
        machine.step();
        let ledger = *machine.ledger();
        assert!(
            ledger.imbalance() < 1e-9,
            "step {}: {ledger:?}",
            machine.steps()
        );
        if machine.runs() == Clock::Flight {
            // What is airborne by the books is what is drawn.
            let off_kg = ledger.kg(Account::Airborne) - machine.flying_kg();
            assert!(
                off_kg.abs() <= 1e-9 * ledger.kg(Account::Inlet),
                "step {}: {off_kg} kg in no grain",
                machine.steps()
            );
        }
    }
}

fn plant(machine: &mut Machine, times: f64) {
    machine
        .apply(Command::Clock(Clock::Plant { times }))
        .expect("possible");
}

#[test]
fn the_plant_clock_starts_thirty_steps_after_its_command_and_runs_so_many_times_faster() {
    let mut machine = machine(&plain());
    fly(&mut machine, 10);
    plant(&mut machine, 3600.0);
    fly(&mut machine, FIELD_DELAY_STEPS);
    assert_eq!(machine.runs(), Clock::Flight);
    let before_s = machine.plant_time_s();
    assert!((before_s - 40.0 * TIME_STEP_S).abs() < 1e-9, "{before_s} s");
    fly(&mut machine, 240);
    // 240 steps are a second of flight, and an hour of the plant.
    let passed_s = machine.plant_time_s() - before_s;
    assert!((passed_s - 3600.0).abs() < 1e-6, "{passed_s} s");
    let inlet_kg = machine.ledger().kg(Account::Inlet);
    let expected_kg = plain().inlet_mass_kg_s() * machine.plant_time_s();
    assert!(
        (inlet_kg / expected_kg - 1.0).abs() < 1e-4,
        "{inlet_kg} and {expected_kg} kg"
    );
}

#[test]
fn a_switch_there_and_back_carries_what_flies() {
    let mut machine = machine(&plain());
    fly(&mut machine, 1200);
    plant(&mut machine, 60.0);
    fly(&mut machine, FIELD_DELAY_STEPS);
    let carried_kg = machine.ledger().kg(Account::Airborne);
    assert!(carried_kg > 1.0, "{carried_kg} kg");
    fly(&mut machine, 2000);
    let still_kg = machine.ledger().kg(Account::Airborne);
    assert!(
        (still_kg - carried_kg).abs() < 1e-6,
        "{carried_kg} became {still_kg} kg"
    );
    machine
        .apply(Command::Clock(Clock::Flight))
        .expect("always");
    fly(&mut machine, 5);
}

/// Seen to fail with the puff left out of the books.
#[test]
fn rap_now_turns_to_the_flight_clock_and_its_puff_is_caught_or_leaves() {
    let mut conditions = plain();
    conditions.rapping.interval_s.fill(1e6);
    conditions.rapping.wire_interval_s.fill(1e6);
    conditions.rapping.shaft_speed_per_s = 10.0 / 60.0;
    conditions.hoppers.evacuation_interval_s.fill(1e6);
    let mut machine = machine(&conditions);
    plant(&mut machine, 86_400.0);
    fly(&mut machine, 60);
    let before = *machine.ledger();
    let layer_kg = before.kg(Account::Layers);
    machine
        .apply(Command::RapNow { field: 0 })
        .expect("possible");
    assert_eq!(machine.clock(), Clock::Flight);
    // The first plates are struck at once, the others while the shaft turns.
    fly(&mut machine, 1);
    let after = *machine.ledger();
    let (fallen_kg, flies_kg) = (
        after.kg(Account::Hoppers),
        after.kg(Account::Airborne) - before.kg(Account::Airborne),
    );
    // The share of the sheet that goes back into the gas, but for the little that the switch settles.
    let share = flies_kg / (fallen_kg + flies_kg);
    assert!(
        (share - conditions.rapping.reentrained).abs() < 0.01,
        "{share} of the sheet flies"
    );
    assert!(
        fallen_kg > 0.1 / 32.0 * layer_kg,
        "{fallen_kg} of {layer_kg} kg"
    );
    let grains = machine.frame().airborne();
    fly(&mut machine, 480);
    assert!(
        machine.frame().airborne() > grains + 800,
        "no puff: {grains} and {} grains",
        machine.frame().airborne()
    );
    // The turn of 6 s, three fields of 2.5 s each, and the time of a puff.
    fly(&mut machine, 240 * 22);
    let rest_kg = machine.ledger().kg(Account::Airborne);
    assert!(
        rest_kg < 0.01 * 32.0 * flies_kg,
        "{rest_kg} of {flies_kg} kg still fly"
    );
}

#[test]
fn a_blow_that_is_due_on_the_flight_clock_shows_its_puff() {
    let mut conditions = plain();
    conditions.rapping.interval_s = vec![60.0, 1e6, 1e6, 1e6];
    let mut machine = machine(&conditions);
    plant(&mut machine, 400.0);
    // Near the blow at 60 s, on the plant clock; then across it on the flight clock.
    fly(&mut machine, 30 + 35);
    machine
        .apply(Command::Clock(Clock::Flight))
        .expect("always");
    let hoppers_kg = machine.ledger().kg(Account::Hoppers);
    assert!(hoppers_kg == 0.0, "{hoppers_kg} kg fell too early");
    let left_s = 60.0 - machine.plant_time_s();
    assert!((0.0..5.0).contains(&left_s), "{left_s} s");
    fly(&mut machine, (left_s / TIME_STEP_S) as u64 + 4);
    assert!(machine.ledger().kg(Account::Hoppers) > 0.0, "no blow");
    assert!(machine.ledger().kg(Account::Airborne) > 0.0);
}

#[test]
fn rates_that_are_offered_early_change_no_bit() {
    let counted = |offered: bool| {
        let mut machine = machine(&plain());
        plant(&mut machine, 600.0);
        if offered {
            let order = machine.wanted_rates().expect("wanted");
            let rates = order.count(|_| true).expect("possible").expect("whole");
            machine.offer_rates(order, rates);
            assert!(!machine.waits() && machine.wanted_rates().is_none());
        }
        fly(&mut machine, 29);
        assert!(!machine.waits());
        fly(&mut machine, 1);
        assert_eq!(machine.waits(), !offered);
        fly(&mut machine, 100);
        machine.digest()
    };
    assert_eq!(counted(true), counted(false));
}

#[test]
fn a_collector_of_another_shape_starts_clean_and_keeps_the_books() {
    let mut machine = machine(&plain());
    plant(&mut machine, 3600.0);
    fly(&mut machine, 400);
    let mut longer = plain();
    longer.set_fields(5);
    machine
        .apply(Command::Conditions(Box::new(longer)))
        .expect("possible");
    machine
        .apply(Command::RapNow { field: 4 })
        .expect("the fifth field is there");
    let inlet_kg = machine.ledger().kg(Account::Inlet);
    fly(&mut machine, 40);
    plant(&mut machine, 3600.0);
    fly(&mut machine, 300);
    assert!(machine.ledger().kg(Account::Inlet) > inlet_kg);
    let last = machine.trend().last().expect("a reading");
    assert_eq!(last.fields.len(), 5);
    let layers_kg: f64 = last.fields.iter().map(|field| field.layer_kg).sum();
    assert!(layers_kg < machine.ledger().kg(Account::Inlet));
    assert!(machine.ledger().kg(Account::TakenAway) > 0.5 * inlet_kg);
}

#[test]
fn the_trend_is_even_and_bounded() {
    let mut machine = machine(&plain());
    plant(&mut machine, 86_400.0);
    // A day in a second: ten days.
    fly(&mut machine, 30 + 2400);
    let trend = machine.trend();
    assert_eq!(trend.len(), TREND_READINGS);
    for pair in trend.windows(2) {
        let apart_s = pair[1].time_s - pair[0].time_s;
        // A step of this clock is 360 s.
        assert!(
            (TREND_EVERY_S..TREND_EVERY_S + 361.0).contains(&apart_s),
            "{apart_s} s"
        );
    }
    machine.apply(Command::Restart).expect("always");
    assert!(machine.trend().is_empty() && machine.plant_time_s() == 0.0);
    assert_eq!(*machine.ledger(), Ledger::default());
}

#[test]
fn impossible_clocks_and_fields_are_refused_and_change_nothing() {
    let mut machine = machine(&plain());
    fly(&mut machine, 5);
    let before = machine.digest();
    for times in [0.0, -1.0, f64::NAN, 1e6] {
        let refused = machine.apply(Command::Clock(Clock::Plant { times }));
        let text = refused.expect_err("too much").to_string();
        assert!(text.contains("86400"), "{text}");
    }
    let refused = machine.apply(Command::RapNow { field: 4 });
    let text = refused.expect_err("four fields").to_string();
    assert!(text.contains("no field 5"), "{text}");
    assert_eq!((machine.digest(), machine.log().len()), (before, 0));
    let mut alone = Simulation::new(plain(), 1).expect("possible");
    assert!(alone.apply(Command::RapNow { field: 0 }).is_err());
}

/// Seen to fail with the mass of the whole group told for its one face, and with the layer of the plates beside it.
#[test]
fn a_blow_brings_a_sheet_down_from_the_plates_that_it_strikes() {
    let mut conditions = plain();
    conditions.rapping.wire_interval_s.fill(1e6);
    conditions.rapping.shaft_speed_per_s = 10.0 / 60.0;
    let mut machine = machine(&conditions);
    plant(&mut machine, 3600.0);
    fly(&mut machine, 30 + 240);
    machine
        .apply(Command::RapNow { field: 0 })
        .expect("possible");
    let before = machine.plates().to_vec();
    let books = *machine.ledger();
    fly(&mut machine, 1);
    let after = machine.plates()[0];
    let sheet = after.fallen[0].expect("the first plates are struck at once");
    assert_eq!((after.fallen[1], machine.plates()[1].turn), (None, None));
    let lost_m = before[0].layer_m[0] - after.layer_m[0];
    // A step of flight lays down less than a thousandth of an hour's layer.
    assert!(
        (lost_m / sheet.thickness_m - 1.0).abs() < 1e-3,
        "{lost_m} m"
    );
    assert!((after.layer_m[1] / before[0].layer_m[1] - 1.0).abs() < 1e-3);
    // By hand: thickness × density × one face of 3 m × 10 m, without the share that goes back.
    let face_kg = sheet.thickness_m * conditions.dust.layer_density_kg_m3 * 3.0 * 10.0;
    let falls_kg = (1.0 - conditions.rapping.reentrained) * face_kg;
    assert!((sheet.kg / falls_kg - 1.0).abs() < 1e-6, "{} kg", sheet.kg);
    let turn = after.turn.expect("a turn");
    assert!((turn.next_s - 6.0 / 32.0).abs() < 1e-12, "{turn:?}");
    let hoppers_kg = machine.ledger().kg(Account::Hoppers) - books.kg(Account::Hoppers);
    assert!((turn.fallen_kg / hoppers_kg - 1.0).abs() < 1e-9, "{turn:?}");
    let share = turn.back_kg / (turn.back_kg + turn.fallen_kg);
    assert!((share / conditions.rapping.reentrained - 1.0).abs() < 1e-9);
    // Free fall over 10 m: √(20/9.80665) = 1.428 s; half of that time is a quarter of the way.
    assert!((sheet.fall_s - 1.428_09).abs() < 1e-5, "{} s", sheet.fall_s);
    assert!((sheet.gone(sheet.step + 171) - 0.2490).abs() < 1e-3);
    let grains = |machine: &Machine, upper: bool| {
        let recent = machine.frame().deposits.recent();
        let on = recent.filter(|grain| grain.upper == upper && grain.along_m < 3.0);
        on.count()
    };
    assert!(grains(&machine, true) < 20 && grains(&machine, false) > 200);
    // The second plates a 32nd of the turn of 6 s later; after it all have been struck, and the books agree.
    fly(&mut machine, 46);
    assert!(machine.plates()[0].fallen[1].is_some());
    fly(&mut machine, 240 * 6);
    let turn = machine.plates()[0].turn.expect("a turn");
    assert_eq!((turn.blow, turn.next_s), ((32, 32), 0.0));
    let hoppers_kg = machine.ledger().kg(Account::Hoppers) - books.kg(Account::Hoppers);
    assert!((turn.fallen_kg / hoppers_kg - 1.0).abs() < 1e-9, "{turn:?}");
    machine.apply(Command::Restart).expect("always");
    fly(&mut machine, 1);
    assert!(machine.plates().iter().all(|plates| plates.turn.is_none()));
}

#[test]
fn the_meters_and_the_trend_show_the_same_fields_on_the_plant_clock() {
    let mut conditions = demonstration();
    conditions.dust.resistivity = Resistivity::Given(5e9);
    let mut machine = machine(&conditions);
    fly(&mut machine, 2);
    let solved: Vec<f64> = machine
        .meters()
        .iter()
        .map(|field| field.metered_v())
        .collect();
    plant(&mut machine, 7200.0);
    fly(&mut machine, FIELD_DELAY_STEPS + 1);
    let mut readings = machine.trend().len();
    let mut compared = 0;
    let mut furthest = 0.0_f64;
    for _ in 0..480 {
        fly(&mut machine, 1);
        if machine.trend().len() == readings {
            continue;
        }
        readings = machine.trend().len();
        let (meters, last) = (machine.meters(), &machine.trend()[readings - 1]);
        for (field, (meter, read)) in meters.iter().zip(&last.fields).enumerate() {
            assert_eq!(
                [
                    meter.metered_v(),
                    meter.metered_a_m2(),
                    meter.sparks_per_min
                ],
                [read.metered_v, read.metered_a_m2, read.sparks_per_min],
                "field {} after {} s",
                field + 1,
                last.time_s
            );
            assert!(meter.metered_peak_v() >= meter.metered_v(), "{meter:?}");
            furthest = furthest.max((meter.metered_v() / solved[field] - 1.0).abs());
        }
        compared += 1;
    }
    assert!(compared > 10, "{compared} readings");
    // The layers have done something, so the flight's own meters would not have passed.
    assert!(furthest > 0.01, "the layers moved no meter: {furthest}");
    machine
        .apply(Command::Clock(Clock::Flight))
        .expect("possible");
    let back: Vec<f64> = machine
        .meters()
        .iter()
        .map(|field| field.metered_v())
        .collect();
    assert_eq!(back, solved);
}
