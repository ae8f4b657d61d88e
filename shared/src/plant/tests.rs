//! The plant clock keeps the books, does not depend on who looks, and emits in the long run what the formulas say.

mod mechanics;
mod wet;
mod worn;

use super::*;
use crate::{conditions::demonstration, theory};

const HOUR_S: f64 = 3600.0;

fn rates(conditions: &Conditions) -> Rates {
    Rates::count(conditions, 40_000, 7, |_| true)
        .expect("possible")
        .expect("to its end")
}

/// The demonstration with rates of one drift for all: quick to count, and with formulas to compare with.
fn plain() -> Conditions {
    let mut conditions = demonstration();
    conditions.teaching.migration_velocity_m_s = Some(0.09);
    conditions.teaching.mixing = Some(crate::conditions::Mixing::Full);
    conditions.gas.velocity_spread = 0.0;
    // Ash that conducts leaves fields at their wanted voltage as they are: what others do is in `worn.rs`.
    conditions.dust.resistivity = crate::conditions::Resistivity::Given(1e5);
    conditions.electrical.voltage_v.fill(38e3);
    conditions.reference.voltage_v.fill(38e3);
    conditions
}

fn plant(conditions: &Conditions) -> Plant {
    Plant::new(conditions, rates(conditions)).expect("possible")
}

#[test]
fn shares_of_every_fate_add_up() {
    let rates = rates(&demonstration());
    for fate in rates.behind.iter().chain([&rates.fresh]) {
        let caught: f64 = fate.caught.iter().flatten().sum();
        let left: f64 = fate.left.iter().sum();
        assert!((caught + left - 1.0).abs() < 1e-12, "{caught} and {left}");
    }
    // Behind the last field there is nothing to catch it.
    let last = rates.behind.last().expect("a field");
    assert!((last.left.iter().sum::<f64>() - 1.0).abs() < 1e-12);
    let upstream: f64 = rates.behind[1].caught[..2].iter().flatten().sum();
    assert!(upstream == 0.0, "dust flies upstream");
}

#[test]
fn every_kilogram_is_in_an_account_and_the_layers_hold_theirs() {
    let mut plant = plant(&plain());
    for _ in 0..50 {
        plant.run(1.7 * HOUR_S).expect("possible");
        let reading = plant.reading().expect("possible");
        let ledger = plant.ledger();
        assert!(ledger.imbalance() < 1e-12, "{ledger:?}");
        let layers: f64 = reading.fields.iter().map(|field| field.layer_kg).sum();
        let hoppers: f64 = reading.fields.iter().map(|field| field.hopper_kg).sum();
        for (sum_kg, account) in [(layers, Account::Layers), (hoppers, Account::Hoppers)] {
            let booked_kg = ledger.kg(account);
            assert!(
                (sum_kg - booked_kg).abs() <= 1e-9 * ledger.kg(Account::Inlet),
                "{account:?}: {sum_kg} and {booked_kg} kg"
            );
        }
    }
    let taken_kg = plant.ledger().kg(Account::TakenAway);
    assert!(taken_kg > 0.0);
    let fallen_kg: f64 = plant.fallen_kg().iter().sum();
    let booked_kg = plant.ledger().kg(Account::Hoppers) + taken_kg;
    assert!((fallen_kg / booked_kg - 1.0).abs() < 1e-9, "{fallen_kg}");
}

#[test]
fn looking_more_often_changes_nothing() {
    let conditions = plain();
    let mut seldom = plant(&conditions);
    let mut often = seldom.clone();
    seldom.run(30.0 * HOUR_S).expect("possible");
    for _ in 0..300 {
        often.run(0.1 * HOUR_S).expect("possible");
        often.reading().expect("possible");
    }
    for account in [
        Account::Layers,
        Account::Hoppers,
        Account::TakenAway,
        Account::Outlet,
    ] {
        let (one, other) = (seldom.ledger().kg(account), often.ledger().kg(account));
        assert!(
            (one - other).abs() < 1e-6 * one.max(1.0),
            "{account:?}: {one} {other}"
        );
    }
}

