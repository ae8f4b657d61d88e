//! Reads a question for a number: what may be entered, and the ranges that answers fall into.

use ashlane_shared::{
    conditions::{Range, sheet::Report},
    units::{Dimension, UnitSystem, format},
};

use super::section::Section;
use crate::engine::{NumberEntry, Text};

/// Relative gap between two ranges that is only rounding.
const SAME: f64 = 1e-9;

/// The entry, and the text of each option.
pub(super) fn number(
    predict: &Section<'_>,
    options: &[Section<'_>],
    report: &mut Report<'_>,
) -> Option<(NumberEntry, Vec<Text>)> {
    let answer = predict.measure(report, "answer");
    let (from, to) = (
        predict.measure(report, "from"),
        predict.measure(report, "to"),
    );
    let (model, dimension) = answer?;
    let allowed = range(predict, from?, to?, dimension, report)?;
    let mut ranges = Vec::with_capacity(options.len());
    let mut texts = Vec::with_capacity(options.len());
    for option in options {
        let (from, to) = (option.measure(report, "from"), option.measure(report, "to"));
        let range = range(option, from?, to?, dimension, report)?;
        texts.push(if option.has("text") {
            option.text(report, "text")?
        } else {
            Text::parse(&range_text(range, dimension)).unwrap_or_default()
        });
        ranges.push(range);
    }
    if let Some(message) = gap(allowed, &ranges, dimension) {
        predict.wrong(report, "option", message);
        return None;
    }
    if !allowed.holds(model) {
        let message = "the right value lies outside of what may be entered; check from and to";
        predict.wrong(report, "answer", message.to_owned());
        return None;
    }
    let entry = NumberEntry {
        dimension,
        allowed,
        model,
        ranges,
    };
    Some((entry, texts))
}

/// The range that holds the right value; on a border, the one above.
pub(super) fn right_range(entry: &NumberEntry) -> Option<usize> {
    let held = entry.ranges.iter().enumerate();
    held.filter(|(_, range)| range.holds(entry.model))
        .max_by(|(_, one), (_, other)| one.min.total_cmp(&other.min))
        .map(|(index, _)| index)
}

fn range(
    section: &Section<'_>,
    from: (f64, Dimension),
    to: (f64, Dimension),
    dimension: Dimension,
    report: &mut Report<'_>,
) -> Option<Range> {
    for (name, (_, found)) in [("from", from), ("to", to)] {
        if found != dimension {
            let message = format!(
                "this is {} and the answer {}",
                found.name(),
                dimension.name()
            );
            section.wrong(report, name, message);
            return None;
        }
    }
    if from.0 < to.0 {
        return Some(Range {
            min: from.0,
            max: to.0,
        });
    }
    section.wrong(report, "to", "write more here than in from".to_owned());
    None
}

/// Says where the ranges leave a gap or lie over each other.
fn gap(allowed: Range, ranges: &[Range], dimension: Dimension) -> Option<String> {
    let mut sorted = ranges.to_vec();
    sorted.sort_by(|one, other| one.min.total_cmp(&other.min));
    let same = |a: f64, b: f64| (a - b).abs() <= SAME * a.abs().max(b.abs());
    let text = |value: f64| format(value, dimension, UnitSystem::Si);
    let mut at = allowed.min;
    for range in &sorted {
        if !same(at, range.min) {
            return Some(format!(
                "every number must fall into one option: one range begins at {} where {} is due",
                text(range.min),
                text(at)
            ));
        }
        at = range.max;
    }
    (!same(at, allowed.max)).then(|| {
        format!(
            "every number must fall into one option: the ranges end at {} and not at {}",
            text(at),
            text(allowed.max)
        )
    })
}

fn range_text(range: Range, dimension: Dimension) -> String {
    let text = |value: f64| match dimension {
        Dimension::Number => format(value, dimension, UnitSystem::Si),
        _ => format!("{{{}}}", format(value, dimension, UnitSystem::Si)),
    };
    format!("{} to {}", text(range.min), text(range.max))
}
