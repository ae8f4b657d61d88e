//! The sequence board under any acts: what follows is recorded, replay is exact, nothing opens.

use ashlane_lessons::sequence::{
    Act, Board, Exercise, Goal, Outcome, PURGE_SHARE, SiteSettings, Stage, Start,
};
use ashlane_shared::conditions::{Conditions, demonstration};
use proptest::prelude::*;

fn exercise(start: Start) -> Exercise {
    Exercise {
        start,
        goal: Goal::InService,
        purge_share: PURGE_SHARE,
        site: SiteSettings {
            source: "invented for this test".to_owned(),
            order: vec![Stage::Heaters, Stage::Purge, Stage::Fire, Stage::Energize],
            combustibles: 1e-3,
            volume_changes: 5.0,
            stable_s: 900.0,
            above_dew_k: 20.0,
        },
    }
}

fn act() -> impl Strategy<Value = Act> {
    prop_oneof![
        1 => any::<bool>().prop_map(Act::Heaters),
        1 => any::<bool>().prop_map(Act::AshRemoval),
        1 => any::<bool>().prop_map(Act::Rappers),
        1 => any::<bool>().prop_map(Act::Fan),
        1 => any::<bool>().prop_map(Act::Fire),
        1 => (0..5_usize).prop_map(Act::Energize),
        1 => (0..5_usize).prop_map(Act::DeEnergize),
        3 => (1.0..4000.0).prop_map(Act::Wait),
        1 => Just(Act::HandOver),
        1 => Just(Act::TakeBack),
    ]
}

fn start() -> impl Strategy<Value = Start> {
    prop_oneof![
        Just(Start::Cold),
        Just(Start::Waiting),
        Just(Start::Running)
    ]
}

/// How many fields are on.
fn on(board: &Board) -> f64 {
    board.fields().iter().filter(|on| **on).count() as f64
}

/// What one second at this moment has to add: fields on over combustibles, over an open purge, over wet insulators.
fn owed(board: &Board) -> [f64; 3] {
    let (insulator_k, dew_k) = board.insulators_k();
    let (combustibles, set_point) = board.combustibles();
    let (changes, wanted) = board.volume_changes();
    let burns = board
        .switches()
        .iter()
        .any(|(name, on)| *name == "fire" && *on);
    let if_so = |holds: bool| if holds { on(board) } else { 0.0 };
    [
        if_so(combustibles > set_point),
        if_so(changes < wanted),
        if_so(burns && insulator_k < dew_k),
    ]
}

fn recorded(board: &Board) -> [f64; 3] {
    let so_far = board.consequences();
    [so_far.ignition_s, so_far.unpurged_s, so_far.tracking_s]
}

fn conditions() -> Conditions {
    demonstration()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn no_path_energizes_against_a_hold_without_its_consequence(
        start in start(),
        acts in prop::collection::vec(act(), 1..30),
    ) {
        let (exercise, conditions) = (exercise(start), conditions());
        let mut board = Board::new(&exercise, &conditions).expect("a dew point");
        for act in acts {
            if board.take(act).is_err() {
                continue;
            }
            // A second is too short for the holds to change; at most one of a border's.
            let (owed_before, before) = (owed(&board), recorded(&board));
            if board.take(Act::Wait(1.0)).is_err() {
                continue;
            }
            let (owed_after, after) = (owed(&board), recorded(&board));
            for hold in 0..3 {
                let added = after[hold] - before[hold];
                prop_assert!((added - owed_before[hold]).abs() < 1e-6, "{hold}: {added} {owed_before:?} {owed_after:?}");
            }
        }
    }

    #[test]
    fn replay_gives_the_same_bits_and_amounts_never_shrink(
        start in start(),
        acts in prop::collection::vec(act(), 1..30),
    ) {
        let (exercise, conditions) = (exercise(start), conditions());
        let mut board = Board::new(&exercise, &conditions).expect("a dew point");
        let mut taken = Vec::new();
        for act in acts {
            let before = *board.consequences();
            if board.take(act).is_ok() {
                taken.push(act);
            } else {
                prop_assert_eq!(*board.consequences(), before, "a refusal changes nothing");
            }
            if act != Act::TakeBack {
                let now = board.consequences();
                prop_assert!(now.ignition_s >= before.ignition_s && now.stack_kg >= before.stack_kg);
            }
            let (layers, hoppers) = board.dust_kg();
            let (insulator_k, _) = board.insulators_k();
            let (combustibles, _) = board.combustibles();
            prop_assert!(layers.iter().chain(hoppers).all(|kg| kg.is_finite() && *kg >= 0.0));
            prop_assert!((280.0..420.0).contains(&insulator_k) && (0.0..0.01).contains(&combustibles));
            prop_assert!(!board.is_handed_over() || on(&board) == 0.0);
        }
        let text = serde_json::to_string(&taken).expect("plain data");
        let read: Vec<Act> = serde_json::from_str(&text).expect("what was saved");
        let again = Board::replayed(&exercise, &conditions, &read).expect("as before");
        prop_assert_eq!(again.consequences(), board.consequences());
        prop_assert_eq!(again.time_s().to_bits(), board.time_s().to_bits());
        prop_assert_eq!(again.acts(), board.acts());
        let outcome = Outcome::of(&exercise, &conditions, &read).expect("possible");
        // Both witnesses of the purge, whatever the fan did in between.
        prop_assert!(outcome.agrees(), "{:?}", outcome.purge);
    }
}
