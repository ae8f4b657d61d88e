//! From metres of the machine to points on the drawing, one scale for both directions.

use super::Measures;
use crate::{drawing::Point, zoom::Eye};

/// Room above for heading and labels, below for labels and the scale, and at both sides, points.
const ABOVE: f32 = 66.0;
const BELOW: f32 = 62.0;
const SIDE: f32 = 12.0;
/// A part that is chosen takes so much of the drawing, and is drawn at most so many times larger than the whole machine.
const SHARE: f32 = 0.4;
const CLOSE: f32 = 6.0;

/// Least drawing that has room for the pressures along the way, and for the legend, points.
const STRIP_FROM: Point = [700.0, 520.0];
const LEGEND_FROM: Point = [560.0, 440.0];

/// What stands below the machine, each with its height, points; 0 where there is no room for it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Below {
    /// The pressures along the way.
    pub(super) strip: f32,
    /// What the grains mean.
    pub(super) legend: f32,
}

impl Below {
    fn of(size: Point) -> Self {
        let has_room = |least: Point| size[0] >= least[0] && size[1] >= least[1];
        let high = |least: Point, height: f32| if has_room(least) { height } else { 0.0 };
        Self {
            strip: high(STRIP_FROM, 80.0),
            legend: high(LEGEND_FROM, 22.0),
        }
    }
}

/// Where the machine lies on the drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ElevationPlaces {
    /// What is drawn.
    pub measures: Measures,
    /// Points per metre.
    pub scale: f32,
    /// The part that is shown, its middle where it could be put.
    pub eye: Eye,
    /// Height of the pressures along the way and of the legend, which stand below the machine, points.
    pub(super) below: Below,
    /// Where x = 0 and height 0 lie.
    origin: Point,
    size: Point,
}

impl ElevationPlaces {
    /// The part of the machine that the eye is on, in a drawing of this size; the whole of it as large as fits.
    #[must_use]
    pub fn new(measures: Measures, size: Point, eye: Eye) -> Self {
        let [width, height] = size;
        let below = Below::of(size);
        let [left, bottom, right, top] = measures.extent_m().map(|value| value as f32);
        let room = [
            (width - 2.0 * SIDE).max(60.0),
            (height - ABOVE - BELOW - below.strip - below.legend).max(60.0),
        ];
        let whole = (room[0] / (right - left)).min(room[1] / (top - bottom));
        let scale = whole * eye.times;
        // No farther to a side than the machine reaches; in the middle where all of it is seen.
        let held = |wanted_m: f32, (low_m, high_m): (f32, f32), room: f32| {
            let half_m = (0.5 * room / scale).min(0.5 * (high_m - low_m));
            wanted_m.clamp(low_m + half_m, (high_m - half_m).max(low_m + half_m))
        };
        let centre_m = [
            held(eye.centre_m[0], (left, right), room[0]),
            held(eye.centre_m[1], (bottom, top), room[1]),
        ];
        Self {
            measures,
            scale,
            eye: Eye { centre_m, ..eye },
            below,
            origin: [
                SIDE + 0.5 * room[0] - way(&measures) * scale * centre_m[0],
                ABOVE + 0.5 * room[1] + scale * centre_m[1],
            ],
            size,
        }
    }

    /// Whether the whole machine is shown.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        self.eye.times < 1.001
    }

    /// Whether a point of the drawing lies in it, clear of heading and scale.
    #[must_use]
    pub fn shows(&self, [x, y]: Point) -> bool {
        (0.0..=self.size[0]).contains(&x) && (ABOVE - 16.0..=self.foot() - 6.0).contains(&y)
    }

    /// Height of the row of names below the machine.
    pub(super) fn foot(&self) -> f32 {
        self.size[1] - 34.0 - self.below.strip - self.below.legend
    }

    /// Top left and bottom right of the whole machine.
    #[must_use]
    pub fn whole(&self) -> [Point; 2] {
        self.area(self.measures.extent_m())
    }

    /// From where to where the machine is seen along the gas, m.
    #[must_use]
    pub fn seen_m(&self) -> [f32; 2] {
        let [one, other] = [SIDE, self.size[0] - SIDE].map(|x| self.metres([x, 0.0])[0]);
        [one.min(other), one.max(other)]
    }

    /// The place of the machine under a point of the drawing, m.
    #[must_use]
    pub fn metres(&self, [x, y]: Point) -> [f32; 2] {
        [
            self.way() * (x - self.origin[0]) / self.scale,
            (self.origin[1] - y) / self.scale,
        ]
    }

    /// The eye on a part of the machine: left, bottom, right, top, m.
    #[must_use]
    pub fn eye_on(&self, [left, bottom, right, top]: [f64; 4]) -> Eye {
        let whole = self.scale / self.eye.times;
        let share = |room: f32, length_m: f64| SHARE * room / (whole * length_m.max(0.1) as f32);
        let times = share(self.size[0], right - left).min(share(self.size[1], top - bottom));
        Eye {
            centre_m: [0.5 * (left + right) as f32, 0.5 * (bottom + top) as f32],
            times: times.clamp(1.0, CLOSE),
        }
    }

    /// Which way the gas runs across the drawing: to the right 1, to the left −1.
    #[must_use]
    pub fn way(&self) -> f32 {
        way(&self.measures)
    }

    /// Left, bottom, right, top in metres of the machine as top left and bottom right on the drawing.
    #[must_use]
    pub fn area(&self, [left, bottom, right, top]: [f64; 4]) -> [Point; 2] {
        let (one, other) = (self.at(left, top), self.at(right, bottom));
        [
            [one[0].min(other[0]), one[1]],
            [one[0].max(other[0]), other[1]],
        ]
    }

    /// A place on the drawing.
    #[must_use]
    pub fn at(&self, x_m: f64, height_m: f64) -> Point {
        [self.x(x_m), self.y(height_m)]
    }

    pub(super) fn x(&self, x_m: f64) -> f32 {
        self.origin[0] + self.way() * self.scale * x_m as f32
    }

    pub(super) fn y(&self, height_m: f64) -> f32 {
        self.origin[1] - self.scale * height_m as f32
    }

    /// The space in which grains fly, from the brims to the hot roof over all fields: top left, bottom right.
    #[must_use]
    pub fn space(&self) -> [Point; 2] {
        let measures = &self.measures;
        self.area([0.0, measures.brim_m, measures.end_m(), measures.roof_m])
    }

    /// Where a grain flies: its way through the fields is stretched over the walkways; over the top and through the hoppers
    /// it flies outside of the plates' height.
    #[must_use]
    pub fn grain(&self, along_share: f64, height_m: f64) -> Point {
        self.at(along_share * self.measures.end_m(), height_m)
    }
}

fn way(measures: &Measures) -> f32 {
    if measures.mirrored { -1.0 } else { 1.0 }
}
