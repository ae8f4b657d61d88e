//! The last leaf of a handout: words, where the formulas come from, cautions, and the notice.

use ashlane_lessons::engine::{Caution, Lesson, NOTICE_LONG, Work, terms_in};
use ashlane_shared::checks::Formula;

use super::{
    html::{classed, equation, tag, words},
    work::PURGE_SOURCE,
};

/// A warning sign that needs no font.
const SIGN: &str = "<svg viewBox=\"0 0 22 20\"><path d=\"M11 1 L21 19 L1 19 Z\" fill=\"none\" stroke=\"black\" \
                    stroke-width=\"1.8\" stroke-linejoin=\"round\"/><path d=\"M11 7 V13 M11 15 V17\" stroke=\"black\" \
                    stroke-width=\"2\"/></svg>";

/// The whole leaf.
pub(super) fn reference(lesson: &Lesson) -> String {
    let inside =
        tag("h2", "Words") + &glossary(lesson) + &sources(lesson) + &cautions(lesson) + &notice();
    classed("section", "reference", &inside)
}

/// The long notice.
pub(super) fn notice() -> String {
    classed("p", "notice", &words(NOTICE_LONG))
}

/// The terms that the handout itself uses.
fn glossary(lesson: &Lesson) -> String {
    let mut text = lesson.goal.show_both();
    for column in &lesson.columns {
        text.push_str(&column.title.show_both());
    }
    for step in 0..lesson.steps() {
        text.push_str(&lesson.question(step).ask.show_both());
    }
    for segment in &lesson.segments {
        text.push_str(&segment.prose.show_both());
    }
    text.push_str(&lesson.transfer.prose.show_both());
    let rows: String = terms_in(&text)
        .into_iter()
        .map(|row| {
            let also = if row.also.is_empty() {
                String::new()
            } else {
                format!(" <i>Also: {}.</i>", words(row.also))
            };
            tag(
                "div",
                &format!(
                    "<dt>{}:</dt> <dd>{}.{also}</dd>",
                    words(row.term),
                    words(row.meaning)
                ),
            )
        })
        .collect();
    tag("dl", &rows)
}

/// Every formula that the lesson holds a measurement against, once.
fn sources(lesson: &Lesson) -> String {
    let mut formulas: Vec<&'static Formula> = Vec::new();
    let checks = lesson.segments.iter().flat_map(|segment| &segment.checks);
    for formula in checks
        .flat_map(|check| [Some(check.formula), check.upper])
        .flatten()
    {
        if !formulas.iter().any(|known| known.name == formula.name) {
            formulas.push(formula);
        }
    }
    let rows: String = formulas
        .iter()
        .map(|formula| {
            tag(
                "p",
                &format!(
                    "<b>{}</b>: {}. {}. Holds for {}.",
                    words(formula.title),
                    equation(formula.equation),
                    words(formula.source),
                    words(formula.validity)
                ),
            )
        })
        .collect();
    let purge = lesson
        .segments
        .iter()
        .any(|segment| matches!(segment.work, Some(Work::Sequence(_))));
    let rows = if purge {
        rows + &tag(
            "p",
            &format!("<b>volume changes of a purge</b>: n = ∫Q dt / V. {PURGE_SOURCE}"),
        )
    } else {
        rows
    };
    if rows.is_empty() {
        return rows;
    }
    tag("h2", "Where the formulas come from") + &classed("div", "sources", &rows)
}

/// The cautions of the lesson.
pub(super) fn cautions(lesson: &Lesson) -> String {
    let rows: String = lesson
        .cautions
        .iter()
        .map(|caution| caution_row(caution))
        .collect();
    let rows = if rows.is_empty() {
        tag(
            "p",
            "This lesson looks at no hazard of its own. What follows holds always.",
        )
    } else {
        rows
    };
    tag("h2", "Cautions") + &rows
}

/// One caution with its sign.
pub(super) fn caution_row(caution: &Caution) -> String {
    classed(
        "div",
        "caution",
        &format!(
            "{SIGN}<span><b>{}</b> ({}). {}</span>",
            words(caution.hazard),
            caution.code,
            words(caution.text)
        ),
    )
}
