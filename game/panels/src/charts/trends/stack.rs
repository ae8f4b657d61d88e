//! What leaves over time: the dust in the stack with the puffs of the raps, and how dark it looks.

use ashlane_shared::{
    checks::{optical_depth, settled_penetration},
    plant::PlantReading,
    units::{Dimension, display, number_text},
};

use super::{BELOW, HOUR_S, LEFT, PlantView, axis_name, heading, reduced, steps};
use crate::{
    charts::{linear::Linear, percent_text},
    checks::CheckLine,
    drawing::{Drawing, Point, fitting},
    theme::Ink,
};

/// The rates are those of one moment: layers that thicken or break shift them between the readings. Teaching value, no
/// source; with rates that stand still both roads give the same digits.
const SHIFTED: f64 = 0.10;

/// Draws the chart in this size.
#[must_use]
pub fn stack_drawing(view: &PlantView<'_>, size: Point) -> Drawing {
    let mut drawing = Drawing::new(size);
    if !heading(&mut drawing, view, "What leaves through the stack") {
        return drawing;
    }
    let (right, middle) = (size[0] - 12.0, 0.5 * (size[1] + 20.0));
    let load =
        |reading: &PlantReading| display(reading.emission_kg_m3, Dimension::Emission, view.units).0;
    let (_, unit) = display(0.0, Dimension::Emission, view.units);
    let emission = Linear {
        min: [LEFT, 48.0],
        max: [right, middle - 8.0],
        x: view.hours(),
        y: (0.0, 1.1 * view.highest(load).max(1e-6)),
    };
    axis_name(
        &mut drawing,
        33.0,
        format!("dust, {unit}, mean from reading to reading"),
    );
    emission.upward(&mut drawing);
    let line = reduced(steps(view.readings, load), &emission);
    drawing.line(emission.curve(line.into_iter()), Ink::Dust, 1.6);
    let percent = |reading: &PlantReading| 100.0 * reading.opacity;
    let peak = |reading: &PlantReading| 100.0 * reading.peak_opacity;
    let opacity = Linear {
        min: [LEFT, middle + 26.0],
        max: [right, size[1] - BELOW],
        x: view.hours(),
        y: (
            0.0,
            1.1 * view
                .highest(|reading| peak(reading).max(percent(reading)))
                .max(1e-3),
        ),
    };
    axis_name(&mut drawing, middle + 11.0, opacity_words(view, size[0]));
    opacity.upward(&mut drawing);
    opacity.rightward(&mut drawing, "h");
    puffs(&mut drawing, view, &opacity);
    let line = reduced(steps(view.readings, percent), &opacity);
    drawing.line(opacity.curve(line.into_iter()), Ink::Uncharged, 1.6);
    drawing
}

/// What the lower half shows, as long as there is room for.
fn opacity_words(view: &PlantView<'_>, width: f32) -> String {
    let seconds = view.readings.last().map_or(0.0, |last| last.puff_s);
    let lasts = number_text(seconds, 2);
    let words = [
        format!("opacity, %: mean, and darkest moment of a puff (lasts {lasts} s)"),
        format!("opacity, %: mean, and puffs ({lasts} s)"),
        "opacity, %, and puffs".to_owned(),
    ];
    fitting(&words, width - 4.0).to_owned()
}

/// A needle up to the darkest moment of every reading that had a blow; of a column the darkest.
fn puffs(drawing: &mut Drawing, view: &PlantView<'_>, plot: &Linear) {
    let mut darkest: Vec<(f32, f64)> = Vec::new();
    for reading in view.readings {
        let Some(at_s) = reading.peak_at_s else {
            continue;
        };
        let (x, percent) = (
            plot.at_x(at_s / HOUR_S).round(),
            100.0 * reading.peak_opacity,
        );
        match darkest.last_mut() {
            Some(last) if last.0 == x => last.1 = last.1.max(percent),
            _ => darkest.push((x, percent)),
        }
    }
    for (x, percent) in darkest {
        let (top, foot) = (plot.at_y(percent), plot.max[1]);
        if x >= plot.min[0] {
            drawing.line([[x, foot], [x, top]], Ink::Dust, 1.0);
            drawing.dot([x, top], 1.8, Ink::Dust);
        }
    }
}

/// The agreement lines: penetration and darkness of the readings, with what the layers still owe, against the long run;
/// and the long run against the solver.
#[must_use]
pub fn stack_checks(view: &PlantView<'_>) -> Vec<CheckLine> {
    let long_run = view.long_run;
    let mut lines = Vec::new();
    let readings = view.steady();
    if let Some(both) = settled_penetration(view.conditions, view.rates, readings) {
        lines.push(CheckLine::of_ratio(
            "penetration of this time, with what the layers still owe, against the long run",
            format!(
                "{} (efficiency {}) and {} by the rates",
                percent_text(both.shown),
                percent_text(1.0 - both.shown),
                percent_text(both.expected)
            ),
            both.ratio(),
            SHIFTED,
        ));
    }
    if let Ok(Some(both)) = optical_depth(view.conditions, view.rates, readings) {
        let opaque = |depth: f64| percent_text(-(-depth).exp_m1());
        lines.push(CheckLine::of_ratio(
            "Bouguer: mean opacity of the long run against the shadows of its grains",
            format!("{} and {}", opaque(both.shown), opaque(both.expected)),
            both.ratio(),
            SHIFTED,
        ));
    }
    lines.push(CheckLine::of_ratio(
        "long run with raps against the solver",
        format!(
            "{} with raps, {} by the solver with a steady loss",
            percent_text(long_run.by_rates),
            percent_text(long_run.finite_mixing)
        ),
        long_run.by_rates / long_run.finite_mixing,
        long_run.tolerance / long_run.finite_mixing,
    ));
    lines
}
