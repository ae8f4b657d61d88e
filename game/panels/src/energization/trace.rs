//! Voltage and current over time: mean and peak of every half cycle, sparks as still marks, and the lines they run between.

use ashlane_shared::{
    physics::energization::{TracePoint, Upset},
    units::{Dimension, display, number_text},
};

use super::{EnergizationView, mean};
use crate::{
    charts::linear::{Linear, SideLabel, room_beside},
    drawing::{Anchor, Drawing, Item, Point, fitting, text_width},
    theme::{Ink, SMALL},
};

/// Room for the numbers on the left, the title above and the numbers below.
const LEFT: f32 = 40.0;
const TITLE: f32 = 22.0;
const BELOW: f32 = 22.0;
/// Below this width the words beside the charts leave out units that the titles say.
const SHORT_BELOW: f32 = 340.0;
/// The limit of the current is drawn where it is no more than this many times the highest current that is shown.
const LIMIT_SHOWN: f64 = 3.0;
/// Height of a spark's mark.
const MARK: f32 = 7.0;

/// Draws both charts between these corners, the times of both on one axis.
pub(super) fn charts(drawing: &mut Drawing, view: &EnergizationView<'_>, [min, max]: [Point; 2]) {
    let short = max[0] - min[0] < SHORT_BELOW;
    let voltage = voltage_labels(view, short);
    let current = current_labels(view, short);
    let beside = room_beside(&voltage).max(room_beside(&current));
    let middle = min[1] + 0.6 * (max[1] - min[1] - BELOW);
    let right = max[0] - beside;
    let start_s = view.shown().first().map_or(0.0, |point| point.time_s) - view.trace.half_cycle_s;
    let end_s = view.shown().last().map_or(1.0, |point| point.time_s);
    let state = &view.energization.state;
    let top_v = 1.08 * state.spark_v.max(state.wanted_v).max(highest(view, peak_v));
    let kv = Linear {
        min: [min[0] + LEFT, min[1] + TITLE],
        max: [right, middle],
        x: (start_s, end_s),
        y: (0.0, kilovolts(view, top_v)),
    };
    kv.upward(drawing);
    title(drawing, view, [min[0], min[1] + 8.0], max[0]);
    voltages(drawing, view, &kv);
    marks(drawing, view, &kv);
    kv.beside(drawing, voltage);
    let top_a = 1.1 * limit_a(view).unwrap_or(0.0).max(highest_a(view));
    let ma = Linear {
        min: [min[0] + LEFT, middle + TITLE + 4.0],
        max: [right, max[1] - BELOW],
        x: (start_s, end_s),
        y: (0.0, milliamperes(view, top_a)),
    };
    ma.upward(drawing);
    let name = "mA, mean of each half cycle";
    drawing.text(
        [min[0], middle + 13.0],
        Anchor::Left,
        name,
        SMALL,
        Ink::Text,
    );
    currents(drawing, view, &ma);
    ma.beside(drawing, current);
    let names = ["s since the start".to_owned(), "s".to_owned()];
    ma.rightward(drawing, fitting(&names, 0.4 * (right - ma.min[0])));
}

fn peak_v(point: &TracePoint) -> f64 {
    point.peak_voltage_v
}

fn highest(view: &EnergizationView<'_>, value: impl Fn(&TracePoint) -> f64) -> f64 {
    view.shown().iter().map(value).fold(0.0, f64::max)
}

fn highest_a(view: &EnergizationView<'_>) -> f64 {
    highest(view, |point| point.mean_current_a)
}

/// The limit of the current, A, where it is near enough to be drawn.
fn limit_a(view: &EnergizationView<'_>) -> Option<f64> {
    let limit_a = view.energization.settings.current_limit_a;
    let shown_a = highest_a(view);
    (shown_a == 0.0 || limit_a <= LIMIT_SHOWN * shown_a).then_some(limit_a)
}

/// In the unit on screen.
fn kilovolts(view: &EnergizationView<'_>, voltage_v: f64) -> f64 {
    display(voltage_v, Dimension::Voltage, view.units).0
}

fn milliamperes(view: &EnergizationView<'_>, current_a: f64) -> f64 {
    display(current_a, Dimension::Current, view.units).0
}

/// What the chart shows, and how often it sparks.
fn title(drawing: &mut Drawing, view: &EnergizationView<'_>, [left, y]: Point, right: f32) {
    let names = [
        "kV, mean and peak of each half cycle".to_owned(),
        "kV, mean and peak".to_owned(),
        "kV".to_owned(),
    ];
    let count = sparks_text(view);
    let room = right - left - text_width(&count, SMALL, true) - 14.0;
    drawing.text(
        [left, y],
        Anchor::Left,
        fitting(&names, room),
        SMALL,
        Ink::Text,
    );
    drawing.bold([right, y], Anchor::Right, count, SMALL, Ink::Text);
}

/// "7 sparks in 20 s = 21 /min".
fn sparks_text(view: &EnergizationView<'_>) -> String {
    let sparks = view.sparks().count();
    let arcs = view.sparks().filter(|spark| spark.1 == Upset::Arc).count();
    let shown_s = view.shown().len() as f64 * view.trace.half_cycle_s;
    let seconds = number_text(shown_s, 3);
    if sparks == 0 {
        return format!("no sparks in {seconds} s");
    }
    let per_min = number_text(60.0 * sparks as f64 / shown_s, 2);
    let noun = if sparks == 1 { "spark" } else { "sparks" };
    let text = format!("{sparks} {noun} in {seconds} s = {per_min} /min");
    if arcs == 0 {
        text
    } else {
        format!("{text}, arcs {arcs}")
    }
}

