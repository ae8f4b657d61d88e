//! A damaged file is set aside with all its bytes, said so, and takes nothing else with it.

use std::fs;

use ashlane_lessons::store::{Note, StoreError};
use proptest::prelude::*;
use serde_json::{Value as Json, json};

use super::{
    SAMPLE, day, file, good, learner, length, names, play, resumed, sample, saved, silently, store,
};
use crate::lessons::Progress;

/// A finished attempt and a second one under way, as bytes.
fn whole() -> Vec<u8> {
    let (lesson, states, _) = sample();
    let store = store();
    let mut notebook = store.notebook(&learner());
    play(&mut notebook, lesson, false, day(0));
    let middle = states.iter().find(|state| state.locked_steps() == 2);
    saved(&mut notebook, lesson, middle.expect("a state"), day(3));
    fs::read(file(&store)).expect("a file")
}

/// A folder with this file in it.
fn with(bytes: &[u8]) -> ashlane_lessons::store::Store {
    let store = store();
    drop(store.notebook(&learner()));
    fs::write(file(&store), bytes).expect("a file");
    store
}

#[test]
fn a_file_cut_off_anywhere_is_set_aside_and_the_others_stay() {
    let (lesson, ..) = sample();
    let whole = whole();
    let other = good(&SAMPLE.replace("id = \"T1\"", "id = \"T2\""));
    for length in (0..whole.len() - 1).step_by(whole.len() / 40) {
        let store = with(&whole[..length]);
        let mut notebook = store.notebook(&learner());
        saved(&mut notebook, &other, &Progress::new(&other), day(4));
        let resumed = notebook.resume(lesson);
        let [note @ Note::Damaged { kept_as, .. }] = resumed.notes.as_slice() else {
            panic!("{:?} at {length}", resumed.notes)
        };
        assert_eq!(fs::read(kept_as).expect("a copy"), &whole[..length]);
        let told = note.to_string();
        for part in [
            "lesson T1 was damaged",
            "lesson-T1.damaged.json",
            "begins anew",
        ] {
            assert!(told.contains(part), "no {part:?} in {told}");
        }
        assert!(resumed.trouble.is_none());
        assert_eq!(resumed.progress, Progress::new(lesson));
        drop(notebook);
        // Once: the next time there is nothing to say.
        assert_eq!(silently(&store, lesson), Progress::new(lesson));
        assert_eq!(silently(&store, &other), Progress::new(&other));
        assert_eq!(
            names(&store),
            ["lesson-T1.damaged.json", "lesson-T1.json", "lesson-T2.json"]
        );
        fs::remove_dir_all(store.folder()).expect("a folder");
    }
}

#[test]
fn what_can_still_be_read_of_the_attempts_is_kept() {
    let (lesson, ..) = sample();
    let whole: Json = serde_json::from_slice(&whole()).expect("a record");
    // Place of the damage, what stands there then, and what is left: the first, and later ones.
    for (place, value, first, later) in [
        ("/progress/at", json!("here"), true, 0),
        ("/progress/steps/0/locked", json!(false), true, 0),
        ("/noted", json!(7), true, 0),
        ("/version", json!(0), true, 0),
        ("/version", json!("1"), true, 0),
        ("/attempts/first/day", json!("yesterday"), false, 1),
        ("/attempts/first/steps", json!(null), false, 1),
        ("/attempts/first", json!([]), false, 1),
        ("/learner", json!("BCDF-GHJC"), false, 0),
        ("/lesson", json!("T9"), false, 0),
        ("/attempts", json!(null), false, 0),
    ] {
        let mut damaged = whole.clone();
        if later > 0 {
            let first = damaged["attempts"]["first"].clone();
            damaged["attempts"]["later"] = json!([first, { "day": "never" }]);
        }
        *damaged.pointer_mut(place).expect("a known place") = value;
        let store = with(damaged.to_string().as_bytes());
        let resumed = resumed(&store, lesson);
        assert!(
            matches!(resumed.notes.as_slice(), [Note::Damaged { attempts, .. }] if *attempts == usize::from(first) + later),
            "{place}: {:?}",
            resumed.notes
        );
        let attempts = store.notebook(&learner()).attempts("T1");
        assert_eq!(
            (attempts.first.is_some(), attempts.later.len()),
            (first, later),
            "{place}"
        );
        if later > 0 {
            // A try after a lost first one is no first try.
            let mut notebook = store.notebook(&learner());
            play(&mut notebook, lesson, true, day(5));
            let attempts = notebook.attempts("T1");
            assert_eq!(
                (attempts.first.is_some(), attempts.later.len()),
                (false, later + 1)
            );
        }
    }
}

