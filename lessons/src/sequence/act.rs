//! What can be done at the board, and why something cannot.

use serde::{Deserialize, Serialize};

/// One act.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Act {
    /// Insulator heaters on or off.
    Heaters(bool),
    /// Ash removal on or off.
    AshRemoval(bool),
    /// Rappers on or off.
    Rappers(bool),
    /// The fan on or off: it moves the gas that purges.
    Fan(bool),
    /// The fire lit or put out.
    Fire(bool),
    /// A field on, from 0.
    Energize(usize),
    /// A field off, from 0.
    DeEnergize(usize),
    /// Time goes by, s.
    Wait(f64),
    /// Hand over to the permit holder: the board ends here.
    HandOver,
    /// Take the last act back.
    TakeBack,
}

/// Longest single wait, s.
pub(super) const LONGEST_S: f64 = 48.0 * 3600.0;

/// Why an act is not possible; the board is as it was.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum BoardError {
    /// It is so already.
    #[error("this is so already")]
    SoAlready,
    /// No such field.
    #[error("there is no field {field}; the fields are 1 to {fields}")]
    NoField {
        /// Field that was asked for, from 1.
        field: usize,
        /// How many there are.
        fields: usize,
    },
    /// A fire needs draught.
    #[error(
        "without the fan there is no draught, and the flame does not stay; start the fan first"
    )]
    NoDraught,
    /// A fire that burns needs its fan.
    #[error("the fire needs the fan; put the fire out first")]
    FireBurns,
    /// Sets are on.
    #[error("a set is on and holds its key; hand over only with every field off")]
    FieldsOn,
    /// The fire burns.
    #[error("the fire burns; hand over only with the fire out")]
    FireOn,
    /// A time that cannot be.
    #[error("a wait is 1 second to 48 hours, not {0} s")]
    Wait(f64),
    /// Nothing to take back.
    #[error("there is nothing to take back")]
    Nothing,
    /// The board has ended.
    #[error("the machine is with the permit holder; the board ends here")]
    HandedOver,
}