fn voltage_labels(view: &EnergizationView<'_>, short: bool) -> Vec<SideLabel> {
    let state = &view.energization.state;
    let mean_v = mean(view.shown(), |point| point.mean_voltage_v);
    let label = |voltage_v: f64, name: &str, ink| {
        label(view, (voltage_v, Dimension::Voltage), name, short, ink)
    };
    let mut labels = vec![
        label(state.spark_v, "sparks, peak", Ink::Trouble),
        label(state.wanted_v, "wanted mean", Ink::Control),
        label(mean_v, "mean", Ink::HighVoltage),
    ];
    let highest_v = highest(view, peak_v);
    if highest_v > 1.01 * mean_v {
        labels.push(label(highest_v, "highest peak", Ink::Uncharged));
    }
    labels
}

fn current_labels(view: &EnergizationView<'_>, short: bool) -> Vec<SideLabel> {
    let mean_a = mean(view.shown(), |point| point.mean_current_a);
    let label = |current_a: f64, name: &str, ink| {
        label(view, (current_a, Dimension::Current), name, short, ink)
    };
    let mut labels = vec![label(mean_a, "mean", Ink::Gas)];
    labels.extend(limit_a(view).map(|limit_a| label(limit_a, "limit", Ink::Control)));
    labels
}

/// Words for a height in a chart; short ones without the unit, which the title of the chart says.
pub(super) fn label(
    view: &EnergizationView<'_>,
    (value_si, dimension): (f64, Dimension),
    name: &str,
    short: bool,
    ink: Ink,
) -> SideLabel {
    let value = display(value_si, dimension, view.units).0;
    let text = if short {
        number_text(value, 3)
    } else {
        view.text(value_si, dimension)
    };
    SideLabel {
        value,
        text: format!("{name} {text}"),
        ink,
    }
}

fn voltages(drawing: &mut Drawing, view: &EnergizationView<'_>, kv: &Linear) {
    let state = &view.energization.state;
    for (voltage_v, ink) in [
        (state.spark_v, Ink::Trouble),
        (state.wanted_v, Ink::Control),
    ] {
        across(drawing, kv, kilovolts(view, voltage_v), ink);
    }
    let line =
        |value: fn(&TracePoint) -> f64| thinned(view, kv, |point| kilovolts(view, value(point)));
    drawing.line(line(peak_v), Ink::Uncharged, 1.0);
    drawing.line(line(|point| point.mean_voltage_v), Ink::HighVoltage, 1.6);
    let mean_v = mean(view.shown(), |point| point.mean_voltage_v);
    across(drawing, kv, kilovolts(view, mean_v), Ink::HighVoltage);
}

fn currents(drawing: &mut Drawing, view: &EnergizationView<'_>, ma: &Linear) {
    if let Some(limit_a) = limit_a(view) {
        across(drawing, ma, milliamperes(view, limit_a), Ink::Control);
    }
    let line = thinned(view, ma, |point| milliamperes(view, point.mean_current_a));
    drawing.line(line, Ink::Gas, 1.4);
    let mean_a = mean(view.shown(), |point| point.mean_current_a);
    across(drawing, ma, milliamperes(view, mean_a), Ink::Gas);
}

/// A dashed line across the plot.
fn across(drawing: &mut Drawing, plot: &Linear, value: f64, ink: Ink) {
    let y = plot.at_y(value);
    drawing.dashed([[plot.min[0], y], [plot.max[0], y]], ink, 1.3);
}

/// A still mark at the top for every spark, a wide one for an arc: nothing flashes.
fn marks(drawing: &mut Drawing, view: &EnergizationView<'_>, kv: &Linear) {
    for (point, upset) in view.sparks() {
        let x = kv.at_x(point.time_s);
        let y = kv.min[1];
        let half = match upset {
            Upset::Spark => 3.0,
            Upset::Arc => 6.0,
        };
        drawing.items.push(Item::Area {
            points: vec![[x - half, y], [x + half, y], [x, y + MARK]],
            ink: Ink::Trouble,
            opacity: 1.0,
        });
    }
}

/// First, least, most and last of the half cycles in each point of width, so that no short drop is lost.
fn thinned(
    view: &EnergizationView<'_>,
    plot: &Linear,
    value: impl Fn(&TracePoint) -> f64,
) -> Vec<Point> {
    let at: Vec<Point> = view
        .shown()
        .iter()
        .map(|point| [plot.at_x(point.time_s), plot.at_y(value(point))])
        .collect();
    let mut line = Vec::new();
    for group in at.chunk_by(|a, b| a[0].floor() == b[0].floor()) {
        let mut kept: Vec<usize> = vec![0, group.len() - 1];
        kept.extend((0..group.len()).min_by(|a, b| group[*a][1].total_cmp(&group[*b][1])));
        kept.extend((0..group.len()).max_by(|a, b| group[*a][1].total_cmp(&group[*b][1])));
        kept.sort_unstable();
        kept.dedup();
        line.extend(kept.into_iter().map(|index| group[index]));
    }
    line
}
