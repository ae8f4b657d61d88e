//! What a collector is told: the site sheet, its units and its limits.
//!
//! All quantities are SI with the unit in the name; text with other units exists only at the edge: in the [`sheet`]
//! and in [`units`](crate::units). Everything that reads, checks, shows, saves or documents a value walks the
//! [`keys()`].

mod appearance;
mod cross;
mod defects;
mod derived;
mod guide;
mod keys;
mod model;
mod nearest;
mod parts;
mod rebase;
pub mod sheet;
mod site_names;
mod sites;
mod words;

pub use appearance::{Appearance, Electrode, FanPosition, FieldNumbering, GasDirection, Rapper};
pub use cross::{Objection, check};
pub use defects::FieldDefects;
pub use guide::site_sheet_guide;
pub use keys::{
    Key, MOST_FIELDS, MOST_POINTS, Presence, Range, Refusal, SECTIONS, Shape, Value, find_key, keys,
};
pub use model::{
    Ash, AshStandard, Charging, Collector, Composition, Conditions, Dust, Electrical, Gas, Hoppers,
    InLeakage, Kind, Mixing, Profile, Rapping, Reference, Resistivity, Sizes, Teaching, Water,
};
pub use nearest::nearest;
pub use parts::{PARTS, Part, find_part};
pub use rebase::Rebased;
pub use site_names::capitalised;
pub use sites::{SITES, demonstration, demonstration_sheet};
