//! The way of the gas outside of the fields: riser with its elbow, nozzles with distribution plates, fan and stack.

use std::f64::consts::FRAC_PI_2;

use super::{ElevationPlaces, ElevationView, Measures, casing::WALL, measures::DUCT_M};
use crate::{
    drawing::{Drawing, Point},
    theme::Ink,
};

/// Turning vanes in the elbow, and pieces of each.
const VANES: usize = 3;
const PIECES: usize = 8;
/// How far the first distribution plate stands before the first field, m, and the next before it; common practice, no source.
const PLATE_AT_M: f64 = 0.5;
const BETWEEN_M: f64 = 0.7;

pub(super) fn ducts(drawing: &mut Drawing, view: &ElevationView<'_>, places: &ElevationPlaces) {
    inlet(drawing, places);
    distribution_plates(drawing, view, places);
    outlet(drawing, places);
    fan(drawing, places);
    stack(drawing, places);
}

/// A quarter of a circle round a middle, from pointing left to pointing up.
fn quarter(places: &ElevationPlaces, middle_m: (f64, f64), radius_m: f64) -> Vec<Point> {
    (0..=PIECES)
        .map(|piece| {
            let turned = FRAC_PI_2 * piece as f64 / PIECES as f64;
            places.at(
                middle_m.0 - radius_m * turned.cos(),
                middle_m.1 + radius_m * turned.sin(),
            )
        })
        .collect()
}

/// Riser from the ground, elbow with its vanes, straight duct, nozzle.
fn inlet(drawing: &mut Drawing, places: &ElevationPlaces) {
    let measures = &places.measures;
    let (riser_m, axis_m, half_m) = (
        measures.riser_at_m(),
        measures.axis_m(),
        0.5 * measures.duct_m,
    );
    let (ground_m, wall_m) = (measures.ground_m(), measures.walls_m().0);
    let narrow_m = wall_m - measures.nozzle_m;
    // The elbow turns round its inner edge.
    let inner_m = (riser_m + half_m, axis_m - half_m);
    let mut outer = vec![places.at(riser_m - half_m, ground_m)];
    outer.extend(quarter(places, inner_m, measures.duct_m));
    outer.push(places.at(narrow_m, axis_m + half_m));
    outer.push(places.at(wall_m, measures.roof_m));
    drawing.line(outer, Ink::Metal, WALL);
    drawing.line(
        [
            places.at(riser_m + half_m, ground_m),
            places.at(inner_m.0, inner_m.1),
            places.at(narrow_m, axis_m - half_m),
            places.at(wall_m, measures.brim_m),
        ],
        Ink::Metal,
        WALL,
    );
    for vane in 1..=VANES {
        let radius_m = measures.duct_m * vane as f64 / (VANES + 1) as f64;
        drawing.line(quarter(places, inner_m, radius_m), Ink::Metal, 1.0);
    }
    // Expansion joint.
    let joint_m = narrow_m - 0.5 * DUCT_M;
    bellows(drawing, places, joint_m, axis_m, half_m);
}

/// Both edges of an expansion joint across a horizontal duct.
fn bellows(drawing: &mut Drawing, places: &ElevationPlaces, x_m: f64, axis_m: f64, half_m: f64) {
    for edge in [-0.12, 0.12] {
        drawing.line(
            [
                places.at(x_m + edge, axis_m - half_m - 0.12),
                places.at(x_m + edge, axis_m + half_m + 0.12),
            ],
            Ink::Metal,
            1.0,
        );
    }
}

/// Where the distribution plates stand, the last one first, m.
pub(super) fn plates_at_m(view: &ElevationView<'_>, measures: &Measures) -> Vec<f64> {
    let wall_m = measures.walls_m().0;
    let count = view.conditions.collector.distribution_plates;
    let plates = (0..count).map(|plate| wall_m - PLATE_AT_M - BETWEEN_M * plate as f64);
    plates
        .filter(|x_m| *x_m > wall_m - 0.8 * measures.nozzle_m)
        .collect()
}

/// Lower and upper end of something that stands across the inlet nozzle, m.
pub(super) fn across_nozzle_m(measures: &Measures, x_m: f64) -> (f64, f64) {
    let share = ((measures.walls_m().0 - x_m) / measures.nozzle_m).clamp(0.0, 1.0);
    let (axis_m, half_m) = (measures.axis_m(), 0.5 * measures.duct_m);
    let towards = |wide_m: f64, narrow_m: f64| wide_m + share * (narrow_m - wide_m);
    (
        towards(measures.brim_m, axis_m - half_m),
        towards(measures.roof_m, axis_m + half_m),
    )
}

