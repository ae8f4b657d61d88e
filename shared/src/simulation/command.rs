//! What may be asked of a running simulation: one list, applied between steps, kept with the step number.
//!
//! Conditions, seed and this log together are a recording: replaying them gives the same bits.

use serde::{Deserialize, Serialize};

use super::Follow;
use crate::{conditions, conditions::Conditions, physics::PhysicsError};

/// A command.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Command {
    /// From now on these conditions hold.
    Conditions(Box<Conditions>),
    /// Empties gas and plates and starts the books anew, under the present conditions.
    Restart,
    /// From now on the next grain of this size is followed, or none; the flight itself stays as it is.
    Follow(Option<Follow>),
    /// From now on this clock runs; the plant clock once its rates are counted. Only a machine has both.
    Clock(Clock),
    /// The flight clock runs, and the plates of a field are struck. Only a machine has them.
    RapNow {
        /// The field, 0 for the first.
        field: usize,
    },
}

/// What moves the books.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Clock {
    /// The drawn dust, second by second.
    #[default]
    Flight,
    /// Counted rates, so many times faster than the drawn dust flies.
    Plant {
        /// How many times, [`PLANT_TIMES`].
        times: f64,
    },
}

/// Slowest and fastest plant clock over the flight: as fast as it, a day in a second.
pub const PLANT_TIMES: (f64, f64) = (1.0, 86_400.0);

/// A command and the number of steps that had been taken before it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LoggedCommand {
    /// Steps taken before.
    pub step: u64,
    /// The command.
    pub command: Command,
}

/// Why a command was refused; the simulation goes on as before.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum CommandError {
    /// Values outside their ranges, or that do not go together.
    #[error("these conditions are not possible: {}", list(.0))]
    Conditions(Vec<conditions::Objection>),
    /// A formula refused them.
    #[error("these conditions cannot be computed: {0}")]
    Physics(#[from] PhysicsError),
    /// Drawn dust alone has no plant clock and no layers to strike.
    #[error(
        "a flight alone has one clock and no layers: give this command to the machine that it belongs to"
    )]
    NoPlant,
    /// A plant clock that is too slow or too fast.
    #[error("plant clock: {times} times the flight is not possible; give {} to {}", PLANT_TIMES.0, PLANT_TIMES.1)]
    Times {
        /// What was wanted.
        times: f64,
    },
    /// A field that is not there.
    #[error("rap now: there is no field {}; the collector has fields 1 to {fields}", .field + 1)]
    NoField {
        /// What was wanted, 0 for the first.
        field: usize,
        /// Fields of the collector.
        fields: usize,
    },
}

fn list(objections: &[conditions::Objection]) -> String {
    let texts: Vec<String> = objections.iter().map(ToString::to_string).collect();
    texts.join("; ")
}
