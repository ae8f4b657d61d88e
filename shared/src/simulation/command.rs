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
}

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
}

fn list(objections: &[conditions::Objection]) -> String {
    let texts: Vec<String> = objections.iter().map(ToString::to_string).collect();
    texts.join("; ")
}