/// Holed sheets, with ash on the side that the gas meets.
fn distribution_plates(drawing: &mut Drawing, view: &ElevationView<'_>, places: &ElevationPlaces) {
    for x_m in plates_at_m(view, &places.measures) {
        let (low_m, high_m) = across_nozzle_m(&places.measures, x_m);
        let inset = 0.1;
        let (low, high) = (
            places.at(x_m, low_m + inset),
            places.at(x_m, high_m - inset),
        );
        drawing.items.push(crate::drawing::Item::Line {
            points: vec![
                [low[0] - 2.0 * places.way(), low[1]],
                [high[0] - 2.0 * places.way(), high[1]],
            ],
            ink: Ink::Dust,
            width: 1.2,
            dash: Some((4.0, 3.0)),
        });
        drawing.items.push(crate::drawing::Item::Line {
            points: vec![low, high],
            ink: Ink::Metal,
            width: 2.0,
            dash: Some((4.0, 3.0)),
        });
    }
}

/// Nozzle, straight duct, and down to the fan.
fn outlet(drawing: &mut Drawing, places: &ElevationPlaces) {
    let measures = &places.measures;
    let (wall_m, axis_m, half_m) = (
        measures.walls_m().1,
        measures.axis_m(),
        0.5 * measures.duct_m,
    );
    let narrow_m = wall_m + measures.nozzle_m;
    let down_m = measures.fan_at_m();
    let fan_top_m = measures.ground_m() + 0.4 + measures.fan_m;
    drawing.line(
        [
            places.at(wall_m, measures.roof_m),
            places.at(narrow_m, axis_m + half_m),
            places.at(down_m, axis_m + half_m),
            places.at(down_m + half_m, axis_m),
            places.at(down_m + half_m, fan_top_m),
        ],
        Ink::Metal,
        WALL,
    );
    drawing.line(
        [
            places.at(wall_m, measures.brim_m),
            places.at(narrow_m, axis_m - half_m),
            places.at(down_m - half_m, axis_m - half_m),
            places.at(down_m - half_m, fan_top_m),
        ],
        Ink::Metal,
        WALL,
    );
    bellows(drawing, places, narrow_m + 0.3 * DUCT_M, axis_m, half_m);
}

/// The scroll of the fan at grade; its outlet leads tangentially to the stack.
fn fan(drawing: &mut Drawing, places: &ElevationPlaces) {
    let measures = &places.measures;
    let radius_m = 0.5 * measures.fan_m;
    let middle = (measures.fan_at_m(), measures.ground_m() + 0.4 + radius_m);
    let ring = |share: f64| -> Vec<Point> {
        (0..=32)
            .map(|piece| {
                let turned = f64::from(piece) / 32.0 * 4.0 * FRAC_PI_2;
                places.at(
                    middle.0 + share * radius_m * turned.cos(),
                    middle.1 + share * radius_m * turned.sin(),
                )
            })
            .collect()
    };
    drawing.line(ring(1.0), Ink::Metal, 1.8);
    drawing.line(ring(0.45), Ink::Metal, 1.2);
    for blade in 0..8 {
        let turned = f64::from(blade) / 8.0 * 4.0 * FRAC_PI_2;
        let at = |share: f64| {
            places.at(
                middle.0 + share * radius_m * turned.cos(),
                middle.1 + share * radius_m * turned.sin(),
            )
        };
        drawing.line([at(0.45), at(0.85)], Ink::Metal, 1.0);
    }
    let (low_m, high_m) = (
        measures.ground_m() + 0.4,
        measures.ground_m() + 0.4 + 0.45 * measures.fan_m,
    );
    let stack_m = measures.stack_at_m() - 0.5 * measures.stack_m;
    drawing.line(
        [places.at(middle.0, low_m), places.at(stack_m, low_m)],
        Ink::Metal,
        1.8,
    );
    drawing.line(
        [
            places.at(middle.0 + 0.85 * radius_m, high_m),
            places.at(stack_m, high_m),
        ],
        Ink::Metal,
        1.8,
    );
}

/// The foot of the stack, cut off.
fn stack(drawing: &mut Drawing, places: &ElevationPlaces) {
    let measures = &places.measures;
    let half_m = 0.5 * measures.stack_m;
    let top_m = measures.extent_m()[3];
    for side in [-1.0, 1.0] {
        let x_m = measures.stack_at_m() + side * half_m;
        drawing.line(
            [places.at(x_m, measures.ground_m()), places.at(x_m, top_m)],
            Ink::Metal,
            WALL,
        );
    }
    // Cut: a zigzag over both walls.
    let x_m = |share: f64| measures.stack_at_m() + half_m * share;
    drawing.line(
        [
            places.at(x_m(-1.3), top_m - 0.2),
            places.at(x_m(-0.3), top_m + 0.15),
            places.at(x_m(0.3), top_m - 0.45),
            places.at(x_m(1.3), top_m - 0.1),
        ],
        Ink::Faint,
        1.4,
    );
}
