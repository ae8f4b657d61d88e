//! The readings board: legible, and its power is voltage times current of the same field.

use ashlane_panels::board::{drawing, field_rows, gas_rows};
use ashlane_shared::units::UnitSystem;

use crate::{
    drawings::{SIZES, texts_are_legible},
    elevation::view,
    support::{Backdrop, demonstration_backdrop},
};

#[test]
fn words_are_legible_at_every_size_in_both_unit_systems() {
    for units in [UnitSystem::Si, UnitSystem::Us] {
        for size in SIZES {
            let view = view(demonstration_backdrop(), units);
            texts_are_legible(&drawing(&view, size), &format!("{units:?} {size:?}"));
        }
    }
    let mut many = ashlane_shared::conditions::demonstration();
    many.set_fields(12);
    let many = Backdrop::empty(many);
    texts_are_legible(
        &drawing(&view(&many, UnitSystem::Si), [720.0, 450.0]),
        "twelve",
    );
}

#[test]
fn every_field_has_its_cell_and_power_is_voltage_times_current() {
    let view = view(demonstration_backdrop(), UnitSystem::Si);
    let rows = field_rows(&view);
    assert!(rows.iter().all(|row| row.cells.len() == 4), "{rows:?}");
    assert!(gas_rows(&view).iter().all(|row| row.cells.len() == 2));
    let number = |name: &str, field: usize| {
        let row = rows.iter().find(|row| row.name == name).expect("a row");
        let text = row.cells[field]
            .split_whitespace()
            .next()
            .expect("a number");
        text.parse::<f64>().expect("a number")
    };
    for field in 0..4 {
        // kV times mA are W, and the board tells kW: four digits each.
        let by_hand = number("kV, mean", field) * number("current", field) / 1e3;
        let ratio = number("power", field) / by_hand;
        assert!(
            (ratio - 1.0).abs() < 2e-3,
            "field {field}: {ratio} {rows:?}"
        );
    }
}
