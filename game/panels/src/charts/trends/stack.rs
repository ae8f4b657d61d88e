//! What leaves over time: the dust in the stack with the puffs of the raps, and how dark it looks.

use ashlane_shared::{
    checks::{optical_depth, settled_penetration},
    plant::PlantReading,
    units::{Dimension, UnitSystem, display, number_text},
};

use super::{
    HOUR_S, PlantView, reduced, steps,
    time::{Trends, height},
};
use crate::{
    charts::{
        linear::{Linear, SideLabel},
        percent_of_caught, percent_text,
    },
    checks::CheckLine,
    drawing::{Anchor, Drawing, fitting},
    theme::{Ink, SMALL},
};

/// Height of each plot.
const PLOT: f32 = 110.0;
/// Most powers of ten on the axis of the dust.
const MOST_DECADES: f64 = 6.0;
/// Above the highest value and below the lowest, in powers of ten.
const AIR: f64 = 0.2;
/// Colour of the long run.
const LONG_RUN: Ink = Ink::Text;
/// What a time can tell of a mean over rates that change in it. Teaching value, no source; two days of the demonstration are
/// within 0.01, with rates that stand still both roads give the same digits.
const SHIFTED: f64 = 0.05;

/// Draws the chart in this width.
#[must_use]
pub fn stack_drawing(view: &PlantView<'_>, width: f32) -> Drawing {
    let mut drawing = Drawing::new([width, height(view, 1, &[PLOT, PLOT])]);
    let title = "What leaves through the stack";
    let Some(mut trends) = Trends::new(&mut drawing, view, title) else {
        return drawing;
    };
    long_run_key(&mut drawing, view, trends.row());
    let [dust, dark] = labels(view);
    let (_, unit) = display(0.0, Dimension::Emission, view.units);
    let name = format!("dust, {unit}, mean from reading to reading");
    let plot = trends.plot(&mut drawing, &name, (PLOT, decades(view)));
    by_decades(&mut drawing, &plot);
    let logarithm = |(hour, load): (f64, f64)| (hour, load.max(1e-30).log10());
    let units = view.units;
    let points = steps(view.readings, |reading| load(reading, units)).map(logarithm);
    let line = plot.curve(reduced(points, &plot).into_iter());
    drawing.line(line, Ink::Dust, 1.6);
    let line = plot.curve(reduced(long_run(view).map(logarithm), &plot).into_iter());
    drawing.line(line, LONG_RUN, 1.0);
    trends.mark_change(&mut drawing, &plot);
    plot.beside(&mut drawing, dust);

    let darkest = |reading: &PlantReading| 100.0 * reading.peak_opacity.max(reading.opacity);
    let range = (0.0, 1.1 * view.highest(darkest).max(1e-3));
    let plot = trends.plot(&mut drawing, &opacity_words(view, width), (PLOT, range));
    plot.upward(&mut drawing);
    puffs(&mut drawing, view, &plot);
    let line = reduced(steps(view.readings, percent), &plot);
    drawing.line(plot.curve(line.into_iter()), Ink::Uncharged, 1.6);
    trends.mark_change(&mut drawing, &plot);
    plot.beside(&mut drawing, dark);
    trends.axis(&mut drawing, &plot);
    drawing
}

fn load(reading: &PlantReading, units: UnitSystem) -> f64 {
    display(reading.emission_kg_m3, Dimension::Emission, units).0
}

fn percent(reading: &PlantReading) -> f64 {
    100.0 * reading.opacity
}

/// The dust that the present rates let through in the long run, hours and load; nothing while nothing came in.
fn long_run<'a>(view: &PlantView<'a>) -> impl Iterator<Item = (f64, f64)> + use<'a> {
    let units = view.units;
    view.readings.iter().filter_map(move |reading| {
        let share = reading.long_run / reading.penetration;
        let load = share * load(reading, units);
        load.is_finite().then_some((reading.time_s / HOUR_S, load))
    })
}

