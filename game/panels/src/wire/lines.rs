//! Lines in the cell: equal voltage with its numbers, and the paths of the ions.

use std::f64::consts::FRAC_PI_2;

use ashlane_shared::units::{Dimension, display, from_display, number_text};

use super::{WirePlaces, WireView, contours::Grid};
use crate::{
    drawing::{Anchor, Drawing, Item, Point, text_width},
    plan::nice_below,
    theme::{Ink, SMALL},
};

/// The four quarters of the cell.
const QUARTERS: [[f64; 2]; 4] = [[1.0, 1.0], [-1.0, 1.0], [1.0, -1.0], [-1.0, -1.0]];
/// Points between the nodes of the grid that the voltage lines run through.
const NODE: f32 = 3.0;
/// About so many voltage lines in a narrow cell and in a wide one.
const LEVELS: [f64; 2] = [5.0, 8.0];
/// Width of a cell from which on more ion paths are drawn, and how many in a quarter.
const WIDE: f32 = 200.0;
const PATHS: [usize; 2] = [3, 6];

fn is_wide(cell_width: f32) -> bool {
    cell_width > WIDE
}

/// Lines of equal voltage, but for the round of this radius that the enlargement shows; then where to put their numbers.
pub(super) fn voltage_lines(
    drawing: &mut Drawing,
    view: &WireView<'_>,
    places: &WirePlaces,
    ring: f32,
) -> Vec<Level> {
    let row = view.field.row();
    let far_m = [0.5 * row.pitch_m(), row.gap_m()];
    let nodes = far_m.map(|far_m| (far_m as f32 * places.per_m / NODE).ceil() as usize + 2);
    let grid = Grid::sample(far_m, nodes, |x_m, y_m| {
        // On the plate itself there is no voltage, whatever rounding says.
        if y_m >= row.gap_m() {
            0.0
        } else {
            view.field.at(x_m, y_m).potential_v
        }
    });
    let ring_m = f64::from((ring + 3.0) / places.per_m);
    let highest_v = view.field.at(ring_m, 0.0).potential_v;
    let highest_v = highest_v.min(view.field.at(0.0, ring_m).potential_v);
    let (highest, unit) = display(highest_v, Dimension::Voltage, view.units);
    let step =
        nice_below(1.4 * highest / LEVELS[usize::from(is_wide(places.max[0] - places.min[0]))]);
    let mut levels = Vec::new();
    let numbers = (1..).map(|count| f64::from(count) * step);
    for number in numbers.take_while(|number| *number < highest) {
        let level_v = from_display(number, Dimension::Voltage, view.units);
        let lines = grid.lines(level_v);
        for line in &lines {
            for quarter in QUARTERS {
                let points: Vec<Point> = line
                    .iter()
                    .map(|[x, y]| places.point(quarter[0] * x, quarter[1] * y))
                    .collect();
                cased_dashes(drawing, points);
            }
        }
        levels.push(Level {
            text: format!("{} {unit}", number_text(number, 3)),
            spots: lines.into_iter().flatten().collect(),
        });
    }
    levels
}

/// A line of equal voltage to be numbered.
pub(super) struct Level {
    text: String,
    /// Where it runs in the upper right quarter, m.
    spots: Vec<[f64; 2]>,
}

/// Numbers on the voltage lines where they are free, straight above and below the wire first.
pub(super) fn numbers(drawing: &mut Drawing, places: &WirePlaces, levels: &[Level], ring: f32) {
    let [x, y] = places.centre();
    let around = ring + 4.0;
    let mut taken = vec![([x - around, y - around], [x + around, y + around])];
    for (index, level) in levels.iter().enumerate().rev() {
        let half = 0.5 * text_width(&level.text, SMALL, false) + 5.0;
        let tall = 0.6 * SMALL + 2.0;
        let mut spots = level.spots.clone();
        spots.sort_by(|a, b| a[0].total_cmp(&b[0]));
        let first = if index % 2 == 0 { 1.0 } else { -1.0 };
        let every = (spots.len() / 12).max(1);
        let free = spots
            .iter()
            .step_by(every)
            .flat_map(|[x, y]| {
                [(x, first), (x, -first)]
                    .into_iter()
                    .flat_map(move |(x, side)| [[*x, side * y], [-x, side * y]])
            })
            .map(|[x, y]| places.point(x, y))
            .find(|[x, y]| {
                let (min, max) = ([x - half, y - tall], [x + half, y + tall]);
                let inside = (0..2)
                    .all(|axis| min[axis] >= places.min[axis] && max[axis] <= places.max[axis]);
                inside && taken.iter().all(|other| apart((min, max), *other))
            });
        if let Some(at) = free {
            taken.push(([at[0] - half, at[1] - tall], [at[0] + half, at[1] + tall]));
            drawing.label(at, Anchor::Centre, &*level.text, SMALL, Ink::Text);
        }
    }
}

