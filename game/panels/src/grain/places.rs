//! Where the path, the forces and the two charts lie on the drawing; a small drawing has fewer of them.

use crate::drawing::Point;

/// Height of a line of small text.
pub(super) const LINE: f32 = 17.0;
/// Thickness of the plates on the drawing, points.
pub(super) const PLATE: f32 = 6.0;
/// Room at the edges.
const SIDE: f32 = 12.0;
/// Room between the parts.
const APART: f32 = 20.0;
/// Room above the strip for its words, and below it for the times.
const WORDS: f32 = 22.0;
const TIMES: f32 = 20.0;
/// Drawings narrower than this have no forces, and no speed.
const FORCES_FROM: f32 = 480.0;
const SPEED_FROM: f32 = 660.0;
/// With this much room below the path the charts stand over one another.
const STACKED_FROM: f32 = 380.0;
/// With less room than this the names of the forces stand beside them, and a drawing narrower than this has no speed.
pub(super) const BESIDE_BELOW: f32 = 150.0;
const BESIDE_SPEED_FROM: f32 = 900.0;
/// Room for the forces with their names beside them.
const BESIDE: f32 = 300.0;

/// A part of the drawing: top left and bottom right.
pub(super) type Part = (Point, Point);

/// The parts of the drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Places {
    /// The space between the plates.
    pub(super) strip: Part,
    pub(super) forces: Option<Part>,
    pub(super) charge: Part,
    pub(super) speed: Option<Part>,
}

impl Places {
    /// Whether the charts stand over one another.
    pub(super) fn is_stacked(&self) -> bool {
        let over = |speed: Part| speed.0[1] > self.charge.1[1];
        self.speed.is_some_and(over)
    }
}

impl Places {
    /// The parts of a drawing of this size below a heading of this many lines.
    pub(super) fn below([width, height]: Point, lines: usize) -> Self {
        let top = 24.0 + LINE * lines as f32 + WORDS + PLATE;
        let strip_tall = (0.25 * height).clamp(52.0, 210.0);
        let (left, right) = (SIDE, width - SIDE);
        let strip = ([left, top], [right, top + strip_tall]);
        let below = strip.1[1] + PLATE + TIMES + 10.0;
        let bottom = height - 6.0;
        let part = |from: f32, to: f32| ([from, below], [to, bottom]);
        let whole = right - left;
        if width < FORCES_FROM {
            return Self {
                strip,
                forces: None,
                charge: part(left, right),
                speed: None,
            };
        }
        let beside = bottom - below < BESIDE_BELOW;
        let wanted = if width < SPEED_FROM { 0.4 } else { 0.26 };
        let forces_wide = if beside {
            BESIDE
        } else {
            (wanted * whole).clamp(200.0, 400.0)
        };
        let forces_end = left + forces_wide;
        let forces = Some(part(left, forces_end));
        let charts = forces_end + APART;
        let stacked = bottom - below >= STACKED_FROM;
        let narrow = width < SPEED_FROM || (beside && width < BESIDE_SPEED_FROM);
        if narrow && !stacked {
            return Self {
                strip,
                forces,
                charge: part(charts, right),
                speed: None,
            };
        }
        let (charge, speed) = if stacked {
            let middle = below + 0.55 * (bottom - below);
            (
                ([charts, below], [right, middle - 8.0]),
                ([charts, middle + 8.0], [right, bottom]),
            )
        } else {
            let middle = charts + 0.53 * (right - charts);
            (
                part(charts, middle - 0.5 * APART),
                part(middle + 0.5 * APART, right),
            )
        };
        Self {
            strip,
            forces,
            charge,
            speed: Some(speed),
        }
    }
}
