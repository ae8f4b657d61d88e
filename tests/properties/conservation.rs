//! No dust is lost: inlet = airborne + layers + hoppers + taken away + outlet at every step, through any changes.
//!
//! Value H3 of the physics specification: relative error at most 1e-9.

use ashlane_shared::{
    conditions::{self, Conditions, Mixing},
    simulation::{Account, Command, Simulation},
};
use ashlane_tests::counted;
use proptest::prelude::*;

/// A change that a learner could make.
fn changed(conditions: &Conditions, what: u8, how_much: f64) -> Conditions {
    let mut wanted = conditions.clone();
    let between = |low: f64, high: f64| low + (high - low) * how_much;
    match what % 8 {
        0 => wanted.gas.flow_m3_s = between(40.0, 300.0),
        1 => wanted.electrical.voltage_v = vec![between(0.0, 60e3); wanted.collector.fields],
        2 => wanted.collector.plate_spacing_m = between(0.2, 0.5),
        3 => wanted.set_fields(1 + (how_much * 6.0) as usize),
        4 => wanted.gas.temperature_k = between(330.0, 600.0),
        5 => wanted.dust.load_kg_m3 = between(1e-3, 30e-3),
        6 => wanted.teaching.mixing = Some(Mixing::Full),
        _ => wanted.teaching.mixing = Some(Mixing::Diffusivity(between(1e-4, 2e-2))),
    }
    wanted
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(8))]

    #[test]
    fn every_kilogram_is_in_one_account_through_any_changes(
        changes in prop::collection::vec((0_u8..9, 0.0..1.0_f64, 1_u32..60), 1..5)
    ) {
        let mut simulation = Simulation::new(conditions::demonstration(), 5).expect("possible");
        for (what, how_much, steps) in changes {
            let command = if what == 8 {
                Command::Restart
            } else {
                Command::Conditions(Box::new(changed(simulation.frame().conditions(), what, how_much)))
            };
            // Some changes do not go together with the earlier ones; they are refused and nothing happens.
            let refused = simulation.apply(command).is_err();
            for _ in 0..steps {
                simulation.step();
                let frame = simulation.frame();
                prop_assert!(frame.ledger.imbalance() < 1e-9, "off by {:e}, refused {refused}", frame.ledger.imbalance());
            }
        }
        let frame = simulation.frame();
        prop_assert!(frame.grains().all(|grain| grain.along_m.is_finite() && grain.across_m.is_finite()));
    }
}

#[test]
fn the_airborne_account_is_the_mass_of_the_grains_in_the_gas() {
    let mut simulation = Simulation::new(conditions::demonstration(), 6).expect("possible");
    for _ in 0..600 {
        simulation.step();
    }
    let frame = simulation.frame();
    let per_grain_kg = frame.ledger.kg(Account::Airborne) / frame.airborne() as f64;
    let inlet_kg_s = frame.conditions().inlet_mass_kg_s();
    let entered = frame.ledger.kg(Account::Inlet);
    assert!(
        (entered / (inlet_kg_s * frame.time_s()) - 1.0).abs() < 1e-3,
        "{entered} kg entered"
    );
    // All grains of this run have one mass, so the account is a whole number of them.
    let grains = frame.ledger.kg(Account::Layers) / per_grain_kg;
    assert!(
        (grains - grains.round()).abs() < 1e-3,
        "layers hold {grains} grains"
    );
}

#[test]
fn a_batch_count_books_every_parcel_once() {
    let result = counted(&conditions::demonstration(), 50_000, 9);
    assert!(result.imbalance < 1e-15, "off by {:e}", result.imbalance);
    assert_eq!(result.parcels, 50_000);
    assert_eq!(result.stranded, 0, "parcels that never arrived");
    let collected: f64 = result.by_field.iter().map(|field| field.collected).sum();
    assert!(
        (collected + result.penetration.share - 1.0).abs() < 1e-12,
        "shares add up to {collected}"
    );
    let last = result.along.last().expect("points").counted.share;
    assert!(
        (last - result.penetration.share).abs() < 1e-12,
        "the line along ends at {last}"
    );
}
