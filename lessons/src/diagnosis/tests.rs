//! Pairs that look alike at first are told apart through real machines, and the score follows the acts.

use ashlane_shared::conditions::{Conditions, demonstration};

use super::*;
use crate::{engine::Text, faults::read};

/// The demonstration a little below its usual voltage: no field sparks while it is sound.
fn calm() -> Conditions {
    let mut sound = demonstration();
    sound.electrical.voltage_v = vec![42e3, 41e3, 40e3, 39e3];
    sound
}

fn case(fault: &str, others: &[&str], first: &[&'static str], hours: f64) -> Case {
    let set = |text: &str| read(text).expect("a fault");
    let cause = |name: &&str| Cause {
        fault: set(name).fault,
        severity: 1.0,
        text: Text::parse("so").expect("text"),
    };
    Case {
        fault: set(fault).fault,
        severity: 1.0,
        seed: 5,
        hours,
        first: first.to_vec(),
        causes: [&[fault], others].concat().iter().map(cause).collect(),
        solution: Solution {
            checks: vec!["ma", "hopper-level"],
            action: "ash-handling",
        },
        signs: Vec::new(),
    }
}

fn told(case: &Case, sound: &Conditions) -> (Evidence, Vec<Separation>) {
    let evidence = Evidence::of(case, sound).expect("possible");
    let separations = separations(case, sound, &evidence).expect("possible");
    (evidence, separations)
}

/// A desk after the model acts with one of them changed.
fn desk_with(case: &Case, change: impl Fn(Act) -> Vec<Act>) -> Desk {
    let acts: Vec<Act> = case.model_acts().into_iter().flat_map(change).collect();
    Desk::replayed(case, &acts).unwrap_or_else(|error| panic!("{error}"))
}

#[test]
fn a_short_and_a_full_hopper_look_alike_until_the_level_is_read() {
    // training.md 4: T1 against T8; same first signs, separable by a later check.
    let sound = calm();
    let case = case(
        "plugged-hopper",
        &["dead-short", "supply-lost"],
        &["kv", "ma", "opacity"],
        44.0,
    );
    let (evidence, separations) = told(&case, &sound);
    let [short, supply] = separations.as_slice() else {
        panic!("two other causes: {separations:?}")
    };
    assert!(short.same_first_signs, "{short:?}");
    assert_eq!(short.told_by[0], "hopper-level", "the nearest check");
    assert!(
        !supply.same_first_signs && supply.told_by[0] == "ma",
        "{supply:?}"
    );

    let scored = |desk: &Desk| score(&case, desk, &evidence, &separations);
    let model = scored(&desk_with(&case, |act| vec![act]));
    assert!(model.is_solved(), "{model:?}");
    assert_eq!(model.ordered, ["hopper-level"]);

    // The wrong cause, and evidence that leaves it open.
    let other = scored(&desk_with(&case, |act| match act {
        Act::Cause(_) => vec![Act::Cause("dead-short".to_owned())],
        Act::Cite(key) if key == "hopper-level" => Vec::new(),
        act => vec![act],
    }));
    assert!(!other.is_solved() && !other.right_cause);
    assert_eq!(other.not_ruled_out, ["dead-short"]);

    // What was chosen once is kept, also where it was changed.
    let tried = scored(&desk_with(&case, |act| match act {
        Act::Action(_) => vec![Act::Action("reset".to_owned()), act],
        act => vec![act],
    }));
    assert!(tried.fitting_action && tried.right_cause && !tried.is_solved());
    assert_eq!(tried.attempts[0].action, "reset");

    // A dear check before a near one that tells as much.
    let dear = scored(&desk_with(&case, |act| match act {
        Act::Order(_) => vec![Act::Order("row-ash".to_owned()), act],
        act => vec![act],
    }));
    assert_eq!(dear.passed_over, ["hopper-level"]);
}

#[test]
fn pairs_that_look_alike_are_told_apart_by_some_check() {
    // training.md 4, diagnosis aids (f): T3/T6, T13/T7, T2/T9, and T4/T14.
    let sound = calm();
    let usual = Shown::after(&sound, 12.0).expect("possible");
    for (one, other, by) in [
        ("close-clearance", "high-resistivity", "resistivity"),
        ("hard-rapping", "swinging-wire", "swing"),
        ("insulator-tracking", "back-corona", "sparks"),
        ("dusty-wires", "lost-rapper", "ma"),
    ] {
        let case = case(one, &[other], &["opacity"], 12.0);
        let holds = case.holds(&sound).expect("possible");
        let evidence = Evidence::beside(usual.clone(), &holds, &case, &sound).expect("possible");
        let told = separations(&case, &sound, &evidence).expect("possible");
        let told_by = &told[0].told_by;
        assert!(
            told_by.iter().any(|key| key == by),
            "{one} {other}: {told_by:?}"
        );
    }
}

#[test]
fn a_machine_without_its_fault_shows_nothing() {
    let sound = calm();
    let case = case("false-meter", &["half-rectifier"], &["kv"], 2.0);
    let usual = Shown::after(&sound, case.hours).expect("possible");
    let nothing = Evidence::beside(usual, &sound, &case, &sound).expect("possible");
    for check in CHECKS {
        for finding in nothing.reveals(check) {
            assert_eq!(finding.turn(), Turn::Same, "{finding:?}");
        }
    }
}

#[test]
fn acts_that_are_not_possible_are_told_and_leave_the_desk() {
    let case = case("false-meter", &["half-rectifier"], &["kv"], 2.0);
    let acts = |acts: &[Act]| Desk::replayed(&case, acts).map(|desk| desk.handed_in);
    let text = |text: &str| text.to_owned();
    assert_eq!(
        acts(&[Act::Cite(text("ma"))]),
        Err(DeskError::NotOpened(text("ma")))
    );
    assert_eq!(
        acts(&[Act::Order(text("kv"))]),
        Err(DeskError::OpenAlready(text("kv")))
    );
    assert_eq!(
        acts(&[Act::Order(text("horoscope"))]),
        Err(DeskError::NoCheck(text("horoscope")))
    );
    assert_eq!(
        acts(&[Act::Cause(text("air-leak"))]),
        Err(DeskError::NoCause(text("air-leak")))
    );
    assert!(matches!(
        acts(&[Act::HandIn]),
        Err(DeskError::Unfinished(_))
    ));
    let mut all = case.model_acts();
    all.retain(|act| !matches!(act, Act::Cite(key) if key == "hopper-level"));
    assert_eq!(acts(&all), Ok(true));
    all.push(Act::Order(text("sparks")));
    assert_eq!(acts(&all), Err(DeskError::HandedIn));
    // A shorter list is an undo, and a list that was saved is the same list.
    let saved = serde_json::to_string(&all[..2]).expect("plain data");
    let read: Vec<Act> = serde_json::from_str(&saved).expect("what was saved");
    assert_eq!(read, all[..2]);
    assert_eq!(acts(&read), Ok(false));
}

#[test]
fn every_check_is_found_by_its_key_and_the_cheap_ones_come_first() {
    for (index, check) in CHECKS.iter().enumerate() {
        assert_eq!(
            find_check(check.key).map(|found| found.name),
            Some(check.name)
        );
        assert!(!CHECKS[..index].iter().any(|other| other.name == check.name));
        assert!(
            CHECKS[..index]
                .iter()
                .all(|other| other.reach <= check.reach)
        );
    }
}
