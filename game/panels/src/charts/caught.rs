//! Where the dust ends: what every field catches and what leaves, as a share and per hour, counted and by the solver.

use ashlane_shared::{
    checks::{dust_balance, solved_catch},
    conditions::Conditions,
    units::{Dimension, UnitSystem, display, format, number_text},
};

use super::{percent_text, trends::PlantView};
use crate::{
    checks::CheckLine,
    drawing::{Anchor, Drawing, text_width},
    theme::{BODY, Ink, SMALL},
    view::CountView,
};

/// Height of a row.
const ROW: f32 = 21.0;
/// Above the first row and below the last.
const ABOVE: f32 = 42.0;
const BELOW: f32 = 8.0;
/// The books are kept by adding up: what is left is rounding.
const ROUNDING: f64 = 1e-6;

/// Height of the chart of so many fields.
#[must_use]
pub fn caught_height(fields: usize) -> f32 {
    ABOVE + (fields + 1) as f32 * ROW + BELOW
}

/// One bar.
struct Bar {
    name: String,
    share: f64,
    solved: Option<f64>,
    ink: Ink,
}

/// Draws the chart in this width; nothing until a count is there.
#[must_use]
pub fn caught_drawing(
    count: &CountView<'_>,
    conditions: &Conditions,
    units: UnitSystem,
    width: f32,
) -> Option<Drawing> {
    let bars = bars(count, conditions)?;
    let mut drawing = Drawing::new([width, caught_height(bars.len() - 1)]);
    let title = "Where the dust ends";
    drawing.bold([2.0, 12.0], Anchor::Left, title, BODY, Ink::Text);
    let inlet_kg_s = conditions.inlet_mass_kg_s();
    let total = format(inlet_kg_s, Dimension::MassFlow, units);
    let words = format!("of {total} that come in; line: solver");
    drawing.text([2.0, 31.0], Anchor::Left, words, SMALL, Ink::Faint);
    let (_, unit) = display(inlet_kg_s, Dimension::MassFlow, units);
    let values: Vec<[String; 2]> = bars
        .iter()
        .map(|bar| {
            let (flow, _) = display(bar.share * inlet_kg_s, Dimension::MassFlow, units);
            [
                percent_text(bar.share),
                format!("{} {unit}", number_text(flow, 3)),
            ]
        })
        .collect();
    let widest = |texts: &mut dyn Iterator<Item = &String>| {
        texts
            .map(|text| text_width(text, SMALL, false))
            .fold(0.0, f32::max)
    };
    let names = widest(&mut bars.iter().map(|bar| &bar.name));
    let flows = widest(&mut values.iter().map(|value| &value[1]));
    let shares = widest(&mut values.iter().map(|value| &value[0]));
    let (left, share_right) = (names + 10.0, width - 4.0 - flows - 12.0);
    let room = (share_right - shares - 10.0 - left).max(8.0);
    for (row, (bar, [share, flow])) in bars.iter().zip(&values).enumerate() {
        let y = ABOVE + (row as f32 + 0.5) * ROW;
        let at = |share: f64| left + room * share.clamp(0.0, 1.0) as f32;
        drawing.text([2.0, y], Anchor::Left, bar.name.as_str(), SMALL, Ink::Text);
        let (min, max) = ([left, y - 7.0], [at(bar.share).max(left + 1.0), y + 7.0]);
        drawing.rect(min, max, bar.ink, 1.0);
        if let Some(solved) = bar.solved {
            let x = at(solved);
            drawing.line([[x, y - 9.0], [x, y + 9.0]], Ink::FiniteMixing, 2.5);
        }
        drawing.text(
            [share_right, y],
            Anchor::Right,
            share.as_str(),
            SMALL,
            Ink::Text,
        );
        drawing.text(
            [width - 4.0, y],
            Anchor::Right,
            flow.as_str(),
            SMALL,
            Ink::Text,
        );
    }
    Some(drawing)
}

fn bars(count: &CountView<'_>, conditions: &Conditions) -> Option<Vec<Bar>> {
    let result = count.result?;
    let solved = count
        .theory
        .map(|theory| solved_catch(theory, result.by_field.len()));
    let fields = result
        .by_field
        .iter()
        .enumerate()
        .map(|(index, field)| Bar {
            name: conditions.short_field_name(index),
            share: field.collected,
            solved: solved
                .as_ref()
                .and_then(|solved| solved.get(index).copied()),
            ink: Ink::Dust,
        });
    let leaves = Bar {
        name: "leaves".to_owned(),
        share: result.penetration.share,
        solved: count.theory.map(|theory| theory.finite_mixing),
        ink: Ink::Uncharged,
    };
    Some(fields.chain([leaves]).collect())
}

/// The agreement lines: what the count caught and let through against what came in, and the same of the plant clock by the
/// masses that stand on plates, in hoppers and in the silo.
#[must_use]
pub fn caught_checks(
    count: &CountView<'_>,
    conditions: &Conditions,
    plant: Option<&PlantView<'_>>,
    units: UnitSystem,
) -> Vec<CheckLine> {
    let mut lines = Vec::new();
    if let Some(result) = count.result {
        let caught: f64 = result.by_field.iter().map(|field| field.collected).sum();
        let found = caught + result.penetration.share;
        let inlet_kg_s = conditions.inlet_mass_kg_s();
        let flow = |flow_kg_s| format(flow_kg_s, Dimension::MassFlow, units);
        lines.push(CheckLine::of_ratio(
            "mass balance: fields and outlet against the inlet",
            format!("{} and {}", flow(found * inlet_kg_s), flow(inlet_kg_s)),
            found,
            ROUNDING,
        ));
    }
    let balance = plant.and_then(|plant| dust_balance(plant.conditions, plant.steady()));
    lines.extend(balance.map(|both| {
        let mass = |mass_kg| format(mass_kg, Dimension::Mass, units);
        CheckLine::of_ratio(
            "plant clock: plates, hoppers, silo and stack against the inlet",
            format!("{} and {}", mass(both.shown), mass(both.expected)),
            both.ratio(),
            ROUNDING,
        )
    }));
    lines
}
