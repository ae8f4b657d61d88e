//! A lesson can be left and taken up again at any point, and nothing damaged is taken up.

use ashlane_lessons::engine::{Command, Lesson, Phase, Progress, ResumeError};
use serde_json::{Value as Json, json};

use super::{SAMPLE, good, measured, model, taken};

/// Saves and takes up again.
#[track_caller]
fn again(progress: &Progress, lesson: &Lesson) -> Progress {
    let saved = serde_json::to_string(progress).expect("plain data");
    let read: Progress = serde_json::from_str(&saved).expect("what was saved");
    read.resumed(lesson)
        .unwrap_or_else(|error| panic!("{error}\n{saved}"))
}

/// Every state on the way through the sample.
pub(super) fn way_through(lesson: &Lesson) -> Vec<Progress> {
    let mut progress = Progress::new(lesson);
    let mut states = vec![progress.clone()];
    for step in 0..lesson.steps() {
        let answer = model(lesson, &progress);
        for command in [answer, Command::Lock, Command::Pause, Command::Resume] {
            taken(&mut progress, lesson, command);
            states.push(progress.clone());
        }
        if let Some(segment) = lesson.segments.get(step) {
            let mut halfway = progress.conditions().clone();
            halfway.gas.flow_m3_s *= 1.1;
            assert!(segment.free.iter().any(|key| key.path == "gas.flow"));
            taken(&mut progress, lesson, Command::Change(Box::new(halfway)));
            states.push(progress.clone());
            measured(&mut progress, lesson);
            states.push(progress.clone());
        }
        taken(&mut progress, lesson, Command::Next);
        states.push(progress.clone());
    }
    assert_eq!(progress.phase(lesson), Phase::Done);
    assert!(progress.card(lesson).is_none());
    taken(&mut progress, lesson, Command::Back);
    states.push(progress);
    states
}

#[test]
fn every_state_on_the_way_comes_back_as_it_was() {
    let lesson = good(SAMPLE);
    for state in way_through(&lesson) {
        assert_eq!(again(&state, &lesson), state);
    }
}

#[test]
fn another_lesson_or_revision_is_not_taken_up() {
    let lesson = good(SAMPLE);
    let progress = Progress::new(&lesson);
    let newer = good(&SAMPLE.replace("revision = 3", "revision = 4"));
    assert_eq!(
        progress.clone().resumed(&newer),
        Err(ResumeError::OtherRevision { saved: 3, now: 4 })
    );
    let other = good(&SAMPLE.replace("id = \"T1\"", "id = \"T2\""));
    assert_eq!(
        progress.resumed(&other),
        Err(ResumeError::OtherLesson("T1".to_owned()))
    );
}

#[test]
fn what_no_way_leads_to_is_called_damaged() {
    let lesson = good(SAMPLE);
    let states = way_through(&lesson);
    let finished = serde_json::to_value(states.last()).expect("plain data");
    let fresh = serde_json::to_value(states.first()).expect("plain data");
    let reading = finished["steps"][0]["reading"].clone();
    assert!(reading.is_object());
    let damages: [(&Json, &str, Json); 9] = [
        (&fresh, "/at", json!(1)),
        (&fresh, "/at", json!(99)),
        (&fresh, "/steps", json!([])),
        (&fresh, "/steps/0/locked", json!(true)),
        (&fresh, "/steps/0/reading", reading.clone()),
        (&fresh, "/steps/1/locked", json!(true)),
        (&finished, "/steps/0/reading", json!(null)),
        (&finished, "/steps/0/reading/segment", json!("match")),
        (
            &finished,
            "/steps/0/given/answer",
            json!({ "choice": "right" }),
        ),
    ];
    for (state, place, value) in damages {
        let mut damaged = state.clone();
        *damaged.pointer_mut(place).expect("a known place") = value.clone();
        let read: Progress = serde_json::from_value(damaged).expect("the right shape");
        assert_eq!(
            read.resumed(&lesson),
            Err(ResumeError::Damaged),
            "{place} {value}"
        );
    }
}

#[test]
fn controls_that_are_not_free_come_back_as_the_lesson_has_them() {
    let lesson = good(SAMPLE);
    let states = way_through(&lesson);
    // After the lock and a change of the free flow.
    let observing = states
        .iter()
        .find(|state| {
            state.phase(&lesson) == Phase::Observe
                && state.conditions() != &lesson.segments[0].start
        })
        .expect("a state in the middle");
    let mut forged = serde_json::to_value(observing).expect("plain data");
    forged["conditions"]["collector"]["plate_height_m"] = json!(25.0);
    let read: Progress = serde_json::from_value(forged).expect("the right shape");
    let own = read.resumed(&lesson).expect("only the controls differ");
    assert_eq!(own.conditions(), &lesson.segments[0].start);
}
