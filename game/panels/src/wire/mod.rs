//! A close look at one wire between two plates: field or ions, voltage lines, ion paths, glow and current on the plate.

mod contours;
mod drawing;
mod glow;
mod lines;
mod map;
mod places;
mod profile;
mod reading;
mod side;

pub use drawing::drawing;
pub use places::WirePlaces;
pub use reading::{checks, readout};

use ashlane_shared::{
    physics::corona::WireField,
    units::{Dimension, GasState, UnitSystem, format_in},
};

use crate::theme::Theme;

/// What the colours between the plates show.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum WireLayer {
    /// Strength of the electric field.
    #[default]
    Field,
    /// Ions per volume.
    Ions,
}

/// Everything the view shows.
#[derive(Clone, Copy, Debug)]
pub struct WireView<'a> {
    /// The computed field.
    pub field: &'a WireField,
    /// Voltage at which the corona starts in clean gas, V: of a solved field with a millionth of the usual current.
    pub onset_v: f64,
    /// The same without solver and map: Peek's field at the wire, and the row's field added up from wire to plate, V.
    pub peek_onset_v: f64,
    /// Peek's field at the wire, V/m.
    pub peek_field_v_m: f64,
    /// The gas glows where the field is above this: 30 kV/cm times its relative density, V/m.
    pub glow_field_v_m: f64,
    /// Voltage at which the gap sparks, V.
    pub spark_v: f64,
    /// Current that arrives on the plates over the current that leaves the wire.
    pub plate_to_wire_current: f64,
    /// What the colours show.
    pub layer: WireLayer,
    /// Units of the labels.
    pub units: UnitSystem,
    /// Dark or light.
    pub theme: Theme,
}

impl WireView<'_> {
    /// Whether ions flow.
    fn has_corona(&self) -> bool {
        self.field.solution().current_a_m > 0.0
    }

    /// A value with its unit and three digits.
    fn text(&self, value_si: f64, dimension: Dimension) -> String {
        let unit = dimension.display_unit(self.units);
        format_in(value_si, unit, &GasState::NORMAL, 3)
    }

    /// Strength of the field at a place, V/m.
    fn strength_v_m(&self, x_m: f64, y_m: f64) -> f64 {
        let state = self.field.at(x_m, y_m);
        state.along_v_m.hypot(state.across_v_m)
    }
}
