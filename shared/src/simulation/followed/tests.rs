//! Following a grain: it changes nothing, its record hangs together, and charge and speed are those of the formulas.

use super::*;
use crate::{
    checks::{
        CHARGING_LAWS, Comparison, GrainCurves, brushed_a_wire, charge_check, grain_forces,
        speed_check,
    },
    conditions::{Charging, demonstration},
    physics::charging::{self, IonGas, path},
    simulation::{Command, Simulation},
};

fn follow(diameter_m: f64) -> Command {
    Command::Follow(Some(Follow { diameter_m }))
}

fn following(conditions: Conditions, diameter_m: f64, seed: u64) -> Simulation {
    let mut simulation = Simulation::new(conditions, seed).expect("possible");
    simulation.apply(follow(diameter_m)).expect("always");
    simulation
}

fn record(simulation: &Simulation) -> &FollowedGrain {
    simulation.frame().followed().expect("a record")
}

/// Flies until the first grain's record has ended.
fn flown(conditions: Conditions, diameter_m: f64, seed: u64) -> FollowedGrain {
    let mut simulation = following(conditions, diameter_m, seed);
    for _ in 0..20_000 {
        simulation.step();
        if record(&simulation).fate.is_some() {
            return record(&simulation).clone();
        }
    }
    panic!("no grain of {diameter_m} m came to an end");
}

#[test]
fn following_changes_nothing_of_the_flight() {
    let mut plain = Simulation::new(demonstration(), 3).expect("possible");
    let mut watched = Simulation::new(demonstration(), 3).expect("possible");
    for step in 0..300 {
        if step == 20 {
            watched.apply(follow(10e-6)).expect("always");
        }
        plain.step();
        watched.step();
    }
    assert!(record(&watched).points.len() > 1, "somebody is followed");
    assert_eq!(plain.digest(), watched.digest());
    watched.apply(Command::Follow(None)).expect("always");
    assert_eq!(watched.frame().followed(), None);
}

#[test]
fn a_record_runs_from_the_inlet_to_the_plate_without_a_jump() {
    let conditions = demonstration();
    let (mut caught, mut left) = (0, 0);
    for seed in 0..6 {
        let grain = flown(
            conditions.clone(),
            if seed < 4 { 10e-6 } else { 0.5e-6 },
            seed,
        );
        let wanted_m = if seed < 4 { 10e-6 } else { 0.5e-6 };
        assert!((grain.diameter_m / wanted_m - 1.0).abs() <= FOLLOW_TOLERANCE + 1e-6);
        let first = &grain.points[0];
        assert!(
            first.time_s == 0.0 && first.along_m == 0.0 && first.charge_e == 0.0,
            "{first:?}"
        );
        let mut bypassed = 0;
        for pair in grain.points.windows(2) {
            let [from, to] = pair else { unreachable!() };
            let time_s = to.time_s - from.time_s;
            assert!(time_s > 0.0 && time_s < TIME_STEP_S * 1.001, "{time_s}");
            // Five times the mean gas velocity; into a field some grains are spread anew, behind the way around it.
            let reach_m = 5.0 * conditions.gas_velocity_m_s() * TIME_STEP_S;
            assert!((to.along_m - from.along_m).abs() < reach_m, "{pair:?}");
            let around = !from.exposed && to.field > from.field;
            assert!(
                around || (to.across_m - from.across_m).abs() < reach_m,
                "{pair:?}"
            );
            assert!(to.charge_e >= from.charge_e * (1.0 - 1e-6), "{pair:?}");
            bypassed += usize::from(!from.exposed);
        }
        assert!(bypassed < grain.points.len());
        let last = &grain.points[grain.points.len() - 1];
        match grain.fate.expect("ended") {
            GrainFate::Caught { field } => {
                caught += 1;
                assert!((last.across_m.abs() / conditions.gap_m() - 1.0).abs() < 1e-6);
                let here = (last.along_m / conditions.collector.field_length_m).ceil() as usize;
                assert_eq!(field + 1, here, "{last:?}");
            }
            GrainFate::Left => {
                left += 1;
                assert!((last.along_m / conditions.length_m() - 1.0).abs() < 1e-5);
            }
            GrainFate::RecordFull => panic!("10 s of treatment fit"),
        }
    }
    assert!(caught > 0, "{caught} caught, {left} left");
}

