//! Reads the checks of a segment: quantity, relation, formula, tolerance, number of parcels.

use ashlane_shared::{
    checks::{FORMULAS, Formula, find_formula},
    conditions::{
        MOST_FIELDS,
        sheet::{Report, Trouble},
    },
    units::Dimension,
};

use super::{
    observe::Observed,
    section::{Section, quoted, unknown},
};
use crate::engine::{Check, Moment, QUANTITIES, QuantityRow, RELATIONS, Relation, Span};

/// Most checks of a segment.
const MOST: usize = 6;
/// Smallest and largest stated tolerance, share of the formula's value.
const TOLERANCE: (f64, f64) = (0.001, 0.5);
const PARCELS: (i64, i64) = (1_000, 5_000_000);
/// Smallest and largest diameter of a grain, m: those of the sheet's own dust.
const SIZE_M: (f64, f64) = (0.01e-6, 1000e-6);
/// Longest time that the plant clock runs for one check, s: 400 days.
const LONGEST_S: f64 = 400.0 * 86_400.0;
const KEYS: [&str; 11] = [
    "quantity",
    "relation",
    "formula",
    "upper",
    "at",
    "tolerance",
    "size",
    "parcels",
    "settle",
    "time",
    "field",
];

/// Whether all dust of the segment has one diameter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum SingleSize {
    /// It has, so that a check need not name one.
    Yes,
    /// It has many.
    No,
}

pub(super) fn checks(
    section: &Section<'_>,
    (single, kind): (SingleSize, Observed),
    report: &mut Report<'_>,
) -> Option<Vec<Check>> {
    let found = section.sections(report, "check");
    let fewest = usize::from(kind == Observed::Changes);
    if !(fewest..=MOST).contains(&found.len()) {
        let message = format!("a segment has 1 to {MOST} checks; write [[segment.check]]");
        section.wrong(report, "check", message);
        return None;
    }
    let checks: Vec<Option<Check>> = found
        .iter()
        .map(|section| check(section, single, report))
        .collect();
    checks.into_iter().collect()
}

fn quantity(section: &Section<'_>, report: &mut Report<'_>) -> Option<&'static QuantityRow> {
    let words: Vec<(&'static str, &'static QuantityRow)> =
        QUANTITIES.iter().map(|row| (row.name, row)).collect();
    section.word(report, "quantity", &words)
}