fn apart(a: (Point, Point), b: (Point, Point)) -> bool {
    (0..2).any(|axis| a.1[axis] <= b.0[axis] || b.1[axis] <= a.0[axis])
}

/// Paths of the ions from the wire in the upper right quarter, between them equal shares of the current, m.
pub(super) fn ion_paths_m(view: &WireView<'_>, cell_width: f32) -> Vec<Vec<[f64; 2]>> {
    let count = PATHS[usize::from(is_wide(cell_width))];
    (0..count)
        .map(|index| {
            let angle_rad = FRAC_PI_2 * (index as f64 + 0.5) / count as f64;
            let path = view.field.ion_path(angle_rad).into_iter();
            path.map(|point| [point.x_m, point.y_m]).collect()
        })
        .collect()
}

/// The paths in all four quarters, with arrows, but for the round of this radius that the enlargement shows.
pub(super) fn ion_paths(
    drawing: &mut Drawing,
    places: &WirePlaces,
    paths_m: &[Vec<[f64; 2]>],
    ring: f32,
) {
    let [middle_x, middle_y] = places.centre();
    for path in paths_m {
        for quarter in QUARTERS {
            let points: Vec<Point> = path
                .iter()
                .map(|[x, y]| places.point(quarter[0] * x, quarter[1] * y))
                .filter(|[x, y]| (x - middle_x).hypot(y - middle_y) >= ring)
                .map(|[x, y]| [x.clamp(places.min[0], places.max[0]), y])
                .collect();
            let arrow = arrow(&points, is_wide(places.max[0] - places.min[0]));
            cased(drawing, points, Ink::Text, 1.0);
            drawing.items.extend(arrow);
        }
    }
}

/// An arrow two thirds of the way along a path: a head with a rim of the ground.
fn arrow(points: &[Point], is_wide: bool) -> Vec<Item> {
    let target = 0.66 * length(points);
    let mut gone = 0.0;
    for pair in points.windows(2) {
        let [from, to] = [pair[0], pair[1]];
        let long = (to[0] - from[0]).hypot(to[1] - from[1]);
        gone += long;
        if gone >= target && long > 0.0 {
            let way = [(to[0] - from[0]) / long, (to[1] - from[1]) / long];
            let size = if is_wide { 4.0 } else { 2.8 };
            return [(size + 1.3, Ink::Ground), (size, Ink::Text)]
                .map(|(size, ink)| Item::Area {
                    points: head(to, way, size),
                    ink,
                    opacity: 1.0,
                })
                .into();
        }
    }
    Vec::new()
}

fn head([x, y]: Point, [along, across]: [f32; 2], size: f32) -> Vec<Point> {
    vec![
        [x + 1.3 * size * along, y + 1.3 * size * across],
        [
            x - size * (along + 0.8 * across),
            y - size * (across - 0.8 * along),
        ],
        [
            x - size * (along - 0.8 * across),
            y - size * (across + 0.8 * along),
        ],
    ]
}

fn length(points: &[Point]) -> f32 {
    points
        .windows(2)
        .map(|pair| (pair[1][0] - pair[0][0]).hypot(pair[1][1] - pair[0][1]))
        .sum()
}

/// A line with a rim of the ground, so that it stands out from dark and light colours alike.
pub(super) fn cased(drawing: &mut Drawing, points: Vec<Point>, ink: Ink, width: f32) {
    if points.len() < 2 {
        return;
    }
    drawing.line(points.clone(), Ink::Ground, width + 1.6);
    drawing.line(points, ink, width);
}

/// A dashed line on a whole rim: equal voltage, told from the ion paths by its dashes.
pub(super) fn cased_dashes(drawing: &mut Drawing, points: Vec<Point>) {
    drawing.line(points.clone(), Ink::Ground, 3.0);
    drawing.dashed(points, Ink::Text, 1.4);
}
