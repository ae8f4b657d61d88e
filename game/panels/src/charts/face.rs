//! How even the gas meets the fields: how many readings of the face have which velocity, with the bounds of practice.

use ashlane_shared::{
    physics::gas_path::uniformity::{FAR_BOUND, NEAR_BOUND, Uniformity},
    units::{Dimension, UnitSystem, display, format},
};

use super::linear::Linear;
use crate::{
    checks::CheckLine,
    drawing::{Anchor, Drawing, Point},
    theme::{BODY, Ink, SMALL},
};

/// Bars from no velocity to twice the mean.
const BARS: usize = 20;
/// Highest velocity that is shown, over the mean.
const SHOWN: f64 = 2.0;
/// Readings and flow agree within this: the readings are made to have the mean, what is left is rounding.
const CONTINUITY: f64 = 1e-6;

/// The face behind the distribution plate.
#[derive(Clone, Copy, Debug)]
pub struct FaceView<'a> {
    /// Readings on an even grid, m/s.
    pub readings_m_s: &'a [f64],
    /// Their statistics.
    pub uniformity: Uniformity,
    /// Flow of the sheet, m³/s.
    pub flow_m3_s: f64,
    /// Area of the face, m².
    pub face_m2: f64,
    /// Units of the labels.
    pub units: UnitSystem,
}

/// Mean of every row of readings with so many columns, in the order of the rows.
#[must_use]
pub fn row_means(readings_m_s: &[f64], columns: usize) -> Vec<f64> {
    let rows = readings_m_s.chunks_exact(columns.max(1));
    rows.map(|row| row.iter().sum::<f64>() / row.len() as f64)
        .collect()
}

/// Draws the chart in this size.
#[must_use]
pub fn face_drawing(view: &FaceView<'_>, size: Point) -> Drawing {
    let mut drawing = Drawing::new(size);
    let title = "Gas velocity over the face";
    drawing.bold([2.0, 12.0], Anchor::Left, title, BODY, Ink::Text);
    let even = &view.uniformity;
    let mean = format(even.mean_m_s, Dimension::Velocity, view.units);
    let words = format!(
        "{} readings, mean {mean}, RMS {:.1} %",
        view.readings_m_s.len(),
        100.0 * even.rms_share
    );
    drawing.text([2.0, 31.0], Anchor::Left, words, SMALL, Ink::Faint);
    let shares = shares(view);
    let top = shares.iter().copied().fold(0.0, f64::max);
    let plot = Linear {
        min: [40.0, 64.0],
        max: [size[0] - 12.0, size[1] - 22.0],
        x: (0.0, shown(view, SHOWN)),
        y: (0.0, 112.0 * top.max(0.01)),
    };
    let name = "% of the readings";
    drawing.text([2.0, 49.0], Anchor::Left, name, SMALL, Ink::Faint);
    plot.upward(&mut drawing);
    for (bar, share) in shares.iter().enumerate() {
        let edge = |bar: usize| plot.at_x(shown(view, SHOWN * bar as f64 / BARS as f64));
        let (min, max) = (
            [edge(bar) + 0.5, plot.at_y(100.0 * share)],
            [edge(bar + 1) - 0.5, plot.max[1]],
        );
        if *share > 0.0 {
            drawing.rect(min, max, Ink::Gas, 1.0);
        }
    }
    for (bound, verdict, anchor, aside) in [
        (NEAR_BOUND.0, even.near_verdict(), Anchor::Right, 8.0),
        (FAR_BOUND.0, even.far_verdict(), Anchor::Left, -8.0),
    ] {
        let x = plot.at_x(shown(view, bound));
        drawing.dashed([[x, plot.min[1]], [x, plot.max[1]]], Ink::Text, 1.2);
        let text = format!("{:.0} %", 100.0 * verdict.found);
        let at = [x + aside, plot.min[1] - 6.0];
        drawing.label(at, anchor, text, SMALL, Ink::Text);
    }
    let (_, unit) = display(1.0, Dimension::Velocity, view.units);
    plot.rightward(&mut drawing, unit);
    drawing
}

/// The agreement line: mean of the readings times the face against the flow.
#[must_use]
pub fn face_check(view: &FaceView<'_>) -> CheckLine {
    let through_m3_s = view.uniformity.mean_m_s * view.face_m2;
    let flow = |flow_m3_s| format(flow_m3_s, Dimension::Flow, view.units);
    CheckLine::of_ratio(
        "continuity: readings times face against the flow",
        format!("{} and {}", flow(through_m3_s), flow(view.flow_m3_s)),
        through_m3_s / view.flow_m3_s,
        CONTINUITY,
    )
}

/// What practice asks of a face, and whether this one has it.
#[must_use]
pub fn face_note(view: &FaceView<'_>) -> String {
    let even = &view.uniformity;
    let word = |kept: bool| if kept { "kept" } else { "NOT kept" };
    let (rms, near, far) = (even.rms_verdict(), even.near_verdict(), even.far_verdict());
    format!(
        "Practice asks for an RMS of at most {:.0} % ({}), {:.0} % of the readings up to {:.2} of the mean ({}) and {:.0} % up to {:.2} ({}).",
        100.0 * rms.bound,
        word(rms.kept),
        100.0 * near.bound,
        NEAR_BOUND.0,
        word(near.kept),
        100.0 * far.bound,
        FAR_BOUND.0,
        word(far.kept)
    )
}

/// A share of the mean velocity in the units on screen.
fn shown(view: &FaceView<'_>, of_mean: f64) -> f64 {
    display(
        of_mean * view.uniformity.mean_m_s,
        Dimension::Velocity,
        view.units,
    )
    .0
}

/// Share of the readings in every bar; what is faster than shown is in the last.
fn shares(view: &FaceView<'_>) -> [f64; BARS] {
    let mut shares = [0.0; BARS];
    let one = 1.0 / view.readings_m_s.len().max(1) as f64;
    for reading in view.readings_m_s {
        let bar = reading / view.uniformity.mean_m_s / SHOWN * BARS as f64;
        shares[(bar.max(0.0) as usize).min(BARS - 1)] += one;
    }
    shares
}
