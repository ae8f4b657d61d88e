//! Ways around the fields, looking along the gas: where some of it goes, and the baffles that stand in its way.

use super::{
    CrossSectionView,
    drawing::{Places, WALL_M},
    hoppers::Row,
};
use crate::{
    drawing::{Drawing, Item, Point},
    theme::Ink,
};

/// How far the hopper baffles hang down, as a share of the depth; common practice, no source.
const DEEP: f64 = 0.55;
/// Where over the top gas is marked, as shares of the width from the middle.
const OVER: [f64; 3] = [-0.43, 0.12, 0.43];
/// How dark a baffle is that the gas meets face on.
const SHEET: f32 = 0.22;

/// Sheets below the roof, at the walls and in the hoppers.
pub(super) fn baffles(drawing: &mut Drawing, view: &CrossSectionView<'_>, places: &Places) {
    let (measures, half_m) = (view.measures(), 0.5 * view.width_m());
    let mut sheet = |left_m: f64, top_m: f64, right_m: f64, foot_m: f64| {
        let (min, max) = (places.at(left_m, top_m), places.at(right_m, foot_m));
        drawing.rect(min, max, Ink::Metal, SHEET);
    };
    sheet(-half_m, measures.roof_m, half_m, measures.beam_m() + 0.08);
    for left_m in [-half_m - WALL_M, half_m] {
        sheet(left_m, measures.plate_m, left_m + WALL_M, 0.0);
    }
    let row = Row::new(view);
    for hopper in 0..row.count {
        let at = |side, share| row.at(places, hopper, side, share);
        drawing.items.push(Item::Area {
            points: vec![
                at(-1.0, 1.0 - DEEP),
                at(-1.0, 1.0),
                at(1.0, 1.0),
                at(1.0, 1.0 - DEEP),
            ],
            ink: Ink::Metal,
            opacity: SHEET,
        });
    }
}

/// Where gas that goes over the top is marked: there, and where a name points.
pub(super) fn over_m(view: &CrossSectionView<'_>) -> [(f64, f64); 3] {
    let measures = view.measures();
    let z_m = 0.5 * (measures.roof_m + measures.beam_m());
    OVER.map(|share| (share * view.width_m(), z_m))
}

/// Where gas that goes through the hoppers is marked: over the middle of each.
pub(super) fn through_m(view: &CrossSectionView<'_>) -> Vec<(f64, f64)> {
    let row = Row::new(view);
    let z_m = view.measures().brim_m - 0.2;
    (0..row.count)
        .map(|hopper| (row.middle_m(hopper), z_m))
        .collect()
}

/// Marks of gas that flows away from the eye: a ring with a cross, as the feathers of an arrow.
pub(super) fn ways(drawing: &mut Drawing, view: &CrossSectionView<'_>, places: &Places) {
    let collector = &view.machine.conditions.collector;
    if collector.sneakage <= 0.0 {
        return;
    }
    let radius = (0.22 * places.scale).clamp(3.0, 7.0);
    for (x_m, z_m) in over_m(view).into_iter().chain(through_m(view)) {
        away(drawing, places.at(x_m, z_m), radius);
    }
}

fn away(drawing: &mut Drawing, centre: Point, radius: f32) {
    drawing.dot(centre, radius, Ink::Ground);
    drawing.items.push(Item::Ring {
        centre,
        radius,
        ink: Ink::Gas,
        width: 1.6,
    });
    let reach = 0.7 * radius;
    for side in [-1.0, 1.0] {
        let feather = [
            [centre[0] - reach, centre[1] - side * reach],
            [centre[0] + reach, centre[1] + side * reach],
        ];
        drawing.line(feather, Ink::Gas, 1.4);
    }
}
