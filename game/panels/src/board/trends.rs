//! Small trends beside the values: what the plant clock has written, one below the other on one axis of time, in greys.

use ashlane_shared::{
    alarms::find_alarm,
    plant::{ALARM_LEVEL, FieldReading, PlantReading},
    units::{Dimension, display, number_text},
};

use super::{
    BoardView,
    values::{area_m2, opacity_set_point},
};
use crate::{
    charts::{
        hour_ticks,
        linear::{Linear, SideLabel},
        reduced, steps,
    },
    drawing::{Anchor, Drawing, Point},
    theme::{BODY, Ink, SMALL},
};

const HOUR_S: f64 = 3600.0;
/// Heights: the heading, the name of a plot, below a plot, the hours below the last one.
const HEADING: f32 = 24.0;
const NAME: f32 = 18.0;
const GAP: f32 = 5.0;
const HOURS: f32 = 22.0;
/// Room of the numbers on the left and of those of the fields on the right.
const LEFT: f32 = 46.0;
const RIGHT: f32 = 34.0;
/// Lowest and highest plot.
const LOWEST: f32 = 34.0;
const HIGHEST: f32 = 80.0;
const PLOTS: f32 = 5.0;
/// Most fields whose every line is named; of more the first and the last are.
const MOST_NAMED: usize = 4;
/// Readings from which on there is a trend.
const LEAST: usize = 2;

/// Height in which the trends can be read, and where there are none yet.
pub(super) fn lowest(view: &BoardView<'_>) -> f32 {
    if view.readings.len() < LEAST {
        return HEADING + NAME;
    }
    HEADING + PLOTS * (NAME + 46.0 + GAP) + HOURS
}

/// One plot: its name, its range, and where a line across it stands.
struct Plot {
    name: String,
    range: (f64, f64),
    line: Option<f64>,
}

/// The trends in this size.
#[must_use]
pub fn trends_drawing(view: &BoardView<'_>, size: Point) -> Drawing {
    let mut drawing = Drawing::new(size);
    drawing.bold([2.0, 12.0], Anchor::Left, "Trends", BODY, Ink::Text);
    let (Some(first), Some(last)) = (view.readings.first(), view.readings.last()) else {
        nothing_yet(&mut drawing);
        return drawing;
    };
    if view.readings.len() < LEAST {
        nothing_yet(&mut drawing);
        return drawing;
    }
    let hours = (first.time_s / HOUR_S, last.time_s / HOUR_S);
    let free = size[1] - HEADING - HOURS - PLOTS * (NAME + GAP);
    let tall = (free / PLOTS).clamp(LOWEST, HIGHEST);
    let mut top = HEADING;
    let mut plot = |drawing: &mut Drawing, plot: Plot| {
        drawing.text(
            [LEFT, top + 0.5 * NAME],
            Anchor::Left,
            plot.name,
            SMALL,
            Ink::Text,
        );
        let min = [LEFT, top + NAME];
        let frame = Linear {
            min,
            max: [size[0] - RIGHT, min[1] + tall],
            x: hours,
            y: plot.range,
        };
        top += NAME + tall + GAP;
        for hour in hour_ticks(hours, frame.max[0] - LEFT) {
            let x = frame.at_x(hour);
            drawing.line([[x, frame.min[1]], [x, frame.max[1]]], Ink::Rule, 1.0);
        }
        frame.upward(drawing);
        if let Some(value) = plot.line {
            let y = frame.at_y(value);
            drawing.dashed([[frame.min[0], y], [frame.max[0], y]], Ink::Faint, 1.2);
        }
        frame
    };
    let area_m2 = area_m2(view.machine.conditions);
    let units = view.machine.units;
    let (_, unit) = display(0.0, Dimension::Current, units);
    let amperes = move |field: &FieldReading| {
        display(field.metered_a_m2 * area_m2, Dimension::Current, units).0
    };
    let volts = |field: &FieldReading| 1e-3 * field.metered_v;
    let sparks = |field: &FieldReading| field.sparks_per_min;
    let level = |field: &FieldReading| 100.0 * field.hopper_level;
    let from_0 = |name: String, value: &dyn Fn(&FieldReading) -> f64| Plot {
        name,
        range: (0.0, 1.1 * highest(view, value).max(1e-3)),
        line: None,
    };
    let frame = plot(&mut drawing, from_0("kV, mean".to_owned(), &volts));
    lines(&mut drawing, view, &frame, &volts);
    let frame = plot(&mut drawing, from_0(format!("current, {unit}"), &amperes));
    lines(&mut drawing, view, &frame, &amperes);
    let frame = plot(&mut drawing, from_0("sparks a minute".to_owned(), &sparks));
    lines(&mut drawing, view, &frame, &sparks);
    let frame = plot(
        &mut drawing,
        Plot {
            name: "hopper level, %; dashed: probe".to_owned(),
            range: (0.0, 105.0),
            line: Some(100.0 * ALARM_LEVEL),
        },
    );
    lines(&mut drawing, view, &frame, &level);
    let dark = opacity_plot(view);
    let frame = plot(&mut drawing, dark);
    let points = steps(view.readings, |reading| 100.0 * reading.opacity);
    let line = frame.curve(reduced(points, &frame).into_iter());
    drawing.line(line, Ink::Text, 1.4);
    axis(&mut drawing, &frame);
    drawing
}

