//! How long a day of the plant clock and a second of both clocks take. Run with `cargo bench -p ashlane_tests --bench plant`.
#![expect(
    clippy::expect_used,
    reason = "a benchmark stops at the first thing that is not as it should be"
)]

use ashlane_shared::{
    conditions::{Conditions, Resistivity, demonstration},
    machine::{Machine, TREND_EVERY_S},
    plant::{Plant, Rates},
};
use divan::{Bencher, counter::ItemsCount};

/// Size classes get their rates from so many parcels; the clock's pace does not depend on it.
const PARCELS: usize = 4096;
/// Steps of a second.
const SECOND: u64 = 240;

fn main() {
    divan::main();
}

fn rates(conditions: &Conditions, parcels: usize) -> Rates {
    Rates::count(conditions, parcels, 1, |_| true)
        .expect("possible conditions")
        .expect("to its end")
}

/// A day from clean plates with rates that are there, read as often as the trend is.
fn a_day(bencher: Bencher<'_, '_>, conditions: &Conditions) {
    let rates = rates(conditions, PARCELS);
    bencher
        .with_inputs(|| Plant::new(conditions, rates.clone()).expect("possible conditions"))
        .bench_local_values(|mut plant| {
            plant
                .readings(86_400.0, TREND_EVERY_S)
                .expect("possible conditions")
        });
}

/// Four fields whose layers take a few hundred volts.
#[divan::bench(sample_count = 8, sample_size = 1)]
fn a_day_of_the_demonstration(bencher: Bencher<'_, '_>) {
    a_day(bencher, &demonstration());
}

/// The same with ash of 1e12 Ω·cm: layers that break down, and fields that change with every look.
#[divan::bench(sample_count = 8, sample_size = 1)]
fn a_day_of_resistive_ash(bencher: Bencher<'_, '_>) {
    let mut conditions = demonstration();
    conditions.dust.resistivity = Resistivity::Given(1e10);
    a_day(bencher, &conditions);
}

/// The same with wires of every field that swing by 2 cm.
#[divan::bench(sample_count = 8, sample_size = 1)]
fn a_day_of_swinging_wires(bencher: Bencher<'_, '_>) {
    let mut conditions = demonstration();
    for defect in &mut conditions.defects {
        defect.swing_m = 0.02;
    }
    a_day(bencher, &conditions);
}

/// What is done once before: the rates of the window's chart.
#[divan::bench(sample_count = 4, sample_size = 1)]
fn rates_of_the_plant_clock() -> usize {
    rates(&demonstration(), 40_000).behind.len()
}

/// A second of both clocks on the flight clock with about ten thousand grains in the gas; items are steps.
#[divan::bench(sample_count = 8, sample_size = 1)]
fn a_second_on_the_flight_clock(bencher: Bencher<'_, '_>) {
    let mut machine = Machine::new(demonstration(), 1).expect("possible conditions");
    for _ in 0..10 * SECOND {
        machine.step();
    }
    bencher.counter(ItemsCount::new(SECOND)).bench_local(|| {
        for _ in 0..SECOND {
            machine.step();
        }
    });
    assert!(machine.trouble().is_none(), "the machine stopped");
}