fn check(section: &Section<'_>, single: SingleSize, report: &mut Report<'_>) -> Option<Check> {
    section.only(report, &KEYS);
    let quantity = quantity(section, report);
    let relation = section.word(report, "relation", &RELATIONS);
    let formula = formula(section, "formula", report);
    let upper = upper(section, relation, report);
    let formula_at = if section.has("at") {
        let moments = [("before", Moment::Before), ("after", Moment::After)];
        section.word(report, "at", &moments)
    } else {
        Some(Moment::After)
    };
    if quantity.is_some_and(|row| row.quantity.needs_before()) && formula_at == Some(Moment::Before)
    {
        let message = "a ratio takes its formula before and after by itself; take this away";
        section.wrong(report, "at", message.to_owned());
    }
    let tolerance = tolerance(section, report);
    fits(section, quantity, (formula, upper.flatten()), report);
    let size_m = size(section, quantity.zip(formula), single, report);
    let on_plant = on_plant(section, quantity, formula, report);
    let counted = quantity.is_none_or(|row| row.instrument.counts() || row.instrument.runs());
    let parcels = if counted || section.has("parcels") {
        section.whole(report, "parcels", PARCELS.0..=PARCELS.1)
    } else {
        Some(0)
    };
    Some(Check {
        line: section.place().map(|place| report.line(place.start)),
        quantity: quantity?.quantity,
        relation: relation?,
        formula: formula?,
        upper: upper?,
        formula_at: formula_at?,
        tolerance: tolerance?,
        size_m: size_m?,
        span: on_plant?.0,
        field: on_plant?.1,
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

/// Notes a formula that gives something else than the quantity is.
fn fits(
    section: &Section<'_>,
    quantity: Option<&QuantityRow>,
    (formula, upper): (Option<&'static Formula>, Option<&'static Formula>),
    report: &mut Report<'_>,
) {
    let Some(row) = quantity else { return };
    // A ratio is that of the penetrations that the formula gives.
    let wanted = if row.quantity.needs_before() {
        Dimension::Fraction
    } else {
        row.dimension
    };
    let fitting: Vec<&str> = FORMULAS
        .iter()
        .filter(|formula| formula.gives == wanted)
        .map(|formula| formula.name)
        .collect();
    for (name, formula) in [("formula", formula), ("upper", upper)] {
        if formula.is_some_and(|formula| formula.gives != wanted) {
            let message = format!(
                "this formula gives something else than {}; write {}",
                row.title,
                quoted(&fitting)
            );
            section.wrong(report, name, message);
        }
    }
}

/// The diameter, which goes with what a grain has and only with it.
fn size(
    section: &Section<'_>,
    asked: Option<(&QuantityRow, &'static Formula)>,
    single: SingleSize,
    report: &mut Report<'_>,
) -> Option<Option<f64>> {
    let (row, formula) = asked?;
    let needed = row.needs_size || formula.needs_size();
    match (needed, section.has("size")) {
        (false, false) => Some(None),
        (true, false) if single == SingleSize::Yes => Some(None),
        (true, false) => {
            let message = format!(
                "add size = \"1 µm\": {} is that of a grain; or give teaching.single_diameter in the sheet",
                row.title
            );
            let trouble = Trouble::Missing(message);
            report.name(section.path_of("size"), section.place(), trouble);
            None
        }
        (false, true) => {
            let message = "neither quantity nor formula is that of a grain; take this away";
            section.wrong(report, "size", message.to_owned());
            None
        }
        (true, true) => {
            let (value, dimension) = section.measure(report, "size")?;
            let (low, high) = SIZE_M;
            if dimension == Dimension::GrainSize && (low..=high).contains(&value) {
                return Some(Some(value));
            }
            let message = format!(
                "write the diameter of a grain, such as \"0.5 µm\" ({} to {} µm)",
                1e6 * low,
                1e6 * high
            );
            section.wrong(report, "size", message);
            None
        }
    }
}

/// The time on the plant clock and the field, which go with what is read there and only with it.
fn on_plant(
    section: &Section<'_>,
    quantity: Option<&QuantityRow>,
    formula: Option<&'static Formula>,
    report: &mut Report<'_>,
) -> Option<(Option<Span>, Option<usize>)> {
    let (row, formula) = quantity.zip(formula)?;
    if !row.instrument.runs() {
        if formula.needs_plant() {
            let message = format!("{} is not read on the plant clock; take another", row.title);
            section.wrong(report, "formula", message);
            return None;
        }
        let extra = ["settle", "time", "field"]
            .into_iter()
            .find(|name| section.has(name));
        return match extra {
            None => Some((None, None)),
            Some(name) => {
                let message = format!(
                    "{} is not read on the plant clock; take this away",
                    row.title
                );
                section.wrong(report, name, message);
                None
            }
        };
    }
    let time_s = clock_time_s(section, "time", 60.0, report);
    let settle_s = if section.has("settle") {
        clock_time_s(section, "settle", 0.0, report)
    } else {
        Some(0.0)
    };
    let field = match (row.needs_field, section.has("field")) {
        (true, _) => {
            let most = i64::try_from(MOST_FIELDS).unwrap_or(i64::MAX);
            let field = section.whole(report, "field", 1..=most)?;
            Some(usize::try_from(field).ok()? - 1)
        }
        (false, true) => {
            let message = format!("{} is not that of a field; take this away", row.title);
            section.wrong(report, "field", message);
            return None;
        }
        (false, false) => None,
    };
    let span = Span {
        settle_s: settle_s?,
        time_s: time_s?,
    };
    Some((Some(span), field))
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

/// A time on the plant clock, s.
fn clock_time_s(
    section: &Section<'_>,
    name: &str,
    least_s: f64,
    report: &mut Report<'_>,
) -> Option<f64> {
    let (value_s, dimension) = section.measure(report, name)?;
    let is_time = matches!(dimension, Dimension::Time | Dimension::Interval);
    if is_time && (least_s..=LONGEST_S).contains(&value_s) {
        return Some(value_s);
    }
    let message = "write how long the plant runs, such as \"24 h\" (1 min to 400 days)";
    section.wrong(report, name, message.to_owned());
    None
}

fn tolerance(section: &Section<'_>, report: &mut Report<'_>) -> Option<f64> {
    let (value, dimension) = section.measure(report, "tolerance")?;
    let (low, high) = TOLERANCE;
    if dimension == Dimension::Fraction && (low..=high).contains(&value) {
        return Some(value);
    }
    let message = format!(
        "write the share of the value that is allowed, such as \"5 %\" ({} to {} %)",
        100.0 * low,
        100.0 * high
    );
    section.wrong(report, "tolerance", message);
    None
}
