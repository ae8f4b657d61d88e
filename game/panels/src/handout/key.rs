//! The trainer's key: the right answer of each step, what was measured against which formula, and every misconception.

use ashlane_lessons::engine::{
    Answer, CheckResult, Kind, Measured, PlayedStep, Question, Reading, Relation, Text,
};
use ashlane_shared::{
    checks::{Verdict, find_formula},
    units::{Dimension, UnitSystem, format},
};

use super::{
    Handout,
    html::{classed, line, number, paragraphs, paragraphs_of, table, tag, words},
    key_work,
    paper::figure,
    reference::{cautions, notice},
};
use crate::charts::{percent_of_caught, percent_text};

/// Height of a figure with its caption, mm: a key is read, and its pages run on.
const HIGHEST_MM: f32 = 88.0;

/// All of the key.
pub(super) fn key(handout: &Handout<'_>) -> String {
    let lesson = handout.lesson;
    let mut text = tag(
        "p",
        "Keep this apart from the handout. Every number was measured when the pages were made, and ± is three \
         standard errors; the tolerance is the larger of the stated one and ±.",
    );
    for column in &lesson.columns {
        text.push_str(&classed("p", "faint", &line(&column.title)));
    }
    for (index, step) in handout.played.steps.iter().enumerate() {
        text.push_str(&key_step(handout, index, step));
    }
    let lessons = format!(
        "Made with Ashlane {} from {}, revision {} ({}), seed {}.",
        env!("CARGO_PKG_VERSION"),
        lesson.id,
        lesson.revision,
        lesson.change.trim(),
        lesson.seed
    );
    text + &cautions(lesson) + &classed("p", "faint", &words(&lessons)) + &notice()
}

fn key_step(handout: &Handout<'_>, index: usize, step: &PlayedStep) -> String {
    let lesson = handout.lesson;
    let question = lesson.question(index);
    let segment = lesson.segments.get(index);
    let title = segment.map_or(&lesson.transfer.title, |segment| &segment.title);
    let mut text = tag("h2", &words(&format!("{}. {title}", index + 1)));
    text.push_str(&classed("div", "ask", &paragraphs(&question.ask)));
    text.push_str(&classed(
        "p",
        "answer",
        &format!("<b>Answer:</b> {}", answer(question)),
    ));
    if let Some(segment) = segment {
        text.push_str(&tag(
            "p",
            &format!("<b>Task:</b> {}", line(&segment.observe.task)),
        ));
    }
    if let Some(reading) = step
        .reading
        .as_ref()
        .filter(|reading| !reading.checks.is_empty())
    {
        text.push_str(&measured(reading));
    }
    if let Some(segment) = segment {
        let evidence = handout.evidence.get(index).and_then(Option::as_ref);
        let reading = step.reading.as_ref();
        let result = reading.and_then(|reading| reading.work.as_ref());
        text.push_str(&key_work::key(segment, evidence, result));
    }
    let after = handout
        .figures
        .get(index)
        .and_then(|figures| figures.after.as_ref());
    text.push_str(&after.map_or_else(String::new, |after| figure(after, HIGHEST_MM)));
    text.push_str(&tag("h3", "Why"));
    text.push_str(&paragraphs(&lesson.explain(index).right));
    text + &wrong(question, step)
}

/// The model answer: of a number with the range that counts as right.
fn answer(question: &Question) -> String {
    let option = || {
        let text = question.option_text(question.right);
        text.map_or_else(String::new, line)
    };
    match (&question.kind, question.model_answer()) {
        (Kind::ShortText { model, .. }, _) => line(model),
        (Kind::Number(entry), Answer::Number(value)) => {
            let text = |units| {
                if entry.dimension == Dimension::Fraction {
                    return percent_text(value);
                }
                format(value, entry.dimension, units)
            };
            let (si, us) = (text(UnitSystem::Si), text(UnitSystem::Us));
            let both = if si == us { si } else { format!("{si} ({us})") };
            format!("{}. Counts as right: {}", number(&both), option())
        }
        (Kind::Order(ranked), Answer::Order(ids)) => {
            let text = |id: &String| {
                let item = ranked.items.iter().find(|item| item.id == *id);
                item.map_or_else(String::new, |item| line(&item.text))
            };
            ids.iter().map(text).collect::<Vec<_>>().join(" → ")
        }
        (Kind::Match(items), Answer::Match(pairs)) => {
            let text = |choices: &[ashlane_lessons::engine::Choice], id: &str| {
                let choice = choices.iter().find(|choice| choice.id == id);
                choice.map_or_else(String::new, |choice| line(&choice.text))
            };
            let pair = |(left, right): (&String, &String)| {
                format!("{}: {}", text(&items.left, left), text(&items.right, right))
            };
            pairs.iter().map(pair).collect::<Vec<_>>().join("; ")
        }
        _ => option(),
    }
}

