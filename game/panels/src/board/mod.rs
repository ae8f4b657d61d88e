//! The operator's panel: alarms, what every field and the gas show beside what is wanted, and their trends, in quiet greys.
//!
//! Colours of alarms stand here and nowhere else; no map of the field stands here.

mod alarms;
mod drawing;
mod mark;
mod panel;
mod table;
mod trends;
mod values;

pub use drawing::drawing;
pub use mark::mark_drawing;
pub(crate) use panel::board_ui;
pub use trends::trends_drawing;
pub use values::{Bar, Cell, Row, field_rows, gas_rows};
pub(crate) use values::{amperes, held};

use ashlane_shared::{alarms::Annunciator, plant::PlantReading};

use crate::elevation::ElevationView;

/// Everything the panel shows.
#[derive(Clone, Copy, Debug)]
pub struct BoardView<'a> {
    /// The machine: its meters, hoppers, rappers and gas.
    pub machine: ElevationView<'a>,
    /// Its alarms.
    pub alarms: &'a Annunciator,
    /// What leaves by the stack, where it is known.
    pub stack: Option<StackReading>,
    /// What the plant clock has written so far, oldest first.
    pub readings: &'a [PlantReading],
}

impl BoardView<'_> {
    /// Its name, with the number of alarms: told on the ladder, so that it is seen from every view, and without a colour.
    pub(crate) fn words(&self) -> String {
        match self.alarms.announced().len() {
            0 => "Panel".to_owned(),
            1 => "Panel: 1 alarm".to_owned(),
            count => format!("Panel: {count} alarms"),
        }
    }
}

/// What leaves by the stack.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StackReading {
    /// Dust per actual volume of the gas, kg/m³.
    pub dust_kg_m3: f64,
    /// Mean opacity.
    pub opacity: f64,
    /// Opacity of the darkest puff of a blow since the reading before; nothing where no blow was.
    pub puff: Option<f64>,
    /// Where the two come from.
    pub from: &'static str,
}