#[test]
fn another_revision_is_kept_aside_and_its_attempts_stay() {
    let (lesson, ..) = sample();
    let bytes = whole();
    let store = with(&bytes);
    let newer = good(&SAMPLE.replace("revision = 3", "revision = 4"));
    let found = resumed(&store, &newer);
    let [
        note @ Note::OtherRevision {
            saved: 3,
            now: 4,
            kept_as,
            ..
        },
    ] = found.notes.as_slice()
    else {
        panic!("{:?}", found.notes)
    };
    assert!(note.to_string().contains("revision 3, now 4"), "{note}");
    assert!(
        kept_as.ends_with("lesson-T1.revision-3.json"),
        "{kept_as:?}"
    );
    assert_eq!(fs::read(kept_as).expect("a copy"), bytes);
    assert_eq!(found.progress, Progress::new(&newer));
    let mut notebook = store.notebook(&learner());
    play(&mut notebook, &newer, true, day(5));
    let revisions: Vec<u32> = notebook
        .attempts("T1")
        .all()
        .map(|attempt| attempt.revision)
        .collect();
    assert_eq!(revisions, [3, 4]);
    drop(notebook);
    // Back to the old revision: the names do not collide, nothing is written over.
    assert_eq!(resumed(&store, lesson).notes.len(), 1);
    assert_eq!(resumed(&store, &newer).notes.len(), 0);
    let found = names(&store);
    assert!(
        found.len() == 3 && found[2] == "lesson-T1.revision-4.json",
        "{found:?}"
    );
}

#[test]
fn a_file_of_a_newer_program_stays_as_it_is() {
    let (lesson, states, _) = sample();
    let text = String::from_utf8(whole()).expect("text");
    let newer = text.replacen("\"version\":1", "\"version\":2", 1);
    assert_ne!(text, newer);
    let store = with(newer.as_bytes());
    let mut notebook = store.notebook(&learner());
    let resumed = notebook.resume(lesson);
    assert!(matches!(
        resumed.trouble,
        Some(StoreError::Newer {
            version: 2,
            known: 1,
            ..
        })
    ));
    for state in states {
        let trouble = notebook
            .save(lesson, state, day(0))
            .expect_err("not ours to write");
        assert!(
            trouble.to_string().contains("use the newer program"),
            "{trouble}"
        );
    }
    // The lesson went on all the same.
    assert_eq!(
        &notebook.resume(lesson).progress,
        states.last().expect("a state")
    );
    assert_eq!(fs::read_to_string(file(&store)).expect("a file"), newer);
    assert_eq!(names(&store), ["lesson-T1.json"]);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 128, ..ProptestConfig::default() })]

    /// Whatever a bad disk makes of the file: it is taken up, or all its bytes are set aside.
    #[test]
    fn no_garbage_stops_a_lesson_or_gets_lost(
        places in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..6)
    ) {
        let (lesson, states, _) = sample();
        let mut bytes = whole();
        for (place, byte) in places {
            let place = place.index(bytes.len());
            bytes[place] = byte;
        }
        let store = with(&bytes);
        let mut notebook = store.notebook(&learner());
        let resumed = notebook.resume(lesson);
        for note in &resumed.notes {
            let (Note::Damaged { kept_as, .. } | Note::OtherRevision { kept_as, .. }) = note;
            prop_assert_eq!(fs::read(kept_as).expect("a copy"), bytes.clone());
        }
        let newer = matches!(resumed.trouble, Some(StoreError::Newer { .. }));
        prop_assert!(newer || resumed.trouble.is_none(), "{:?}", resumed.trouble);
        let kept = notebook.save(lesson, &states[3], day(9));
        prop_assert_eq!(kept.is_ok(), !newer);
        prop_assert!(length(&file(&store)) > 0);
        drop(notebook);
        fs::remove_dir_all(store.folder()).expect("a folder");
    }
}
