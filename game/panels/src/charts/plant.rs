//! The collector on the plant clock: layers that grow and are struck, and the puffs that leave.

use ashlane_shared::{
    checks::LongRun,
    plant::{FieldReading, PlantReading},
    units::{Dimension, UnitSystem, display},
};

use super::{
    linear::{Linear, SideLabel, room_beside},
    percent_text,
};
use crate::{
    checks::CheckLine,
    drawing::{Anchor, Drawing, Point},
    theme::{BODY, Ink, SMALL},
};

const HOUR_S: f64 = 3600.0;
/// Room for the numbers on the left and below.
const LEFT: f32 = 46.0;
const BELOW: f32 = 22.0;
/// A first reading as early as this shows plates that are still clean, h.
const CLEAN_H: f64 = 0.1;
/// Colours of the fields, over and over; the words beside say which is which.
const FIELDS: [Ink; 4] = [Ink::Dust, Ink::Gas, Ink::FiniteMixing, Ink::Laminar];
/// Most fields that are named beside their lines.
const MOST_NAMED: usize = 6;

/// A time on the plant clock with its check.
#[derive(Clone, Copy, Debug)]
pub struct PlantView<'a> {
    /// Readings at even intervals.
    pub readings: &'a [PlantReading],
    /// What leaves in the long run, by two roads; nothing until it is worked out for the present conditions.
    pub long_run: Option<LongRun>,
    /// Units of the labels.
    pub units: UnitSystem,
}

/// Draws the chart in this size.
#[must_use]
pub fn plant_drawing(view: &PlantView<'_>, size: Point) -> Drawing {
    let mut drawing = Drawing::new(size);
    let hours = hours(view);
    let title = title(hours);
    drawing.bold([2.0, 12.0], Anchor::Left, title, BODY, Ink::Text);
    let names = field_labels(view);
    let right = size[0] - room_beside(&names).max(12.0);
    let middle = 0.5 * (size[1] + 20.0);
    let layers = Linear {
        min: [LEFT, 48.0],
        max: [right, middle - 8.0],
        x: hours,
        y: (0.0, 1.1 * highest(view, |reading| thickest(view, reading))),
    };
    let (_, unit) = display(1.0, Dimension::PartSize, view.units);
    axis_name(&mut drawing, 33.0, format!("layer on the plates, {unit}"));
    layers.upward(&mut drawing);
    let fields = view.readings.first().map_or(0, |first| first.fields.len());
    for field in 0..fields {
        let line = layers.curve(view.readings.iter().map(|reading| {
            (
                reading.time_s / HOUR_S,
                thickness(view, &reading.fields[field]),
            )
        }));
        drawing.line(line, FIELDS[field % FIELDS.len()], 1.6);
    }
    layers.beside(&mut drawing, names);
    let emission = Linear {
        min: [LEFT, middle + 26.0],
        max: [right, size[1] - BELOW],
        x: hours,
        y: (0.0, 1.1 * highest(view, |reading| emitted(view, reading))),
    };
    let (_, unit) = display(1.0, Dimension::Emission, view.units);
    axis_name(
        &mut drawing,
        middle + 11.0,
        format!("dust that leaves, {unit}"),
    );
    emission.upward(&mut drawing);
    emission.rightward(&mut drawing, "hours");
    drawing.line(steps(view, &emission), Ink::Dust, 1.4);
    drawing
}

/// The agreement line: the long run by the rates with their raps, and by the solver with a steady loss.
#[must_use]
pub fn plant_check(view: &PlantView<'_>) -> Option<CheckLine> {
    let LongRun {
        by_rates,
        finite_mixing,
        tolerance,
        ..
    } = view.long_run?;
    Some(CheckLine::of_ratio(
        "long run with raps against the solver",
        format!(
            "{} with raps, {} by the solver with a steady loss",
            percent_text(by_rates),
            percent_text(finite_mixing)
        ),
        by_rates / finite_mixing,
        tolerance / finite_mixing,
    ))
}

/// From and to, h.
fn hours(view: &PlantView<'_>) -> (f64, f64) {
    let hour = |reading: Option<&PlantReading>| reading.map(|reading| reading.time_s / HOUR_S);
    let start = hour(view.readings.first()).unwrap_or_default();
    (
        start,
        hour(view.readings.last()).unwrap_or(1.0).max(start + 0.01),
    )
}

fn title((start, end): (f64, f64)) -> String {
    let digits = usize::from(end - start < 10.0);
    let hours = format!("{:.digits$} h", end - start);
    if start < CLEAN_H {
        format!("Plant clock, {hours} from clean plates")
    } else {
        format!("Plant clock, the last {hours}")
    }
}

fn axis_name(drawing: &mut Drawing, y: f32, name: String) {
    drawing.text([2.0, y], Anchor::Left, name, SMALL, Ink::Faint);
}

fn thickness(view: &PlantView<'_>, field: &FieldReading) -> f64 {
    display(field.layer_m, Dimension::PartSize, view.units).0
}

fn thickest(view: &PlantView<'_>, reading: &PlantReading) -> f64 {
    let all = reading.fields.iter().map(|field| thickness(view, field));
    all.fold(0.0, f64::max)
}

fn emitted(view: &PlantView<'_>, reading: &PlantReading) -> f64 {
    display(reading.emission_kg_m3, Dimension::Emission, view.units).0
}

fn highest(view: &PlantView<'_>, value: impl Fn(&PlantReading) -> f64) -> f64 {
    let values = view.readings.iter().map(value);
    values.fold(0.0, f64::max).max(1e-9)
}

/// Each reading is the mean since the one before: a step.
fn steps(view: &PlantView<'_>, plot: &Linear) -> Vec<Point> {
    let mut line = Vec::new();
    for pair in view.readings.windows(2) {
        let y = plot.at_y(emitted(view, &pair[1]));
        for time_s in [pair[0].time_s, pair[1].time_s] {
            line.push([plot.at_x(time_s / HOUR_S), y]);
        }
    }
    line
}

fn field_labels(view: &PlantView<'_>) -> Vec<SideLabel> {
    let Some(last) = view.readings.last() else {
        return Vec::new();
    };
    let fields = last.fields.iter().enumerate().take(MOST_NAMED);
    fields
        .map(|(field, reading)| SideLabel {
            value: thickness(view, reading),
            text: format!("field {}", field + 1),
            ink: FIELDS[field % FIELDS.len()],
        })
        .collect()
}
