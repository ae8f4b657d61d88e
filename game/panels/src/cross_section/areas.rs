//! Where the parts of the machine lie on the section across the gas, so that they can be pointed at.

use super::{
    CrossSectionView, SUPPORTS,
    drawing::{Places, WALL_M},
    hoppers::Row,
};
use crate::{
    drawing::Point,
    elevation::{ARM_M, LOWER_FRAME_M, UPPER_FRAME_M},
};

/// Left, bottom, right, top, m.
type AreaM = [f64; 4];

/// Names of parts with their places in a drawing of this size, large ones first; in a row of many alike, one of them.
#[must_use]
pub fn part_areas(view: &CrossSectionView<'_>, size: Point) -> Vec<(&'static str, [Point; 2])> {
    let places = Places::new(view, size);
    let on = |(name, [left, bottom, right, top]): (&'static str, AreaM)| {
        (name, [places.at(left, top), places.at(right, bottom)])
    };
    areas_m(view).into_iter().map(on).collect()
}

/// Left plate of the passage that stands for all of them, m: beside the middle, where other parts are pointed at.
fn passage_m(view: &CrossSectionView<'_>) -> f64 {
    let collector = &view.machine.conditions.collector;
    (collector.passages / 4) as f64 * collector.plate_spacing_m - 0.5 * view.width_m()
}

fn areas_m(view: &CrossSectionView<'_>) -> Vec<(&'static str, AreaM)> {
    let measures = view.measures();
    let (half_m, plate_m, roof_m) = (0.5 * view.width_m(), measures.plate_m, measures.roof_m);
    let spacing_m = view.machine.conditions.collector.plate_spacing_m;
    let (wall_m, beam_m) = (half_m + WALL_M, measures.beam_m());
    let outlet_m = measures.brim_m - measures.hopper_m;
    let hopper_m = 2.0 * wall_m / Row::new(view).count as f64;
    let support_m = SUPPORTS[0] * 2.0 * half_m;
    let (left_m, thin_m) = (passage_m(view), 0.25 * spacing_m);
    vec![
        (
            "Hopper",
            [-wall_m, outlet_m, hopper_m - wall_m, measures.brim_m],
        ),
        (
            "Gas behind the plates",
            [-half_m, 0.1 * plate_m, left_m - thin_m, 0.9 * plate_m],
        ),
        ("Hot roof", [-wall_m, roof_m - 0.15, wall_m, roof_m + 0.15]),
        ("Baffle", [half_m, 0.0, wall_m, plate_m]),
        (
            "Hanger beam",
            [-half_m, beam_m - 0.15, half_m, beam_m + 0.15],
        ),
        (
            "High-voltage frame",
            [
                -half_m,
                -LOWER_FRAME_M - 0.12,
                half_m,
                -LOWER_FRAME_M + 0.12,
            ],
        ),
        (
            "Collecting plate",
            [left_m - thin_m, 0.0, left_m + thin_m, plate_m],
        ),
        (
            "Discharge electrode",
            [
                left_m + 0.5 * spacing_m - thin_m,
                -LOWER_FRAME_M,
                left_m + 0.5 * spacing_m + thin_m,
                plate_m + UPPER_FRAME_M,
            ],
        ),
        ("Plate rapper", [-half_m, -ARM_M, half_m, ARM_M]),
        (
            "Support insulator",
            [support_m - 0.5, roof_m, support_m + 0.5, roof_m + 1.5],
        ),
        (
            "Transformer-rectifier",
            [-0.7, roof_m + 0.25, 0.7, roof_m + 1.7],
        ),
        (
            "Ash conveyor",
            [-wall_m, outlet_m - 1.35, wall_m, outlet_m - 0.9],
        ),
    ]
}
