//! What only a computation finds: checks that hold before anything is changed, and segments nobody gets through.

use ashlane_lessons::{catalog::LESSONS, engine::examine};

use super::{NAME, SAMPLE, good, refused};

/// What the examination says about a lesson that can be read.
#[track_caller]
fn said(text: &str) -> String {
    match examine(NAME, &good(text)) {
        Ok(()) => String::new(),
        Err(errors) => errors.to_string(),
    }
}

/// The sample with other relations and formulas in the checks of its first segment.
fn with_checks(first: (&str, &str), second: (&str, &str)) -> String {
    let check = |quantity: &str, (relation, formula): (&str, &str)| {
        format!("quantity = \"{quantity}\"\nrelation = \"{relation}\"\nformula = \"{formula}\"")
    };
    let was = ("equals", "deutsch_anderson_penetration");
    let text = SAMPLE.replacen(&check("penetration", was), &check("penetration", first), 1);
    let was = ("equals", "finite_mixing_penetration");
    text.replacen(&check("efficiency", was), &check("efficiency", second), 1)
}

#[test]
fn a_check_that_holds_before_the_change_is_told() {
    const HOLDS: &str = "this check holds already before the change";
    let line = |text: &str, number: usize| {
        let mut headings = text.match_indices("[[segment.check]]");
        let (place, _) = headings.nth(number).expect("a check");
        text[..place].matches('\n').count() + 1
    };
    let deutsch = ("equals", "deutsch_anderson_penetration");
    let solver = ("equals", "finite_mixing_penetration");
    // More than the laminar bound gets through, before as after: a contrast that may stand beside a real check.
    let (above, below) = (
        ("above", "laminar_penetration"),
        ("below", "laminar_penetration"),
    );
    assert_eq!(said(&with_checks(deutsch, solver)), "");
    assert_eq!(said(&with_checks(above, solver)), "");
    // But not alone, however many there are.
    let text = with_checks(above, below);
    let told = said(&text);
    assert_eq!(told.matches(HOLDS).count(), 2, "{told}");
    for number in [0, 1] {
        let place = format!(
            "{NAME}:{}: segment 1.check {}",
            line(&text, number),
            number + 1
        );
        assert!(told.contains(&place), "no {place} in\n{told}");
    }
    // An equation against the formula at the start holds at the start.
    let text = with_checks(
        ("equals", "finite_mixing_penetration\"\nat = \"before"),
        solver,
    );
    let told = said(&text);
    assert_eq!(told.matches(HOLDS).count(), 1, "{told}");
    assert!(
        told.contains("change more, or check something else"),
        "{told}"
    );
}

#[test]
fn a_segment_that_nobody_gets_through_is_told_with_its_line() {
    let mut lesson = good(SAMPLE);
    lesson.segments[0].free.clear();
    let told = examine(NAME, &lesson).expect_err("locked").to_string();
    let line = SAMPLE
        .lines()
        .position(|line| line == "[[segment]]")
        .expect("a segment")
        + 1;
    assert!(
        told.starts_with(&format!("{NAME}:{line}: segment 1")),
        "{told}"
    );
    for part in [
        "no learner gets to the end",
        "collector.fields is locked",
        "check its answer, free",
    ] {
        assert!(told.contains(part), "no {part:?} in {told}");
    }
}

#[test]
fn every_missing_answer_is_asked_for_at_its_place() {
    let mut removed = 0;
    for (file, text) in LESSONS.iter().chain(&[("sample", SAMPLE)]) {
        for (number, line) in text.lines().enumerate() {
            if !line.starts_with("answer = ") {
                continue;
            }
            removed += 1;
            let mut lines: Vec<&str> = text.lines().collect();
            lines.remove(number);
            let message = refused(&lines.join("\n")).to_string();
            let told: Vec<&str> = message
                .lines()
                .filter(|told| told.contains("predict.answer: missing; add answer"))
                .collect();
            let [told] = told.as_slice() else {
                panic!("{file}:{}: {message}", number + 1)
            };
            let mut parts = told.split(':');
            let blamed: usize = parts
                .nth(1)
                .and_then(|line| line.trim().parse().ok())
                .unwrap_or_else(|| panic!("no line in {told}"));
            // At the heading of its question, which stands above it.
            let heading = lines[blamed - 1];
            assert!(
                heading.ends_with("predict]"),
                "{file}: {told} is blamed on {heading}"
            );
            let between = &lines[blamed..number];
            assert!(
                !between
                    .iter()
                    .any(|line| line.starts_with("[segment") || line.starts_with("[transfer"))
            );
        }
    }
    assert!(removed > 40, "{removed} answers");
}
