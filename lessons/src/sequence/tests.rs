//! The board keeps what follows from every act, and its purge is the integral of the flow.

use ashlane_shared::conditions::{Conditions, demonstration};

use super::{
    gas::{FAN_S, PURGE_SHARE, volume_m3},
    *,
};

const START_UP: [Stage; 6] = [
    Stage::Heaters,
    Stage::AshRemoval,
    Stage::Rappers,
    Stage::Purge,
    Stage::Fire,
    Stage::Energize,
];
const SHUT_DOWN: [Stage; 4] = [
    Stage::DeEnergize,
    Stage::FireOut,
    Stage::CleanOut,
    Stage::HandOver,
];

/// Invented settings.
fn exercise(start: Start, goal: Goal) -> Exercise {
    Exercise {
        start,
        goal,
        purge_share: PURGE_SHARE,
        site: SiteSettings {
            source: "invented for this test".to_owned(),
            order: match goal {
                Goal::InService => START_UP.to_vec(),
                Goal::HandedOver => SHUT_DOWN.to_vec(),
            },
            combustibles: 1e-3,
            volume_changes: 5.0,
            stable_s: 900.0,
            above_dew_k: 20.0,
        },
    }
}

fn outcome(exercise: &Exercise, conditions: &Conditions, acts: &[Act]) -> Outcome {
    Outcome::of(exercise, conditions, acts).unwrap_or_else(|error| panic!("{error}"))
}

#[test]
fn the_model_answers_reach_their_goals_and_keep_every_hold() {
    let conditions = demonstration();
    for (start, goal) in [
        (Start::Cold, Goal::InService),
        (Start::Waiting, Goal::InService),
        (Start::Running, Goal::HandedOver),
    ] {
        let exercise = exercise(start, goal);
        let acts = exercise.model_acts(&conditions).expect("possible");
        let outcome = outcome(&exercise, &conditions, &acts);
        // A board that waits with cold insulators in moist gas has condensed before anybody could act.
        assert_eq!(
            start == Start::Waiting,
            outcome.consequences.condensing_s > 0.0
        );
        assert!(outcome.as_wanted, "{start:?}: {outcome:?} {acts:?}");
        assert!(outcome.agrees(), "{outcome:?}");
        assert_eq!(
            outcome.purge.is_some(),
            start != Start::Waiting,
            "{outcome:?}"
        );
    }
}

#[test]
fn a_purge_is_the_integral_of_the_flow_over_the_volume() {
    // training.md L18: ∫Q dt/V within 1 %. The fan runs up as 1 − e^(−t/τ): Q(t − τ(1 − e^(−t/τ))), by hand.
    let conditions = demonstration();
    let exercise = exercise(Start::Cold, Goal::InService);
    for time_s in [30.0, 137.0, 600.0] {
        let acts = [Act::Fan(true), Act::Wait(time_s)];
        let board = Board::replayed(&exercise, &conditions, &acts).expect("possible");
        let flow_m3_s = PURGE_SHARE * conditions.gas.flow_m3_s;
        let by_hand =
            flow_m3_s * (time_s - FAN_S * (1.0 - (-time_s / FAN_S).exp())) / volume_m3(&conditions);
        let (changes, _) = board.volume_changes();
        assert!(
            (changes / by_hand - 1.0).abs() < 0.01,
            "{changes} not {by_hand}"
        );
        let purge = outcome(&exercise, &conditions, &acts)
            .purge
            .expect("a purge");
        assert!(
            (purge.by_dilution / by_hand - 1.0).abs() < 0.01,
            "{purge:?}"
        );
        // One wait or many: the same purge.
        let acts: Vec<Act> = std::iter::once(Act::Fan(true))
            .chain((0..10).map(|_| Act::Wait(0.1 * time_s)))
            .collect();
        let board = Board::replayed(&exercise, &conditions, &acts).expect("possible");
        assert!((board.volume_changes().0 / changes - 1.0).abs() < 1e-9);
    }
}

