//! The dust on the plates of every field over time, and what its meters show then: kilovolts, current, sparks.

use ashlane_shared::{
    checks::layer_field,
    plant::{FieldReading, PlantReading},
    units::{Dimension, UnitSystem, display, format, number_text},
};

use super::{
    HOUR_S, PlantView, ink_of, reduced,
    time::{Trends, height},
};
use crate::{
    charts::linear::{Linear, SideLabel},
    checks::CheckLine,
    drawing::{Drawing, Point, fitting},
};

/// Heights of the plots; that of the sparks is lower where there are none.
const PLOT: f32 = 98.0;
const SPARKS: f32 = 72.0;
const NO_SPARKS: f32 = 26.0;
/// Below this share of the voltage the gap's own line lies on the set's and is left out, and so does a swing of the wires.
const SEEN: f64 = 0.02;
const SEEN_SWING: f64 = 0.005;
/// Lines lie far apart where the lowest is below this share of the highest.
const FAR: f64 = 0.5;
/// How solid a band is drawn, and how wide its edges.
const BAND: f32 = 0.25;
const OUTLINE: f32 = 0.8;
/// The layer of a field is uneven along the gas and from plate to plate, its drop is that of the mean: Ohm's law is linear,
/// breakdown is not.
const OHM_TOLERANCE: f64 = 0.01;
/// Dust that the plant clock may not have seen yet, m: it looks every minute, and takes notice of half of this.
const UNSEEN_M: f64 = 1e-4;

/// Draws the chart in this width.
#[must_use]
pub fn layers_drawing(view: &PlantView<'_>, width: f32) -> Drawing {
    let sparks = if has_sparks(view) { SPARKS } else { NO_SPARKS };
    let tall = height(view, 0, &[PLOT, PLOT, PLOT, sparks]);
    let mut drawing = Drawing::new([width, tall]);
    let title = "Layers on the plates, and the meters";
    let Some(mut trends) = Trends::new(&mut drawing, view, title) else {
        return drawing;
    };
    let [thick, volts, amperes, sparking] = labels(view);
    let units = view.units;
    let (_, unit) = display(0.0, Dimension::PartSize, units);
    let range = (
        0.0,
        1.1 * highest(view, |field| layer(field, units)).max(1e-3),
    );
    let plot = trends.plot(&mut drawing, &format!("layer, {unit}"), (PLOT, range));
    plot.upward(&mut drawing);
    view.lines(&mut drawing, &plot, |field| layer(field, units));
    trends.mark_change(&mut drawing, &plot);
    plot.beside(&mut drawing, thick);

    let words = voltage_words(view);
    let name = fitting(&words, width - 4.0);
    let plot = trends.plot(&mut drawing, name, (PLOT, voltage_range(view)));
    plot.upward(&mut drawing);
    voltages(&mut drawing, view, &plot);
    trends.mark_change(&mut drawing, &plot);
    plot.beside(&mut drawing, volts);

    let (_, unit) = display(0.0, Dimension::CurrentDensity, units);
    let range = (
        0.0,
        1.1 * highest(view, |field| current(field, units)).max(1e-3),
    );
    let name = format!("current of the set over its plates, {unit}");
    let plot = trends.plot(&mut drawing, &name, (PLOT, range));
    plot.upward(&mut drawing);
    view.lines(&mut drawing, &plot, |field| current(field, units));
    trends.mark_change(&mut drawing, &plot);
    plot.beside(&mut drawing, amperes);

    let name = if has_sparks(view) {
        "sparks a minute"
    } else {
        "sparks a minute: none"
    };
    let range = (0.0, 1.1 * highest(view, spark_rate).max(1.0));
    let plot = trends.plot(&mut drawing, name, (sparks, range));
    plot.upward(&mut drawing);
    view.nested_lines(&mut drawing, &plot, spark_rate);
    trends.mark_change(&mut drawing, &plot);
    plot.beside(&mut drawing, sparking);
    trends.axis(&mut drawing, &plot);
    drawing
}

