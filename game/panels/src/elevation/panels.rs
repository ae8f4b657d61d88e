//! Plates as they are rolled: panels side by side with stiffening edges, guided at both ends, tied at the foot; and the
//! insulators that keep the lower high-voltage frame in its place between them.

use super::{ElevationPlaces, measures::LOWER_FRAME_M, rappers::ANVIL_M};
use crate::{drawing::Drawing, theme::Ink};

/// Width of a rolled panel and of the guide at an edge, m; common practice, no source.
const PANEL_M: f64 = 0.5;
const GUIDE_M: f64 = 0.05;
/// Where on the field the stabilisers stand, as shares of its length, and how high; common practice, no source.
pub(super) const STABILISERS: [f64; 2] = [0.1, 0.9];
pub(super) const STABILISER_M: f64 = 0.6;
/// From this scale on edge guides are drawn, points per metre.
const FINE: f32 = 20.0;

pub(super) fn panels(drawing: &mut Drawing, places: &ElevationPlaces, field: usize) {
    let measures = &places.measures;
    let from_m = measures.field_at_m(field);
    let upright = |drawing: &mut Drawing, x_m: f64, width: f32| {
        let line = [places.at(x_m, measures.plate_m), places.at(x_m, 0.0)];
        drawing.line(line, Ink::Rule, width);
    };
    let count = (measures.field_m / PANEL_M).round().max(1.0) as usize;
    for joint in 1..count {
        let x_m = from_m + measures.field_m * joint as f64 / count as f64;
        upright(drawing, x_m, 1.0);
    }
    if places.scale >= FINE {
        upright(drawing, from_m + GUIDE_M, 0.8);
        upright(drawing, from_m + measures.field_m - GUIDE_M, 0.8);
    }
    // The bar that ties the panels and takes the blow.
    let tie = [
        places.at(from_m, ANVIL_M),
        places.at(from_m + measures.field_m, ANVIL_M),
    ];
    drawing.line(tie, Ink::Metal, 1.6);
    for share in STABILISERS {
        stabiliser(drawing, places, from_m + share * measures.field_m);
    }
}

/// An insulator that stands on a bracket below the lower frame.
fn stabiliser(drawing: &mut Drawing, places: &ElevationPlaces, x_m: f64) {
    let (top_m, foot_m) = (-LOWER_FRAME_M, -LOWER_FRAME_M - STABILISER_M);
    let rod = [places.at(x_m, top_m), places.at(x_m, foot_m)];
    drawing.line(rod, Ink::Text, 1.2);
    for shed in 1..4 {
        let z_m = top_m - STABILISER_M * f64::from(shed) / 4.0;
        let ribs = [places.at(x_m - 0.1, z_m), places.at(x_m + 0.1, z_m)];
        drawing.line(ribs, Ink::Text, 1.2);
    }
    let bracket = [places.at(x_m - 0.16, foot_m), places.at(x_m + 0.16, foot_m)];
    drawing.line(bracket, Ink::Metal, 2.0);
    let post = [
        places.at(x_m, foot_m),
        places.at(x_m, places.measures.brim_m),
    ];
    drawing.line(post, Ink::Metal, 1.2);
}
