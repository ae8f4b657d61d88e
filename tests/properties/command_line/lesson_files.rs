//! `lesson new`, and `lesson list` for a learner.

use std::fs;

use ashlane_lessons::{
    catalog,
    engine::{Command, Confidence, Given, Progress},
    store::{Day, Learner, Store},
};
use serde_json::{Value as Json, json};

use super::{ashlane, file, words};

#[test]
fn a_new_lesson_passes_its_check_and_plays_to_its_end() {
    let folder = file("beside.txt", "").with_file_name("");
    let path = folder.join("night.toml").display().to_string();
    let ran = words(&format!("lesson new night-shift --out {path}"));
    assert_eq!(ran.code(), 0, "{ran:?}");
    assert!(
        ran.out.contains(&format!("ashlane lesson check {path}")),
        "{}",
        ran.out
    );
    let text = fs::read_to_string(&path).expect("a lesson");
    assert!(text.contains("id = \"night-shift\""), "{text}");
    let ran = words(&format!("lesson check {path}"));
    assert_eq!(ran.code(), 0, "{ran:?}");
    assert!(
        ran.out.contains("fine: night-shift A lesson of my own"),
        "{}",
        ran.out
    );
    let ran = words(&format!("lesson run {path}"));
    assert_eq!(ran.code(), 0, "{ran:?}");
    assert!(ran.out.contains("2 of 2 checks agree"), "{}", ran.out);
    // What is there is never written over.
    fs::write(&path, "mine").expect("a file");
    let ran = words(&format!("lesson new night-shift --out {path}"));
    assert_eq!(ran.code(), 2, "{ran:?}");
    assert!(
        ran.err
            .contains("night.toml: there is a file of this name already"),
        "{}",
        ran.err
    );
    assert_eq!(fs::read_to_string(&path).expect("a file"), "mine");
}

#[test]
fn without_another_place_it_is_written_into_this_folder() {
    let name = format!("lesson-of-a-test-{}", std::process::id());
    let ran = words(&format!("lesson new {name}"));
    let path = format!("{name}.toml");
    let written = fs::read_to_string(&path);
    fs::remove_file(&path).expect("it was there");
    assert_eq!(ran.code(), 0, "{ran:?}");
    assert!(
        written
            .expect("a text")
            .contains(&format!("lesson check {path}"))
    );
}

/// A folder in which a learner has begun L5, done L6 and has L7 to do again.
fn class() -> String {
    let folder = file("beside.txt", "").with_file_name("class");
    let store = Store::at(&folder);
    let learner: Learner = "BCDF-GHJB".parse().expect("a code");
    let mut notebook = store.notebook(&learner);
    let today: Day = "2026-05-04".parse().expect("a day");
    let lessons = catalog::lessons().expect("sound lessons");
    for id in ["L4", "L5", "L6", "L7"] {
        let lesson = catalog::find(&lessons, id).expect("a lesson");
        let mut progress = Progress::new(lesson);
        if id == "L5" {
            let answer = lesson.question(0).model_answer();
            let confidence = Some(Confidence::Sure);
            for command in [Command::Answer(Given { answer, confidence }), Command::Lock] {
                progress.apply(lesson, command).expect("taken");
            }
        }
        notebook.save(lesson, &progress, today).expect("kept");
    }
    drop(notebook);
    for (id, day) in [("L6", "2026-05-04"), ("L7", "2026-05-01")] {
        let path = folder.join(format!("learners/BCDF-GHJB/lesson-{id}.json"));
        let text = fs::read(&path).expect("a record");
        let mut record: Json = serde_json::from_slice(&text).expect("a record");
        record["attempts"]["first"] = json!({
            "day": day, "revision": 1, "finished": true, "steps": [], "competencies": []
        });
        fs::write(&path, record.to_string()).expect("a record");
    }
    folder.display().to_string()
}

#[test]
fn the_list_says_how_a_learner_stands() {
    let folder = class();
    let line = format!("lesson list --learner bcdfghjb --data {folder}");
    let ran = words(&format!("{line} --on 2026-05-04"));
    assert_eq!((ran.code(), ran.err.as_str()), (0, ""), "{ran:?}");
    assert!(
        ran.out.starts_with("Learner BCDF-GHJB on 2026-05-04\n"),
        "{}",
        ran.out
    );
    let stands = |id: &str| {
        let row = ran
            .out
            .lines()
            .find(|row| row.starts_with(&format!("{id} ")));
        row.unwrap_or_else(|| panic!("no {id} in\n{}", ran.out))
            .to_owned()
    };
    assert!(stands("L5").ends_with("begun"), "{}", ran.out);
    assert!(
        stands("L6").ends_with("done, again from 2026-05-05"),
        "{}",
        ran.out
    );
    assert!(
        stands("L7").ends_with("due since 2026-05-02"),
        "{}",
        ran.out
    );
    for none in ["L3", "L4"] {
        assert!(
            stands(none).ends_with(|last: char| last.is_ascii_digit()),
            "{}",
            ran.out
        );
    }
    // Without a day it is today, which is later than both.
    let ran = words(&line);
    assert_eq!(ran.out.matches("due since").count(), 2, "{}", ran.out);
    // Looking changes nothing, also where a file is damaged.
    let path = format!("{folder}/learners/BCDF-GHJB/lesson-L7.json");
    fs::write(&path, "half of").expect("a file");
    let ran = ashlane(line.split(' '));
    assert_eq!(ran.code(), 0);
    assert!(
        ran.err.contains("lesson-L7.json: this file is damaged"),
        "{}",
        ran.err
    );
    assert_eq!(fs::read_to_string(&path).expect("a file"), "half of");
}
