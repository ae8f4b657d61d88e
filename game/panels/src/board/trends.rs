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
const HIGHEST: f32 = 96.0;
/// Lines lie far apart where the lowest is below this share of the highest.
const FAR: f64 = 0.5;
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

/// What a plot draws.
enum Of<'a> {
    /// A line for every field.
    Fields(Box<dyn Fn(&FieldReading) -> f64 + 'a>),
    /// The opacity in the stack.
    Opacity,
}

/// One plot: its name, its range, where a line across it stands, and what it draws.
struct Plot<'a> {
    name: String,
    range: (f64, f64),
    line: Option<f64>,
    of: Of<'a>,
}

/// The trends in this size.
#[must_use]
pub fn trends_drawing(view: &BoardView<'_>, size: Point) -> Drawing {
    let mut drawing = Drawing::new(size);
    drawing.bold([2.0, 12.0], Anchor::Left, "Trends", BODY, Ink::Text);
    let (true, Some(first), Some(last)) = (
        view.readings.len() >= LEAST,
        view.readings.first(),
        view.readings.last(),
    ) else {
        let (at, words) = ([2.0, HEADING + 0.5 * NAME], "none yet: run the plant clock");
        drawing.text(at, Anchor::Left, words, SMALL, Ink::Faint);
        return drawing;
    };
    let hours = (first.time_s / HOUR_S, last.time_s / HOUR_S);
    let free = size[1] - HEADING - HOURS - PLOTS * (NAME + GAP);
    let tall = (free / PLOTS).clamp(LOWEST, HIGHEST);
    let mut top = HEADING;
    let mut lowest = None;
    for plot in plots(view) {
        let at = [LEFT, top + 0.5 * NAME];
        drawing.text(at, Anchor::Left, plot.name.as_str(), SMALL, Ink::Text);
        let frame = Linear {
            min: [LEFT, top + NAME],
            max: [size[0] - RIGHT, top + NAME + tall],
            x: hours,
            y: plot.range,
        };
        top += NAME + tall + GAP;
        draw(&mut drawing, view, &plot, &frame);
        lowest = Some(frame);
    }
    if let Some(frame) = lowest {
        axis(&mut drawing, &frame);
    }
    drawing
}

/// The plots from above: kilovolts, current, sparks, hoppers, stack.
fn plots<'a>(view: &BoardView<'a>) -> [Plot<'a>; PLOTS as usize] {
    let conditions = view.machine.conditions;
    let (area_m2, units) = (area_m2(conditions), view.machine.units);
    let (_, unit) = display(0.0, Dimension::Current, units);
    let aim_per_min = 60.0 * conditions.electrical.spark_target_per_s;
    let volts = |field: &FieldReading| 1e-3 * field.metered_v;
    let amperes = move |field: &FieldReading| {
        display(field.metered_a_m2 * area_m2, Dimension::Current, units).0
    };
    let sparks = |field: &FieldReading| field.sparks_per_min;
    let level = |field: &FieldReading| 100.0 * field.hopper_level;
    let most_a = highest(view, &amperes).max(1e-3);
    let most_sparks = highest(view, &sparks).max(aim_per_min);
    [
        Plot {
            name: "kV, mean".to_owned(),
            range: voltage_range(view, &volts),
            line: None,
            of: Of::Fields(Box::new(volts)),
        },
        Plot {
            name: format!("current, {unit}"),
            range: (0.0, 1.1 * most_a),
            line: None,
            of: Of::Fields(Box::new(amperes)),
        },
        Plot {
            name: "sparks a minute; dashed: aim".to_owned(),
            range: (0.0, 1.1 * most_sparks.max(1.0)),
            line: Some(aim_per_min),
            of: Of::Fields(Box::new(sparks)),
        },
        Plot {
            name: "hopper level, %; dashed: probe".to_owned(),
            range: (0.0, 105.0),
            line: Some(100.0 * ALARM_LEVEL),
            of: Of::Fields(Box::new(level)),
        },
        opacity_plot(view),
    ]
}

/// Rules at the hours, the axis upwards, the line across, and what the plot is of.
fn draw(drawing: &mut Drawing, view: &BoardView<'_>, plot: &Plot<'_>, frame: &Linear) {
    for hour in hour_ticks(frame.x, frame.max[0] - frame.min[0]) {
        let x = frame.at_x(hour);
        drawing.line([[x, frame.min[1]], [x, frame.max[1]]], Ink::Rule, 1.0);
    }
    frame.upward(drawing);
    if let Some(value) = plot.line {
        let y = frame.at_y(value);
        drawing.dashed([[frame.min[0], y], [frame.max[0], y]], Ink::Faint, 1.2);
    }
    match &plot.of {
        Of::Fields(value) => lines(drawing, view, frame, value),
        Of::Opacity => {
            let points = steps(view.readings, |reading| 100.0 * reading.opacity);
            let line = frame.curve(reduced(points, frame).into_iter());
            drawing.line(line, Ink::Text, 1.4);
        }
    }
}

/// Mean opacity from reading to reading, with the set-point of its alarm.
fn opacity_plot<'a>(view: &BoardView<'_>) -> Plot<'a> {
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
        of: Of::Opacity,
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
        text: view.machine.conditions.field_number(field).to_string(),
        ink: ink(field),
    });
    frame.beside(drawing, labels.collect());
}

/// From below the lowest, or from 0 where the lines lie far apart, to above the highest.
fn voltage_range(view: &BoardView<'_>, value: &dyn Fn(&FieldReading) -> f64) -> (f64, f64) {
    let high = highest(view, value).max(1.0);
    let fields = view.readings.iter().flat_map(|reading| &reading.fields);
    let low = fields.map(value).fold(high, f64::min);
    let air = 0.2 * (high - low) + 0.02 * high;
    let from = if low < FAR * high { 0.0 } else { low - air };
    (from, high + air)
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
