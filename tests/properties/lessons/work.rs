//! Cases and boards in lesson files: what is written wrong is told, and work is done only after the prediction is locked.

use ashlane_lessons::{
    catalog::LESSONS,
    diagnosis::Act,
    engine::{Command, Phase, Progress, Refused, WorkAct, WorkResult, read_lesson},
    sequence,
};

use super::{NAME, good, model, refused, taken};

fn text(number: &str) -> &'static str {
    let found = LESSONS.iter().find(|(name, _)| name.starts_with(number));
    found.expect("a lesson").1
}

/// Lesson, what stands there, what is written instead, what is told.
#[rustfmt::skip]
const WRONG: [(&str, &str, &str, &str); 13] = [
    ("017", "fault = \"false-meter\"\nseed", "fault = \"false-metre\"\nseed", "did you mean \"false-meter\"?"),
    ("017", "open = [\"kv\"]", "open = [\"kw\"]", "did you mean \"kv\"?"),
    ("017", "open = [\"kv\"]", "open = []", "at least one check"),
    ("017", "action = \"meter\"", "action = \"reset\"", "does not fit \"false-meter\""),
    ("017", "hours = 44", "hours = 444", "1 to 96"),
    ("017", "turn = \"gone\"", "turn = \"went\"", "write \"gone\" or"),
    ("017", "ratio = 50.0", "ratio = \"50 kV\"", "share of what is usual"),
    ("017", "fault = \"half-rectifier\"", "fault = \"false-meter\"", "offered already"),
    ("018", "start = \"waiting\"", "start = \"hot\"", "\"cold\" or \"waiting\""),
    ("018", "\"fire-out\", \"clean-out\"", "\"fire-out\", \"fire-out\"", "stands twice"),
    ("018", "source = \"Invented for this lesson; the site's own order and limits replace it.\"", "source = \"the usual values\"", "say whose order and limits"),
    ("018", "combustibles = \"0.1 %\"\n", "", "combustibles"),
    ("018", "stable = \"900 s\"", "stable = \"900 m\"", "a time such as"),
];

#[test]
fn what_is_wrong_with_a_case_or_a_board_is_told_with_what_to_write() {
    for (number, from, to, says) in WRONG {
        let whole = text(number);
        assert!(whole.contains(from), "{from}");
        let line = whole[..whole.find(from).unwrap_or(0)].matches('\n').count() + 1;
        let message = refused(&whole.replacen(from, to, 1)).to_string();
        assert!(message.contains(says), "{from} -> {to}: {message}");
        assert!(
            message.starts_with(&format!("{NAME}:")),
            "{line}: {message}"
        );
    }
    let unlisted = text("017").replace("[[segment.diagnosis.sign]]", "[[segment.diagnosis.sing]]");
    assert!(refused(&unlisted).to_string().contains("sing"));
}

#[test]
fn nothing_is_done_before_the_lock_or_after_the_result() {
    let lesson = good(text("018"));
    let mut progress = Progress::new(&lesson);
    let act = |act| Command::Act(WorkAct::Sequence(act));
    let heaters = sequence::Act::Heaters(true);
    assert_eq!(
        progress.apply(&lesson, act(heaters)),
        Err(Refused::PredictFirst)
    );
    let answer = model(&lesson, &progress);
    taken(&mut progress, &lesson, answer);
    assert!(
        progress.card(&lesson).expect("a card").work.is_none(),
        "nothing to see yet"
    );
    taken(&mut progress, &lesson, Command::Lock);
    assert!(progress.card(&lesson).expect("a card").work.is_some());
    assert!(matches!(progress.plan(&lesson), Err(Refused::WorkLeft(_))));
    taken(&mut progress, &lesson, act(heaters));
    let again = progress.apply(&lesson, act(heaters));
    assert!(matches!(again, Err(Refused::Impossible(_))), "{again:?}");
    let other = WorkAct::Diagnosis(Act::HandIn);
    assert!(progress.apply(&lesson, Command::Act(other)).is_err());
    assert_eq!(progress.acts(), [WorkAct::Sequence(heaters)]);
    // Saved in the middle of the work and taken up again.
    let saved = serde_json::to_string(&progress).expect("plain data");
    let read: Progress = serde_json::from_str(&saved).expect("what was saved");
    assert_eq!(read.resumed(&lesson), Ok(progress.clone()));
    let forged = saved.replace("{\"heaters\":true}", "{\"energize\":9}");
    let forged: Progress = serde_json::from_str(&forged).expect("the right shape");
    assert!(
        forged.resumed(&lesson).is_err(),
        "an act that is not possible"
    );
    for act in [
        sequence::Act::Wait(7200.0),
        sequence::Act::Energize(0),
        sequence::Act::Energize(1),
        sequence::Act::Energize(2),
        sequence::Act::Energize(3),
    ] {
        taken(&mut progress, &lesson, Command::Act(WorkAct::Sequence(act)));
    }
    let plan = progress.plan(&lesson).expect("the goal is reached");
    let reading = super::fly(&plan.before).and_then(|before| {
        let after = super::fly(&plan.after)?;
        plan.read(&before, &after)
    });
    let reading = reading.expect("possible");
    let Some(WorkResult::Sequence(outcome)) = &reading.work else {
        panic!("{reading:?}")
    };
    assert!(outcome.as_wanted, "{outcome:?}");
    taken(&mut progress, &lesson, Command::Measured(Box::new(reading)));
    assert_eq!(progress.phase(&lesson), Phase::Explain);
    assert_eq!(progress.apply(&lesson, act(heaters)), Err(Refused::Locked));
}

#[test]
fn a_solution_that_solves_nothing_is_found() {
    // The order of a site that energizes cold.
    let wrong = text("018").replacen(
        "order = [\"heaters\", \"energize\"]",
        "order = [\"energize\", \"heaters\"]",
        1,
    );
    let lesson = read_lesson(NAME, &wrong).expect("readable");
    let played = ashlane_lessons::engine::play(&lesson, &mut super::fly);
    let told = played
        .expect_err("fields on over wet insulators")
        .to_string();
    assert!(told.contains("does not solve its work"), "{told}");
}
