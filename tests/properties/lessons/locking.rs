//! No result can be seen before its prediction is locked, and a locked prediction stays.

use ashlane_lessons::engine::{Answer, Command, Confidence, Given, Phase, Progress, Refused};

use super::{SAMPLE, good, measured, model, taken};

#[test]
fn nothing_of_the_result_is_out_before_the_prediction_is_locked() {
    let lesson = good(SAMPLE);
    let mut progress = Progress::new(&lesson);
    let target = Box::new(lesson.segments[0].target.clone());
    for answered in [false, true] {
        if answered {
            let answer = model(&lesson, &progress);
            taken(&mut progress, &lesson, answer);
        }
        let card = progress.card(&lesson).expect("a step");
        assert_eq!(card.phase, Phase::Predict);
        assert!(card.reading.is_none() && card.explanation.is_none());
        assert!(card.task.is_none() && card.targets.is_empty() && card.free.is_empty());
        assert!(!card.can_go_on);
        assert_eq!(progress.plan(&lesson).err(), Some(Refused::PredictFirst));
        let change = Command::Change(target.clone());
        assert_eq!(progress.apply(&lesson, change), Err(Refused::PredictFirst));
        assert_eq!(
            progress.apply(&lesson, Command::Next),
            Err(Refused::NotFinished)
        );
    }
}

#[test]
fn a_reading_is_refused_until_the_prediction_is_locked_and_the_task_done() {
    let lesson = good(SAMPLE);
    let mut other = Progress::new(&lesson);
    let answer = model(&lesson, &other);
    taken(&mut other, &lesson, answer.clone());
    taken(&mut other, &lesson, Command::Lock);
    measured(&mut other, &lesson);
    let reading = other.card(&lesson).and_then(|card| card.reading);
    let stolen = Command::Measured(Box::new(reading.expect("measured")));

    let mut progress = Progress::new(&lesson);
    assert_eq!(
        progress.apply(&lesson, stolen.clone()),
        Err(Refused::PredictFirst)
    );
    taken(&mut progress, &lesson, answer);
    taken(&mut progress, &lesson, Command::Lock);
    let not_there = progress.apply(&lesson, stolen.clone());
    assert!(
        matches!(&not_there, Err(Refused::NotThere { left }) if left == &["collector.fields to 2"]),
        "{not_there:?}"
    );
    let card = progress.card(&lesson).expect("a step");
    assert!(card.reading.is_none() && card.explanation.is_none());
    assert!(card.targets.iter().all(|target| !target.reached));
    measured(&mut progress, &lesson);
    // The second segment does not take the reading of the first.
    taken(&mut progress, &lesson, Command::Next);
    let answer = model(&lesson, &progress);
    taken(&mut progress, &lesson, answer);
    taken(&mut progress, &lesson, Command::Lock);
    let target = Box::new(lesson.segments[1].target.clone());
    taken(&mut progress, &lesson, Command::Change(target));
    assert_eq!(progress.apply(&lesson, stolen), Err(Refused::OtherSegment));
}

#[test]
fn a_locked_prediction_stays_as_it_is() {
    let lesson = good(SAMPLE);
    let mut progress = Progress::new(&lesson);
    let wrong = Given {
        answer: lesson.question(0).answer_in(1).expect("an answer"),
        confidence: None,
    };
    assert_eq!(
        progress.apply(&lesson, Command::Lock),
        Err(Refused::AnswerFirst)
    );
    taken(&mut progress, &lesson, Command::Answer(wrong.clone()));
    assert_eq!(
        progress.apply(&lesson, Command::Lock),
        Err(Refused::ConfidenceFirst)
    );
    let sure = Given {
        confidence: Some(Confidence::Sure),
        ..wrong
    };
    taken(&mut progress, &lesson, Command::Answer(sure.clone()));
    taken(&mut progress, &lesson, Command::Lock);
    let answer = model(&lesson, &progress);
    for again in [answer, Command::Lock] {
        assert_eq!(progress.apply(&lesson, again), Err(Refused::Locked));
    }
    measured(&mut progress, &lesson);
    taken(&mut progress, &lesson, Command::Next);
    taken(&mut progress, &lesson, Command::Back);
    let card = progress.card(&lesson).expect("a step");
    assert_eq!(card.given, Some(sure));
    let explanation = card.explanation.expect("measured");
    assert_eq!(explanation.right, Some(false));
    let (idea, text) = explanation.wrong.expect("a wrong option");
    assert_eq!(idea.name, "backwards");
    assert_eq!(text.show_both(), "The other way round.");
}

#[test]
fn answers_to_other_questions_are_refused() {
    let lesson = good(SAMPLE);
    let mut progress = Progress::new(&lesson);
    for answer in [
        Answer::Choice("right".to_owned()),
        Answer::Number(1.0),
        Answer::Order(vec!["one".to_owned()]),
        Answer::Text("because".to_owned()),
    ] {
        let given = Given {
            answer,
            confidence: None,
        };
        let refused = progress.apply(&lesson, Command::Answer(given));
        assert!(matches!(refused, Err(Refused::NoAnswer(_))), "{refused:?}");
    }
    assert_eq!(
        progress,
        Progress::new(&lesson),
        "a refusal changes nothing"
    );
}

#[test]
fn only_free_controls_move() {
    let lesson = good(SAMPLE);
    let mut progress = Progress::new(&lesson);
    let answer = model(&lesson, &progress);
    taken(&mut progress, &lesson, answer);
    taken(&mut progress, &lesson, Command::Lock);
    let mut wanted = progress.conditions().clone();
    wanted.gas.flow_m3_s = 100.0;
    taken(
        &mut progress,
        &lesson,
        Command::Change(Box::new(wanted.clone())),
    );
    assert_eq!(progress.conditions(), &wanted);
    wanted.collector.plate_height_m = 12.0;
    let refused = progress.apply(&lesson, Command::Change(Box::new(wanted.clone())));
    assert!(
        matches!(&refused, Err(Refused::ControlLocked { key, .. }) if key == "collector.plate_height"),
        "{refused:?}"
    );
    wanted.collector.plate_height_m = 10.0;
    wanted.gas.flow_m3_s = -1.0;
    let refused = progress.apply(&lesson, Command::Change(Box::new(wanted.clone())));
    assert!(
        matches!(refused, Err(Refused::Impossible(_))),
        "{refused:?}"
    );
    // Possible alone, but a gale in this collector.
    wanted.gas.flow_m3_s = 4000.0;
    let refused = progress.apply(&lesson, Command::Change(Box::new(wanted)));
    assert!(
        matches!(refused, Err(Refused::Impossible(_))),
        "{refused:?}"
    );
    assert!((progress.conditions().gas.flow_m3_s - 100.0).abs() < 1e-12);
}

#[test]
fn a_pause_stops_everything_but_going_on_and_restarting() {
    let lesson = good(SAMPLE);
    let mut progress = Progress::new(&lesson);
    let answer = model(&lesson, &progress);
    taken(&mut progress, &lesson, answer.clone());
    taken(&mut progress, &lesson, Command::Pause);
    for command in [answer, Command::Lock, Command::Next, Command::Back] {
        assert_eq!(progress.apply(&lesson, command), Err(Refused::Paused));
    }
    assert_eq!(progress.plan(&lesson).err(), Some(Refused::Paused));
    taken(&mut progress, &lesson, Command::Resume);
    taken(&mut progress, &lesson, Command::Lock);
    taken(&mut progress, &lesson, Command::Restart);
    assert_eq!(progress, Progress::new(&lesson));
}