#[test]
fn energizing_early_is_taken_and_shows_what_follows() {
    let conditions = demonstration();
    let exercise = exercise(Start::Cold, Goal::InService);
    let acts = [
        Act::Fan(true),
        Act::Fire(true),
        Act::Energize(0),
        Act::Wait(600.0),
    ];
    let outcome = outcome(&exercise, &conditions, &acts);
    let so_far = outcome.consequences;
    assert_eq!(so_far.lit_unpurged, 1);
    for amount_s in [
        so_far.tracking_s,
        so_far.condensing_s,
        so_far.ignition_s,
        so_far.unstable_s,
    ] {
        assert!((amount_s - 600.0).abs() < 1e-6, "{so_far:?}");
    }
    assert!(so_far.uncleaned_kg > 0.0 && !outcome.reached);
    assert!(!outcome.out_of_order.is_empty());
    let lines = so_far.lines(ashlane_shared::units::UnitSystem::Si);
    assert!(
        lines.len() >= 6 && lines.iter().any(|line| line.contains("set-point")),
        "{lines:?}"
    );
}

#[test]
fn the_sites_own_order_replaces_the_example() {
    let conditions = demonstration();
    let mut own = exercise(Start::Cold, Goal::InService);
    own.site.order = vec![
        Stage::Purge,
        Stage::Rappers,
        Stage::AshRemoval,
        Stage::Heaters,
        Stage::Fire,
        Stage::Energize,
    ];
    let acts = own.model_acts(&conditions).expect("possible");
    assert!(outcome(&own, &conditions, &acts).as_wanted);
    let example = exercise(Start::Cold, Goal::InService);
    let told = outcome(&example, &conditions, &acts).out_of_order;
    assert!(
        told.iter()
            .any(|text| text.starts_with("rappers on before ")),
        "{told:?}"
    );
}

#[test]
fn fields_dropped_from_the_outlet_and_cleaning_stopped_early_leave_their_dust() {
    let conditions = demonstration();
    let exercise = exercise(Start::Running, Goal::HandedOver);
    let mut acts: Vec<Act> = (0..4).rev().map(Act::DeEnergize).collect();
    acts.extend([
        Act::Fire(false),
        Act::Rappers(false),
        Act::AshRemoval(false),
        Act::HandOver,
    ]);
    let outcome = outcome(&exercise, &conditions, &acts);
    assert!(
        outcome.reached && !outcome.clean && outcome.on_plates_kg > 100.0,
        "{outcome:?}"
    );
    assert_eq!(outcome.inlet_first, Some(false));
    assert!(!outcome.as_wanted);
}

#[test]
fn the_board_ends_at_the_hand_over_and_never_with_a_set_on() {
    let conditions = demonstration();
    let running = exercise(Start::Running, Goal::HandedOver);
    let mut board = Board::new(&running, &conditions).expect("possible");
    assert_eq!(board.take(Act::HandOver), Err(BoardError::FieldsOn));
    for field in 0..4 {
        board.take(Act::DeEnergize(field)).expect("possible");
    }
    assert_eq!(board.take(Act::HandOver), Err(BoardError::FireOn));
    assert_eq!(board.take(Act::Fan(false)), Err(BoardError::FireBurns));
    board.take(Act::Fire(false)).expect("possible");
    board.take(Act::HandOver).expect("possible");
    assert_eq!(board.take(Act::Energize(0)), Err(BoardError::HandedOver));
    let text = KEYS_PRINCIPLE.to_lowercase();
    assert!(text.contains("site's procedure") && text.contains("opens no door"));
}

#[test]
fn what_was_taken_back_leaves_nothing() {
    let conditions = demonstration();
    let exercise = exercise(Start::Cold, Goal::InService);
    let acts = [Act::Heaters(true), Act::Wait(3600.0)];
    let with = [acts[0], acts[1], Act::Fan(true), Act::TakeBack];
    let replayed = |acts: &[Act]| Board::replayed(&exercise, &conditions, acts).expect("possible");
    assert_eq!(replayed(&acts).now(), replayed(&with).now());
    let none = [Act::TakeBack];
    assert!(Board::replayed(&exercise, &conditions, &none).is_err());
}
