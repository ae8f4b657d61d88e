//! What sits in and on the ducts: expansion joints, dampers with their blades, insulation under its cladding.

use super::{ElevationPlaces, Measures, fan, measures::DUCT_M, parts::AreaM};
use crate::{
    drawing::{Drawing, Point},
    theme::Ink,
};

/// Folds of an expansion joint, from fold to fold, and how far they stand out, m; common practice, no source.
const FOLDS: usize = 4;
const FOLD_M: f64 = 0.11;
const OUT_M: f64 = 0.14;
/// Blades of a damper, and how far they are turned out of the stream: their height over their length.
const BLADES: usize = 4;
const TURNED: f64 = 0.45;
/// Insulation with its cladding, m; common practice, no source.
const INSULATION_M: f64 = 0.2;
/// From this scale on insulation is drawn, points per metre: below it both lines would run together.
const FROM: f32 = 14.0;

/// A place across a duct.
#[derive(Clone, Copy, Debug)]
pub(super) struct Across {
    /// Middle of the duct, m.
    pub(super) middle_m: (f64, f64),
    /// From there to its wall, m.
    pub(super) half_m: f64,
    /// The gas goes up or down, and not along.
    pub(super) upright: bool,
}

impl Across {
    /// A place so far along the duct and across it from the middle, m.
    fn at(&self, places: &ElevationPlaces, along_m: f64, across_m: f64) -> Point {
        let (x_m, height_m) = self.middle_m;
        if self.upright {
            places.at(x_m + across_m, height_m + along_m)
        } else {
            places.at(x_m + along_m, height_m + across_m)
        }
    }

    /// Left, bottom, right, top, m.
    pub(super) fn area_m(&self) -> AreaM {
        let (x_m, height_m) = self.middle_m;
        let (along_m, across_m) = (0.35, self.half_m + OUT_M);
        let (wide_m, high_m) = if self.upright {
            (across_m, along_m)
        } else {
            (along_m, across_m)
        };
        [
            x_m - wide_m,
            height_m - high_m,
            x_m + wide_m,
            height_m + high_m,
        ]
    }
}

/// A place on a straight duct before or behind the collector, so far from its nozzle.
fn on_duct(measures: &Measures, x_m: f64) -> Across {
    Across {
        middle_m: (x_m, measures.axis_m()),
        half_m: 0.5 * measures.duct_m,
        upright: false,
    }
}

/// The expansion joints, before the collector and behind it.
pub(super) fn joints(measures: &Measures) -> [Across; 2] {
    let (left_m, right_m) = measures.walls_m();
    [
        on_duct(measures, left_m - measures.nozzle_m - 0.42 * DUCT_M),
        on_duct(measures, right_m + measures.nozzle_m + 0.2 * DUCT_M),
    ]
}

/// The dampers: that of the inlet duct, and that of the fan.
pub(super) fn dampers(measures: &Measures) -> [Across; 2] {
    let narrow_m = measures.walls_m().0 - measures.nozzle_m;
    [
        on_duct(measures, narrow_m - 0.74 * DUCT_M),
        fan::damper(measures),
    ]
}

pub(super) fn fittings(drawing: &mut Drawing, places: &ElevationPlaces) {
    for joint in joints(&places.measures) {
        bellows(drawing, places, &joint);
    }
    louvre(drawing, places, &dampers(&places.measures)[0]);
    if places.scale >= FROM {
        cladding(drawing, places);
    }
}

/// Folds that stand out over both walls.
fn bellows(drawing: &mut Drawing, places: &ElevationPlaces, across: &Across) {
    for side in [-1.0, 1.0] {
        let folds = (0..=2 * FOLDS).map(|fold| {
            let along_m = FOLD_M * (0.5 * fold as f64 - 0.5 * FOLDS as f64);
            let out_m = if fold % 2 == 0 { 0.0 } else { OUT_M };
            across.at(places, along_m, side * (across.half_m + out_m))
        });
        drawing.line(folds.collect::<Vec<_>>(), Ink::Metal, 1.4);
    }
    for along_m in [-0.5, 0.5].map(|end| end * FOLDS as f64 * FOLD_M) {
        let ends = [-1.0, 1.0].map(|side| across.at(places, along_m, side * across.half_m));
        drawing.line(ends, Ink::Metal, 0.8);
    }
}

/// Blades side by side across the duct, each on its shaft, nearly along the stream: open.
pub(super) fn louvre(drawing: &mut Drawing, places: &ElevationPlaces, across: &Across) {
    let blade_m = 2.0 * across.half_m / BLADES as f64;
    for blade in 0..BLADES {
        let shaft_m = blade_m * (blade as f64 + 0.5) - across.half_m;
        let reach_m = 0.4 * blade_m;
        let ends = [-1.0, 1.0]
            .map(|end| across.at(places, end * reach_m, shaft_m + end * TURNED * reach_m));
        drawing.line(ends, Ink::Metal, 1.4);
        drawing.dot(across.at(places, 0.0, shaft_m), 1.3, Ink::Metal);
    }
}

/// The outer skin over the insulation of both nozzles.
fn cladding(drawing: &mut Drawing, places: &ElevationPlaces) {
    let measures = &places.measures;
    let (axis_m, half_m) = (measures.axis_m(), 0.5 * measures.duct_m);
    let (left_m, right_m) = measures.walls_m();
    let ends = [
        (left_m, left_m - measures.nozzle_m),
        (right_m, right_m + measures.nozzle_m),
    ];
    for (wide_m, narrow_m) in ends {
        for (edge_m, side) in [(measures.roof_m, 1.0), (measures.brim_m, -1.0)] {
            let (along_m, up_m) = (narrow_m - wide_m, axis_m + side * half_m - edge_m);
            let length_m = along_m.hypot(up_m);
            // At right angles to the wall, away from the gas.
            let out_m = (
                side * up_m.abs() * along_m.signum() / length_m * INSULATION_M,
                side * along_m.abs() / length_m * INSULATION_M,
            );
            let out_m = (out_m.0 * side, out_m.1);
            drawing.line(
                [
                    places.at(wide_m + out_m.0, edge_m + out_m.1),
                    places.at(narrow_m + out_m.0, edge_m + up_m + out_m.1),
                ],
                Ink::Metal,
                0.8,
            );
        }
    }
}
