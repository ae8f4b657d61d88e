//! The same conditions, seed and command log give the same bits, whatever the number of threads.
//!
//! Caught so far: nothing; it is here because a sum in the order of the threads would pass every other test.

use ashlane_shared::{
    conditions,
    count::Count,
    simulation::{Command, Simulation},
    with_threads,
};

fn counted_with(threads: usize) -> ashlane_shared::count::CountResult {
    with_threads(Some(threads), || {
        let mut count = Count::new(&conditions::demonstration(), 30_000, 7).expect("possible");
        count.run(|_| true);
        count.result()
    })
    .expect("threads")
}

#[test]
fn a_count_does_not_depend_on_the_number_of_threads_or_on_its_slices() {
    let one = counted_with(1);
    assert_eq!(one, counted_with(2), "two threads");
    assert_eq!(one, counted_with(8), "eight threads");
    let mut sliced = Count::new(&conditions::demonstration(), 30_000, 7).expect("possible");
    while !sliced.is_done() {
        sliced.advance(1);
    }
    assert_eq!(one, sliced.result(), "one chunk at a time");
}

#[test]
fn another_seed_gives_another_count() {
    let mut other = Count::new(&conditions::demonstration(), 30_000, 8).expect("possible");
    other.run(|_| true);
    assert_ne!(counted_with(2).by_size, other.result().by_size);
}

/// A short flight with two changes on the way.
fn flown(threads: usize) -> Simulation {
    with_threads(Some(threads), || {
        let mut simulation = Simulation::new(conditions::demonstration(), 3).expect("possible");
        for step in 0..360 {
            if step == 100 {
                let mut wanted = conditions::demonstration();
                wanted.electrical.voltage_v = vec![40e3; 4];
                wanted.gas.flow_m3_s = 150.0;
                simulation
                    .apply(Command::Conditions(Box::new(wanted)))
                    .expect("possible");
            }
            if step == 200 {
                simulation.apply(Command::Restart).expect("always");
            }
            simulation.step();
        }
        simulation
    })
    .expect("threads")
}

#[test]
fn a_flight_does_not_depend_on_the_number_of_threads_and_replays_from_its_log() {
    let one = flown(1);
    assert_eq!(one.digest(), flown(2).digest(), "two threads");
    assert_eq!(one.digest(), flown(8).digest(), "eight threads");
    let again = Simulation::replay(conditions::demonstration(), one.seed(), one.log(), 360)
        .expect("replays");
    assert_eq!(one.digest(), again.digest(), "replay");
    let mut shorter = one.log().to_vec();
    shorter.pop();
    let other = Simulation::replay(conditions::demonstration(), one.seed(), &shorter, 360)
        .expect("replays");
    assert_ne!(
        one.digest(),
        other.digest(),
        "a log without its last command is another recording"
    );
}
