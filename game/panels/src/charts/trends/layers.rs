//! The dust on the plates and the voltage of every field over time: what a layer takes is missing in the gap.

use ashlane_shared::{
    checks::layer_field,
    plant::FieldReading,
    units::{Dimension, display, format, number_text},
};

use super::{BELOW, LEFT, PlantView, axis_name, heading, ink_of, reduced};
use crate::{
    charts::linear::{Linear, room_beside},
    checks::CheckLine,
    drawing::{Drawing, Point},
};

/// Below this share of the voltage the gap's own line lies on the set's and is left out.
const SEEN: f64 = 0.02;
/// The layer of a field is uneven along the gas and from plate to plate, its drop is that of the mean: Ohm's law is linear,
/// breakdown is not.
const OHM_TOLERANCE: f64 = 0.01;

/// Draws the chart in this size.
#[must_use]
pub fn layers_drawing(view: &PlantView<'_>, size: Point) -> Drawing {
    let mut drawing = Drawing::new(size);
    if !heading(&mut drawing, view, "Layers on the plates and voltages") {
        return drawing;
    }
    let shown = |value: f64, dimension| display(value, dimension, view.units);
    let thick = |field: &FieldReading| shown(field.layer_m, Dimension::PartSize).0;
    let volts = |field: &FieldReading| shown(field.voltage_v, Dimension::Voltage).0;
    let text =
        |field: usize, value: f64, digits| format!("field {field}: {}", number_text(value, digits));
    let names = view.labels(thick, |number, field| text(number, thick(field), 2));
    let kilovolts = view.labels(volts, |number, field| text(number, volts(field), 3));
    let beside = room_beside(&names).max(room_beside(&kilovolts));
    let (right, middle) = (size[0] - beside.max(12.0), 0.5 * (size[1] + 20.0));
    let layers = Linear {
        min: [LEFT, 48.0],
        max: [right, middle - 8.0],
        x: view.hours(),
        y: (0.0, 1.1 * highest(view, thick).max(1e-3)),
    };
    let (_, unit) = shown(0.0, Dimension::PartSize);
    axis_name(&mut drawing, 33.0, format!("layer, {unit}"));
    layers.upward(&mut drawing);
    view.lines(&mut drawing, &layers, thick);
    layers.beside(&mut drawing, names);
    let voltages = Linear {
        min: [LEFT, middle + 26.0],
        max: [right, size[1] - BELOW],
        x: view.hours(),
        y: voltage_range(view, volts),
    };
    let dashes = if loses(view) {
        "; dashed: in the gap"
    } else {
        ""
    };
    axis_name(
        &mut drawing,
        middle + 11.0,
        format!("kV, mean of the set{dashes}"),
    );
    voltages.upward(&mut drawing);
    voltages.rightward(&mut drawing, "h");
    view.lines(&mut drawing, &voltages, volts);
    if loses(view) {
        let gap = |field: &FieldReading| {
            shown(field.voltage_v - field.layer_drop_v, Dimension::Voltage).0
        };
        for field in 0..view.fields() {
            let line = reduced(view.of_field(field, gap), &voltages);
            drawing.dashed(voltages.curve(line.into_iter()), ink_of(field), 1.4);
        }
    }
    voltages.beside(&mut drawing, kilovolts);
    drawing
}

fn highest(view: &PlantView<'_>, value: impl Fn(&FieldReading) -> f64) -> f64 {
    view.highest(|reading| reading.fields.iter().map(&value).fold(0.0, f64::max))
}

/// Whether somewhere enough is lost in a layer to be seen.
fn loses(view: &PlantView<'_>) -> bool {
    let fields = view.readings.iter().flat_map(|reading| &reading.fields);
    fields
        .into_iter()
        .any(|field| field.layer_drop_v > SEEN * field.voltage_v)
}

/// From below the lowest voltage, or from 0 where the lines lie far apart, to above the highest.
fn voltage_range(view: &PlantView<'_>, volts: impl Fn(&FieldReading) -> f64 + Copy) -> (f64, f64) {
    let high = highest(view, volts).max(1.0);
    let gap =
        |field: &FieldReading| volts(field) * (1.0 - field.layer_drop_v / field.voltage_v.max(1.0));
    let fields = view.readings.iter().flat_map(|reading| &reading.fields);
    let low = fields.map(gap).fold(high, f64::min);
    if low < 0.7 * high {
        (0.0, 1.1 * high)
    } else {
        (
            low - 0.3 * (high - low) - 0.02 * high,
            high + 0.3 * (high - low) + 0.02 * high,
        )
    }
}

/// The agreement line: the field in the layer that takes most, by what it takes and by Ohm's law.
#[must_use]
pub fn layers_checks(view: &PlantView<'_>) -> Vec<CheckLine> {
    let Some(last) = view.steady().last() else {
        return Vec::new();
    };
    let fields = last.fields.iter().enumerate();
    let most = fields.max_by(|one, other| one.1.layer_drop_v.total_cmp(&other.1.layer_drop_v));
    let found = most.and_then(|(index, field)| {
        Some((
            index,
            field,
            layer_field(view.conditions, field).ok().flatten()?,
        ))
    });
    let Some((index, field, both)) = found else {
        return Vec::new();
    };
    let text = |value, dimension| format(value, dimension, view.units);
    vec![CheckLine::of_ratio(
        "electric field in the layer: voltage lost over thickness against jρ",
        format!(
            "field {}: {} lost in {}, {}; jρ gives {}",
            index + 1,
            text(field.layer_drop_v, Dimension::Voltage),
            text(field.layer_m, Dimension::PartSize),
            text(both.shown, Dimension::Field),
            text(both.expected, Dimension::Field)
        ),
        both.ratio(),
        OHM_TOLERANCE,
    )]
}