#[test]
fn the_first_layer_grows_as_the_mass_balance_says() {
    // dh/dt = η C Q/(A ρ_b), physics.md 9: with one drift for all, full mixing and 5 % sneakage the field catches
    // 0.95 (1 − e^{−w A/Q}) (Deutsch 1922).
    let conditions = plain();
    let mut plant = plant(&conditions);
    plant.run(3.0 * HOUR_S).expect("possible");
    let thickness_m = plant.reading().expect("possible").fields[0].layer_m;
    let area_m2 = conditions.collecting_area_m2() / 4.0;
    let deutsch = 0.09 * area_m2 / conditions.gas.flow_m3_s;
    let caught = 0.95 * (1.0 - (-deutsch).exp());
    let expected_m = caught * conditions.inlet_mass_kg_s() * 3.0 * HOUR_S / area_m2 / 600.0;
    // 40 000 parcels: a standard error of 0.4 %.
    assert!(
        (thickness_m / expected_m - 1.0).abs() < 0.015,
        "{thickness_m} and {expected_m} m"
    );
}

#[test]
fn a_rap_shows_as_a_puff_and_the_long_run_has_the_loss_of_the_formula() {
    let conditions = plain();
    let mut plant = plant(&conditions);
    plant.run(3.9 * HOUR_S).expect("possible");
    let before = plant.reading().expect("possible");
    plant.run(0.2 * HOUR_S).expect("possible");
    let with_rap = plant.reading().expect("possible");
    assert!(
        with_rap.penetration > 1.2 * before.penetration && with_rap.opacity > before.opacity,
        "{} then {}",
        before.penetration,
        with_rap.penetration
    );
    assert!(with_rap.fields[0].layer_kg < 0.2 * before.fields[0].layer_kg);
    // A thousand hours hold eight raps of the last field; what is left on its plates is at most one interval's.
    let start_kg = plant.ledger().kg(Account::Outlet);
    let start_inlet_kg = plant.ledger().kg(Account::Inlet);
    plant.run(6000.0 * HOUR_S).expect("possible");
    let share = (plant.ledger().kg(Account::Outlet) - start_kg)
        / (plant.ledger().kg(Account::Inlet) - start_inlet_kg);
    let balance = plant
        .rates
        .long_run_penetration(conditions.rapping.reentrained);
    assert!(
        (share / balance - 1.0).abs() < 0.02,
        "{share} and {balance}"
    );
    // The loss formula takes what comes back as a steady share (EPA Cost Manual, physics.md 6): the same in the long
    // run but for the chance of the parcels, 3 % of the little that leaves.
    let formula = theory::solve(&conditions).expect("possible").finite_mixing;
    assert!(
        (share / formula - 1.0).abs() < 0.10,
        "{share} and {formula}"
    );
}

#[test]
fn the_layer_takes_the_voltage_of_its_current_and_resistivity() {
    // Value B1: 1e11 Ω·cm breaks down above 100 nA/cm² at 10 kV/cm; 1e12 above 10 (White 1974; Hall 1971, from memory).
    let mut conditions = plain();
    let mut drops = Vec::new();
    for (resistivity_ohm_m, breaks) in [(1e8, false), (1e9, false), (1e10, true)] {
        conditions.dust.resistivity = crate::conditions::Resistivity::Given(resistivity_ohm_m);
        let mut plant = plant(&conditions);
        plant.run(3.0 * HOUR_S).expect("possible");
        let field = plant.reading().expect("possible").fields[0].clone();
        assert_eq!(field.back_corona, breaks, "{resistivity_ohm_m} Ω·m");
        let by_hand_v = field.layer_field_v_m * field.layer_m;
        assert!((field.layer_drop_v / by_hand_v - 1.0).abs() < 1e-9);
        drops.push(field.layer_drop_v);
    }
    // Ten times the resistivity, and somewhat less current for it.
    let ratio = drops[1] / drops[0];
    assert!((6.0..10.0).contains(&ratio), "{drops:?}");
    assert!(drops[2] < 10.0 * drops[1], "held at breakdown: {drops:?}");
}