/// 2 %: the step solves Lawless' law to second order and reads the field from a table.
#[test]
fn the_charge_flown_is_that_of_the_law_along_the_path() {
    for law in CHARGING_LAWS {
        let mut conditions = demonstration();
        conditions.teaching.charging = law;
        for diameter_m in [0.5e-6, 1e-6, 5e-6, 10e-6, 30e-6] {
            let (grain, check) = compared(&conditions, diameter_m);
            assert!(
                (check.ratio - 1.0).abs() < 0.02,
                "{law:?} {diameter_m} m: {check:?}"
            );
            let mut off = grain.clone();
            for point in &mut off.points {
                point.charge_e *= 1.05;
            }
            let curves = GrainCurves::new(&conditions, &grain);
            let check = charge_check(&conditions, &off, &curves).expect("a comparison");
            assert!(
                (check.ratio - 1.0).abs() > 0.02,
                "{law:?}: 5 % more charge passes"
            );
        }
    }
}

/// The first grain of this size that flies long enough and away from the wires, with the comparison of its charge.
fn compared(conditions: &Conditions, diameter_m: f64) -> (FollowedGrain, Comparison) {
    for seed in 0..9 {
        let grain = flown(conditions.clone(), diameter_m, seed);
        let curves = GrainCurves::new(conditions, &grain);
        if let Some(check) = charge_check(conditions, &grain, &curves) {
            return (grain, check);
        }
    }
    panic!("no grain of {diameter_m} m could be compared");
}

/// 1 %: the step reads the field from a table, which is coarse near the wires.
#[test]
fn the_speed_flown_is_that_of_the_formula() {
    let conditions = demonstration();
    for diameter_m in [0.5e-6, 1e-6, 5e-6, 10e-6, 30e-6] {
        let (grain, _) = compared(&conditions, diameter_m);
        let curves = GrainCurves::new(&conditions, &grain);
        let check = speed_check(&conditions, &grain, &curves).expect("a comparison");
        assert!(
            (check.speed.ratio - 1.0).abs() < 0.01,
            "{diameter_m} m: {check:?}"
        );
        assert!(check.stokes_m_s > check.speed.formula, "less drag");
        for (index, point) in grain.points.iter().enumerate().skip(12) {
            if point.exposed && point.across_m.abs() > 0.2 * conditions.gap_m() {
                let ratio = point.speed_m_s / curves.schiller_naumann_m_s[index];
                assert!((ratio - 1.0).abs() < 0.01, "{diameter_m} m: {point:?}");
            }
        }
        let mut off = grain.clone();
        for point in &mut off.points {
            point.speed_m_s *= 1.05;
        }
        let check = speed_check(&conditions, &off, &curves).expect("a comparison");
        assert!(
            (check.speed.ratio - 1.0).abs() > 0.01,
            "5 % more speed passes"
        );
    }
}

#[test]
fn a_grain_at_a_wire_is_not_compared_by_charge() {
    let conditions = demonstration();
    let (mut grain, _) = compared(&conditions, 5e-6);
    assert!(!brushed_a_wire(&conditions, &grain));
    let wire_m = 1.5 * conditions.collector.wire_spacing_m;
    grain.points[20].along_m = wire_m + 1e-3;
    grain.points[20].across_m = -1e-3;
    assert!(brushed_a_wire(&conditions, &grain));
    let curves = GrainCurves::new(&conditions, &grain);
    assert_eq!(charge_check(&conditions, &grain, &curves), None);
    conditions_without_charge(&grain);
}

/// Where one migration velocity is given no charge is computed, and nothing is compared.
fn conditions_without_charge(grain: &FollowedGrain) {
    let mut conditions = demonstration();
    conditions.teaching.migration_velocity_m_s = Some(0.1);
    let curves = GrainCurves::new(&conditions, grain);
    assert_eq!(charge_check(&conditions, grain, &curves), None);
    assert_eq!(speed_check(&conditions, grain, &curves), None);
}

#[test]
fn a_replay_records_the_same_grain() {
    let mut simulation = Simulation::new(demonstration(), 9).expect("possible");
    for step in 0..700 {
        match step {
            30 => simulation.apply(follow(20e-6)).expect("always"),
            400 => simulation.apply(Command::Restart).expect("always"),
            _ => {}
        }
        simulation.step();
    }
    let again =
        Simulation::replay(demonstration(), 9, simulation.log(), 700).expect("the same flight");
    assert!(record(&again).points.len() > 20);
    assert_eq!(record(&again), record(&simulation));
}

