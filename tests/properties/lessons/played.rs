//! Lessons played without a learner: answers, branches, verdicts.

use ashlane_lessons::engine::{Answer, examine, play};
use ashlane_shared::{checks::Verdict, count::CountResult};

use super::{NAME, SAMPLE, fly, good, sample_with};

#[test]
fn the_model_answers_come_through_and_every_wrong_option_is_explained() {
    let lesson = good(SAMPLE);
    let mut counts = 0;
    let outcome = play(&lesson, &mut |order| {
        counts += 1;
        fly(order)
    })
    .unwrap_or_else(|error| panic!("{error}"));
    assert!(outcome.agrees(), "{outcome:?}");
    assert_eq!(counts, 4, "two counts a segment, however many answers");
    let ideas: Vec<Vec<Option<&str>>> = outcome
        .steps
        .iter()
        .map(|step| {
            let ideas = step.answers.iter();
            ideas
                .map(|answer| answer.misconception.as_deref())
                .collect()
        })
        .collect();
    let (backwards, guessing) = (
        Some("the more plate, the more gets through"),
        Some("any answer will do"),
    );
    assert_eq!(
        ideas,
        [
            vec![None, backwards, guessing],
            vec![None, guessing],
            vec![None]
        ]
    );
    let last = &outcome.steps[2].answers[0];
    assert_eq!(last.right, None, "short text is not judged");
    assert_eq!(last.answer, Answer::Text("Only A/Q counts.".to_owned()));
}

#[test]
fn number_formula_count_and_tolerance_are_kept_together() {
    let lesson = good(SAMPLE);
    let outcome = play(&lesson, &mut fly).expect("playable");
    let reading = outcome.steps[0].reading.as_ref().expect("measured");
    let [penetration, efficiency] = reading.checks.as_slice() else {
        panic!("two checks: {reading:?}")
    };
    assert_eq!(penetration.parcels, 8000);
    assert!((penetration.measured - reading.after.penetration.share).abs() < 1e-15);
    // Two fields of ln 10 each.
    assert!((penetration.formula.value - 0.01).abs() < 1e-6);
    let expected = (0.2 * penetration.formula.value).max(3.0 * penetration.standard_error);
    assert!((penetration.tolerance - expected).abs() < 1e-12);
    assert!((efficiency.measured - (1.0 - penetration.measured)).abs() < 1e-15);
    assert!((efficiency.tolerance - penetration.tolerance).abs() < 1e-9);
    let ratio = &outcome.steps[1].reading.as_ref().expect("measured").checks[0];
    // Twice the flow on two fields: from 0.01 back to 0.1.
    assert!((ratio.formula.value - 10.0).abs() < 1e-3, "{ratio:?}");
}

#[test]
fn dust_that_leaves_counts_the_flow_beside_the_penetration() {
    let (text, _) = sample_with("\"penetration_ratio\"", "\"outlet_dust_ratio\"");
    let outcome = play(&good(&text), &mut fly).expect("playable");
    let ratio = &outcome.steps[1].reading.as_ref().expect("measured").checks[0];
    // Ten times the penetration of twice the gas.
    assert!((ratio.formula.value - 20.0).abs() < 2e-3, "{ratio:?}");
    assert!(
        (ratio.measured - 20.0).abs() < 4.0 * ratio.standard_error,
        "{ratio:?}"
    );
    assert!(outcome.agrees(), "{outcome:?}");
}

#[test]
fn a_wrong_formula_or_a_wrong_count_disagrees() {
    let (text, _) = sample_with("deutsch_anderson_penetration", "laminar_penetration");
    let outcome = play(&good(&text), &mut fly).expect("playable");
    let checks = &outcome.steps[0].reading.as_ref().expect("measured").checks;
    assert_eq!(checks[0].verdict, Verdict::Disagree);
    assert_eq!(checks[1].verdict, Verdict::Agree);
    assert!(!outcome.agrees());

    let off = play(&good(SAMPLE), &mut |order| {
        fly(order).map(|mut count: CountResult| {
            count.penetration.share *= 2.0;
            count
        })
    })
    .expect("playable");
    let reading = off.steps[0].reading.as_ref().expect("measured");
    assert!(!reading.agrees(), "twice the dust passes");
}

