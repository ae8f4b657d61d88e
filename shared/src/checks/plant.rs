//! The plant clock against the solver: what leaves in the long run, with raps and puffs, and with a steady loss.

use serde::Serialize;

use super::SIGMAS;
use crate::{conditions::Conditions, plant::Rates, theory::Theory};

/// Penetration in the long run by two roads.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LongRun {
    /// By the counted rates, every field giving up at its raps what it caught.
    pub by_rates: f64,
    /// By the solver, with a steady loss.
    pub finite_mixing: f64,
    /// Largest difference that still agrees: the solver's own, or 4σ of the count, as for the count itself.
    pub tolerance: f64,
    /// Whether they agree.
    pub agrees: bool,
}

impl LongRun {
    /// Compares them; the rates were counted with so many parcels of fresh dust.
    #[must_use]
    pub fn new(conditions: &Conditions, rates: &Rates, parcels: usize, theory: &Theory) -> Self {
        let by_rates = rates.long_run_penetration(conditions.returned_share());
        let error = (by_rates * (1.0 - by_rates) / parcels.max(1) as f64).sqrt();
        let tolerance = (theory.model_tolerance * theory.finite_mixing).max(SIGMAS * error);
        Self {
            by_rates,
            finite_mixing: theory.finite_mixing,
            tolerance,
            agrees: (by_rates - theory.finite_mixing).abs() <= tolerance,
        }
    }
}
