//! How long the corona takes. Run with `cargo bench -p ashlane_tests --bench corona`.
#![expect(
    clippy::expect_used,
    reason = "a benchmark stops at the first thing that is not as it should be"
)]

use ashlane_shared::physics::corona::{
    CoronaSolver, WireRow, onset,
    solver::{Corona, Fineness},
};
use divan::Bencher;

fn main() {
    divan::main();
}

/// The duct of value D-A (`physics.md` 2.5), on the default grid: 0.01 % in the voltage.
fn duct() -> CoronaSolver<WireRow> {
    let corona = Corona {
        onset_field_v_m: onset::peek_field_v_m(1.016e-3, 1.0, 1.0),
        ion_mobility_m2_v_s: 1.82e-4,
    };
    let row = WireRow::new(0.1143, 0.1524, 1.016e-3).expect("a row");
    CoronaSolver::new(row, corona, Fineness::default()).expect("a solver")
}

/// Grid and solution from nothing, by the voltage.
#[divan::bench(args = [35_530.0, 40_422.0, 50_187.0])]
fn cold(voltage_v: f64) -> f64 {
    duct().at_voltage(voltage_v).expect("a state").current_a_m
}

/// One per cent more voltage on a solution that is there.
#[divan::bench]
fn warm(bencher: Bencher<'_, '_>) {
    let mut solver = duct();
    let near = solver.at_voltage(45e3).expect("a state");
    bencher.bench_local(|| {
        solver
            .at_voltage_from(45.45e3, Some(&near))
            .expect("a state")
            .current_a_m
    });
}

/// Thirty points from onset to 52 kV, with the grid.
#[divan::bench]
fn curve_of_thirty_points() -> f64 {
    let mut solver = duct();
    let onset_v = solver.onset_v();
    let mut near = None;
    for point in 1..=30 {
        let voltage_v = onset_v + (52e3 - onset_v) * f64::from(point) / 30.0;
        near = Some(
            solver
                .at_voltage_from(voltage_v, near.as_ref())
                .expect("a state"),
        );
    }
    near.map_or(0.0, |state| state.current_a_m)
}
