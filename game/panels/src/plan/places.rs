//! From metres in the passage to points on the drawing and back.

use ashlane_shared::conditions::GasDirection;

use super::PlanView;
use crate::drawing::Point;

/// Room above the passage for the names of the fields, and below it for the scale.
const ABOVE: f32 = 56.0;
const BELOW: f32 = 60.0;
/// Room at both ends of the passage.
const SIDE: f32 = 14.0;
/// Thickness of the plates on the drawing, points.
pub(super) const PLATE: f32 = 9.0;
/// The gap is drawn at most this many times wider than to scale.
const MOST_EXAGGERATED: f32 = 40.0;

/// Where the passage lies on the drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlanPlaces {
    /// Top left of the space between the plates.
    pub min: Point,
    /// Bottom right of it.
    pub max: Point,
    /// Distance from the start of the collector at the left edge, m.
    pub start_m: f32,
    /// Length shown, m.
    pub length_m: f32,
    /// Wire-to-plate distance, m.
    pub gap_m: f32,
    /// The gas runs from right to left.
    pub mirrored: bool,
}

impl PlanPlaces {
    /// The passage in a drawing of this size.
    #[must_use]
    pub fn new(view: &PlanView<'_>, size: Point) -> Self {
        let [width, height] = size;
        let gap_m = view.conditions.gap_m() as f32;
        let inner = (width - 2.0 * SIDE).max(40.0);
        let room = (height - ABOVE - BELOW - 2.0 * PLATE).max(24.0);
        let to_scale = inner / view.window.length_m * 2.0 * gap_m;
        let tall = room.min(MOST_EXAGGERATED * to_scale);
        let top = ABOVE + PLATE + 0.5 * (room - tall);
        Self {
            min: [SIDE, top],
            max: [SIDE + inner, top + tall],
            start_m: view.window.start_m,
            length_m: view.window.length_m,
            gap_m,
            mirrored: view.conditions.appearance.gas_direction == GasDirection::RightToLeft,
        }
    }

    /// Points per metre along the gas.
    #[must_use]
    pub fn along_per_m(&self) -> f32 {
        (self.max[0] - self.min[0]) / self.length_m
    }

    /// Points per metre across.
    #[must_use]
    pub fn across_per_m(&self) -> f32 {
        (self.max[1] - self.min[1]) / (2.0 * self.gap_m)
    }

    /// How many times wider than to scale the passage is drawn.
    #[must_use]
    pub fn exaggeration(&self) -> f32 {
        self.across_per_m() / self.along_per_m()
    }

    /// A place in the passage on the drawing; y points up, towards the upper plate.
    #[must_use]
    pub fn point(&self, along_m: f32, across_m: f32) -> Point {
        let after = (along_m - self.start_m) * self.along_per_m();
        let x = if self.mirrored {
            self.max[0] - after
        } else {
            self.min[0] + after
        };
        [
            x,
            0.5 * (self.min[1] + self.max[1]) - across_m * self.across_per_m(),
        ]
    }

    /// Left and right edge of a stretch of the way, as far as it is shown.
    #[must_use]
    pub fn edges(&self, from_m: f32, to_m: f32) -> (f32, f32) {
        let [one, other] =
            [from_m, to_m].map(|m| self.point(m, 0.0)[0].clamp(self.min[0], self.max[0]));
        (one.min(other), one.max(other))
    }

    /// Which way the gas runs across the drawing: to the right 1, to the left −1.
    #[must_use]
    pub const fn way(&self) -> f32 {
        if self.mirrored { -1.0 } else { 1.0 }
    }

    /// The distance from the start of the collector under a place on the drawing, m.
    #[must_use]
    pub fn along_m(&self, x: f32) -> f32 {
        let after = if self.mirrored {
            self.max[0] - x
        } else {
            x - self.min[0]
        };
        self.start_m + after / self.along_per_m()
    }

    /// Whether a distance from the start of the collector is shown.
    #[must_use]
    pub fn shows(&self, along_m: f32) -> bool {
        (self.start_m..=self.start_m + self.length_m).contains(&along_m)
    }
}
