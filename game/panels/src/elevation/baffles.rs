//! Sheets that keep the gas from going around the fields: below the roof and in the hoppers.

use super::{ElevationPlaces, Measures, parts::AreaM};
use crate::{drawing::Drawing, theme::Ink};

/// How far a roof baffle stands inside its field, m; common practice, no source.
const INSIDE_M: f64 = 0.12;
/// Where a hopper baffle begins below the plates, m, and how deep it hangs in the hopper, as a share; common practice, no
/// source.
const FROM_M: f64 = -0.85;
const DEEP: f64 = 0.55;

/// Where the baffles of a field stand below the roof, m.
fn roof_baffles_m(measures: &Measures, field: usize) -> [f64; 2] {
    let from_m = measures.field_at_m(field);
    [from_m + INSIDE_M, from_m + measures.field_m - INSIDE_M]
}

/// The hopper baffle of a field.
pub(super) fn hopper_baffle_m(measures: &Measures, field: usize) -> AreaM {
    let x_m = measures.field_at_m(field) + 0.5 * measures.field_m;
    let foot_m = measures.brim_m - DEEP * measures.hopper_m;
    [x_m - 0.2, foot_m, x_m + 0.2, FROM_M]
}

pub(super) fn baffles(drawing: &mut Drawing, places: &ElevationPlaces, field: usize) {
    let measures = &places.measures;
    for x_m in roof_baffles_m(measures, field) {
        let sheet = [
            places.at(x_m, measures.roof_m),
            places.at(x_m, measures.beam_m() + 0.06),
        ];
        drawing.line(sheet, Ink::Metal, 1.6);
    }
    let [_, foot_m, ..] = hopper_baffle_m(measures, field);
    let x_m = measures.field_at_m(field) + 0.5 * measures.field_m;
    drawing.line(
        [places.at(x_m, FROM_M), places.at(x_m, foot_m)],
        Ink::Metal,
        1.6,
    );
}
