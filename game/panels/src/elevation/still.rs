//! The elevation with its dust as one still figure, for SVG files and for machines without a GPU.

use ashlane_shared::simulation::{Frame, Grain};

use super::{
    ElevationView,
    drawing::{drawing, places},
    grain_height_m,
    legend::SMALLER,
};
use crate::{
    drawing::{Drawing, Item, Point},
    plan::grain_radius,
    theme::Ink,
};

/// Draws one moment: the dust lies behind the lines.
#[must_use]
pub fn still_drawing(view: &ElevationView<'_>, frame: &Frame<'_>, size: Point) -> Drawing {
    still_of(view, frame.grains(), size)
}

/// The same with some of the grains only.
pub(crate) fn still_of(
    view: &ElevationView<'_>,
    dust: impl Iterator<Item = Grain>,
    size: Point,
) -> Drawing {
    let places = places(view, size);
    let length_m = view.conditions.length_m();
    let lines = drawing(view, size);
    let mut whole = Drawing::new(size);
    for grain in dust {
        let height_m = grain_height_m(view.conditions.collector.plate_height_m, &grain);
        let centre = places.grain(f64::from(grain.along_m) / length_m, height_m);
        let radius = SMALLER * grain_radius(grain.diameter_m);
        let charged = grain.charge_share > 0.5 && !grain.bypassing;
        let ink = if charged { Ink::Dust } else { Ink::Uncharged };
        whole.items.push(Item::Dot {
            centre,
            radius,
            ink,
            opacity: 1.0,
        });
    }
    whole.items.extend(lines.items);
    whole
}
