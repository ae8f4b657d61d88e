//! What lies on plates and wires and stands in the hoppers acts on the fields, and the fields on where dust ends.

use super::*;
use crate::conditions::Resistivity;

/// Full mixing and one drift for all, so that the law behind the power is Deutsch's own.
#[test]
fn rates_with_another_drift_are_those_counted_with_it() {
    let conditions = plain();
    let counted = rates(&conditions);
    let mut slower = conditions.clone();
    slower.teaching.migration_velocity_m_s = Some(0.6 * 0.09);
    let anew = rates(&slower);
    let classes = counted.diameters_m.len();
    let same = counted.worn(&vec![vec![1.0; classes]; 4], 0.05);
    let worn = counted.worn(&vec![vec![0.6; classes]; 4], 0.05);
    let (mut before, mut between) = (0.0, 0.0);
    for field in 0..4 {
        let sum = |rates: &Rates| rates.fresh.caught[field].iter().sum::<f64>();
        assert!((sum(&same) - sum(&counted)).abs() < 1e-3);
        // 40 000 parcels: 0.25 % of all that enters is a standard error of a half.
        assert!((sum(&worn) - sum(&anew)).abs() < 0.01, "field {field}");
        before += (sum(&counted) - sum(&anew)).abs();
        between += (sum(&worn) - sum(&anew)).abs();
    }
    assert!(between < 0.1 * before, "{between} of {before}");
    for fate in worn.behind.iter().chain([&worn.fresh]) {
        let caught: f64 = fate.caught.iter().flatten().sum();
        assert!((caught + fate.left.iter().sum::<f64>() - 1.0).abs() < 1e-12);
    }
    let dead = counted.worn(&vec![vec![0.0; classes]; 4], 0.05);
    assert!((dead.fresh.left.iter().sum::<f64>() - 1.0).abs() < 1e-12);
}

/// The demonstration with dust of this resistivity, whose plates are rapped this often.
fn dusty(resistivity_ohm_m: f64, hours: f64) -> Conditions {
    let mut conditions = demonstration();
    conditions.dust.resistivity = Resistivity::Given(resistivity_ohm_m);
    conditions.rapping.interval_s.fill(hours * HOUR_S);
    conditions.hoppers.evacuation_interval_s.fill(2.0 * HOUR_S);
    conditions
}

fn after(conditions: &Conditions, hours: f64) -> PlantReading {
    let mut plant = plant(conditions);
    plant.run(hours * HOUR_S).expect("possible");
    let reading = plant.reading().expect("possible");
    assert!(plant.ledger().imbalance() < 1e-12);
    reading
}

#[test]
fn resistive_ash_that_is_not_rapped_takes_the_voltage_from_the_gap_and_lets_more_through() {
    let (thin, thick) = (
        after(&dusty(1e10, 1.0), 0.02),
        after(&dusty(1e10, 1e3), 30.0),
    );
    for (before, field) in thin.fields.iter().zip(&thick.fields) {
        assert!(field.layer_drop_v > 1.5 * before.layer_drop_v, "{field:?}");
        let gap_v = |field: &FieldReading| field.voltage_v - field.layer_drop_v;
        assert!(gap_v(field) < gap_v(before));
    }
    assert!(
        thick.long_run > 1.1 * thin.long_run,
        "{} then {}",
        thin.long_run,
        thick.long_run
    );
    // Of ash that conducts as thick a layer takes nothing.
    let (thin, thick) = (after(&dusty(1e7, 1.0), 0.02), after(&dusty(1e7, 1e3), 2.0));
    let ratio = thick.long_run / thin.long_run;
    assert!((ratio - 1.0).abs() < 0.05, "{ratio}");
}

#[test]
fn ash_at_the_frame_shorts_its_field_and_the_next_row_gets_its_dust() {
    let mut conditions = plain();
    conditions.defects[0].bridged = 1.0;
    let mut plant = plant(&conditions);
    let start = plant.reading().expect("possible");
    plant.run(12.5 * HOUR_S).expect("possible");
    let buried = plant.reading().expect("possible");
    assert!(buried.fields[0].ash_at_frame);
    assert_eq!(buried.fields[0].voltage_v, 0.0);
    let limit_a_m2 = conditions.electrical.current_limit_a_m2;
    assert!((buried.fields[0].metered_a_m2 / limit_a_m2 - 1.0).abs() < 1e-9);
    // One field lost, S = 0.05 and De = 1.5 each (Deutsch 1922): 1/(0.05 + 0.95·e^−1.5) = 3.82 times as much arrives at the
    // next, and leaves in the end.
    let through: f64 = plant.worn.fresh.left.iter().sum();
    let counted: f64 = plant.rates.fresh.left.iter().sum();
    assert!(
        (through / counted / 3.82 - 1.0).abs() < 0.1,
        "{through} {counted}"
    );
    let caught = |rates: &Rates| rates.fresh.caught[1].iter().sum::<f64>();
    let more = caught(&plant.worn) / caught(&plant.rates);
    assert!((more / 3.82 - 1.0).abs() < 0.1, "{more}");
    assert!(buried.long_run > 2.0 * start.long_run);
}

#[test]
fn the_plant_starts_with_the_layer_of_the_sheet_and_its_books() {
    let mut conditions = plain();
    conditions.rapping.layer_m = vec![5e-3, 0.0, 0.0, 1e-3];
    let mut plant = plant(&conditions);
    let reading = plant.reading().expect("possible");
    for (field, layer_m) in reading.fields.iter().zip([5e-3, 0.0, 0.0, 1e-3]) {
        assert!((field.layer_m - layer_m).abs() < 1e-12);
    }
    let ledger = plant.ledger();
    assert!(ledger.kg(Account::Layers) > 0.0 && ledger.imbalance() < 1e-12);
}
