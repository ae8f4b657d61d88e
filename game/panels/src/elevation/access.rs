//! Ways for people, and what the casing stands on: gratings between the fields, doors that are shut, stairs, bearings.

use super::{ElevationPlaces, Measures, casing::outline, parts::AreaM};
use crate::{drawing::Drawing, theme::Ink};

/// Door to a walkway: how high its foot is, width and height, m; common practice, no source.
const DOOR_M: (f64, f64, f64) = (0.85, 0.56, 1.1);
/// Height of a grating between two fields, m; common practice, no source.
const GRATING_M: f64 = -0.5;
/// Stairs: from the wall, their width, one flight, m; common practice, no source.
const STAIRS_M: (f64, f64, f64) = (0.7, 2.2, 2.6);
/// Height of a handrail, m: 42 in within 3 in (29 CFR 1910.29(b)(1), from memory).
const RAIL_M: f64 = 1.1;
/// From this scale on steps of the stairs are drawn, points per metre.
const FINE: f32 = 40.0;

/// The door to the walkway behind a field.
pub(super) fn door_m(measures: &Measures, field: usize) -> AreaM {
    let (foot_m, width_m, height_m) = DOOR_M;
    let middle_m = measures.field_at_m(field) + measures.field_m + 0.5 * measures.walkway_m;
    [
        middle_m - 0.5 * width_m,
        foot_m,
        middle_m + 0.5 * width_m,
        foot_m + height_m,
    ]
}

/// The stairs.
pub(super) fn stairs_m(measures: &Measures) -> AreaM {
    let left_m = measures.walls_m().1 + STAIRS_M.0;
    [
        left_m,
        measures.ground_m(),
        left_m + STAIRS_M.1,
        measures.brim_m - 0.4,
    ]
}

/// Where the legs stand: at both walls and below every walkway, m.
pub(super) fn legs_m(measures: &Measures) -> Vec<f64> {
    let (left_m, right_m) = measures.walls_m();
    let between =
        (1..measures.fields).map(|field| measures.field_at_m(field) - 0.5 * measures.walkway_m);
    std::iter::once(left_m)
        .chain(between)
        .chain(std::iter::once(right_m))
        .collect()
}

/// The one leg on which the casing does not slide.
pub(super) fn fixed_leg(measures: &Measures) -> usize {
    measures.fields.div_ceil(2)
}

/// What stands behind the machine.
pub(super) fn behind(drawing: &mut Drawing, places: &ElevationPlaces) {
    let measures = &places.measures;
    let [left_m, ground_m, right_m, _] = stairs_m(measures);
    let rise_m = measures.roof_m - ground_m;
    let flights = (rise_m / STAIRS_M.2).round().max(1.0) as usize;
    let mut way = vec![places.at(left_m, ground_m)];
    for flight in 0..flights {
        let z_m = ground_m + rise_m * (flight + 1) as f64 / flights as f64;
        let to_m = if flight % 2 == 0 { right_m } else { left_m };
        way.push(places.at(to_m, z_m));
    }
    if places.scale >= FINE {
        let rail = way
            .iter()
            .map(|point| [point[0], point[1] - RAIL_M as f32 * places.scale]);
        drawing.line(rail.collect::<Vec<_>>(), Ink::Rule, 1.0);
    }
    way.push(places.at(measures.walls_m().1, measures.roof_m));
    drawing.line(way, Ink::Rule, 2.0);
    for x_m in [left_m, right_m] {
        let post = [places.at(x_m, ground_m), places.at(x_m, measures.roof_m)];
        drawing.line(post, Ink::Rule, 1.0);
    }
    let (from_m, to_m) = measures.walls_m();
    let rail_m = measures.roof_m + RAIL_M;
    let rail = [places.at(from_m, rail_m), places.at(to_m, rail_m)];
    drawing.line(rail, Ink::Rule, 1.0);
    for x_m in [from_m, to_m] {
        let post = [places.at(x_m, measures.roof_m), places.at(x_m, rail_m)];
        drawing.line(post, Ink::Rule, 1.0);
    }
}

/// Gratings, doors and bearings.
pub(super) fn access(drawing: &mut Drawing, places: &ElevationPlaces) {
    let measures = &places.measures;
    for field in 0..measures.fields {
        let end_m = measures.field_at_m(field) + measures.field_m;
        let grating = [
            places.at(end_m + 0.08, GRATING_M),
            places.at(end_m + measures.walkway_m - 0.08, GRATING_M),
        ];
        drawing.dashed(grating, Ink::Metal, 2.0);
        door(drawing, places, door_m(measures, field));
    }
    for (leg, x_m) in legs_m(measures).into_iter().enumerate() {
        bearing(drawing, places, x_m, leg == fixed_leg(measures));
    }
}

/// A door that is shut, with its key lock.
fn door(drawing: &mut Drawing, places: &ElevationPlaces, area_m: AreaM) {
    outline(drawing, places, area_m, (Ink::Text, 1.2));
    let [_, bottom, right, top] = area_m;
    let middle_m = 0.5 * (bottom + top);
    let lock = places.at(right - 0.12, middle_m);
    drawing.dot(lock, (0.06 * places.scale).max(1.6), Ink::Text);
}

/// Between a leg and the casing: two plates that slide on each other, or a block.
fn bearing(drawing: &mut Drawing, places: &ElevationPlaces, x_m: f64, is_fixed: bool) {
    let top_m = places.measures.brim_m;
    let bar = |drawing: &mut Drawing, z_m: f64, half_m: f64| {
        let line = [places.at(x_m - half_m, z_m), places.at(x_m + half_m, z_m)];
        drawing.line(line, Ink::Text, 1.6);
    };
    if is_fixed {
        let block = [places.at(x_m, top_m - 0.05), places.at(x_m, top_m - 0.4)];
        drawing.line(block, Ink::Text, (0.4 * places.scale).max(5.0));
    } else {
        bar(drawing, top_m - 0.1, 0.28);
        bar(drawing, top_m - 0.25, 0.2);
    }
}