#[test]
fn a_change_keeps_layers_and_books_and_refuses_another_machine() {
    let conditions = plain();
    let mut plant = plant(&conditions);
    plant.run(3.0 * HOUR_S).expect("possible");
    let before = plant.reading().expect("possible");
    let mut faster = conditions.clone();
    faster.gas.flow_m3_s *= 1.2;
    plant
        .change(&faster, rates(&faster))
        .expect("the same machine");
    let after = plant.reading().expect("possible");
    assert_eq!(before.fields[0].layer_kg, after.fields[0].layer_kg);
    plant.run(3.0 * HOUR_S).expect("possible");
    assert!(plant.reading().expect("possible").penetration > before.penetration);
    assert!(plant.ledger().imbalance() < 1e-12);
    let mut longer = conditions.clone();
    longer.set_fields(5);
    let refused = plant
        .change(&longer, rates(&longer))
        .expect_err("another machine");
    assert!(refused.to_string().contains("fields"), "{refused}");
}

/// Grains caught in the drawn flight, by field and class, over a time after it has become steady.
fn caught_in_flight(conditions: &Conditions, diameters_m: &[f64], seconds: u32) -> Vec<Vec<u64>> {
    use crate::simulation::Simulation;
    let classes = diameters_m.len();
    let ratio = (diameters_m[1] / diameters_m[0]).ln();
    let class = |diameter_m: f64| {
        let place = (diameter_m / diameters_m[0]).ln() / ratio + 0.5;
        (place.max(0.0) as usize).min(classes - 1)
    };
    let mut caught = vec![vec![0; classes]; conditions.collector.fields];
    let mut simulation = Simulation::new(conditions.clone(), 11).expect("possible");
    for _ in 0..240 * 25 {
        simulation.step();
    }
    let mut last = simulation.frame().deposits.recent().last().copied();
    for _ in 0..240 * seconds {
        simulation.step();
        let recent: Vec<_> = simulation.frame().deposits.recent().copied().collect();
        let known = recent.iter().rposition(|grain| Some(*grain) == last);
        for grain in &recent[known.map_or(0, |at| at + 1)..] {
            let field = f64::from(grain.along_m) / conditions.collector.field_length_m;
            let field = (field as usize).min(conditions.collector.fields - 1);
            caught[field][class(f64::from(grain.diameter_m))] += 1;
        }
        last = recent.last().copied();
    }
    caught
}

/// Seen to fail with a tenth more dust in one field.
#[test]
fn twenty_seconds_of_flight_lay_down_what_the_rates_say() {
    let mut conditions = demonstration();
    conditions.rapping.reentrained = 0.0;
    let rates = Rates::count(&conditions, 200_000, 7, |_| true)
        .expect("possible")
        .expect("to its end");
    let flown = caught_in_flight(&conditions, &rates.diameters_m, 20);
    let total: u64 = flown.iter().flatten().sum();
    let counted: f64 = rates.fresh.caught.iter().flatten().sum();
    let scale = total as f64 / counted;
    let (mut chi2, mut cells, mut worst) = (0.0, 0.0_f64, 0.0_f64);
    for (field, shares) in rates.fresh.caught.iter().enumerate() {
        for (class, share) in shares.iter().enumerate() {
            let expected = share * scale;
            if expected < 12.0 {
                continue;
            }
            // Its own chance, and that of the 200 000 counted parcels.
            let variance = expected * (1.0 + scale / 200_000.0);
            let off = (flown[field][class] as f64 - expected) / variance.sqrt();
            chi2 += off * off;
            cells += 1.0;
            worst = worst.max(off.abs());
        }
    }
    // Wilson & Hilferty 1931: χ² with k degrees of freedom is nearly normal by its cube root; 3.09 is p = 1e-3.
    let freedom = cells - 1.0;
    let spread = 2.0 / (9.0 * freedom);
    let score = ((chi2 / freedom).cbrt() - (1.0 - spread)) / spread.sqrt();
    assert!(
        cells > 25.0 && score < 3.09,
        "χ² {chi2} over {cells} cells, {score} σ, of {total}"
    );
    assert!(worst < 4.5, "a cell is {worst} σ off");
}