/// What was measured before and after, and every check.
fn measured(reading: &Reading) -> String {
    let mut text = String::new();
    if reading.is_about_dust() {
        let line = |when: &str, measured: &Measured| {
            let counted = measured.penetration;
            format!(
                "{when}: penetration {} ± {}, efficiency {}, counted on {} parcels.",
                percent_text(counted.share),
                percent_text(3.0 * counted.standard_error),
                percent_of_caught(counted.share),
                measured.parcels
            )
        };
        let both = [
            line("Before", &reading.before),
            line("After", &reading.after),
        ]
        .join(" ");
        text.push_str(&tag("p", &words(&both)));
    }
    let rows: Vec<Vec<String>> = reading.checks.iter().map(row).collect();
    let head = [
        "measured",
        ">value",
        ">± (3 σ)",
        ">formula",
        ">tolerance",
        "verdict",
    ];
    text + &table("checks", &head, &rows)
}

fn row(check: &CheckResult) -> Vec<String> {
    let title = check.quantity.row().title;
    let size = check.size_m.map_or_else(String::new, |size_m| {
        format!(", {}", format(size_m, Dimension::GrainSize, UnitSystem::Si))
    });
    let name = |name: &str| find_formula(name).map_or("", |formula| formula.title);
    let formula = name(&check.formula.formula);
    let relation = match (check.relation, &check.upper) {
        (Relation::Between, Some(upper)) => {
            format!("between {formula} and {}", name(&upper.formula))
        }
        (Relation::Above, _) => format!("above {formula}"),
        (Relation::Below, _) => format!("below {formula}"),
        _ => format!("equals {formula}"),
    };
    let formula = match &check.upper {
        Some(upper) => format!(
            "{} to {}",
            both(check, check.formula.value),
            both(check, upper.value)
        ),
        None => both(check, check.formula.value),
    };
    let verdict = match check.verdict {
        Verdict::Agree => "agree",
        Verdict::Disagree => "DISAGREE",
    };
    let one = |value: f64| {
        let text = check
            .quantity
            .difference_text(value, check.plus_minus(), UnitSystem::Si);
        format!("<span>{}</span>", number(&text))
    };
    vec![
        words(&format!("{title}{size}: {relation}")),
        both(check, check.measured),
        match check.standard_error {
            // Not counted, but flown or solved once.
            0.0 => "–".to_owned(),
            _ => one(check.plus_minus()),
        },
        formula,
        one(check.tolerance),
        verdict.to_owned(),
    ]
}

/// A number in both systems of units; a line may break between the two.
fn both(check: &CheckResult, value: f64) -> String {
    let text = |units| check.quantity.text(value, check.plus_minus(), units);
    let (si, us) = (text(UnitSystem::Si), text(UnitSystem::Us));
    let si_text = format!("<span>{}</span>", number(&si));
    if si == us {
        si_text
    } else {
        format!("{si_text} <span>({})</span>", number(&us))
    }
}

/// Each wrong answer, the idea behind it and what to say.
fn wrong(question: &Question, step: &PlayedStep) -> String {
    let rows: Vec<Vec<String>> = step
        .answers
        .iter()
        .filter_map(|played| {
            let idea = played.misconception.as_ref()?;
            let option = played
                .option
                .and_then(|option| question.option_text(option));
            Some(vec![
                option.map_or_else(String::new, |text: &Text| line(text)),
                words(&format!("“{idea}”")),
                paragraphs_of(played.explained.as_deref().unwrap_or_default()),
            ])
        })
        .collect();
    if rows.is_empty() {
        return String::new();
    }
    tag("h3", "If the answer was wrong")
        + &table(
            "wrong",
            &["answer", "the idea behind it", "what to say"],
            &rows,
        )
}
