//! Where the cell around the wire, the profile below it and the key beside it lie on the drawing.

use super::WireView;
use crate::drawing::Point;

/// Thickness of the plates on the drawing, points.
pub(super) const PLATE: f32 = 6.0;
/// Height of a line of small text.
pub(super) const LINE: f32 = 17.0;
/// Room at the edges.
const SIDE: f32 = 10.0;
/// Room for the scale bar below the lower plate, and for the numbers below the profile.
const BAR: f32 = 22.0;
const TICKS: f32 = 20.0;
/// Least width of the key.
const KEY: f32 = 188.0;

/// Places on the drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WirePlaces {
    /// Top left of the space between the plates.
    pub min: Point,
    /// Bottom right of it.
    pub max: Point,
    /// Points per metre, the same both ways.
    pub per_m: f32,
    /// Top left and bottom right of the profile.
    pub(super) profile: (Point, Point),
    /// Top left and bottom right of the key.
    pub(super) key: (Point, Point),
}

impl WirePlaces {
    /// The places in a drawing of this size below a heading of this many lines.
    pub(super) fn below(view: &WireView<'_>, size: Point, lines: usize) -> Self {
        let [width, height] = size;
        let row = view.field.row();
        let (pitch_m, gaps_m) = (row.pitch_m() as f32, 2.0 * row.gap_m() as f32);
        let left = if width < 560.0 { 50.0 } else { 92.0 };
        let top = 26.0 + LINE * lines as f32 + PLATE;
        let profile = (0.2 * height).clamp(46.0, 150.0);
        let below = PLATE + BAR + profile + TICKS + 4.0;
        let tall = (height - top - below).max(40.0);
        let wide = (width - left - KEY - 2.0 * SIDE).max(40.0);
        let per_m = (tall / gaps_m).min(wide / pitch_m);
        let min = [left, top];
        let max = [left + pitch_m * per_m, top + gaps_m * per_m];
        let profile_top = max[1] + PLATE + BAR;
        Self {
            min,
            max,
            per_m,
            profile: (
                [min[0], profile_top],
                [max[0], (height - TICKS - 4.0).min(profile_top + profile)],
            ),
            key: ([max[0] + 16.0, top - PLATE], [width - SIDE, max[1] + PLATE]),
        }
    }

    /// A place in the cell on the drawing; y points up, towards the upper plate.
    #[must_use]
    pub fn point(&self, x_m: f64, y_m: f64) -> Point {
        let [x, y] = self.centre();
        [x + x_m as f32 * self.per_m, y - y_m as f32 * self.per_m]
    }

    /// Distance from the wire along the gas and from the wire plane under a point of the drawing, m; nothing beside the
    /// cell.
    #[must_use]
    pub fn metres(&self, [x, y]: Point) -> Option<(f64, f64)> {
        let inside =
            (self.min[0]..=self.max[0]).contains(&x) && (self.min[1]..=self.max[1]).contains(&y);
        let [middle_x, middle_y] = self.centre();
        inside.then(|| {
            (
                f64::from((x - middle_x) / self.per_m),
                f64::from((middle_y - y) / self.per_m),
            )
        })
    }

    /// The middle of the wire.
    pub(super) fn centre(&self) -> Point {
        [0, 1].map(|axis| 0.5 * (self.min[axis] + self.max[axis]))
    }
}
