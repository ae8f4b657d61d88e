//! Inside the casing: plates that hang from their beams, discharge electrodes in the high-voltage frame, hammers, layers.

use ashlane_shared::machine::FieldPlates;

use super::{ElevationPlaces, ElevationView, measures::LOWER_FRAME_M};
use crate::{drawing::Drawing, theme::Ink};

/// Layers are as dark as their thickness: so much of the plate is covered at this thickness, m.
const FULL_LAYER_M: f64 = 8e-3;
const FULL: f32 = 0.5;

pub(super) fn fields(drawing: &mut Drawing, view: &ElevationView<'_>, places: &ElevationPlaces) {
    for field in 0..places.measures.fields {
        let plates = view.plates.get(field);
        plate(drawing, plates, places, field, view.step);
        wires(drawing, view, places, field);
        hammers(drawing, places, field);
    }
}

/// The plate that is seen, its beam, and the dust on it; behind a sheet that falls it is bare.
fn plate(
    drawing: &mut Drawing,
    plates: Option<&FieldPlates>,
    places: &ElevationPlaces,
    field: usize,
    step: u64,
) {
    let measures = &places.measures;
    let (from_m, to_m) = (
        measures.field_at_m(field),
        measures.field_at_m(field) + measures.field_m,
    );
    let (min, max) = (places.at(from_m, measures.plate_m), places.at(to_m, 0.0));
    drawing.rect(min, max, Ink::Metal, 0.16);
    if let Some(plates) = plates {
        let layer = (plates.layer_m[1] / FULL_LAYER_M).min(1.0) as f32 * FULL;
        drawing.rect(min, max, Ink::Dust, layer);
        if let Some(sheet) = plates.fallen[1].filter(|sheet| sheet.is_news(step)) {
            // The sheet slides: its upper edge falls, its lower part is already below the plate.
            let gone = sheet.gone(step) as f32;
            if gone < 1.0 {
                let fall = gone * (max[1] - min[1]);
                let foot = places.y(measures.brim_m);
                drawing.rect(
                    [min[0], min[1] + fall],
                    [max[0], (max[1] + fall).min(foot)],
                    Ink::Dust,
                    0.6,
                );
            }
        }
    }
    for corner in [[min, [max[0], min[1]]], [[min[0], max[1]], max]] {
        drawing.line(corner, Ink::Metal, 1.0);
    }
    for x in [min[0], max[0]] {
        drawing.line([[x, min[1]], [x, max[1]]], Ink::Metal, 1.2);
    }
    let beam_m = measures.plate_m + 0.45;
    drawing.line(
        [places.at(from_m, beam_m), places.at(to_m, beam_m)],
        Ink::Metal,
        3.0,
    );
    for share in [0.12, 0.88] {
        let x_m = from_m + share * measures.field_m;
        drawing.line(
            [places.at(x_m, beam_m), places.at(x_m, measures.plate_m)],
            Ink::Metal,
            1.2,
        );
    }
}

/// Every wire of the field, between an upper and a lower frame that hang on the support insulators.
fn wires(drawing: &mut Drawing, view: &ElevationView<'_>, places: &ElevationPlaces, field: usize) {
    let measures = &places.measures;
    let count = view.conditions.wires_per_field();
    let pitch_m = measures.field_m / f64::from(count);
    let (upper_m, lower_m) = (measures.plate_m + 0.2, -LOWER_FRAME_M);
    let from_m = measures.field_at_m(field);
    let wire_m = |wire: f64| from_m + (wire + 0.5) * pitch_m;
    let last = f64::from(count.saturating_sub(1));
    for wire in 0..count {
        let x_m = wire_m(f64::from(wire));
        drawing.line(
            [places.at(x_m, upper_m), places.at(x_m, lower_m)],
            Ink::Electrode,
            0.7,
        );
    }
    for height_m in [upper_m, lower_m] {
        drawing.line(
            [
                places.at(wire_m(0.0), height_m),
                places.at(wire_m(last), height_m),
            ],
            Ink::HighVoltage,
            1.8,
        );
    }
}

/// The shaft of the plate hammers at the bottom edge, and the anvil that they strike.
fn hammers(drawing: &mut Drawing, places: &ElevationPlaces, field: usize) {
    let measures = &places.measures;
    let x_m = measures.field_at_m(field) + measures.field_m + 0.22;
    let shaft = places.at(x_m, -0.1);
    drawing.line(
        [places.at(x_m, -0.1), places.at(x_m - 0.05, 0.28)],
        Ink::Metal,
        1.2,
    );
    drawing.dot(
        places.at(x_m - 0.08, 0.28),
        (0.09 * places.scale).max(1.5),
        Ink::Metal,
    );
    drawing.dot(shaft, (0.07 * places.scale).max(1.5), Ink::Metal);
    let anvil = measures.field_at_m(field) + measures.field_m;
    drawing.line(
        [places.at(anvil, 0.28), places.at(anvil + 0.1, 0.28)],
        Ink::Metal,
        2.4,
    );
}
