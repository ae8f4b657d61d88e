//! A few half cycles close up, so that the ripple is seen: voltage and current from one zero crossing of the line on.

use ashlane_shared::{
    physics::energization::Waveform,
    units::{Dimension, display},
};

use super::{EnergizationView, trace::label};
use crate::{
    charts::linear::{Linear, SideLabel, room_beside},
    drawing::{Anchor, Drawing, Point, fitting},
    theme::{Ink, SMALL},
};

/// Half cycles that are drawn: one period of the line.
const HALF_CYCLES: usize = 2;
/// The current's peak reaches this share of the height.
const CURRENT_SHARE: f64 = 0.42;
/// Below this width the words beside the plot leave out what the title says.
const SHORT_BELOW: f32 = 240.0;
/// Room for the title and for the numbers on the left and below.
const TITLE: f32 = 22.0;
const LEFT: f32 = 30.0;
const BELOW: f32 = 22.0;

/// Draws the half cycles between these corners.
pub(super) fn chart(drawing: &mut Drawing, view: &EnergizationView<'_>, [min, max]: [Point; 2]) {
    let titles = [
        "Half cycles at the mean voltage: kV, and current".to_owned(),
        "Half cycles: kV and current".to_owned(),
        "Half cycles".to_owned(),
    ];
    let title = fitting(&titles, max[0] - min[0]);
    let place = [min[0], min[1] + 8.0];
    drawing.text(place, Anchor::Left, title, SMALL, Ink::Text);
    let Some(cycle) = &view.energization.waveform else {
        let place = [min[0], min[1] + 28.0];
        drawing.text(place, Anchor::Left, "the set is off", SMALL, Ink::Faint);
        return;
    };
    let kv = |voltage_v: f64| display(voltage_v, Dimension::Voltage, view.units).0;
    let short = max[0] - min[0] < SHORT_BELOW;
    let labels = labels(view, cycle, short);
    let period_ms = HALF_CYCLES as f64 * 1e3 * view.energization.set.half_cycle_s();
    let plot = Linear {
        min: [min[0] + LEFT, min[1] + TITLE],
        max: [max[0] - room_beside(&labels), max[1] - BELOW],
        x: (0.0, period_ms),
        y: (0.0, 1.12 * kv(cycle.peak_voltage_v)),
    };
    plot.upward(drawing);
    for (voltage_v, ink) in [
        (cycle.peak_voltage_v, Ink::Uncharged),
        (cycle.mean_voltage_v, Ink::HighVoltage),
    ] {
        let y = plot.at_y(kv(voltage_v));
        drawing.dashed([[plot.min[0], y], [plot.max[0], y]], ink, 1.2);
    }
    drawing.line(
        over_period(cycle, &plot, |sample| kv(sample.0)),
        Ink::HighVoltage,
        2.0,
    );
    let highest_a = peak_a(cycle);
    if highest_a > 0.0 {
        let per_a = CURRENT_SHARE * plot.y.1 / highest_a;
        drawing.line(
            over_period(cycle, &plot, |sample| sample.1 * per_a),
            Ink::Gas,
            1.6,
        );
    }
    plot.beside(drawing, labels);
    let names = ["ms from the line's zero".to_owned(), "ms".to_owned()];
    plot.rightward(drawing, fitting(&names, 0.6 * (plot.max[0] - plot.min[0])));
}

fn peak_a(cycle: &Waveform) -> f64 {
    cycle
        .samples
        .iter()
        .map(|sample| sample.current_a)
        .fold(0.0, f64::max)
}

/// Mean, peak and the current's peak beside the plot.
fn labels(view: &EnergizationView<'_>, cycle: &Waveform, short: bool) -> Vec<SideLabel> {
    let volts = |voltage_v: f64, name: &str, ink| {
        label(view, (voltage_v, Dimension::Voltage), name, short, ink)
    };
    let mut labels = vec![
        volts(cycle.peak_voltage_v, "its peak", Ink::Uncharged),
        volts(cycle.mean_voltage_v, "mean", Ink::HighVoltage),
    ];
    let highest_a = peak_a(cycle);
    if highest_a > 0.0 {
        let name = if short { "" } else { "current " };
        labels.push(SideLabel {
            value: CURRENT_SHARE * 1.12 * labels[0].value,
            text: format!("{name}{}", view.text(highest_a, Dimension::Current)),
            ink: Ink::Gas,
        });
    }
    labels
}

/// Voltage or current of every second moment over all half cycles.
fn over_period(cycle: &Waveform, plot: &Linear, value: impl Fn((f64, f64)) -> f64) -> Vec<Point> {
    let half_s = cycle.samples.last().map_or(0.0, |sample| sample.time_s);
    (0..HALF_CYCLES)
        .flat_map(|half| {
            let start_s = half as f64 * half_s;
            let samples = cycle.samples.iter().step_by(2);
            samples.map(move |sample| (start_s + sample.time_s, sample))
        })
        .map(|(time_s, sample)| {
            let height = value((sample.voltage_v, sample.current_a));
            [plot.at_x(1e3 * time_s), plot.at_y(height)]
        })
        .collect()
}
