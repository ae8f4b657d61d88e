//! Inside the casing: plates that hang from their beams, with the dust on them; electrodes and rappers have their own files.

use ashlane_shared::machine::FieldPlates;

use super::{
    ElevationPlaces, ElevationView, baffles::baffles, electrodes::electrodes, panels::panels,
    rappers::rappers,
};
use crate::{
    drawing::{
        Drawing,
        sparks::{mark, marked},
    },
    theme::Ink,
};

/// Layers are as dark as their thickness: so much of the plate is covered at this thickness, m.
const FULL_LAYER_M: f64 = 8e-3;
const FULL: f32 = 0.5;

pub(super) fn fields(drawing: &mut Drawing, view: &ElevationView<'_>, places: &ElevationPlaces) {
    for field in 0..places.measures.fields {
        let plates = view.plates.get(field);
        plate(drawing, plates, places, field, view.step);
        panels(drawing, places, field);
        electrodes(drawing, view, places, field);
        baffles(drawing, places, field);
    }
    rappers(drawing, view, places);
    if !view.calm {
        sparks(drawing, view, places);
    }
}

/// Marks of the sparks that have just been.
fn sparks(drawing: &mut Drawing, view: &ElevationView<'_>, places: &ElevationPlaces) {
    let measures = &places.measures;
    for (index, field) in view.fields.iter().enumerate().take(measures.fields) {
        for spark in marked(index, field.sparks_per_min, view.step) {
            let x_m = measures.field_at_m(index) + spark.along * measures.field_m;
            let at = places.at(x_m, spark.height * measures.plate_m);
            if places.shows(at) {
                mark(drawing, &spark, at, 1.0);
            }
        }
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
    let beam_m = measures.beam_m();
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
