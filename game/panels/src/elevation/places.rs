//! From metres of the machine to points on the drawing, one scale for both directions.

use super::Measures;
use crate::drawing::Point;

/// Room above for heading and labels, below for labels and the scale, and at both sides, points.
const ABOVE: f32 = 66.0;
const BELOW: f32 = 62.0;
const SIDE: f32 = 12.0;

/// Where the machine lies on the drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ElevationPlaces {
    /// What is drawn.
    pub measures: Measures,
    /// Points per metre.
    pub scale: f32,
    /// Where x = 0 and height 0 lie.
    origin: Point,
}

impl ElevationPlaces {
    /// The machine in a drawing of this size: as large as fits, in the middle.
    #[must_use]
    pub fn new(measures: Measures, [width, height]: Point) -> Self {
        let [left, bottom, right, top] = measures.extent_m().map(|value| value as f32);
        let room = [
            (width - 2.0 * SIDE).max(60.0),
            (height - ABOVE - BELOW).max(60.0),
        ];
        let scale = (room[0] / (right - left)).min(room[1] / (top - bottom));
        let spare = [
            0.5 * (room[0] - scale * (right - left)),
            0.5 * (room[1] - scale * (top - bottom)),
        ];
        Self {
            measures,
            scale,
            origin: [
                SIDE + spare[0] - scale * left,
                ABOVE + spare[1] + scale * top,
            ],
        }
    }

    /// A place on the drawing.
    #[must_use]
    pub fn at(&self, x_m: f64, height_m: f64) -> Point {
        [self.x(x_m), self.y(height_m)]
    }

    pub(super) fn x(&self, x_m: f64) -> f32 {
        self.origin[0] + self.scale * x_m as f32
    }

    pub(super) fn y(&self, height_m: f64) -> f32 {
        self.origin[1] - self.scale * height_m as f32
    }

    /// The space in which grains fly, from the brims to the hot roof over all fields: top left, bottom right.
    #[must_use]
    pub fn space(&self) -> [Point; 2] {
        let measures = &self.measures;
        [
            self.at(0.0, measures.roof_m),
            self.at(measures.end_m(), measures.brim_m),
        ]
    }

    /// Where a grain flies: its way through the fields is stretched over the walkways; over the top and through the hoppers
    /// it flies outside of the plates' height.
    #[must_use]
    pub fn grain(&self, along_share: f64, height_m: f64) -> Point {
        self.at(along_share * self.measures.end_m(), height_m)
    }
}
