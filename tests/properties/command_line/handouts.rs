//! Handouts: what is left to do is only what can be done, and nothing that is there is written over unasked.

use ashlane_lessons::{
    command_line::{ELEVATION_FILES, HandoutWish, Outcome, lesson_files},
    engine::GLOSSARY,
};

use super::{ashlane, file, words};

fn wish(line: &str) -> HandoutWish {
    let ran = words(line);
    match ran.outcome {
        Outcome::Handout(wish) => *wish,
        _ => panic!("{line}: {ran:?}"),
    }
}

#[test]
fn a_lesson_the_elevation_or_all_of_them_can_be_asked_for() {
    let one = wish("handout l5 --out handouts-of-a-test");
    assert_eq!(one.lessons.len(), 1);
    assert_eq!(lesson_files(&one.lessons[0])[0], "L5-handout.html");
    assert!(one.elevation.is_none());
    let machine = wish("handout elevation --sheet cement-kiln --out handouts-of-a-test");
    assert!(machine.lessons.is_empty());
    assert!(
        machine
            .elevation
            .is_some_and(|opened| opened.name.contains("cement"))
    );
    let all = wish("handout --all --out handouts-of-a-test");
    let catalog = ashlane_lessons::catalog::LESSONS.len();
    assert_eq!(
        (all.lessons.len(), all.elevation.is_some()),
        (catalog, true)
    );
}

#[test]
fn what_is_there_is_written_over_only_when_told() {
    let there = file("L5-key.html", "a page of the trainer\u{2019}s own");
    let folder = there.parent().expect("a folder");
    let ask = |more: &[&str]| {
        let line = ["handout", "L5", "--out", &folder.to_string_lossy()].map(str::to_owned);
        ashlane(
            line.into_iter()
                .chain(more.iter().map(|word| (*word).to_owned())),
        )
    };
    let refused = ask(&[]);
    assert_eq!(refused.code(), 2);
    for part in ["L5-key.html", "there already", "--overwrite"] {
        assert!(refused.err.contains(part), "{}", refused.err);
    }
    let told = ask(&["--overwrite"]);
    assert!(matches!(told.outcome, Outcome::Handout(_)), "{told:?}");
    let text = std::fs::read_to_string(&there).expect("the page");
    assert!(
        text.starts_with("a page"),
        "nothing is written before it is made"
    );
    // Another name in the same folder is free.
    let other = ashlane(["handout", "elevation", "--out", &folder.to_string_lossy()]);
    assert!(matches!(other.outcome, Outcome::Handout(_)), "{other:?}");
    assert!(!folder.join(ELEVATION_FILES[0]).exists());
}

#[test]
fn no_meaning_of_a_word_reads_like_a_step_to_follow() {
    for row in GLOSSARY {
        for order in ["first ", "then ", "make sure", "you must"] {
            assert!(!row.meaning.to_lowercase().contains(order), "{}", row.term);
        }
    }
}
