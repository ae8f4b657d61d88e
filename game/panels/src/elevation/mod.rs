//! The elevation: the whole machine from the side, to scale from the sheet, with its gas, dust, hoppers and what stands on it.

mod access;
mod baffles;
mod casing;
mod checks;
mod drawing;
mod ducts;
mod electrodes;
mod fan;
mod fittings;
mod hopper_details;
mod hoppers;
mod inside;
mod instruments;
mod labels;
mod legend;
mod measures;
mod panels;
mod parts;
mod parts_all;
mod parts_inside;
mod parts_outside;
mod parts_table;
mod places;
mod pressure;
mod profile;
mod rappers;
mod roof;
mod roof_details;
mod site_names;
mod small_names;
mod still;
mod upstream;

pub use checks::checks;
pub use drawing::{blank_drawing, drawing};
pub(crate) use electrodes::{UPPER_FRAME_M, electrode};
pub(crate) use hoppers::level_words;
pub(crate) use measures::LOWER_FRAME_M;
pub use measures::Measures;
pub use parts::Part;
pub use parts_all::PARTS;
pub use places::ElevationPlaces;
pub use rappers::ShaftPlace;
pub(crate) use rappers::{ANVIL_M, ARM_M, HEAD_M};
pub(crate) use roof::corners as set_corners;
pub use site_names::part_of_key;
pub(crate) use site_names::site_words;
pub use still::still_drawing;
pub(crate) use still::still_of;

use ashlane_shared::{
    conditions::Conditions,
    machine::FieldPlates,
    plant::HopperState,
    simulation::{FieldState, GasAlong, Grain},
    units::{Dimension, UnitSystem, format},
};

use crate::{board::StackReading, zoom::Eye};

/// Everything the elevation shows.
#[derive(Clone, Copy, Debug)]
pub struct ElevationView<'a> {
    /// The conditions that hold.
    pub conditions: &'a Conditions,
    /// Electrical state of every field.
    pub fields: &'a [FieldState],
    /// How thick dust lies on the plates, and what fell.
    pub plates: &'a [FieldPlates],
    /// The rows of hoppers.
    pub hoppers: &'a [HopperState],
    /// The gas from duct to stack.
    pub gas: Option<&'a GasAlong>,
    /// What leaves by the stack, where it is known.
    pub stack: Option<StackReading>,
    /// Mean velocity of the gas behind the distribution plates by rows of the height, the roof first, m/s.
    pub face_rows_m_s: &'a [f64],
    /// Steps taken since the start.
    pub step: u64,
    /// Units of the labels.
    pub units: UnitSystem,
    /// Whether labels with leader lines are shown.
    pub labels: bool,
    /// Reduced motion: nothing that comes and goes by itself is drawn.
    pub calm: bool,
    /// Part of the machine that is shown.
    pub eye: Eye,
}

impl ElevationView<'_> {
    /// How the trade tells a draught: in kilopascals, or in inches of water.
    pub(crate) const fn draught(&self) -> Dimension {
        match self.units {
            UnitSystem::Us => Dimension::PressureDrop,
            _ => Dimension::Pressure,
        }
    }

    pub(crate) fn text(&self, value_si: f64, dimension: Dimension) -> String {
        format(value_si, dimension, self.units)
    }
}

/// Height at which a grain is drawn, over the bottom edge of the plates, m: where it goes around the charged zone it flies
/// above the plates or below them.
#[must_use]
pub fn grain_height_m(plate_m: f64, grain: &Grain) -> f64 {
    // Where exactly it flies there the model does not say: some place of that room, always the same for one height.
    let share = (f64::from(grain.height_m) / plate_m).clamp(0.0, 1.0);
    match (grain.bypassing, grain.through_hopper) {
        (false, _) => f64::from(grain.height_m),
        (true, false) => plate_m + 0.5 + 0.6 * share,
        (true, true) => -0.5 - 0.8 * share,
    }
}
