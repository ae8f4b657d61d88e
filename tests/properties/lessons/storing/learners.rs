//! Learners are codes: one window each, everything handed out when asked for, everything deleted when asked for.

use std::fs;

use ashlane_lessons::{
    engine::{NOTICE_LONG, Progress},
    store::{Learner, PRIVACY, Store, StoreError, due},
};
use serde_json::Value as Json;

use super::{day, file, learner, names, play, resumed, sample, saved, silently, store};

#[test]
fn codes_are_listed_and_other_folders_are_not() {
    let store = store();
    assert!(store.learners().is_empty());
    let mut made: Vec<Learner> = (0..20)
        .map(|_| {
            let learner = store.new_learner().expect("a code");
            drop(store.notebook(&learner));
            learner
        })
        .collect();
    made.sort();
    for other in ["Müller", "bcdf-ghjb", "BCDFGHJB"] {
        fs::create_dir(store.folder().join("learners").join(other)).expect("a folder");
    }
    assert_eq!(store.learners(), made);
    let unknown: Learner = learner();
    let trouble = store.records(&unknown).expect_err("nothing is kept");
    assert!(
        trouble
            .to_string()
            .contains("nothing is kept of learner BCDF-GHJB"),
        "{trouble}"
    );
}

#[test]
fn a_second_window_with_the_same_learner_is_told_and_spoils_nothing() {
    let (lesson, states, _) = sample();
    let store = store();
    let mut first = store.notebook(&learner());
    saved(&mut first, lesson, &states[2], day(0));
    let mut second = store.notebook(&learner());
    assert!(matches!(second.trouble(), Some(StoreError::InUse { .. })));
    assert_eq!(second.resume(lesson).progress, states[2]);
    let trouble = second.save(lesson, &states[5], day(0)).expect_err("in use");
    assert!(
        trouble.to_string().contains("open in another window"),
        "{trouble}"
    );
    let trouble = second.delete().expect_err("in use");
    assert!(matches!(trouble, StoreError::InUse { .. }));
    saved(&mut first, lesson, &states[3], day(0));
    drop(first);
    assert_eq!(silently(&store, lesson), states[3]);
    assert!(
        store.notebook(&learner()).trouble().is_none(),
        "let go of at its end"
    );
}

#[test]
fn an_export_has_everything_of_the_learner_and_the_notice() {
    let (lesson, states, _) = sample();
    let store = store();
    let mut notebook = store.notebook(&learner());
    play(&mut notebook, lesson, false, day(0));
    saved(&mut notebook, lesson, &states[4], day(2));
    drop(notebook);
    // One file that was damaged, and one that is.
    let whole = fs::read_to_string(file(&store)).expect("a file");
    fs::write(file(&store), &whole[..whole.len() / 2]).expect("a file");
    assert_eq!(resumed(&store, lesson).notes.len(), 1);
    fs::write(file(&store).with_file_name("lesson-T9.json"), "half of").expect("a file");
    let mut notebook = store.notebook(&learner());
    play(&mut notebook, lesson, true, day(3));
    let path = store.folder().join("export.json");
    notebook.export_to(&path).expect("an export");
    let text = fs::read_to_string(&path).expect("the export");
    let export: Json = serde_json::from_str(&text).expect("one object");
    assert_eq!(export["notice"], NOTICE_LONG);
    assert_eq!(export["learner"], "BCDF-GHJB");
    assert_eq!(export["lessons"][0]["lesson"], "T1");
    assert_eq!(
        export["lessons"][0]["attempts"]["first"]["day"],
        day(3).to_string()
    );
    let kept: Progress =
        serde_json::from_value(export["lessons"][0]["progress"].clone()).expect("a progress");
    assert!(kept.is_finished(lesson));
    let others: Vec<(&str, &str)> = export["other_files"]
        .as_array()
        .expect("a list")
        .iter()
        .map(|other| {
            (
                other["name"].as_str().expect("a name"),
                other["text"].as_str().expect("text"),
            )
        })
        .collect();
    let half = &whole[..whole.len() / 2];
    assert_eq!(
        others,
        [
            ("lesson-T1.damaged.json", half),
            ("lesson-T9.json", "half of")
        ]
    );
    let nowhere = notebook
        .export_to(&path.join("below/a/file.json"))
        .expect_err("no folder");
    assert!(
        nowhere.to_string().contains("nothing was exported"),
        "{nowhere}"
    );
}

#[test]
fn deleting_takes_everything_of_this_learner_and_nothing_else() {
    let (lesson, ..) = sample();
    let store = store();
    let other: Learner = store.new_learner().expect("a code");
    for learner in [&learner(), &other] {
        play(&mut store.notebook(learner), lesson, true, day(0));
    }
    let beside = store.folder().join("notes of the trainer.txt");
    fs::write(&beside, "keep").expect("a file");
    // A link to something else goes, what it points to stays.
    #[cfg(unix)]
    std::os::unix::fs::symlink(&beside, file(&store).with_file_name("link")).expect("a link");
    store.notebook(&learner()).delete().expect("all of it");
    assert!(!file(&store).parent().expect("a folder").exists());
    assert_eq!(store.learners(), std::slice::from_ref(&other));
    assert_eq!(store.notebook(&other).attempts("T1").count(), 1);
    assert_eq!(fs::read_to_string(&beside).expect("a file"), "keep");
    // Gone is gone: nothing of it comes back from memory.
    assert_eq!(silently(&store, lesson), Progress::new(lesson));
    assert!(names(&store).is_empty());
}

#[test]
fn what_is_due_is_the_same_read_from_outside() {
    let (lesson, ..) = sample();
    let store = store();
    let mut notebook = store.notebook(&learner());
    play(&mut notebook, lesson, false, day(0));
    let (records, troubles) = store.records(&learner()).expect("a learner");
    assert!(troubles.is_empty());
    assert_eq!(due(&records, day(1)), notebook.due(day(1)));
    let steps: Vec<&str> = lesson
        .segments
        .iter()
        .map(|segment| segment.id.as_str())
        .collect();
    assert_eq!(notebook.due(day(1))[0].wrong_steps, steps);
}

#[test]
fn the_usual_folder_is_ours_and_another_one_can_be_chosen() {
    let usual = Store::usual().expect("a home folder");
    assert!(usual.folder().ends_with("ashlane") && usual.folder().is_absolute());
    let own = std::path::Path::new("/some/where");
    assert_eq!(Store::chosen(Some(own)).expect("a folder").folder(), own);
    assert_eq!(Store::chosen(None).expect("a folder"), usual);
    assert_eq!(PRIVACY.lines().count(), 5, "training.md J18: five lines");
}
