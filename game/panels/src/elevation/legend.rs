//! What the dust on the elevation means, in one row: size, charge, way, layer, falling sheet.

use super::{ElevationPlaces, ElevationView};
use crate::{
    drawing::{Anchor, Drawing, Item, Point, text_width},
    plan::grain_radius,
    theme::{Ink, SMALL},
};

/// Grains are drawn so much smaller than on the plan.
pub(crate) const SMALLER: f32 = 0.7;
/// From the edge to the first sign, from a sign to its words, from there to the next sign, points.
const SIDE: f32 = 12.0;
const BESIDE: f32 = 5.0;
const BETWEEN: f32 = 16.0;

/// What stands for something.
enum Sign {
    /// A grain of this size.
    Grain(f32, Ink),
    /// A grain that goes around the plates.
    Ring,
    /// Dust on the plate.
    Layer,
    /// A sheet of it on its way down.
    Sheet,
    /// How fast the gas is.
    Gas,
}

impl Sign {
    fn width(&self) -> f32 {
        match self {
            Self::Grain(diameter_m, _) => 2.0 * SMALLER * grain_radius(*diameter_m),
            Self::Ring => 7.0,
            Self::Layer | Self::Sheet | Self::Gas => 13.0,
        }
    }

    fn draw(&self, drawing: &mut Drawing, [x, y]: Point) {
        let right = x + self.width();
        let centre = [0.5 * (x + right), y];
        match self {
            Self::Grain(_, ink) => drawing.dot(centre, 0.5 * self.width(), *ink),
            Self::Ring => drawing.items.push(Item::Ring {
                centre,
                radius: 3.0,
                ink: Ink::Uncharged,
                width: 1.2,
            }),
            Self::Layer => {
                drawing.rect([x, y - 5.0], [right, y + 5.0], Ink::Metal, 0.16);
                drawing.rect([x, y - 5.0], [right, y + 5.0], Ink::Dust, 0.5);
            }
            Self::Sheet => drawing.rect([x, y - 5.0], [right, y + 5.0], Ink::Dust, 0.75),
            Self::Gas => {
                drawing.line([[x, y], [right, y]], Ink::Gas, 1.2);
                drawing.line(
                    [[right - 4.0, y - 2.5], [right, y], [right - 4.0, y + 2.5]],
                    Ink::Gas,
                    1.2,
                );
            }
        }
    }
}

/// Signs and words; those that find no room at the end are left out.
pub(super) fn legend(drawing: &mut Drawing, view: &ElevationView<'_>, places: &ElevationPlaces) {
    if places.below.legend == 0.0 {
        return;
    }
    let y = drawing.size[1] - 12.0 - places.below.legend;
    if !places.is_whole() {
        let top = y - 0.5 * places.below.legend;
        let corners = [[0.0, top], [drawing.size[0], top + places.below.legend]];
        drawing.rect(corners[0], corners[1], Ink::Ground, 1.0);
    }
    let mut x = SIDE;
    for (sign, words) in entries(view) {
        let width = sign.width() + BESIDE + text_width(words, SMALL, false);
        if x + width > drawing.size[0] - SIDE {
            return;
        }
        sign.draw(drawing, [x, y]);
        let at = [x + sign.width() + BESIDE, y];
        drawing.text(at, Anchor::Left, words, SMALL, Ink::Text);
        x += width + BETWEEN;
    }
}

fn entries(view: &ElevationView<'_>) -> Vec<(Sign, &'static str)> {
    // Where one migration velocity is given, no charge is computed.
    let charge = view.conditions.teaching.migration_velocity_m_s.is_none();
    let mut entries = vec![
        (Sign::Grain(1e-6, Ink::Dust), "1 µm"),
        (Sign::Grain(1e-5, Ink::Dust), "10 µm"),
        (
            Sign::Grain(5e-5, Ink::Dust),
            if charge { "50 µm, charged" } else { "50 µm" },
        ),
    ];
    if charge {
        entries.push((Sign::Grain(5e-5, Ink::Uncharged), "not charged"));
    }
    entries.extend([
        (Sign::Ring, "around the plates"),
        (Sign::Layer, "on the plates"),
        (Sign::Sheet, "falling sheet"),
        (Sign::Gas, "gas"),
    ]);
    entries
}
