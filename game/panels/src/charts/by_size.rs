//! Penetration by grain size, efficiency beside it: which grains get through, counted, by the solver, and as published.

use ashlane_shared::{
    checks::{FINE_M, boiler_penetrations, fine_and_coarse},
    units::UnitSystem,
};

use super::axes::{Frame, Mark, decade_below, key_below};
use super::percent_text;
use crate::{checks::CheckLine, drawing::Drawing, drawing::Point, theme::Ink, view::CountView};

/// Diameters at ticks, µm.
const TICKS_UM: [f64; 11] = [0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0];
/// A class needs this share of the inlet mass to be drawn: below, its error covers the chart.
const LEAST_MASS: f64 = 3e-4;

/// Draws the chart in this size; nothing until a count is there.
#[must_use]
pub fn by_size_drawing(count: &CountView<'_>, _units: UnitSystem, size: Point) -> Option<Drawing> {
    let result = count.result?;
    let mut drawing = Drawing::new(size);
    let (frame, seen) = frame(&mut drawing, count)?;
    published(&mut drawing, &frame);
    let expected = expected(count);
    let line = seen.iter().filter_map(|class| {
        Some((
            log_um(result.by_size[*class].diameter_m),
            *expected.get(*class)?,
        ))
    });
    drawing.line(frame.curve(line), Ink::FiniteMixing, 2.0);
    for class in seen.iter().map(|class| &result.by_size[*class]) {
        let share = class.counted.share;
        frame.counted(
            &mut drawing,
            log_um(class.diameter_m),
            share,
            3.0 * class.counted.standard_error,
        );
    }
    key_below(
        &mut drawing,
        &[
            (Ink::Dust, Mark::Point, "counted ± 3σ"),
            (Ink::FiniteMixing, Mark::Line, "finite mixing"),
            (Ink::Laminar, Mark::Dashes, "coal boilers (AP-42)"),
        ],
    );
    Some(drawing)
}

/// Its axes alone, to draw a guess into.
#[must_use]
pub fn by_size_axes(count: &CountView<'_>, size: Point) -> Option<Drawing> {
    let mut drawing = Drawing::new(size);
    frame(&mut drawing, count)?;
    Some(drawing)
}

fn log_um(diameter_m: f64) -> f64 {
    (diameter_m * 1e6).log10()
}

/// What the solver says of each class.
fn expected<'a>(count: &CountView<'a>) -> &'a [f64] {
    count
        .theory
        .map(|theory| theory.by_size.as_slice())
        .unwrap_or_default()
}

/// The frame for this count, and the classes that have enough dust to be drawn.
fn frame(drawing: &mut Drawing, count: &CountView<'_>) -> Option<(Frame, Vec<usize>)> {
    let (result, expected) = (count.result?, expected(count));
    let seen: Vec<usize> = (0..result.by_size.len())
        .filter(|class| result.by_size[*class].inlet_share >= LEAST_MASS)
        .collect();
    let (first, last) = (*seen.first()?, *seen.last()?);
    let (from, to) = (
        log_um(result.by_size[first].diameter_m) - 0.15,
        log_um(result.by_size[last].diameter_m) + 0.15,
    );
    let counted = seen
        .iter()
        .map(|class| result.by_size[*class].counted.share);
    let solved = seen
        .iter()
        .filter_map(|class| expected.get(*class).copied());
    let low = decade_below(counted.chain(solved).map(|share| share.max(3e-5)));
    let frame = Frame::with_efficiency(drawing, "Penetration by grain size", low, (from, to));
    let ticks: Vec<(f64, String)> = TICKS_UM
        .into_iter()
        .map(|um| (um.log10(), super::plain_number_or_zero(um)))
        .filter(|(log, _)| (from..=to).contains(log))
        .collect();
    frame.ticks(drawing, &ticks, "diameter, µm");
    Some((frame, seen))
}

/// What was published for coal boilers, class by class.
fn published(drawing: &mut Drawing, frame: &Frame) {
    for class in boiler_penetrations() {
        let ends = [class.from_m, class.to_m].map(|end_m| (end_m * 1e6).log10());
        let (from, to) = (ends[0].max(frame.from), ends[1].min(frame.to));
        if to > from && class.penetration > 10_f64.powi(frame.low) {
            let y = frame.y(class.penetration);
            drawing.dashed([[frame.x(from), y], [frame.x(to), y]], Ink::Laminar, 2.0);
        }
    }
}

/// The agreement lines: fine and coarse grains, counted against the solver.
#[must_use]
pub fn by_size_checks(count: &CountView<'_>) -> Vec<CheckLine> {
    let (Some(result), Some(theory)) = (count.result, count.theory) else {
        return Vec::new();
    };
    let names = [
        "fine grains: count against solver",
        "coarse grains: count against solver",
    ];
    let groups = names.into_iter().zip(fine_and_coarse(result, theory));
    let groups = groups.zip(["below", "above"]);
    groups
        .filter_map(|((name, found), side)| {
            let (both, tolerance) = found?;
            let text = format!(
                "{side} {} µm {} counted, {} by the solver",
                super::plain_number_or_zero(FINE_M * 1e6),
                percent_text(both.shown),
                percent_text(both.expected)
            );
            Some(CheckLine::of_ratio(name, text, both.ratio(), tolerance))
        })
        .collect()
}

/// What the published classes are.
#[must_use]
pub fn by_size_note() -> String {
    let classes = boiler_penetrations();
    let mut texts = classes.iter().map(|class| percent_text(class.penetration));
    let (fine, coarse) = (texts.clone().next(), texts.next_back());
    format!(
        "Dashed: precipitators behind coal boilers, 99.2 % of the dust caught, from memory of US EPA AP-42: {} of the finest class gets through, {} of the coarsest. Single classes are good to ±50 %; compare the shape.",
        fine.unwrap_or_default(),
        coarse.unwrap_or_default()
    )
}
