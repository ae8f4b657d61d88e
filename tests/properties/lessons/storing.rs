//! What a learner did comes back from the disk as it was, whatever happens to program, file, folder or disk.

mod damaged;
mod full;
mod killed;
mod learners;

use std::{
    fs,
    path::{Path, PathBuf},
    sync::{
        OnceLock,
        atomic::{AtomicU32, Ordering},
    },
};

use ashlane_lessons::{
    engine::{Answer, Command, Confidence, Given, Lesson, Progress, Reading},
    store::{Day, Learner, Notebook, Resumed, Store},
};
use proptest::prelude::*;

use super::{SAMPLE, good, resuming::way_through};

/// A data folder for one test.
fn store() -> Store {
    static NUMBER: AtomicU32 = AtomicU32::new(0);
    let number = NUMBER.fetch_add(1, Ordering::Relaxed);
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR"))
        .join(format!("store-{}-{number}", std::process::id()));
    drop(fs::remove_dir_all(&folder));
    Store::at(folder)
}

/// The learner of the tests.
fn learner() -> Learner {
    "BCDF-GHJB".parse().expect("a code")
}

fn day(number: u32) -> Day {
    Day::new(2026, 3, 1).expect("a day").plus(number)
}

/// The file of the sample lesson.
fn file(store: &Store) -> PathBuf {
    store.folder().join("learners/BCDF-GHJB/lesson-T1.json")
}

/// Names in the folder of the learner, without the lock.
fn names(store: &Store) -> Vec<String> {
    let folder = file(store).parent().expect("a folder").to_owned();
    let mut names: Vec<String> = fs::read_dir(folder)
        .expect("a folder")
        .map(|entry| {
            entry
                .expect("an entry")
                .file_name()
                .into_string()
                .expect("a name")
        })
        .filter(|name| name != "in-use")
        .collect();
    names.sort();
    names
}

/// Opens the notebook anew and takes the lesson up.
fn resumed(store: &Store, lesson: &Lesson) -> Resumed {
    store.notebook(&learner()).resume(lesson)
}

/// A lesson taken up without a word.
#[track_caller]
fn silently(store: &Store, lesson: &Lesson) -> Progress {
    let resumed = resumed(store, lesson);
    assert!(resumed.notes.is_empty(), "{:?}", resumed.notes);
    assert!(resumed.trouble.is_none(), "{:?}", resumed.trouble);
    resumed.progress
}

#[track_caller]
fn saved(notebook: &mut Notebook, lesson: &Lesson, progress: &Progress, today: Day) {
    if let Err(trouble) = notebook.save(lesson, progress, today) {
        panic!("{trouble}");
    }
}

/// The sample, every state of a way through it, and the readings of its segments.
fn sample() -> &'static (Lesson, Vec<Progress>, Vec<Reading>) {
    static SAMPLED: OnceLock<(Lesson, Vec<Progress>, Vec<Reading>)> = OnceLock::new();
    SAMPLED.get_or_init(|| {
        let lesson = good(SAMPLE);
        let states = way_through(&lesson);
        let mut readings: Vec<Reading> = Vec::new();
        for state in &states {
            let reading = state.card(&lesson).and_then(|card| card.reading);
            let known = |one: &Reading| readings.iter().any(|two| two.segment == one.segment);
            readings.extend(reading.filter(|reading| !known(reading)));
        }
        assert_eq!(readings.len(), lesson.segments.len());
        (lesson, states, readings)
    })
}

#[test]
fn every_state_comes_back_from_the_disk() {
    let (lesson, states, _) = sample();
    let store = store();
    for state in states {
        let mut notebook = store.notebook(&learner());
        saved(&mut notebook, lesson, state, day(0));
        drop(notebook);
        assert_eq!(&silently(&store, lesson), state);
        assert_eq!(names(&store), ["lesson-T1.json"]);
    }
    // The whole way is one attempt, and looking back at its end is no second one.
    let attempts = store.notebook(&learner()).attempts("T1");
    assert_eq!(attempts.count(), 1, "{attempts:?}");
    let first = attempts.first.expect("the first");
    assert!(first.finished && first.day == day(0) && first.revision == 3);
    let steps: Vec<(&str, Option<bool>)> = first
        .steps
        .iter()
        .map(|step| (step.step.as_str(), step.right))
        .collect();
    // Short text is not judged.
    assert_eq!(steps.last(), Some(&("transfer", None)));
    assert!(
        steps[..steps.len() - 1]
            .iter()
            .all(|(_, right)| *right == Some(true))
    );
    let tallies: Vec<(&str, usize, usize)> = first
        .competencies
        .iter()
        .map(|tally| (tally.code.as_str(), tally.right, tally.wrong))
        .collect();
    let right = lesson.segments.len();
    assert_eq!(tallies, [("K7", right, 0), ("A6", right, 0)]);
}

/// What a learner or the machine may do next.
#[derive(Clone, Debug)]
enum Deed {
    Answer(usize),
    Lock,
    DoTask,
    Measure,
    Next,
    Back,
    Restart,
    CloseAndOpen,
}

fn deed() -> impl Strategy<Value = Deed> {
    prop_oneof![
        4 => (0..3usize).prop_map(Deed::Answer),
        4 => Just(Deed::Lock),
        3 => Just(Deed::DoTask),
        4 => Just(Deed::Measure),
        4 => Just(Deed::Next),
        1 => Just(Deed::Back),
        1 => Just(Deed::Restart),
        2 => Just(Deed::CloseAndOpen),
    ]
}

