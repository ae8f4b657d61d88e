//! The same conditions, seed and command log give the same bits, whatever the number of threads.
//!
//! Caught so far: nothing; it is here because a sum in the order of the threads would pass every other test.

use ashlane_shared::{
    conditions,
    count::Count,
    simulation::{Command, ElectricsWork, FIELD_DELAY_STEPS, Simulation, electrics},
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

#[test]
fn the_fields_with_their_dust_do_not_depend_on_the_number_of_threads_or_on_slices() {
    // The work itself, not `electrics`, which would hand out the answer that it keeps.
    let solved = |threads| {
        with_threads(Some(threads), || {
            let mut work = ElectricsWork::new(&conditions::demonstration()).expect("possible");
            while !work.is_done() {
                work.advance().expect("a round");
            }
            work.finished()
        })
        .expect("threads")
    };
    let one = solved(1);
    assert_eq!(one, solved(3));
    let kept = electrics(&conditions::demonstration()).expect("possible");
    assert_eq!(Some(kept.as_ref()), one.as_ref());
}

#[test]
fn the_field_takes_over_thirty_steps_after_its_command_whoever_solves_it_when() {
    let mut wanted = conditions::demonstration();
    // A voltage of its own, so that no other test has had it solved.
    wanted.electrical.voltage_v = vec![38_765.0; 4];
    let fly = |solve_early: bool| {
        let mut simulation = Simulation::new(conditions::demonstration(), 3).expect("possible");
        let before_v = simulation.frame().fields()[0].voltage_v;
        let mut taken_over = None;
        for step in 0..120 {
            if step == 50 {
                simulation
                    .apply(Command::Conditions(Box::new(wanted.clone())))
                    .expect("possible");
                if solve_early {
                    electrics(&wanted).expect("possible");
                }
            }
            if step == 79 {
                assert!(!simulation.waits_for_field(), "not due yet");
            }
            simulation.step();
            let voltage_v = simulation.frame().fields()[0].voltage_v;
            if voltage_v != before_v && taken_over.is_none() {
                assert!((voltage_v - 38_765.0).abs() < 1.0, "{voltage_v}");
                taken_over = Some(step);
            }
        }
        assert!(simulation.field_trouble().is_none());
        (taken_over, simulation.digest())
    };
    let late = fly(false);
    assert_eq!(
        late.0,
        Some(50 + FIELD_DELAY_STEPS),
        "with the step after thirty"
    );
    assert_eq!(late, fly(true), "solved at once or at the last moment");
}
