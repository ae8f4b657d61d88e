//! Reads the checks of a segment: quantity, relation, formula, tolerance, number of parcels.

use ashlane_shared::{
    checks::{FORMULAS, Formula, find_formula},
    conditions::sheet::Report,
    units::Dimension,
};

use super::section::{Section, unknown};
use crate::engine::{Check, Moment, QUANTITIES, RELATIONS, Relation};

/// Most checks of a segment.
const MOST: usize = 6;
/// Smallest and largest stated tolerance, share of the formula's penetration.
const TOLERANCE: (f64, f64) = (0.001, 0.5);
const PARCELS: (i64, i64) = (1_000, 5_000_000);
const KEYS: [&str; 7] = [
    "quantity",
    "relation",
    "formula",
    "upper",
    "at",
    "tolerance",
    "parcels",
];

pub(super) fn checks(section: &Section<'_>, report: &mut Report<'_>) -> Option<Vec<Check>> {
    let found = section.sections(report, "check");
    if found.is_empty() || found.len() > MOST {
        let message = format!("a segment has 1 to {MOST} checks; write [[segment.check]]");
        section.wrong(report, "check", message);
        return None;
    }
    let checks: Vec<Option<Check>> = found.iter().map(|section| check(section, report)).collect();
    checks.into_iter().collect()
}

fn check(section: &Section<'_>, report: &mut Report<'_>) -> Option<Check> {
    section.only(report, &KEYS);
    let quantity = section.word(report, "quantity", &QUANTITIES);
    let relation = section.word(report, "relation", &RELATIONS);
    let formula = formula(section, "formula", report);
    let upper = upper(section, relation, report);
    let formula_at = if section.has("at") {
        let moments = [("before", Moment::Before), ("after", Moment::After)];
        section.word(report, "at", &moments)
    } else {
        Some(Moment::After)
    };
    if quantity.is_some_and(|quantity| quantity.needs_before())
        && formula_at == Some(Moment::Before)
    {
        let message = "a ratio takes its formula before and after by itself; take this away";
        section.wrong(report, "at", message.to_owned());
    }
    let tolerance = tolerance(section, report);
    let parcels = section.whole(report, "parcels", PARCELS.0..=PARCELS.1);
    Some(Check {
        line: section.place().map(|place| report.line(place.start)),
        quantity: quantity?,
        relation: relation?,
        formula: formula?,
        upper: upper?,
        formula_at: formula_at?,
        tolerance: tolerance?,
        parcels: usize::try_from(parcels?).ok()?,
    })
}

fn formula(section: &Section<'_>, name: &str, report: &mut Report<'_>) -> Option<&'static Formula> {
    let word = section.string(report, name, "name of a formula in quotation marks")?;
    let found = find_formula(word);
    if found.is_none() {
        let known: Vec<&str> = FORMULAS.iter().map(|formula| formula.name).collect();
        section.wrong(report, name, unknown("formula", word, &known));
    }
    found
}

/// The second formula, which goes with "between" and only with it.
fn upper(
    section: &Section<'_>,
    relation: Option<Relation>,
    report: &mut Report<'_>,
) -> Option<Option<&'static Formula>> {
    match (relation, section.has("upper")) {
        (Some(Relation::Between), _) => formula(section, "upper", report).map(Some),
        (Some(_), true) => {
            let message = "a second formula goes with relation = \"between\" only; take this away";
            section.wrong(report, "upper", message.to_owned());
            None
        }
        _ => Some(None),
    }
}

fn tolerance(section: &Section<'_>, report: &mut Report<'_>) -> Option<f64> {
    let (value, dimension) = section.measure(report, "tolerance")?;
    let (low, high) = TOLERANCE;
    if dimension == Dimension::Fraction && (low..=high).contains(&value) {
        return Some(value);
    }
    let message = format!(
        "write the share of the penetration that is allowed, such as \"5 %\" ({} to {} %)",
        100.0 * low,
        100.0 * high
    );
    section.wrong(report, "tolerance", message);
    None
}