fn command(deed: &Deed, lesson: &Lesson, progress: &Progress) -> Option<Command> {
    let (_, _, readings) = sample();
    let at = progress.at();
    Some(match deed {
        Deed::Answer(option) => {
            let question = lesson.question(at);
            let answer = question
                .answer_in(*option)
                .unwrap_or_else(|| Answer::Text("because".to_owned()));
            Command::Answer(Given {
                answer,
                confidence: Some(Confidence::Guess),
            })
        }
        Deed::Lock => Command::Lock,
        Deed::DoTask => Command::Change(Box::new(lesson.segments.get(at)?.target.clone())),
        Deed::Measure => Command::Measured(Box::new(readings.get(at)?.clone())),
        Deed::Next => Command::Next,
        Deed::Back => Command::Back,
        Deed::Restart => Command::Restart,
        Deed::CloseAndOpen => return None,
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    /// Saved after every command and opened anew at any moment: the same place, and every try counted once.
    #[test]
    fn whatever_is_done_nothing_is_lost_or_counted_twice(
        deeds in prop::collection::vec(deed(), 1..160)
    ) {
        let (lesson, _, _) = sample();
        let store = store();
        let mut notebook = store.notebook(&learner());
        let mut progress = notebook.resume(lesson).progress;
        let (mut tries, mut counted) = (Vec::new(), false);
        for (number, deed) in deeds.iter().enumerate() {
            let today = day(number as u32);
            let before = progress.clone();
            match command(deed, lesson, &progress) {
                Some(command) => drop(progress.apply(lesson, command)),
                None => {
                    drop(notebook);
                    notebook = store.notebook(&learner());
                    let resumed = notebook.resume(lesson);
                    prop_assert!(resumed.notes.is_empty() && resumed.trouble.is_none());
                    prop_assert_eq!(&resumed.progress, &progress);
                }
            }
            if matches!(deed, Deed::Restart) {
                if before.locked_steps() > 0 && !counted {
                    tries.push(false);
                }
                counted = false;
            }
            if progress.is_finished(lesson) && !counted {
                tries.push(true);
                counted = true;
            }
            prop_assert!(notebook.save(lesson, &progress, today).is_ok());
        }
        let attempts = notebook.attempts("T1");
        let found: Vec<bool> = attempts.all().map(|attempt| attempt.finished).collect();
        prop_assert_eq!(found, tries.clone());
        prop_assert_eq!(attempts.first.is_some(), !tries.is_empty());
        drop(notebook);
        fs::remove_dir_all(store.folder()).expect("a folder");
    }
}

/// Plays the sample to its end, all right or all wrong.
fn play(notebook: &mut Notebook, lesson: &Lesson, right: bool, today: Day) -> Progress {
    let (_, _, readings) = sample();
    let mut progress = Progress::new(lesson);
    let mut apply = |progress: &mut Progress, command: Command| {
        super::taken(progress, lesson, command);
        saved(notebook, lesson, progress, today);
    };
    for step in 0..lesson.steps() {
        let question = lesson.question(step);
        let wrong = (0..question.options.len()).find(|&option| !question.is_right(option));
        let wrong = wrong.and_then(|option| question.answer_in(option));
        let answer = wrong
            .filter(|_| !right)
            .unwrap_or_else(|| question.model_answer());
        let confidence = Some(Confidence::Sure);
        apply(&mut progress, Command::Answer(Given { answer, confidence }));
        apply(&mut progress, Command::Lock);
        if let Some((segment, reading)) = lesson.segments.get(step).zip(readings.get(step)) {
            apply(
                &mut progress,
                Command::Change(Box::new(segment.target.clone())),
            );
            apply(&mut progress, Command::Measured(Box::new(reading.clone())));
        }
        apply(&mut progress, Command::Next);
    }
    progress
}

#[test]
fn the_first_try_stands_apart_from_the_second() {
    let (lesson, states, _) = sample();
    let store = store();
    let mut notebook = store.notebook(&learner());
    play(&mut notebook, lesson, false, day(0));
    // Broken off after one prediction, on the next day.
    let locked = states
        .iter()
        .find(|state| state.locked_steps() == 1)
        .expect("a state");
    saved(&mut notebook, lesson, locked, day(1));
    play(&mut notebook, lesson, true, day(9));
    drop(notebook);
    let notebook = store.notebook(&learner());
    let attempts = notebook.attempts("T1");
    let first = attempts.first.as_ref().expect("a first");
    assert_eq!(first.wrong_steps().count(), lesson.segments.len());
    assert!(first.steps[0].misconception.is_some(), "{first:?}");
    assert!(
        first
            .competencies
            .iter()
            .all(|tally| tally.right == 0 && tally.wrong > 0)
    );
    let later: Vec<(Day, bool, usize)> = attempts
        .later
        .iter()
        .map(|attempt| (attempt.day, attempt.finished, attempt.wrong_steps().count()))
        .collect();
    assert_eq!(later, [(day(1), false, 0), (day(9), true, 0)]);
    // Due a day after the first, done on the ninth day: seven days more.
    assert!(notebook.due(day(15)).is_empty());
    let due = notebook.due(day(16));
    assert_eq!((due[0].lesson.as_str(), due[0].since), ("T1", day(16)));
}

/// Length of a file.
fn length(path: &Path) -> u64 {
    fs::metadata(path).map_or(0, |data| data.len())
}
