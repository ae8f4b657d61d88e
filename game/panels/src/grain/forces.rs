//! The grain close up, with the forces on it as arrows of one scale: electric force, drag of the gas, weight.

use ashlane_shared::{
    checks::GrainForces,
    simulation::GrainPoint,
    units::{Dimension, UnitSystem, display, from_display},
};

use super::{
    GrainView, grouped,
    places::{BESIDE_BELOW, LINE, Part},
};
use crate::{
    drawing::{Anchor, Drawing, Item, Point, text_width},
    plan::nice_below,
    theme::{Ink, SMALL},
};

/// Width of an arrow's shaft, points.
const SHAFT: f32 = 3.0;
/// Length of an arrow's head, and half its width.
const HEAD: f32 = 9.0;
const HALF: f32 = 4.5;
/// Room for the title, and the largest radius of the lens.
const TITLE: f32 = 22.0;
const LARGEST: f32 = 170.0;
/// Arrows shorter than this are not drawn.
const SHORTEST: f32 = 3.0;

/// Where the lens and the names lie.
struct Room {
    centre: Point,
    radius: f32,
    /// Middle of the first of four rows of names, and their right edge.
    names: Point,
    right: f32,
}

impl Room {
    fn in_part(([left, top], [right, bottom]): Part) -> Self {
        let top = top + TITLE;
        if bottom - top < BESIDE_BELOW - TITLE {
            let radius = 0.5 * (bottom - top);
            return Self {
                centre: [left + radius, top + radius],
                radius,
                names: [left + 2.0 * radius + 18.0, top + radius - 1.5 * LINE],
                right,
            };
        }
        let rows = bottom - 4.0 * LINE - 10.0;
        let radius = (0.5 * (right - left)).min(0.5 * (rows - top)).min(LARGEST);
        Self {
            centre: [0.5 * (left + right), top + radius],
            radius,
            names: [left, top + 2.0 * radius + 10.0 + 0.5 * LINE],
            right,
        }
    }
}

/// Top left and bottom right of the lens.
pub(super) fn lens(part: Part) -> [Point; 2] {
    let Room { centre, radius, .. } = Room::in_part(part);
    [-radius, radius].map(|by| [centre[0] + by, centre[1] + by])
}

/// Draws the close-up.
pub(super) fn forces(
    drawing: &mut Drawing,
    view: &GrainView<'_>,
    (now, forces): (&GrainPoint, &GrainForces),
    part: Part,
) {
    let [left, top] = part.0;
    let long = "Forces on it, from above";
    let fits = text_width(long, SMALL, true) < part.1[0] - left;
    let title = if fits { long } else { "Forces" };
    drawing.bold([left, top + 8.0], Anchor::Left, title, SMALL, Ink::Text);
    let room = Room::in_part(part);
    let size = |(along, towards): (f64, f64)| along.hypot(towards);
    let (electric_n, drag_n) = (size(forces.electric_n), size(forces.drag_n));
    let largest_n = if electric_n > 0.0 {
        electric_n.max(drag_n)
    } else {
        forces.weight_n
    };
    let per_n = 0.88 * room.radius / round_above(largest_n) as f32;
    drawing.items.push(Item::Ring {
        centre: room.centre,
        radius: room.radius - 1.0,
        ink: Ink::Rule,
        width: 1.5,
    });
    // Up on the drawing is towards the plate that `across_m` counts as positive.
    let along = if view.is_mirrored() { -1.0 } else { 1.0 };
    let up = if now.across_m < 0.0 { 1.0 } else { -1.0 };
    plate(drawing, &room, up);
    for (name, force_n, ink) in [
        ("electric", forces.electric_n, Ink::HighVoltage),
        ("drag", forces.drag_n, Ink::Gas),
    ] {
        let by = [
            along * force_n.0 as f32 * per_n,
            up * force_n.1 as f32 * per_n,
        ];
        arrow(drawing, room.centre, by, ink);
        name_beside(drawing, room.centre, by, name);
    }
    grain(drawing, room.centre);
    let ([left, mut y], right) = (room.names, room.right);
    for (name, force_n, ink) in [
        ("electric q E", electric_n, Ink::HighVoltage),
        ("drag", drag_n, Ink::Gas),
    ] {
        drawing.rect([left, y - 5.0], [left + 10.0, y + 5.0], ink, 1.0);
        let text = format!("{name} {}", newtons(force_n, view.units));
        drawing.text([left + 16.0, y], Anchor::Left, text, SMALL, Ink::Text);
        y += LINE;
    }
    weight(drawing, view, (forces.weight_n, per_n), ([left, y], right));
    bar(drawing, view, per_n, ([left, y + LINE], right));
}

/// A piece of the nearer plate at the rim of the lens.
fn plate(drawing: &mut Drawing, room: &Room, up: f32) {
    let [x, middle] = room.centre;
    let y = middle + up * 0.93 * room.radius;
    let half = 0.36 * room.radius;
    drawing.line([[x - half, y], [x + half, y]], Ink::Metal, 4.0);
    let at = [x + half + 8.0, y];
    drawing.text(at, Anchor::Left, "plate", SMALL, Ink::Faint);
}

