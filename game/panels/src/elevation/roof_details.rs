//! At every set its ground switch and its key box; at every insulator box what keeps it dry.

use super::{
    ElevationPlaces, Measures,
    casing::outline,
    parts::AreaM,
    roof::{BOX_M, DECK_M, SET_M, SUPPORTS},
};
use crate::{drawing::Drawing, theme::Ink};

/// Ground switch and key box, width and height, m; common practice, no source.
const SWITCH_M: (f64, f64) = (0.42, 0.42);
const KEYS_M: (f64, f64) = (0.3, 0.36);
/// From this scale on heaters and purge air are drawn, points per metre.
const FINE: f32 = 40.0;

/// The box of the ground switch of a field, at the bushing of its set.
pub(super) fn switch_m(measures: &Measures, field: usize) -> AreaM {
    let left_m = measures.field_at_m(field) + 0.5 * (measures.field_m - SET_M.0) + 0.08;
    let top_m = measures.roof_m + DECK_M + SET_M.1 - 0.1;
    [left_m, top_m - SWITCH_M.1, left_m + SWITCH_M.0, top_m]
}

/// The key box of a field, at its set.
pub(super) fn keys_m(measures: &Measures, field: usize) -> AreaM {
    let right_m = measures.field_at_m(field) + 0.5 * (measures.field_m + SET_M.0) - 0.08;
    let foot_m = measures.roof_m + DECK_M + 0.15;
    [right_m - KEYS_M.0, foot_m, right_m, foot_m + KEYS_M.1]
}

pub(super) fn details(drawing: &mut Drawing, places: &ElevationPlaces, field: usize) {
    let measures = &places.measures;
    let [left, bottom, right, top] = switch_m(measures, field);
    outline(
        drawing,
        places,
        [left, bottom, right, top],
        (Ink::Metal, 1.0),
    );
    // A blade that stands open over its ground.
    let middle_m = 0.5 * (left + right);
    let at = |x_m: f64, z_m: f64| places.at(x_m, z_m);
    drawing.line(
        [at(middle_m, top), at(middle_m, top - 0.12)],
        Ink::HighVoltage,
        1.2,
    );
    drawing.line(
        [at(middle_m, bottom + 0.1), at(middle_m + 0.13, top - 0.14)],
        Ink::Text,
        1.2,
    );
    drawing.line(
        [
            at(middle_m - 0.1, bottom + 0.06),
            at(middle_m + 0.1, bottom + 0.06),
        ],
        Ink::Text,
        1.4,
    );
    let [left, bottom, right, top] = keys_m(measures, field);
    outline(
        drawing,
        places,
        [left, bottom, right, top],
        (Ink::Metal, 1.0),
    );
    let keyhole = at(0.5 * (left + right), 0.5 * (bottom + top));
    drawing.dot(keyhole, (0.05 * places.scale).max(1.3), Ink::Text);
    if places.scale >= FINE {
        for share in SUPPORTS {
            dry(
                drawing,
                places,
                measures.field_at_m(field) + share * measures.field_m,
            );
        }
    }
}

/// The heater at the wall of an insulator box, and the purge air that comes in.
fn dry(drawing: &mut Drawing, places: &ElevationPlaces, x_m: f64) {
    let (roof_m, wall_m) = (places.measures.roof_m, 0.5 * BOX_M.0 - 0.06);
    let zigzag = (0..9).map(|turn| {
        let side = if turn % 2 == 0 { 0.0 } else { 0.07 };
        places.at(x_m + wall_m - side, roof_m + 0.15 + 0.06 * f64::from(turn))
    });
    drawing.line(zigzag.collect::<Vec<_>>(), Ink::Text, 1.0);
    let inlet_m = roof_m + 1.2;
    drawing.line(
        [
            places.at(x_m - wall_m - 0.2, inlet_m),
            places.at(x_m - wall_m + 0.08, inlet_m),
        ],
        Ink::Gas,
        1.4,
    );
    drawing.line(
        [
            places.at(x_m - wall_m, inlet_m + 0.06),
            places.at(x_m - wall_m + 0.08, inlet_m),
            places.at(x_m - wall_m, inlet_m - 0.06),
        ],
        Ink::Gas,
        1.4,
    );
}