fn layer(field: &FieldReading, units: UnitSystem) -> f64 {
    display(field.layer_m, Dimension::PartSize, units).0
}

fn kilovolts(voltage_v: f64) -> f64 {
    1e-3 * voltage_v
}

fn current(field: &FieldReading, units: UnitSystem) -> f64 {
    display(field.metered_a_m2, Dimension::CurrentDensity, units).0
}

fn spark_rate(field: &FieldReading) -> f64 {
    field.sparks_per_min
}

/// Words beside the lines of each plot; of the fields that never spark none.
pub(super) fn labels(view: &PlantView<'_>) -> [Vec<SideLabel>; 4] {
    let units = view.units;
    let text = |field: &str, value: f64, digits| format!("{field}: {}", number_text(value, digits));
    let volts = |field: &FieldReading| kilovolts(field.voltage_v);
    let sparks = view.labels(spark_rate, |name, field| text(name, spark_rate(field), 2));
    let sparking = |(field, _): &(usize, SideLabel)| {
        view.of_field(*field, spark_rate)
            .any(|(_, rate)| rate > 0.0)
    };
    [
        view.labels(
            |field| layer(field, units),
            |name, field| text(name, layer(field, units), 2),
        ),
        view.labels(volts, |name, field| text(name, volts(field), 3)),
        view.labels(
            |field| current(field, units),
            |name, field| text(name, current(field, units), 3),
        ),
        sparks
            .into_iter()
            .enumerate()
            .filter(sparking)
            .map(|(_, label)| label)
            .collect(),
    ]
}

/// The lines of the voltage: the band of a swing, the set's mean, and dashed what is left for the gap.
fn voltages(drawing: &mut Drawing, view: &PlantView<'_>, plot: &Linear) {
    for field in (0..view.fields()).filter(|field| swings(view, *field)) {
        let (ends, ink) = (swing(view, field, plot), ink_of(field));
        for end in [0, 1] {
            let outline: Vec<Point> = ends.iter().map(|ends| ends[end]).collect();
            drawing.line(outline, ink, OUTLINE);
        }
        drawing.band(ends, ink, BAND);
    }
    view.lines(drawing, plot, |field| kilovolts(field.voltage_v));
    if loses(view) {
        for field in 0..view.fields() {
            let gap = |field: &FieldReading| kilovolts(field.voltage_v - field.layer_drop_v);
            let line = reduced(view.of_field(field, gap), plot);
            drawing.dashed(plot.curve(line.into_iter()), ink_of(field), 1.4);
        }
    }
}

/// What the lines of the voltage are, as long as there is room for.
fn voltage_words(view: &PlantView<'_>) -> [String; 2] {
    let dashes = |words: &'static str| if loses(view) { words } else { "" };
    let swinging = (0..view.fields()).find(|field| swings(view, *field));
    let band = swinging.map_or_else(String::new, |field| {
        // Once the fault is off the band stands for its time.
        let defects = view.conditions.defects.get(field);
        let still = defects.filter(|defects| defects.swing_m > 0.0);
        let every = still.map(|defects| format!(", {} s", number_text(defects.swing_s, 2)));
        format!("; band: wire swings{}", every.unwrap_or_default())
    });
    [
        format!(
            "kV, mean of the set{}{band}",
            dashes("; dashed: in the gap")
        ),
        format!("kV{}{band}", dashes("; dashed: in gap")),
    ]
}

fn highest(view: &PlantView<'_>, value: impl Fn(&FieldReading) -> f64) -> f64 {
    view.highest(|reading| reading.fields.iter().map(&value).fold(0.0, f64::max))
}

fn all_fields<'a>(view: &PlantView<'a>) -> impl Iterator<Item = &'a FieldReading> {
    view.readings
        .iter()
        .flat_map(|reading: &PlantReading| &reading.fields)
}

/// Whether somewhere enough is lost in a layer to be seen.
fn loses(view: &PlantView<'_>) -> bool {
    all_fields(view).any(|field| field.layer_drop_v > SEEN * field.voltage_v)
}

