//! A part of the machine: what it is for, what it is also called, where it lies on the elevation, what it shows now.

use super::{ElevationPlaces, ElevationView, Measures};
use crate::drawing::Point;

/// Left, bottom, right, top in metres of the machine.
pub(super) type AreaM = [f64; 4];

/// A part of the machine.
#[derive(Clone, Copy, Debug)]
pub struct Part {
    /// Its name.
    pub name: &'static str,
    /// What it is called elsewhere; empty where it has one name.
    pub also: &'static str,
    /// What it is for.
    pub purpose: &'static str,
    /// Cautions that belong to it, by code.
    pub cautions: &'static [&'static str],
    /// Where it lies; nothing where this machine has none.
    pub(super) area_m: fn(&ElevationView<'_>, &Measures) -> Option<AreaM>,
    /// What it shows at this moment; nothing where it has no reading.
    pub(super) value: fn(&ElevationView<'_>) -> Option<String>,
}

impl Part {
    /// Where it lies on the drawing: top left and bottom right; nothing where this machine has none.
    #[must_use]
    pub fn area(&self, view: &ElevationView<'_>, places: &ElevationPlaces) -> Option<[Point; 2]> {
        Some(places.area((self.area_m)(view, &places.measures)?))
    }

    /// Left, bottom, right, top, m; nothing where this machine has none.
    #[must_use]
    pub fn area_m(&self, view: &ElevationView<'_>, measures: &Measures) -> Option<[f64; 4]> {
        (self.area_m)(view, measures)
    }

    /// What it shows at this moment, in the units of the view.
    #[must_use]
    pub fn value(&self, view: &ElevationView<'_>) -> Option<String> {
        (self.value)(view)
    }
}
