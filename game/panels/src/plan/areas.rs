//! Where the parts of the machine lie on the plan, so that they can be pointed at.

use super::{PlanPlaces, PlanView, places::PLATE};
use crate::drawing::Point;

/// Half the size of the place of a wire, points.
const WIRE: f32 = 10.0;

/// Names of parts with their places; of the wires, the one nearest to the middle.
#[must_use]
pub fn part_areas(view: &PlanView<'_>, places: &PlanPlaces) -> Vec<(&'static str, [Point; 2])> {
    let ([left, top], [right, _]) = (places.min, places.max);
    let mut areas = vec![("Collecting plate", [[left, top - PLATE], [right, top]])];
    let pitch_m =
        view.conditions.collector.field_length_m as f32 / view.conditions.wires_per_field() as f32;
    let middle_m = places.start_m + 0.5 * places.length_m;
    let along_m = ((middle_m / pitch_m).floor() + 0.5) * pitch_m;
    if places.shows(along_m) {
        let [x, y] = places.point(along_m, 0.0);
        areas.push((
            "Discharge electrode",
            [[x - WIRE, y - WIRE], [x + WIRE, y + WIRE]],
        ));
    }
    areas
}
