//! Penetration along the collector: counted points with their errors, the solver, the formula and the laminar limit.

use ashlane_shared::units::{Dimension, UnitSystem, display, from_display};

use super::axes::{Frame, Mark, decade_below, key};
use crate::{drawing::Drawing, drawing::Point, plan::nice_below, theme::Ink, view::CountView};

/// Draws the chart in this size; nothing until a count is there.
#[must_use]
pub fn along_drawing(count: &CountView<'_>, units: UnitSystem, size: Point) -> Option<Drawing> {
    let result = count.result?;
    let mut drawing = Drawing::new(size);
    let length_m = result.along.last()?.along_m;
    let theory = count
        .theory
        .map(|theory| theory.along.as_slice())
        .unwrap_or_default();
    let counted = result.along.iter().map(|point| point.counted.share);
    let solved = theory.iter().map(|point| point.finite_mixing);
    let low = decade_below(counted.chain(solved));
    let frame = Frame::new(
        &mut drawing,
        "Dust still in the gas, along the collector",
        low,
        (0.0, length_m),
    );
    let (ticks, unit) = length_ticks(length_m, units);
    frame.ticks(
        &mut drawing,
        &ticks,
        &format!("distance from the inlet, {unit}"),
    );
    let laminar = frame.curve(theory.iter().map(|point| (point.along_m, point.laminar)));
    let deutsch = frame.curve(
        theory
            .iter()
            .map(|point| (point.along_m, point.deutsch_anderson)),
    );
    let finite = frame.curve(
        theory
            .iter()
            .map(|point| (point.along_m, point.finite_mixing)),
    );
    drawing.dashed(laminar, Ink::Laminar, 1.5);
    drawing.dashed(deutsch, Ink::Deutsch, 1.5);
    drawing.line(finite, Ink::FiniteMixing, 2.0);
    for point in result.along.iter().skip(1).step_by(2) {
        frame.counted(
            &mut drawing,
            point.along_m,
            point.counted.share,
            3.0 * point.counted.standard_error,
        );
    }
    key(
        &mut drawing,
        &frame,
        &[
            (Ink::Dust, Mark::Point, "counted ± 3σ"),
            (Ink::FiniteMixing, Mark::Line, "finite mixing"),
            (Ink::Deutsch, Mark::Dashes, "Deutsch–Anderson"),
            (Ink::Laminar, Mark::Dashes, "laminar"),
        ],
    );
    Some(drawing)
}

/// Round distances in the units on screen.
fn length_ticks(length_m: f64, units: UnitSystem) -> (Vec<(f64, String)>, &'static str) {
    let (total, unit) = display(length_m, Dimension::Length, units);
    let step = nice_below(total / 3.9);
    let ticks = (0..)
        .map(|index| f64::from(index) * step)
        .take_while(|value| *value <= total * 1.0001)
        .map(|value| {
            (
                from_display(value, Dimension::Length, units),
                super::plain_number_or_zero(value),
            )
        })
        .collect();
    (ticks, unit)
}
