//! The way of the gas outside of the fields: riser with its elbow, nozzles with distribution plates, outlet duct, stack.

use std::f64::consts::FRAC_PI_2;

use super::{ElevationPlaces, ElevationView, Measures, casing::WALL, measures::INLET_BOX};
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
    let wall_m = measures.walls_m().0;
    let narrow_m = wall_m - measures.nozzle_m;
    // The elbow turns round its inner edge.
    let inner_m = (riser_m + half_m, axis_m - half_m);
    let (outer_foot, inner_foot) = riser_foot(places);
    let mut outer = outer_foot;
    outer.extend(quarter(places, inner_m, measures.duct_m));
    outer.push(places.at(narrow_m, axis_m + half_m));
    outer.push(places.at(wall_m, measures.roof_m));
    drawing.line(outer, Ink::Metal, WALL);
    let mut inner = inner_foot;
    inner.extend([
        places.at(inner_m.0, inner_m.1),
        places.at(narrow_m, axis_m - half_m),
        places.at(wall_m, measures.brim_m),
    ]);
    drawing.line(inner, Ink::Metal, WALL);
    for vane in 1..=VANES {
        let radius_m = measures.duct_m * vane as f64 / (VANES + 1) as f64;
        drawing.line(quarter(places, inner_m, radius_m), Ink::Metal, 1.0);
    }
}

/// How the two walls of the riser begin: at the duct from the air heater, or on the outlet of a fan that pushes.
fn riser_foot(places: &ElevationPlaces) -> (Vec<Point>, Vec<Point>) {
    let measures = &places.measures;
    let (riser_m, half_m) = (measures.riser_at_m(), 0.5 * measures.duct_m);
    if measures.pushes {
        let foot_m = measures.fan_height_m() + INLET_BOX * measures.wheel_m();
        return (
            vec![places.at(riser_m - half_m, foot_m)],
            vec![places.at(riser_m + half_m, foot_m)],
        );
    }
    let [_, bottom_m, heater_m, top_m] = measures.heater_m();
    let (low_m, high_m) = (bottom_m + 0.3, top_m - 0.3);
    (
        vec![
            places.at(heater_m, high_m),
            places.at(riser_m - half_m, high_m),
        ],
        vec![
            places.at(heater_m, low_m),
            places.at(riser_m, low_m),
            places.at(riser_m + half_m, low_m + half_m),
        ],
    )
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

/// Nozzle, straight duct, and down to the fan or, where it pushes, straight on to the stack.
fn outlet(drawing: &mut Drawing, places: &ElevationPlaces) {
    let measures = &places.measures;
    let (wall_m, axis_m, half_m) = (
        measures.walls_m().1,
        measures.axis_m(),
        0.5 * measures.duct_m,
    );
    let narrow_m = wall_m + measures.nozzle_m;
    let mut upper = vec![
        places.at(wall_m, measures.roof_m),
        places.at(narrow_m, axis_m + half_m),
    ];
    let mut lower = vec![
        places.at(wall_m, measures.brim_m),
        places.at(narrow_m, axis_m - half_m),
    ];
    if measures.pushes {
        let stack_m = measures.stack_at_m() - 0.5 * measures.stack_m;
        upper.push(places.at(stack_m, axis_m + half_m));
        lower.push(places.at(stack_m, axis_m - half_m));
    } else {
        let down_m = measures.fan_at_m();
        let box_m = measures.fan_height_m() + INLET_BOX * measures.wheel_m();
        upper.extend([
            places.at(down_m, axis_m + half_m),
            places.at(down_m + half_m, axis_m),
            places.at(down_m + half_m, box_m),
        ]);
        lower.extend([
            places.at(down_m - half_m, axis_m - half_m),
            places.at(down_m - half_m, box_m),
        ]);
    }
    drawing.line(upper, Ink::Metal, WALL);
    drawing.line(lower, Ink::Metal, WALL);
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
