//! One number that is found in two ways.

use serde::Serialize;

/// What the model shows, and what another road gives.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TwoWays {
    /// As the model shows it.
    pub shown: f64,
    /// By the other road.
    pub expected: f64,
}

impl TwoWays {
    /// As shown over as expected; no number where nothing is expected.
    #[must_use]
    pub fn ratio(&self) -> f64 {
        self.shown / self.expected
    }
}