#[test]
fn a_check_that_holds_before_the_change_is_found() {
    let whole = examine(NAME, &good(SAMPLE));
    assert_eq!(whole, Ok(()));
    // The deutsch_after_doubling_area of two fields is that of the target itself.
    let (text, line) = sample_with(
        "formula = \"deutsch_anderson_penetration\"\ntolerance = \"20 %\"\nparcels = 8000",
        "formula = \"finite_mixing_penetration\"\nat = \"before\"\ntolerance = \"20 %\"\nparcels = 8000",
    );
    let errors = examine(NAME, &good(&text)).expect_err("it compares the start with itself");
    let message = errors.to_string();
    assert!(
        message.starts_with(&format!("{NAME}:{}: segment 1.check 1: ", line - 3)),
        "{message}"
    );
    assert!(message.contains("already before the change"), "{message}");
}

#[test]
fn too_few_parcels_are_found_and_enough_are_proposed() {
    let (text, _) = sample_with("parcels = 8000", "parcels = 1000");
    let errors = examine(NAME, &good(&text)).expect_err("3 σ is as large as the penetration");
    let message = errors.to_string();
    assert!(message.contains("segment 1.check 1.parcels"), "{message}");
    let proposed = message
        .split("count at least ")
        .nth(1)
        .and_then(|rest| rest.split_whitespace().next())
        .unwrap_or_default();
    let (enough, _) = sample_with("parcels = 8000", &format!("parcels = {proposed}"));
    assert_eq!(examine(NAME, &good(&enough)), Ok(()), "{proposed}");
}

#[test]
fn a_size_that_the_dust_has_not_is_named_with_what_it_has() {
    let catalog = ashlane_lessons::catalog::LESSONS;
    let text = catalog.iter().find(|(name, _)| name.starts_with("009"));
    let text = text
        .expect("lesson 9")
        .1
        .replacen("size = \"5 µm\"", "size = \"500 µm\"", 1);
    let line = text.lines().position(|line| line.contains("500 µm"));
    let errors = examine(NAME, &good(&text)).expect_err("no such grains");
    let message = errors.to_string();
    // The check begins two lines above its size.
    let place = format!("{NAME}:{}: segment 2.check 4: ", line.expect("there") - 1);
    assert!(message.contains(&place), "{place} in {message}");
    assert!(message.contains("name a size from 0.0"), "{message}");
}

#[test]
fn too_few_parcels_for_a_size_are_found() {
    let mut catalog = ashlane_lessons::catalog::LESSONS.iter();
    let ninth = catalog.find(|(name, _)| name.starts_with("009"));
    let text = ninth.expect("lesson 9").1;
    let few = text.replace("parcels = 60000", "parcels = 2000");
    let errors = examine(NAME, &good(&few)).expect_err("a size class has few of them");
    let message = errors.to_string();
    assert!(
        message.contains("segment 2.check 1.parcels: too few parcels"),
        "{message}"
    );
}

#[test]
fn a_flown_grain_or_a_solved_field_that_shows_nothing_is_found() {
    let mut catalog = ashlane_lessons::catalog::LESSONS.iter();
    let second = catalog.find(|(name, _)| name.starts_with("002"));
    // The voltage on the wire does not move its onset.
    let still = second.expect("lesson 2").1.replace(
        "quantity = \"plate_current\"\nrelation = \"above\"\nformula = \"quadratic_current\"",
        "quantity = \"onset_voltage\"\nrelation = \"equals\"\nformula = \"white_peek_onset\"",
    );
    let errors = examine(NAME, &good(&still)).expect_err("it holds before");
    let message = errors.to_string();
    assert!(message.contains("segment 3.check 1: "), "{message}");
    assert!(message.contains("already before the change"), "{message}");
}