/// The next of finer round numbers, so that the longest arrow fills most of the lens.
fn round_above(force_n: f64) -> f64 {
    let decade = 10_f64.powf(force_n.max(1e-18).log10().floor());
    let above = |times: &f64| times * decade >= force_n;
    let times = [1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 7.5].into_iter().find(above);
    times.unwrap_or(10.0) * decade
}

/// The grain, and the cross of a force that goes into the picture.
fn grain(drawing: &mut Drawing, [x, y]: Point) {
    drawing.dot([x, y], 8.0, Ink::Dust);
    drawing.items.push(Item::Ring {
        centre: [x, y],
        radius: 8.0,
        ink: Ink::Ground,
        width: 1.5,
    });
}

/// An arrow from a point; its whole length is to scale.
fn arrow(drawing: &mut Drawing, from: Point, by: Point, ink: Ink) {
    let length = by[0].hypot(by[1]);
    if length < SHORTEST {
        return;
    }
    let along = [by[0] / length, by[1] / length];
    let to = [from[0] + by[0], from[1] + by[1]];
    drawing.line([from, to], ink, SHAFT);
    let head = HEAD.min(length);
    let back = [to[0] - head * along[0], to[1] - head * along[1]];
    let aside = [-along[1] * HALF, along[0] * HALF];
    drawing.items.push(Item::Area {
        points: vec![
            to,
            [back[0] + aside[0], back[1] + aside[1]],
            [back[0] - aside[0], back[1] - aside[1]],
        ],
        ink,
        opacity: 1.0,
    });
}

/// Says beside an arrow that is long enough what it is: without colours both look alike.
fn name_beside(drawing: &mut Drawing, from: Point, by: Point, name: &str) {
    if by[0].hypot(by[1]) < 4.0 * HEAD {
        return;
    }
    let middle = [from[0] + 0.6 * by[0], from[1] + 0.6 * by[1]];
    if by[1].abs() > by[0].abs() {
        let at = [middle[0] + 8.0, middle[1]];
        drawing.text(at, Anchor::Left, name, SMALL, Ink::Text);
    } else {
        let at = [middle[0], middle[1] - 12.0];
        drawing.text(at, Anchor::Centre, name, SMALL, Ink::Text);
    }
}

/// Weight acts at right angles to the picture: its length to scale beside its number.
fn weight(
    drawing: &mut Drawing,
    view: &GrainView<'_>,
    (weight_n, per_n): (f64, f32),
    ([left, y], right): (Point, f32),
) {
    let length = weight_n as f32 * per_n;
    let number = newtons(weight_n, view.units);
    let centre = [left + 5.0, y];
    drawing.items.push(Item::Ring {
        centre,
        radius: 5.0,
        ink: Ink::Text,
        width: 1.3,
    });
    for turn in [1.0, -1.0] {
        let d = 3.5;
        drawing.line(
            [
                [left + 5.0 - d, y - turn * d],
                [left + 5.0 + d, y + turn * d],
            ],
            Ink::Text,
            1.3,
        );
    }
    let room = right - left - 16.0;
    let texts = if length < SHORTEST {
        [
            format!("weight {number}: too small to draw"),
            format!("weight {number}: too small"),
            format!("weight {number}"),
        ]
    } else {
        [
            format!("weight {number}, into the picture"),
            format!("weight {number}, down"),
            format!("weight {number}"),
        ]
    };
    let bar = if length < SHORTEST { 0.0 } else { length + 8.0 };
    let fits = |text: &&String| text_width(text, SMALL, false) + bar <= room;
    let text = texts.iter().find(fits).unwrap_or(&texts[2]);
    drawing.text([left + 16.0, y], Anchor::Left, text, SMALL, Ink::Text);
    let start = left + 24.0 + text_width(text, SMALL, false);
    if bar > 0.0 {
        drawing.line([[start, y], [start + length, y]], Ink::Text, SHAFT);
    }
}

/// The scale of all arrows.
fn bar(drawing: &mut Drawing, view: &GrainView<'_>, per_n: f32, ([left, y], right): (Point, f32)) {
    let (longest, _) = display(
        f64::from(0.45 * (right - left) / per_n),
        Dimension::Force,
        view.units,
    );
    let bar_n = from_display(nice_below(longest), Dimension::Force, view.units);
    let end = left + bar_n as f32 * per_n;
    drawing.line([[left, y], [end, y]], Ink::Text, 1.5);
    for x in [left, end] {
        drawing.line([[x, y - 4.0], [x, y + 4.0]], Ink::Text, 1.5);
    }
    let text = newtons(bar_n, view.units);
    drawing.text([end + 7.0, y], Anchor::Left, text, SMALL, Ink::Text);
}

fn newtons(force_n: f64, units: UnitSystem) -> String {
    let (value, unit) = display(force_n, Dimension::Force, units);
    format!("{} {unit}", grouped(value))
}
