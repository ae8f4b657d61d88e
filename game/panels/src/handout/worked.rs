//! The example on the first page: one formula with every sign, its value in both systems of units, and the result.

use ashlane_lessons::engine::{Check, Lesson, Segment};
use ashlane_shared::{
    checks::{Formula, WorkedSign, worked_signs},
    units::{Dimension, UnitSystem, format},
};

use super::{
    html::{classed, equation, number, table, tag, words},
    room::{ROW_MM, paragraphs_mm, small_mm},
};
use crate::charts::{percent_of_caught, percent_text};

/// A formula evaluated under the conditions at the start of a lesson.
#[derive(Clone, Debug)]
pub struct Worked {
    /// The formula.
    pub formula: &'static Formula,
    /// Its signs with their values.
    pub symbols: Vec<WorkedSign>,
    /// What it gives, SI.
    pub value_si: f64,
    /// Which version of the collector it is.
    pub of: String,
}

/// The example.
impl Worked {
    /// The first formula of a lesson that has something to show at the start of its segment: its signs, or at least a value
    /// that is not 0. Nothing where the lesson is about work, or its formulas need what happens later.
    #[must_use]
    pub fn of(lesson: &Lesson) -> Option<Self> {
        let checks = lesson
            .segments
            .iter()
            .flat_map(|segment| segment.checks.iter().map(move |check| (segment, check)));
        // Signs first: they are at once, and some formulas take a second.
        let (with_signs, without): (Vec<_>, Vec<_>) = checks
            .filter_map(|(segment, check)| {
                let signs = worked_signs(check.formula, &segment.start, check.size_m).ok()?;
                Some((segment, check, signs))
            })
            .partition(|(.., signs)| !signs.is_empty());
        let example = |(segment, check, symbols): (&Segment, &Check, Vec<WorkedSign>)| {
            let value_si = check.formula.value(&segment.start, check.size_m).ok()?;
            let column = lesson.columns.get(segment.column);
            (value_si != 0.0).then_some(Self {
                formula: check.formula,
                symbols,
                value_si,
                of: column.map_or_else(String::new, |column| column.title.show_both()),
            })
        };
        with_signs.into_iter().chain(without).find_map(example)
    }
}

pub(super) fn example(worked: &Worked) -> String {
    let formula = worked.formula;
    let rows: Vec<Vec<String>> = worked
        .symbols
        .iter()
        .map(|symbol| {
            let value = |units| number(&format(symbol.value_si, symbol.dimension, units));
            let (si, us) = (value(UnitSystem::Si), value(UnitSystem::Us));
            let us = if us == si { "the same".to_owned() } else { us };
            vec![
                format!("<b>{}</b>", equation(symbol.sign)),
                words(symbol.name),
                si,
                us,
            ]
        })
        .collect();
    let mut text = tag("h2", "A worked example");
    text.push_str(&tag("p", &words(&worked.of)));
    text.push_str(&classed(
        "p",
        "equation",
        &format!("{}: {}", words(formula.title), equation(formula.equation)),
    ));
    if !rows.is_empty() {
        text.push_str(&table(
            "signs",
            &["sign", "what it is", ">SI", ">US customary"],
            &rows,
        ));
    }
    text.push_str(&classed("p", "result", &result(worked)));
    text.push_str(&classed("p", "faint", &words(&source(formula))));
    text
}

/// Where the formula holds and where it comes from.
fn source(formula: &Formula) -> String {
    format!(
        "Holds for {}. Source: {}.",
        formula.validity, formula.source
    )
}

/// Height of the example, mm.
pub(super) fn height_mm(worked: &Worked) -> f32 {
    // Title, equation, result with its frame.
    let around_mm = 12.0 + 8.8 + 10.6;
    let table_mm = match worked.symbols.len() {
        0 => 0.0,
        rows => ROW_MM * (rows + 1) as f32 + 4.0,
    };
    around_mm + table_mm + paragraphs_mm(&worked.of, false) + small_mm(&source(worked.formula))
}

/// The result; an efficiency never without its penetration.
fn result(worked: &Worked) -> String {
    let value = worked.value_si;
    match worked.formula.gives {
        Dimension::Fraction => format!(
            "Penetration <b>{}</b>, so the efficiency is <b>{}</b>.",
            words(&percent_text(value)),
            words(&percent_of_caught(value))
        ),
        dimension => {
            let text = |units| number(&format(value, dimension, units));
            let (si, us) = (text(UnitSystem::Si), text(UnitSystem::Us));
            let both = if si == us { si } else { format!("{si} ({us})") };
            format!("Result: <b>{both}</b>.")
        }
    }
}
