//! On the hot roof: support insulators in their heated boxes, transformer-rectifiers, bus ducts; the rods that carry the
//! high-voltage frames.

use ashlane_shared::units::Dimension;

use super::{ElevationPlaces, ElevationView, roof_details::details};
use crate::{
    drawing::{Anchor, Drawing, Point, label_where_free, text_width},
    theme::{Ink, SMALL},
};

/// Where on its field the two supports stand, as shares of its length.
pub(super) const SUPPORTS: [f64; 2] = [0.16, 0.84];
/// Insulator compartment and set, m; common practice, no source.
pub(super) const BOX_M: (f64, f64) = (0.9, 1.5);
pub(super) const SET_M: (f64, f64) = (1.05, 1.4);
/// How far sets stand over the roof, m.
pub(super) const DECK_M: f64 = 0.25;

pub(super) fn roof(drawing: &mut Drawing, places: &ElevationPlaces) {
    let measures = &places.measures;
    for field in 0..measures.fields {
        let from_m = measures.field_at_m(field);
        for share in SUPPORTS {
            support(drawing, places, from_m + share * measures.field_m);
        }
        set(drawing, places, field);
        details(drawing, places, field);
    }
}

/// A rod through the bore of an insulator that stands on the roof.
fn support(drawing: &mut Drawing, places: &ElevationPlaces, x_m: f64) {
    let measures = &places.measures;
    let (roof_m, frame_m) = (measures.roof_m, measures.plate_m + 0.2);
    let (width_m, height_m) = BOX_M;
    let corners = [
        places.at(x_m - 0.5 * width_m, roof_m),
        places.at(x_m - 0.5 * width_m, roof_m + height_m),
        places.at(x_m + 0.5 * width_m, roof_m + height_m),
        places.at(x_m + 0.5 * width_m, roof_m),
    ];
    drawing.line(corners.to_vec(), Ink::Metal, 1.2);
    // The insulator stands on the roof, under pressure; its cap carries the rod.
    let cap_m = roof_m + 0.95;
    let sheds = 4;
    for shed in 0..sheds {
        let z_m = roof_m + 0.12 + 0.78 * f64::from(shed) / f64::from(sheds - 1);
        drawing.line(
            [places.at(x_m - 0.2, z_m), places.at(x_m + 0.2, z_m)],
            Ink::Text,
            1.6,
        );
    }
    for side in [-0.13, 0.13] {
        drawing.line(
            [places.at(x_m + side, roof_m), places.at(x_m + side, cap_m)],
            Ink::Text,
            1.0,
        );
    }
    drawing.line(
        [places.at(x_m - 0.22, cap_m), places.at(x_m + 0.22, cap_m)],
        Ink::HighVoltage,
        2.2,
    );
    drawing.line(
        [places.at(x_m, cap_m), places.at(x_m, frame_m)],
        Ink::HighVoltage,
        1.8,
    );
}

/// The transformer-rectifier of a field with its bus duct to one support.
fn set(drawing: &mut Drawing, places: &ElevationPlaces, field: usize) {
    let measures = &places.measures;
    let [min, max] = corners(places, field);
    let middle_m = measures.field_at_m(field) + 0.5 * measures.field_m;
    let bus_m = measures.roof_m + DECK_M + 0.75;
    let support_m = measures.field_at_m(field) + SUPPORTS[0] * measures.field_m;
    drawing.line(
        [places.at(middle_m, bus_m), places.at(support_m, bus_m)],
        Ink::HighVoltage,
        2.0,
    );
    drawing.rect(min, max, Ink::Panel, 1.0);
    let frame = vec![min, [max[0], min[1]], max, [min[0], max[1]], min];
    drawing.line(frame, Ink::Metal, 1.4);
}

/// Top left and bottom right of the set of a field.
pub(crate) fn corners(places: &ElevationPlaces, field: usize) -> [Point; 2] {
    let measures = &places.measures;
    let middle_m = measures.field_at_m(field) + 0.5 * measures.field_m;
    let (width_m, height_m) = SET_M;
    let foot_m = measures.roof_m + DECK_M;
    places.area([
        middle_m - 0.5 * width_m,
        foot_m,
        middle_m + 0.5 * width_m,
        foot_m + height_m,
    ])
}

/// What the kilovolt meters show, over the sets.
pub(super) fn voltages(drawing: &mut Drawing, view: &ElevationView<'_>, places: &ElevationPlaces) {
    let measures = &places.measures;
    let room = places.scale * (measures.field_m + measures.walkway_m) as f32 - 6.0;
    for (field, state) in view.fields.iter().enumerate().take(measures.fields) {
        let kv = view.text(state.metered_v(), Dimension::Voltage);
        let (name, number) = (
            view.conditions.field_name(field),
            view.conditions.field_number(field),
        );
        let texts = [format!("{name}: {kv}"), format!("{number}: {kv}"), kv];
        let fits = |text: &&String| text_width(text, SMALL, false) < room;
        if let Some(text) = texts.iter().find(fits) {
            let [min, max] = corners(places, field);
            let over = [0.5 * (min[0] + max[0]), min[1] - 3.0];
            if places.shows(over) {
                label_where_free(drawing, over, Anchor::Bottom, text, Ink::HighVoltage);
            }
        }
    }
}
