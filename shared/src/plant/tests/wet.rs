//! Wet plates: dust runs down with the water at once, nothing is rapped, and the water balance closes.

use super::{HOUR_S, plain, rates};
use crate::{
    conditions::{Conditions, Kind},
    plant::*,
};

fn wet() -> Conditions {
    let mut conditions = plain();
    conditions.collector.kind = Kind::Wet;
    conditions
}

fn plant(conditions: &Conditions) -> Plant {
    Plant::new(conditions, rates(conditions)).expect("possible")
}

#[test]
fn nothing_is_lost_to_rapping_and_nothing_lies_on_the_plates() {
    let mut conditions = wet();
    // A sump that nobody empties shorts nothing: its dust is in the water.
    conditions.hoppers.evacuation_interval_s[0] = 700.0 * HOUR_S;
    let mut plant = plant(&conditions);
    let fresh: f64 = plant.rates.fresh.left.iter().sum();
    plant.rap_now(0).expect("a field");
    let readings = plant
        .readings(130.0 * HOUR_S, 10.0 * HOUR_S)
        .expect("possible");
    for reading in &readings[1..] {
        assert!((reading.penetration / fresh - 1.0).abs() < 1e-9);
        assert_eq!(reading.peak_at_s, None);
        for field in &reading.fields {
            assert!(field.layer_kg < 1e-12 && field.wire_coating_m < 1e-12);
            assert!(!field.ash_at_frame);
        }
    }
    let ledger = plant.ledger();
    assert!(ledger.imbalance() < 1e-12 && ledger.kg(Account::TakenAway) > 0.0);
    assert_eq!(
        readings.last().and_then(|last| last.ash.route),
        Some(AshRoute::Disposal),
        "sludge is not sold"
    );
    // The same machine rapped loses more.
    let mut dry = super::plant(&plain());
    dry.run(130.0 * HOUR_S).expect("possible");
    assert!(dry.ledger().kg(Account::Outlet) > 1.2 * ledger.kg(Account::Outlet));
}

#[test]
fn the_water_balance_closes_and_carries_the_dust() {
    let mut conditions = wet();
    conditions.water.recycled = 0.8;
    let mut plant = plant(&conditions);
    let water = plant.reading().expect("possible").water.expect("water");
    // By hand: 0.67 L/m³ of 118.8 m³/s.
    assert!((water.sprayed_m3_s - 0.079_596).abs() < 1e-9, "{water:?}");
    let out_m3_s = water.evaporated_m3_s + water.recycled_m3_s + water.blown_down_m3_s;
    assert!((out_m3_s / water.sprayed_m3_s - 1.0).abs() < 1e-12);
    let made_up_m3_s = water.evaporated_m3_s + water.blown_down_m3_s;
    assert!((water.make_up_m3_s / made_up_m3_s - 1.0).abs() < 1e-12);
    let drained_m3_s = water.recycled_m3_s + water.blown_down_m3_s;
    assert!((water.recycled_m3_s / drained_m3_s - 0.8).abs() < 1e-12);
    // Value V1: 150 °C and 8 % are saturated at 52.5 °C (CoolProp, humid air; flue gas up to 1 K more).
    assert!((water.temperature_k - 273.15 - 52.5).abs() < 1.5);
    // By hand: all that is caught leaves with the blowdown.
    let fresh: f64 = plant.rates.fresh.left.iter().sum();
    let caught_kg_s = (1.0 - fresh) * 118.8 * 8e-3;
    let carried_kg_s = water.solids_kg_m3 * water.blown_down_m3_s;
    assert!((carried_kg_s / caught_kg_s - 1.0).abs() < 1e-9, "{water:?}");
    // By hand: 75.4 kg/s over 792 m of plate are 0.0952 kg/(s·m); (3·5.22e-4·0.0952/(988²·9.80665))^⅓ = 0.250 mm.
    assert!((water.film_m - 0.250e-3).abs() < 0.004e-3, "{water:?}");
}

#[test]
fn saturated_gas_takes_up_no_water_and_too_little_water_is_refused() {
    let mut conditions = wet();
    conditions.gas.temperature_k = 325.0;
    conditions.gas.moisture = 0.2;
    let water = Water::new(&conditions).expect("possible").expect("water");
    assert!(water.reading(0.0).evaporated_m3_s < 1e-300);
    let mut hot = wet();
    hot.gas.temperature_k = 700.0;
    hot.water.per_gas = 1e-5;
    let refused = Water::new(&hot).expect_err("dry plates");
    assert!(refused.to_string().contains("plates run dry"), "{refused}");
}

#[test]
fn blows_that_came_due_under_water_come_when_it_is_off() {
    let mut plant = super::plant(&plain());
    let rates = plant.rates.clone();
    plant.run(3.0 * HOUR_S).expect("possible");
    plant.change(&wet(), rates.clone()).expect("the same");
    plant.run(10.0 * HOUR_S).expect("possible");
    let still_kg = plant.reading().expect("possible").fields[0].layer_kg;
    plant.change(&plain(), rates).expect("the same");
    plant.run(300.0).expect("possible");
    assert!(plant.reading().expect("possible").fields[0].layer_kg < 0.3 * still_kg);
    // No time was lost or flown twice.
    let inlet_kg = 118.8 * 8e-3 * (13.0 * HOUR_S + 300.0);
    assert!((plant.ledger().kg(Account::Inlet) / inlet_kg - 1.0).abs() < 1e-12);
}

#[test]
fn dust_stays_on_a_dry_patch() {
    let mut conditions = wet();
    conditions.defects[1].dry_share = 0.1;
    let mut plant = plant(&conditions);
    plant.run(200.0 * HOUR_S).expect("possible");
    let reading = plant.reading().expect("possible");
    let caught: f64 = plant.rates.fresh.caught[1].iter().sum();
    let expected_kg = 0.1 * caught * plant.ledger().kg(Account::Inlet);
    let field = &reading.fields[1];
    assert!((field.layer_kg / expected_kg - 1.0).abs() < 1e-9);
    assert!(reading.fields[0].layer_kg < 1e-12);
    // All of it lies on a tenth of the plates.
    assert!(field.thickest_m > 10.0 * field.layer_m, "{field:?}");
    assert!(plant.ledger().imbalance() < 1e-12);
    // Water that reaches it again washes nothing that has dried on, but nothing more dries on.
    plant.change(&wet(), plant.rates.clone()).expect("the same");
    plant.run(HOUR_S).expect("possible");
    let still_kg = plant.reading().expect("possible").fields[1].layer_kg;
    assert!((still_kg / field.layer_kg - 1.0).abs() < 1e-12);
}
