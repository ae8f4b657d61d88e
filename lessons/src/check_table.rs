//! The table of all checks: every lesson, every segment, every check, with its tolerance and what was measured.

use ashlane_shared::{
    checks::Verdict,
    units::{Dimension, UnitSystem, format, number_text},
};

use crate::engine::{
    Check, CheckResult, LESSON_VIEWS, Lesson, NOTICE, PlayedLesson, Relation, Segment,
};

const HEAD: &str = "\
| lesson | segment | view | quantity | formula | stated tolerance \
| measured | ± 3 σ | formula value | difference | difference / tolerance | verdict |
|---|---|---|---|---|---|--:|--:|--:|--:|--:|---|
";

/// The whole table as Markdown, of played lessons.
#[must_use]
pub fn check_table(played: &[(Lesson, PlayedLesson)]) -> String {
    let mut text = format!(
        "# Every check of every lesson\n\n{NOTICE}\n\n\
         Made by `ashlane lesson run --all --table lessons/CHECKS.md`; do not edit. \
         The tolerance in use is the larger of the stated one, a share of the formula's value \
         (of an efficiency, of the penetration), and 3 σ of the count. Where a value should lie above or below a \
         formula, it agrees when it is away from it by more than the tolerance. Lessons of work (reading the panel, the \
         sequence board) prove themselves by what came of the work: `ashlane lesson run`.\n\n{HEAD}"
    );
    for (lesson, outcome) in played {
        for (segment, step) in lesson.segments.iter().zip(&outcome.steps) {
            let results = step.reading.iter().flat_map(|reading| &reading.checks);
            for (check, result) in segment.checks.iter().zip(results) {
                text.push_str(&named(lesson, segment, check));
                text.push_str(&measured(result));
            }
        }
    }
    text
}

/// The cells of a row that no measurement changes: which check it is, and its stated tolerance.
#[must_use]
pub fn named(lesson: &Lesson, segment: &Segment, check: &Check) -> String {
    let view = LESSON_VIEWS
        .iter()
        .find(|(name, _)| *name == segment.look.view);
    let cells = [
        lesson.id.clone(),
        segment.title.clone(),
        view.map_or(segment.look.view, |(_, what)| what).to_owned(),
        quantity(check),
        relation(check),
        format!("{} %", number_text(100.0 * check.tolerance, 3)),
    ];
    let cells = cells.map(|cell| cell.replace('|', "\\|"));
    format!("| {} |", cells.join(" | "))
}

fn quantity(check: &Check) -> String {
    let title = check.quantity.row().title;
    match (check.size_m, check.field) {
        (Some(size_m), _) => {
            let size = format(size_m, Dimension::GrainSize, UnitSystem::Si);
            format!("{title}, {size}")
        }
        (None, Some(field)) => format!("{title}, field {}", field + 1),
        _ => title.to_owned(),
    }
}

fn relation(check: &Check) -> String {
    let formula = check.formula.title;
    match (check.relation, check.upper) {
        (Relation::Between, Some(upper)) => format!("between {formula} and {}", upper.title),
        (Relation::Above, _) => format!("above {formula}"),
        (Relation::Below, _) => format!("below {formula}"),
        _ => format!("equals {formula}"),
    }
}

/// The cells of a row that were measured.
fn measured(result: &CheckResult) -> String {
    let error = result.plus_minus();
    let quantity = result.quantity;
    let value = |value: f64| quantity.text(value, error, UnitSystem::Si);
    let difference = |value: f64| quantity.difference_text(value, error, UnitSystem::Si);
    let formula = match &result.upper {
        Some(upper) => format!("{} to {}", value(result.formula.value), value(upper.value)),
        None => value(result.formula.value),
    };
    let verdict = match result.verdict {
        Verdict::Agree => "agree",
        Verdict::Disagree => "DISAGREE",
    };
    let chance = if result.standard_error > 0.0 {
        difference(error)
    } else {
        "none".to_owned()
    };
    // The tolerance of no current or no layer is none at all.
    let ratio = if result.difference == 0.0 {
        0.0
    } else {
        result.difference / result.tolerance
    };
    format!(
        " {} | {chance} | {formula} | {} | {ratio:+.2} | {verdict} |\n",
        value(result.measured),
        difference(result.difference)
    )
}
