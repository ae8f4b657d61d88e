//! The report of played lessons for people.

use ashlane_shared::{
    checks::{Verdict, find_formula},
    units::{Dimension, UnitSystem, format},
};

use crate::{
    command_line::{
        numbers::{decimals, percent, thousands},
        table::{Side, Table},
    },
    engine::{
        CheckResult, Lesson, Measured, NOTICE, PlayedAnswer, PlayedLesson, PlayedStep, Question,
        Reading, Relation, Segment, value_text_both,
    },
};

/// The whole report.
pub(super) fn report(played: &[(Lesson, PlayedLesson)]) -> String {
    let mut text = format!("{NOTICE}\n");
    for (lesson, outcome) in played {
        text.push_str(&format!(
            "\n{} {} (revision {}, {} minutes)\n",
            lesson.id, lesson.title, lesson.revision, lesson.minutes
        ));
        for (index, step) in outcome.steps.iter().enumerate() {
            text.push_str(&step_text(lesson, index, step));
        }
    }
    let checks: Vec<&CheckResult> = played
        .iter()
        .flat_map(|(_, outcome)| &outcome.steps)
        .filter_map(|step| step.reading.as_ref())
        .flat_map(|reading| &reading.checks)
        .collect();
    let agreeing = checks
        .iter()
        .filter(|check| check.verdict == Verdict::Agree)
        .count();
    text.push_str(&format!(
        "\n{agreeing} of {} checks agree; every wrong answer was explained.\n",
        checks.len()
    ));
    text
}

fn step_text(lesson: &Lesson, index: usize, step: &PlayedStep) -> String {
    let mut text = String::new();
    match (lesson.segments.get(index), &step.reading) {
        (Some(segment), Some(reading)) => {
            text.push_str(&format!("\n{}. {}\n", index + 1, segment.title));
            if let Some(column) = lesson.columns.get(segment.column) {
                text.push_str(&format!("   {}\n", column.title.show_both()));
            }
            text.push_str(&changes(segment));
            if reading.is_about_dust() {
                text.push_str(&measured("before", &reading.before));
                text.push_str(&measured("after ", &reading.after));
            }
            text.push_str(&checks(reading));
        }
        _ => text.push_str(&format!(
            "\n{}. {} (transfer question)\n",
            index + 1,
            lesson.transfer.title
        )),
    }
    text.push_str(&answers(lesson.question(index), step));
    text
}

fn changes(segment: &Segment) -> String {
    let lines = segment.observe.changes.iter().map(|change| {
        format!(
            "   change  {} from {} to {}\n",
            change.key.path,
            value_text_both(change.key, &change.from),
            value_text_both(change.key, &change.to)
        )
    });
    lines.collect()
}

fn measured(when: &str, measured: &Measured) -> String {
    let counted = measured.penetration;
    let error = 3.0 * counted.standard_error;
    let digits = decimals(100.0 * error);
    format!(
        "   {when}  penetration {} ± {} %, efficiency {} %, N = {}\n",
        percent(counted.share, digits),
        percent(error, digits),
        percent(1.0 - counted.share, digits),
        thousands(measured.parcels)
    )
}

fn checks(reading: &Reading) -> String {
    let mut table = Table::new(&[
        ("check", Side::Left),
        ("measured", Side::Right),
        ("± 3 σ", Side::Right),
        ("formula", Side::Right),
        ("difference", Side::Right),
        ("tolerance", Side::Right),
        ("verdict", Side::Left),
        ("", Side::Left),
    ])
    .indented(3);
    for check in &reading.checks {
        table.row(check_row(check));
    }
    table.text()
}

fn check_row(check: &CheckResult) -> [String; 8] {
    let number = |value: f64| shown(check, value);
    let formula = match &check.upper {
        Some(upper) => format!("{} to {}", number(check.formula.value), number(upper.value)),
        None => shown_both(check, check.formula.value),
    };
    let title = check.quantity.row().title;
    let quantity = match check.size_m {
        Some(size_m) => {
            let size = format(size_m, Dimension::GrainSize, UnitSystem::Si);
            format!("{title}, {size}")
        }
        None => title.to_owned(),
    };
    let apart = |value: f64| {
        let error = check.plus_minus();
        check.quantity.difference_text(value, error, UnitSystem::Si)
    };
    let verdict = match check.verdict {
        Verdict::Agree => "agree",
        Verdict::Disagree => "DISAGREE",
    };
    [
        quantity,
        shown_both(check, check.measured),
        apart(check.plus_minus()),
        formula,
        apart(check.difference),
        apart(check.tolerance),
        verdict.to_owned(),
        relation(check),
    ]
}

/// All values of a row with the same digits.
fn shown(check: &CheckResult, value: f64) -> String {
    let error = check.plus_minus();
    check.quantity.text(value, error, UnitSystem::Si)
}

/// The same in both systems of units, where they differ.
fn shown_both(check: &CheckResult, value: f64) -> String {
    let (si, error) = (shown(check, value), check.plus_minus());
    let us = check.quantity.text(value, error, UnitSystem::Us);
    if si == us { si } else { format!("{si} ({us})") }
}

fn relation(check: &CheckResult) -> String {
    let title = |name: &str| find_formula(name).map_or("", |formula| formula.title);
    let formula = title(&check.formula.formula);
    match (check.relation, &check.upper) {
        (Relation::Between, Some(upper)) => {
            format!("between {formula} and {}", title(&upper.formula))
        }
        (Relation::Above, _) => format!("above {formula}"),
        (Relation::Below, _) => format!("below {formula}"),
        _ => format!("equals {formula}"),
    }
}

fn answers(question: &Question, step: &PlayedStep) -> String {
    let lines = step.answers.iter().map(|answer| line(question, answer));
    lines.collect()
}

fn line(question: &Question, played: &PlayedAnswer) -> String {
    let said = played
        .option
        .and_then(|option| question.option_text(option))
        .map_or_else(|| "model answer".to_owned(), crate::engine::Text::show_both);
    match (&played.misconception, played.right) {
        (Some(misconception), _) => {
            format!("   wrong   {said}: explained as \"{misconception}\"\n")
        }
        (None, Some(true)) => format!("   right   {said}\n"),
        (None, _) => format!("   shown   {said}\n"),
    }
}
