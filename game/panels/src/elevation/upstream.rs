//! Faint, where the gas comes from: the air heater or gas cooler, and the duct of boiler or kiln above it, which is cut off.

use super::ElevationPlaces;
use crate::{drawing::Drawing, theme::Ink};

/// How high the duct above it is drawn, m; cut off there.
const PASS_M: f64 = 4.0;
/// Lines that tell what fills it.
const PACKING: usize = 7;

pub(super) fn upstream(drawing: &mut Drawing, places: &ElevationPlaces) {
    let [left_m, bottom_m, right_m, top_m] = places.measures.heater_m();
    let (ink, thin) = (Ink::Faint, 1.0);
    drawing.line(
        [
            places.at(left_m, bottom_m),
            places.at(left_m, top_m),
            places.at(right_m, top_m),
            places.at(right_m, bottom_m),
            places.at(left_m, bottom_m),
        ],
        ink,
        thin,
    );
    let middle_m = 0.5 * (bottom_m + top_m);
    for line in 1..=PACKING {
        let x_m = left_m + (right_m - left_m) * line as f64 / (PACKING + 1) as f64;
        drawing.line(
            [
                places.at(x_m, middle_m - 0.5),
                places.at(x_m, middle_m + 0.5),
            ],
            ink,
            0.8,
        );
    }
    for height_m in [middle_m - 0.5, middle_m + 0.5] {
        drawing.line(
            [places.at(left_m, height_m), places.at(right_m, height_m)],
            ink,
            thin,
        );
    }
    let (cut_m, inset_m) = (top_m + PASS_M, 0.2 * (right_m - left_m));
    for x_m in [left_m + inset_m, right_m - inset_m] {
        drawing.line([places.at(x_m, top_m), places.at(x_m, cut_m)], ink, thin);
    }
    drawing.line(
        [
            places.at(left_m, cut_m - 0.1),
            places.at(left_m + 0.4 * (right_m - left_m), cut_m + 0.15),
            places.at(left_m + 0.6 * (right_m - left_m), cut_m - 0.25),
            places.at(right_m, cut_m + 0.05),
        ],
        ink,
        thin,
    );
}
