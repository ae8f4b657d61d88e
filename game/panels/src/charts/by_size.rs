//! Penetration by grain size: which grains get through.

use ashlane_shared::units::UnitSystem;

use super::axes::{Frame, Mark, decade_below, key};
use crate::{drawing::Drawing, drawing::Point, theme::Ink, view::CountView};

/// Diameters at ticks, µm.
const TICKS_UM: [f64; 11] = [0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0];
/// A class needs this share of the inlet mass to be drawn: below, its error covers the chart.
const LEAST_MASS: f64 = 3e-4;

/// Draws the chart in this size; nothing until a count is there.
#[must_use]
pub fn by_size_drawing(count: &CountView<'_>, _units: UnitSystem, size: Point) -> Option<Drawing> {
    let result = count.result?;
    let mut drawing = Drawing::new(size);
    let expected = count
        .theory
        .map(|theory| theory.by_size.as_slice())
        .unwrap_or_default();
    let seen: Vec<usize> = (0..result.by_size.len())
        .filter(|class| result.by_size[*class].inlet_share >= LEAST_MASS)
        .collect();
    let (first, last) = (*seen.first()?, *seen.last()?);
    let log_um = |diameter_m: f64| (diameter_m * 1e6).log10();
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
    let frame = Frame::new(&mut drawing, "Penetration by grain size", low, (from, to));
    let ticks: Vec<(f64, String)> = TICKS_UM
        .into_iter()
        .map(|um| (um.log10(), super::plain_number_or_zero(um)))
        .filter(|(log, _)| (from..=to).contains(log))
        .collect();
    frame.ticks(&mut drawing, &ticks, "diameter, µm");
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
    key(
        &mut drawing,
        &frame,
        &[
            (Ink::Dust, Mark::Point, "counted ± 3σ"),
            (Ink::FiniteMixing, Mark::Line, "finite mixing"),
        ],
    );
    Some(drawing)
}
