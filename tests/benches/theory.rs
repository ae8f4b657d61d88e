//! How long the solvers take. Run with `cargo bench -p ashlane_tests --bench theory`.
#![expect(
    clippy::expect_used,
    reason = "a benchmark stops at the first thing that is not as it should be"
)]

use ashlane_shared::{
    conditions::demonstration,
    physics::efficiency::penetration,
    simulation::{Command, ElectricsWork, Simulation},
    theory,
};
use divan::Bencher;

fn main() {
    divan::main();
}

/// Finite mixing with one drift: any Péclet number, five Deutsch numbers each.
#[divan::bench(args = [0.1, 1.0, 10.0, 100.0, 1e4, 1e6])]
fn finite_mixing(peclet: f64) -> f64 {
    [0.1, 0.5, 1.0, 2.0, 4.0]
        .into_iter()
        .map(|deutsch| penetration(peclet, deutsch).expect("in range"))
        .sum()
}

/// The whole theory of the demonstration: all sizes, lanes and fields.
#[divan::bench(sample_count = 8, sample_size = 1)]
fn demonstration_theory() -> f64 {
    theory::solve(&demonstration())
        .expect("possible conditions")
        .finite_mixing
}

/// The electrical fields of the demonstration with the charge of its dust, from nothing.
#[divan::bench(sample_count = 8, sample_size = 1)]
fn demonstration_fields() -> usize {
    let mut work = ElectricsWork::new(&demonstration()).expect("possible conditions");
    while !work.is_done() {
        work.advance().expect("a round");
    }
    work.finished().map_or(0, |fields| fields.rounds)
}

/// A change of the voltage in the drawn flight: what a frame pays while a control is dragged.
#[divan::bench(sample_count = 20, sample_size = 1)]
fn a_change_of_the_conditions(bencher: Bencher<'_, '_>) {
    let mut simulation = Simulation::new(demonstration(), 1).expect("possible conditions");
    for _ in 0..2400 {
        simulation.step();
    }
    let mut voltage_v = 40e3;
    bencher.bench_local(|| {
        voltage_v += 10.0;
        let mut wanted = demonstration();
        wanted.electrical.voltage_v = vec![voltage_v; 4];
        simulation
            .apply(Command::Conditions(Box::new(wanted)))
            .expect("possible conditions");
    });
}

/// A second of the drawn flight, about ten thousand grains.
#[divan::bench(sample_count = 8, sample_size = 1)]
fn a_second_of_flight(bencher: Bencher<'_, '_>) {
    let mut simulation = Simulation::new(demonstration(), 1).expect("possible conditions");
    for _ in 0..2400 {
        simulation.step();
    }
    bencher.bench_local(|| {
        for _ in 0..240 {
            simulation.step();
        }
    });
}
