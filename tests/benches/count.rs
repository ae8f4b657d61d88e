//! How fast parcels fly: parcel-steps a second, for everything computed and for one migration velocity.
//!
//! Run with `cargo bench -p ashlane_tests --bench count`. Items are parcel-steps; the threads are those of the machine
//! unless `RAYON_NUM_THREADS` says otherwise.

use ashlane_shared::{
    conditions::{Conditions, Mixing, demonstration},
    count::Count,
};
use divan::{Bencher, counter::ItemsCount};

fn main() {
    divan::main();
}

/// Flies parcels to the end and counts their steps.
#[expect(
    clippy::expect_used,
    reason = "a benchmark stops at the first thing that is not as it should be"
)]
fn fly(bencher: Bencher<'_, '_>, conditions: &Conditions, parcels: usize) {
    let prepare = || Count::new(conditions, parcels, 1).expect("possible conditions");
    let run = |mut count: Count| {
        count.run(|_| true);
        count.steps()
    };
    let steps = run(prepare());
    bencher
        .counter(ItemsCount::new(steps))
        .with_inputs(prepare)
        .bench_values(run);
}

/// Charging along the way, drift in the local field, eddies, gusts, capture and losses: the demonstration.
#[divan::bench(sample_count = 8, sample_size = 1)]
fn demonstration_collector(bencher: Bencher<'_, '_>) {
    fly(bencher, &demonstration(), 100_000);
}

/// The same without gusts.
#[divan::bench(sample_count = 8, sample_size = 1)]
fn demonstration_with_a_diffusivity(bencher: Bencher<'_, '_>) {
    let mut conditions = demonstration();
    conditions.teaching.mixing = Some(Mixing::Diffusivity(0.003));
    fly(bencher, &conditions, 100_000);
}

/// One migration velocity, low enough that most parcels fly all the way.
fn one_velocity(mixing: Mixing) -> Conditions {
    let mut conditions = demonstration();
    conditions.teaching.migration_velocity_m_s = Some(0.01);
    conditions.teaching.mixing = Some(mixing);
    conditions
}

/// Laminar: drift and capture alone.
#[divan::bench(sample_count = 8, sample_size = 1)]
fn one_velocity_laminar(bencher: Bencher<'_, '_>) {
    fly(bencher, &one_velocity(Mixing::None), 100_000);
}

/// With a normal random displacement at every step.
#[divan::bench(sample_count = 8, sample_size = 1)]
fn one_velocity_diffusive(bencher: Bencher<'_, '_>) {
    fly(bencher, &one_velocity(Mixing::Diffusivity(0.002)), 100_000);
}

/// With a new place and a die for the capture at every step.
#[divan::bench(sample_count = 8, sample_size = 1)]
fn one_velocity_fully_mixed(bencher: Bencher<'_, '_>) {
    fly(bencher, &one_velocity(Mixing::Full), 100_000);
}