/// Words beside the ends of the lines: the dust, and how dark it is.
pub(super) fn labels(view: &PlantView<'_>) -> [Vec<SideLabel>; 2] {
    let Some(last) = view.readings.last().filter(|_| view.readings.len() > 1) else {
        return [Vec::new(), Vec::new()];
    };
    let label = |name: &str, shown: f64, value: f64, ink| SideLabel {
        value,
        text: format!("{name} {}", number_text(shown, 2)),
        ink,
    };
    let dust = [
        Some(("now", load(last, view.units), Ink::Dust)),
        long_run(view)
            .last()
            .map(|(_, load)| ("long run", load, LONG_RUN)),
    ];
    let dust = dust.into_iter().flatten();
    [
        dust.map(|(name, load, ink)| label(name, load, load.max(1e-30).log10(), ink))
            .collect(),
        vec![label("mean", percent(last), percent(last), Ink::Uncharged)],
    ]
}

/// Between which powers of ten the dust lies; a whole one is among them.
fn decades(view: &PlantView<'_>) -> (f64, f64) {
    let now = view
        .readings
        .iter()
        .map(|reading| load(reading, view.units));
    let loads = now
        .chain(long_run(view).map(|(_, load)| load))
        .filter(|load| *load > 0.0);
    let (low, high) = loads.fold((f64::MAX, 0.0_f64), |(low, high), load| {
        (low.min(load), high.max(load))
    });
    if high == 0.0 {
        return (0.0, 1.0);
    }
    let (low, high) = (low.log10() - AIR, high.log10() + AIR);
    (
        low.max(high - MOST_DECADES)
            .min(high.floor())
            .min(high - 1.0),
        high,
    )
}

/// Rules and numbers at every power of ten, and the two axes.
fn by_decades(drawing: &mut Drawing, plot: &Linear) {
    let ([left, top], [right, bottom]) = (plot.min, plot.max);
    for exponent in
        (plot.y.0.ceil() as i32..).take_while(|exponent| f64::from(*exponent) <= plot.y.1)
    {
        let y = plot.at_y(f64::from(exponent));
        drawing.line([[left, y], [right, y]], Ink::Rule, 1.0);
        // Its upper half would stand in the name above.
        if y - top >= 0.5 * SMALL {
            let text = number_text(10_f64.powi(exponent), 3);
            drawing.text([left - 5.0, y], Anchor::Right, text, SMALL, Ink::Faint);
        }
    }
    let axes = [[left, top], [left, bottom], [right, bottom]];
    drawing.line(axes, Ink::Faint, 1.0);
}

/// What the thin line is, with its number.
fn long_run_key(drawing: &mut Drawing, view: &PlantView<'_>, y: f32) {
    let share = view.readings.last().map_or(0.0, |last| last.long_run);
    let (out, caught) = (percent_text(share), percent_of_caught(share));
    let words = [
        format!("long run by the present rates: {out}, efficiency {caught}"),
        format!("long run: {out}, efficiency {caught}"),
        format!("{out} out, {caught} caught"),
    ];
    drawing.line([[2.0, y], [24.0, y]], LONG_RUN, 1.0);
    let text = fitting(&words, drawing.size[0] - 34.0);
    drawing.text([30.0, y], Anchor::Left, text, SMALL, Ink::Text);
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
    let tolerance = SHIFTED.max(spread(readings));
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
            tolerance,
        ));
    }
    if let Ok(Some(both)) = optical_depth(view.conditions, view.rates, readings) {
        let opaque = |depth: f64| percent_text(-(-depth).exp_m1());
        lines.push(CheckLine::of_ratio(
            "Bouguer: mean opacity of the long run against the shadows of its grains",
            format!("{} and {}", opaque(both.shown), opaque(both.expected)),
            both.ratio(),
            tolerance,
        ));
    }
    lines.push(CheckLine::of_ratio(
        "long run with raps, the plates as the sheet has them, against the solver",
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

/// How far the long run of the readings lies from its mean, in the mean and as a share of it: what layers that thicken or
/// break make of the rates. A blow gives back what was caught by the rates of the time before it.
fn spread(readings: &[PlantReading]) -> f64 {
    let mean_of = |value: &dyn Fn(&PlantReading) -> f64| {
        readings.iter().map(value).sum::<f64>() / readings.len().max(1) as f64
    };
    let mean = mean_of(&|reading| reading.long_run);
    let apart = mean_of(&|reading| (reading.long_run - mean).abs());
    if mean > 0.0 { apart / mean } else { 0.0 }
}
