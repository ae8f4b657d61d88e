//! An order for the rates of the plant clock: what is to be counted, so that anybody who has time may count it.

use crate::{conditions::Conditions, physics::PhysicsError, plant::Rates};

/// Parcels of fresh dust.
pub(super) const PARCELS: usize = 40_000;
/// The dice of the rates are those of the flight's seed and this: none of theirs is used twice.
const SEED_SHIFT: u64 = 2;

/// What is to be counted; equal orders give equal rates.
#[derive(Clone, Debug, PartialEq)]
pub struct RateOrder {
    /// The conditions.
    pub conditions: Conditions,
    /// Parcels of fresh dust.
    pub parcels: usize,
    seed: u64,
}

impl RateOrder {
    pub(super) fn new(conditions: &Conditions, parcels: usize, flight_seed: u64) -> Self {
        Self {
            conditions: conditions.clone(),
            parcels,
            seed: flight_seed.wrapping_add(SEED_SHIFT),
        }
    }

    /// Counts them; `continue_after` is told the share done and answers whether to go on.
    ///
    /// # Errors
    /// A formula refused the conditions. `Ok(None)` where it was cancelled.
    pub fn count(
        &self,
        continue_after: impl FnMut(f64) -> bool,
    ) -> Result<Option<Rates>, PhysicsError> {
        Rates::count(&self.conditions, self.parcels, self.seed, continue_after)
    }
}