fn nothing_yet(drawing: &mut Drawing) {
    let words = "none yet: run the plant clock";
    drawing.text(
        [2.0, HEADING + 0.5 * NAME],
        Anchor::Left,
        words,
        SMALL,
        Ink::Faint,
    );
}

/// Mean opacity from reading to reading, with the set-point of its alarm.
fn opacity_plot(view: &BoardView<'_>) -> Plot {
    let highest = view
        .readings
        .iter()
        .skip(1)
        .map(|reading: &PlantReading| reading.opacity);
    let highest = 100.0 * highest.fold(0.0, f64::max);
    let line = opacity_set_point(view).map(|share| 100.0 * share);
    let alarm = find_alarm("opacity").map_or("", |_| "; dashed: alarm");
    Plot {
        name: format!("opacity, %{alarm}"),
        range: (0.0, 1.1 * highest.max(line.unwrap_or(0.0)).max(1e-3)),
        line,
    }
}

/// A line for every field: whole and bright, dashed and bright, whole and dim, dashed and dim, over and over.
fn lines(
    drawing: &mut Drawing,
    view: &BoardView<'_>,
    frame: &Linear,
    value: &dyn Fn(&FieldReading) -> f64,
) {
    let fields = view.machine.fields.len();
    let ink = |field: usize| if field % 4 < 2 { Ink::Text } else { Ink::Metal };
    for field in 0..fields {
        let points = view.readings.iter().filter_map(|reading| {
            let shown = reading.fields.get(field)?;
            Some((reading.time_s / HOUR_S, value(shown)))
        });
        let line = frame.curve(reduced(points, frame).into_iter());
        if field % 2 == 0 {
            drawing.line(line, ink(field), 1.4);
        } else {
            drawing.dashed(line, ink(field), 1.4);
        }
    }
    let Some(last) = view.readings.last() else {
        return;
    };
    let named = |field: usize| fields <= MOST_NAMED || field == 0 || field + 1 == fields;
    let labels = last
        .fields
        .iter()
        .enumerate()
        .filter(|(field, _)| named(*field));
    let labels = labels.map(|(field, shown)| SideLabel {
        value: value(shown),
        text: format!("{}", field + 1),
        ink: ink(field),
    });
    frame.beside(drawing, labels.collect());
}

fn highest(view: &BoardView<'_>, value: &dyn Fn(&FieldReading) -> f64) -> f64 {
    let fields = view.readings.iter().flat_map(|reading| &reading.fields);
    fields.map(value).fold(0.0, f64::max)
}

/// The hours below the last plot, and their unit.
fn axis(drawing: &mut Drawing, frame: &Linear) {
    let [right, bottom] = frame.max;
    for hour in hour_ticks(frame.x, right - LEFT) {
        let x = frame.at_x(hour);
        drawing.line([[x, bottom], [x, bottom + 4.0]], Ink::Faint, 1.0);
        let text = number_text(hour, 3);
        drawing.text([x, bottom + 12.0], Anchor::Centre, text, SMALL, Ink::Faint);
    }
    drawing.text(
        [right + 16.0, bottom + 12.0],
        Anchor::Left,
        "h",
        SMALL,
        Ink::Faint,
    );
}