fn has_sparks(view: &PlantView<'_>) -> bool {
    all_fields(view).any(|field| field.sparks_per_min > 0.0)
}

/// Whether the wires of a field swing enough to be seen at its kilovolt meter.
fn swings(view: &PlantView<'_>, field: usize) -> bool {
    let share =
        |field: &FieldReading| field.highest_v - field.lowest_v - SEEN_SWING * field.voltage_v;
    view.of_field(field, share).any(|(_, over)| over > 0.0)
}

/// Lowest and highest of every column of points, joined over the columns between.
fn swing(view: &PlantView<'_>, field: usize, plot: &Linear) -> Vec<[Point; 2]> {
    let mut ends: Vec<[Point; 2]> = Vec::new();
    for reading in view.readings {
        let Some(field) = reading.fields.get(field) else {
            continue;
        };
        let x = plot.at_x(reading.time_s / HOUR_S);
        let [low, high] =
            [field.lowest_v, field.highest_v].map(|volts| plot.at_y(kilovolts(volts)));
        match ends.last_mut() {
            // Downwards is larger.
            Some([lowest, highest]) if lowest[0].floor() == x.floor() => {
                lowest[1] = lowest[1].max(low);
                highest[1] = highest[1].min(high);
            }
            _ => ends.push([[x, low], [x, high]]),
        }
    }
    ends
}

/// From below the lowest voltage, or from 0 where the lines lie far apart, to above the highest.
fn voltage_range(view: &PlantView<'_>) -> (f64, f64) {
    let high = highest(view, |field| {
        kilovolts(field.voltage_v.max(field.highest_v))
    })
    .max(1.0);
    let least = |field: &FieldReading| {
        let gap_v = field.voltage_v - field.layer_drop_v;
        kilovolts(gap_v.min(field.lowest_v))
    };
    let low = all_fields(view).map(least).fold(high, f64::min);
    if low < FAR * high {
        (0.0, 1.1 * high)
    } else {
        let air = 0.3 * (high - low) + 0.02 * high;
        (low - air, high + air)
    }
}

/// The agreement line: the field in the layer that takes most, by what it takes and by Ohm's law.
///
/// A layer that was struck a moment ago is another than the one that the voltage was found with, and where a layer breaks in
/// a part of a swing only, its mean drop is not that of the mean current: such fields are left out.
#[must_use]
pub fn layers_checks(view: &PlantView<'_>) -> Vec<CheckLine> {
    let [.., before, last] = view.steady() else {
        return Vec::new();
    };
    let fields = last.fields.iter().zip(&before.fields).enumerate();
    let tells = |(_, (field, before)): &(usize, (&FieldReading, &FieldReading))| {
        let breaks_at_times = field.back_corona && field.highest_v > field.lowest_v;
        field.layer_kg >= before.layer_kg && !breaks_at_times
    };
    let most = fields
        .filter(tells)
        .map(|(index, (field, _))| (index, field))
        .max_by(|one, other| one.1.layer_drop_v.total_cmp(&other.1.layer_drop_v));
    let found = most.and_then(|(index, field)| {
        let both = layer_field(view.conditions, field).ok().flatten()?;
        Some((index, field, both))
    });
    let Some((index, field, both)) = found else {
        return Vec::new();
    };
    let text = |value, dimension| format(value, dimension, view.units);
    vec![CheckLine::of_ratio(
        "electric field in the layer: voltage lost over thickness against jρ",
        format!(
            "{}: {} lost in {}, {}; jρ gives {}",
            view.conditions.short_field_name(index),
            text(field.layer_drop_v, Dimension::Voltage),
            text(field.layer_m, Dimension::PartSize),
            text(both.shown, Dimension::Field),
            text(both.expected, Dimension::Field)
        ),
        both.ratio(),
        OHM_TOLERANCE.max(UNSEEN_M / field.layer_m),
    )]
}
