//! The hoppers of the first row side by side, with their ash, airlocks and the conveyor.

use ashlane_shared::plant::{ALARM_LEVEL, OUTLET_SHARE};

use super::{
    CrossSectionView,
    drawing::{Places, WALL_M},
};
use crate::{
    drawing::{Anchor, Drawing, Item, Point, label_where_free, text_width},
    elevation::level_words,
    theme::{Ink, SMALL},
};

/// Width of a wall on the drawing, points.
const WALL: f32 = 2.5;

/// As many hoppers side by side as the sheet says.
#[derive(Clone, Copy)]
pub(super) struct Row {
    /// How many.
    pub(super) count: usize,
    width_m: f64,
    brim_m: f64,
    depth_m: f64,
}

impl Row {
    pub(super) fn new(view: &CrossSectionView<'_>) -> Self {
        let measures = view.measures();
        Self {
            count: view.machine.conditions.appearance.hoppers_per_row.max(1),
            width_m: view.width_m() + 2.0 * WALL_M,
            brim_m: measures.brim_m,
            depth_m: measures.hopper_m,
        }
    }

    fn one_m(&self) -> f64 {
        self.width_m / self.count as f64
    }

    /// Where the middle of a hopper lies, m.
    pub(super) fn middle_m(&self, hopper: usize) -> f64 {
        (hopper as f64 + 0.5) * self.one_m() - 0.5 * self.width_m
    }

    /// A place on the wall of a hopper: side −1 or 1, height as a share of the depth.
    pub(super) fn at(&self, places: &Places, hopper: usize, side: f64, share: f64) -> Point {
        let half_m = 0.5 * self.one_m() * (OUTLET_SHARE + (1.0 - OUTLET_SHARE) * share);
        places.at(
            self.middle_m(hopper) + side * half_m,
            self.brim_m - (1.0 - share) * self.depth_m,
        )
    }
}

pub(super) fn hoppers(drawing: &mut Drawing, view: &CrossSectionView<'_>, places: &Places) {
    let row = Row::new(view);
    let level = view.machine.hoppers.first().map_or(0.0, |row| row.level);
    for hopper in 0..row.count {
        let at = |side, share| row.at(places, hopper, side, share);
        if level > 0.0 {
            drawing.items.push(Item::Area {
                points: vec![at(-1.0, 0.0), at(-1.0, level), at(1.0, level), at(1.0, 0.0)],
                ink: Ink::Dust,
                opacity: 0.75,
            });
        }
        for side in [-1.0, 1.0] {
            drawing.line([at(side, 1.0), at(side, 0.0)], Ink::Metal, WALL);
            let foot = at(side, 0.0);
            let chute = [foot, [foot[0], foot[1] + 0.9 * places.scale]];
            drawing.line(chute, Ink::Metal, 1.4);
        }
        let [x, y] = at(1.0, ALARM_LEVEL);
        drawing.line([[x + 5.0, y], [x - 7.0, y]], Ink::Text, 1.6);
        airlock(
            drawing,
            places,
            (row.middle_m(hopper), row.brim_m - row.depth_m),
        );
    }
    let trough_m = row.brim_m - row.depth_m - 0.9;
    let half_m = 0.5 * row.width_m;
    for z_m in [trough_m, trough_m - 0.35] {
        let edge = [places.at(-half_m, z_m), places.at(half_m, z_m)];
        drawing.line(edge, Ink::Metal, 1.4);
    }
}

/// Knife gate and the wheel of the airlock below an outlet.
fn airlock(drawing: &mut Drawing, places: &Places, (x_m, foot_m): (f64, f64)) {
    let gate = [
        places.at(x_m - 0.3, foot_m - 0.15),
        places.at(x_m + 0.5, foot_m - 0.15),
    ];
    drawing.line(gate, Ink::Metal, 1.8);
    let (centre, radius) = (places.at(x_m, foot_m - 0.55), 0.24 * places.scale);
    drawing.dot(centre, radius, Ink::Ground);
    drawing.items.push(Item::Ring {
        centre,
        radius,
        ink: Ink::Metal,
        width: 1.4,
    });
    drawing.line(
        [
            [centre[0] - radius, centre[1]],
            [centre[0] + radius, centre[1]],
        ],
        Ink::Metal,
        1.0,
    );
    drawing.line(
        [
            [centre[0], centre[1] - radius],
            [centre[0], centre[1] + radius],
        ],
        Ink::Metal,
        1.0,
    );
}

/// Height, volume and time to the alarm of the first row, all its hoppers together, in as few lines as the width allows.
pub(super) fn level(drawing: &mut Drawing, view: &CrossSectionView<'_>, places: &Places) {
    let Some(state) = view.machine.hoppers.first() else {
        return;
    };
    let measures = view.measures();
    let room = places.scale * view.width_m() as f32;
    let [high, full, alarm] = level_words(&view.machine, state);
    let mut top = places.y(measures.brim_m - measures.hopper_m - 1.4);
    let foot = places.y(measures.ground_m());
    let named: Vec<String> = high
        .iter()
        .map(|words| format!("first row: {words}"))
        .chain(high.iter().cloned())
        .collect();
    for texts in [named, alarm, full] {
        let fits = |text: &&String| text_width(text, SMALL, false) < room;
        if top + 15.0 > foot + 2.0 {
            return;
        }
        if let Some(text) = texts.iter().find(fits) {
            let at = [places.at(0.0, 0.0)[0], top];
            label_where_free(drawing, at, Anchor::Top, text, Ink::Text);
            top += 15.0;
        }
    }
}
