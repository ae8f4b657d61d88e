//! The section across the gas, looking along the flow: passages side by side, the gas over the face, ways around, hoppers.

mod areas;
mod around;
mod drawing;
mod hoppers;
mod parts;
mod rappers;

pub use areas::part_areas;
pub use drawing::drawing;

use ashlane_shared::units::{Dimension, format};

use crate::{
    charts::{FaceView, face_check},
    checks::CheckLine,
    elevation::{ElevationView, Measures},
    theme::Theme,
};

/// Where the two supports of a frame stand, as shares of the width from the middle.
const SUPPORTS: [f64; 2] = [-0.32, 0.32];

/// Everything the section shows.
#[derive(Clone, Copy, Debug)]
pub struct CrossSectionView<'a> {
    /// The machine as the elevation has it.
    pub machine: ElevationView<'a>,
    /// The gas over the face, where it has been worked out.
    pub face: Option<FaceView<'a>>,
    /// Readings of the face up and across.
    pub grid: (usize, usize),
    /// Dark or light, for the map.
    pub theme: Theme,
}

impl CrossSectionView<'_> {
    pub(super) fn text(&self, value_si: f64, dimension: Dimension) -> String {
        format(value_si, dimension, self.machine.units)
    }

    pub(super) fn measures(&self) -> Measures {
        Measures::new(
            self.machine.conditions,
            self.machine.hoppers,
            self.machine.gas,
        )
    }

    /// Width over all passages, m.
    pub(super) fn width_m(&self) -> f64 {
        let collector = &self.machine.conditions.collector;
        collector.passages as f64 * collector.plate_spacing_m
    }
}

/// The agreement line: readings over the face against the flow of the sheet.
#[must_use]
pub fn checks(view: &CrossSectionView<'_>) -> Vec<CheckLine> {
    view.face.as_ref().map(face_check).into_iter().collect()
}