#[test]
fn an_ended_record_rests_for_2_s_and_then_gives_way() {
    let mut simulation = following(demonstration(), 30e-6, 2);
    assert!(record(&simulation).waiting);
    while record(&simulation).fate.is_none() {
        simulation.step();
    }
    let kept = record(&simulation).clone();
    for _ in 0..REST_STEPS {
        simulation.step();
        assert_eq!(record(&simulation), &kept);
    }
    for _ in 0..1000 {
        simulation.step();
    }
    assert!(record(&simulation).number > kept.number);
    simulation.apply(Command::Restart).expect("always");
    let fresh = record(&simulation);
    assert!(fresh.waiting && fresh.points.is_empty() && fresh.fate.is_none());
    assert!((fresh.diameter_m - 30e-6).abs() < 1e-12);
}

#[test]
fn another_voltage_goes_on_with_the_record_and_another_gas_starts_anew() {
    let mut simulation = following(demonstration(), 2e-6, 4);
    while record(&simulation).points.len() < 100 {
        simulation.step();
    }
    let number = record(&simulation).number;
    let mut wanted = demonstration();
    wanted.electrical.voltage_v = vec![40e3; 4];
    simulation
        .apply(Command::Conditions(Box::new(wanted.clone())))
        .expect("possible");
    for _ in 0..60 {
        simulation.step();
    }
    assert_eq!(record(&simulation).number, number);
    assert!(record(&simulation).points.len() >= 160);
    wanted.gas.temperature_k += 20.0;
    simulation
        .apply(Command::Conditions(Box::new(wanted)))
        .expect("possible");
    assert!(record(&simulation).waiting);
}

#[test]
fn forces_balance_along_the_drift_and_the_weight_is_that_of_a_sphere() {
    let conditions = demonstration();
    let grain = flown(conditions.clone(), 10e-6, 5);
    let point = &grain.points[grain.points.len() / 2];
    let forces = grain_forces(&conditions, grain.diameter_m, point);
    let size = |(along, towards): (f64, f64)| along.hypot(towards);
    // Nothing but these two acts in the plane, and the step gives a grain its terminal speed: 1 % as for the speed.
    let (pull, drag) = (forces.electric_n, forces.drag_n);
    let rest = (pull.0 + drag.0, pull.1 + drag.1);
    assert!(size(rest) < 0.01 * size(pull), "{forces:?}");
    // π/6 · 2300 kg/m³ · d³ · 9.81 m/s²
    let weight_n = std::f64::consts::FRAC_PI_6 * 2300.0 * grain.diameter_m.powi(3) * 9.81;
    assert!(
        (forces.weight_n / weight_n - 1.0).abs() < 1e-3,
        "{forces:?}"
    );
}

#[test]
fn the_curves_are_the_laws_along_the_path_and_grow_with_it() {
    let conditions = demonstration();
    let grain = flown(conditions.clone(), 5e-6, 1);
    let mut growing = GrainCurves::default();
    let mut part = grain.clone();
    for end in [1, 30, grain.points.len()] {
        part.points = grain.points[..end].to_vec();
        growing.update(&conditions, &part);
    }
    let whole = GrainCurves::new(&conditions, &grain);
    assert_eq!(growing, whole);
    let pieces: Vec<_> = grain
        .points
        .windows(2)
        .map(|pair| {
            let strength_v_m = pair[0]
                .field_along_v_m
                .hypot(pair[0].field_towards_plate_v_m);
            let exposure = charging::Exposure {
                field_v_m: strength_v_m,
                ion_density_per_m3: pair[0].ion_density_per_m3,
            };
            (pair[1].time_s - pair[0].time_s, exposure)
        })
        .collect();
    let gas = &conditions.gas;
    let ion_gas = IonGas {
        temperature_k: gas.temperature_k,
        mean_free_path_m: crate::physics::gas::mean_free_path_m(gas.temperature_k, gas.pressure_pa),
        ion_mobility_m2_v_s: conditions.ion_mobility_m2_v_s(),
    };
    let ball = charging::Grain {
        diameter_m: grain.diameter_m,
        permittivity: conditions.dust.permittivity,
    };
    for law in [Charging::Lawless, Charging::Cochet] {
        let charges_c = path::charges_c(law, &ball, &ion_gas, &pieces);
        let last_e = charging::elementary_charges(charges_c[charges_c.len() - 1]);
        let curve = whole.charge_e(law);
        assert!((curve[curve.len() - 1] / last_e - 1.0).abs() < 1e-9);
    }
}
