//! Nothing that a lesson file may contain makes the reader panic, hang or stay silent.

use ashlane_lessons::{
    catalog::LESSONS,
    engine::{Progress, read_lesson},
};
use proptest::prelude::*;

use crate::clear_errors::are_clear;

use super::{NAME, SAMPLE};

/// Either a lesson that can be begun, or errors that name the file.
fn survives(text: &str) -> Result<(), TestCaseError> {
    match read_lesson(NAME, text) {
        Ok(lesson) => {
            let progress = Progress::new(&lesson);
            prop_assert!(progress.card(&lesson).is_some());
            for step in 0..lesson.steps() {
                let question = lesson.question(step);
                prop_assert!(question.judge(&question.model_answer()).is_ok());
            }
        }
        Err(errors) => are_clear(&errors, NAME)?,
    }
    Ok(())
}

/// One change that an author, an editor or a bad disk may make.
#[derive(Clone, Debug)]
enum Change {
    Delete(prop::sample::Index, usize),
    Insert(prop::sample::Index, String),
    SwapLines(prop::sample::Index, prop::sample::Index),
    SwapValues(prop::sample::Index, prop::sample::Index),
    RepeatLine(prop::sample::Index),
}

fn any_change() -> impl Strategy<Value = Change> {
    type At = prop::sample::Index;
    prop_oneof![
        (any::<At>(), 1..30usize).prop_map(|(at, length)| Change::Delete(at, length)),
        (any::<At>(), "[\\[\\]{}=\"'#.,\n0-9a-z%µ -]{1,6}")
            .prop_map(|(at, text)| Change::Insert(at, text)),
        (any::<At>(), any::<At>()).prop_map(|(one, other)| Change::SwapLines(one, other)),
        (any::<At>(), any::<At>()).prop_map(|(one, other)| Change::SwapValues(one, other)),
        any::<At>().prop_map(Change::RepeatLine),
    ]
}

fn apply(text: &str, change: &Change) -> String {
    let mut signs: Vec<char> = text.chars().collect();
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    if signs.is_empty() || lines.is_empty() {
        return text.to_owned();
    }
    match change {
        Change::Delete(at, length) => {
            let start = at.index(signs.len());
            let end = signs.len().min(start + length);
            signs.drain(start..end);
            signs.into_iter().collect()
        }
        Change::Insert(at, more) => {
            let start = at.index(signs.len());
            signs.splice(start..start, more.chars());
            signs.into_iter().collect()
        }
        Change::SwapLines(one, other) => {
            let (one, other) = (one.index(lines.len()), other.index(lines.len()));
            lines.swap(one, other);
            lines.join("\n")
        }
        Change::SwapValues(one, other) => {
            let keyed: Vec<usize> = (0..lines.len())
                .filter(|&line| lines[line].contains(" = "))
                .collect();
            if keyed.is_empty() {
                return text.to_owned();
            }
            let (one, other) = (
                keyed[one.index(keyed.len())],
                keyed[other.index(keyed.len())],
            );
            let split = |line: &str| {
                let (key, value) = line.split_once(" = ").unwrap_or((line, ""));
                (key.to_owned(), value.to_owned())
            };
            let ((key, value), (other_key, other_value)) =
                (split(&lines[one]), split(&lines[other]));
            lines[one] = format!("{key} = {other_value}");
            lines[other] = format!("{other_key} = {value}");
            lines.join("\n")
        }
        Change::RepeatLine(at) => {
            let line = at.index(lines.len());
            lines.insert(line, lines[line].clone());
            lines.join("\n")
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn a_mutated_lesson_never_panics(
        from_catalog in 0..=LESSONS.len(),
        changes in prop::collection::vec(any_change(), 1..6),
    ) {
        let start = LESSONS.get(from_catalog).map_or(SAMPLE, |(_, text)| *text);
        let text = changes.iter().fold(start.to_owned(), |text, change| apply(&text, change));
        survives(&text)?;
    }

    #[test]
    fn any_text_never_panics(text in "\\PC{0,400}") {
        survives(&text)?;
    }
}
