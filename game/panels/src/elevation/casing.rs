//! The gas-tight shell on its legs, the ground it stands on, and a person for scale.

use super::{ElevationPlaces, access::legs_m, parts::AreaM};
use crate::{drawing::Drawing, theme::Ink};

/// Width of a wall on the drawing, points.
pub(super) const WALL: f32 = 2.5;

/// The edge of a part: ink and width of its line, points.
pub(super) fn outline(
    drawing: &mut Drawing,
    places: &ElevationPlaces,
    [left, bottom, right, top]: AreaM,
    (ink, width): (Ink, f32),
) {
    let corners = vec![
        places.at(left, bottom),
        places.at(left, top),
        places.at(right, top),
        places.at(right, bottom),
        places.at(left, bottom),
    ];
    drawing.line(corners, ink, width);
}

pub(super) fn ground(drawing: &mut Drawing, places: &ElevationPlaces) {
    let measures = &places.measures;
    let [left, _, right, _] = measures.extent_m();
    let ground_m = measures.ground_m();
    drawing.rect(
        places.at(left, ground_m),
        places.at(right, ground_m - 0.35),
        Ink::Rule,
        0.5,
    );
    drawing.line(
        [places.at(left, ground_m), places.at(right, ground_m)],
        Ink::Metal,
        1.5,
    );
}

/// Roof, end walls with the mouths of the nozzles, legs.
pub(super) fn casing(drawing: &mut Drawing, places: &ElevationPlaces) {
    let measures = &places.measures;
    let (left_m, right_m) = measures.walls_m();
    let (roof_m, brim_m) = (measures.roof_m, measures.brim_m);
    for x_m in legs_m(measures) {
        drawing.line(
            [places.at(x_m, brim_m), places.at(x_m, measures.ground_m())],
            Ink::Metal,
            2.0,
        );
    }
    drawing.line(
        [places.at(left_m, roof_m), places.at(right_m, roof_m)],
        Ink::Metal,
        WALL,
    );
}

/// Somebody who stands beside it; 1.75 m.
pub(super) fn person(drawing: &mut Drawing, places: &ElevationPlaces) {
    let measures = &places.measures;
    let (x_m, foot_m) = (
        measures.walls_m().1 + measures.nozzle_m + 0.6,
        measures.ground_m(),
    );
    let at = |dx_m: f64, up_m: f64| places.at(x_m + dx_m, foot_m + up_m);
    let ink = Ink::Text;
    drawing.line([at(0.0, 0.85), at(0.0, 1.45)], ink, 2.0);
    for side in [-1.0, 1.0] {
        drawing.line([at(0.0, 0.85), at(0.22 * side, 0.0)], ink, 1.6);
        drawing.line([at(0.0, 1.4), at(0.3 * side, 0.8)], ink, 1.4);
    }
    drawing.dot(at(0.0, 1.6), (0.16 * places.scale).max(1.6), ink);
}
