//! The one place where text and display units meet SI: unit spellings, factors, parsing and writing of quantities.
//!
//! Everything else in Ashlane holds plain SI numbers with the unit in the name.
//! A quantity in text is "number unit"; a unit is a row of `table`, a dimension is a row of `dimension`.

mod dimension;
mod error;
mod format;
mod parse;
mod spelling;
mod table;
mod unit;

pub use dimension::Dimension;
pub use error::QuantityError;
pub use format::{
    display, format, format_in, from_display, number_text, number_text_down, number_text_up,
    shortest_text,
};
pub use parse::{Quantity, find_unit, parse};
pub use unit::{Basis, GasState, Unit};

/// Which units people read: international ones or those of the trade in the United States.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, Hash, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "snake_case")]
pub enum UnitSystem {
    /// International units and their usual multiples.
    #[default]
    Si,
    /// United States customary and trade units.
    Us,
}

impl UnitSystem {
    /// Both systems.
    pub const ALL: [Self; 2] = [Self::Si, Self::Us];
}

#[cfg(test)]
mod round_trips;
#[cfg(test)]
mod tests;
