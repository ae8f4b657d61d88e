//! One moment of a flight, kept: all that a picture of it needs, while the flight goes on.

use super::{Deposits, FollowedGrain, Frame, Grain, Ledger, passage::Passage};
use crate::conditions::Conditions;

/// A moment that is kept.
#[derive(Clone, Debug)]
pub struct Still {
    conditions: Conditions,
    passage: Passage,
    grains: Vec<Grain>,
    step: u64,
    followed: Option<FollowedGrain>,
    ledger: Ledger,
    deposits: Deposits,
}

impl Still {
    /// Keeps a moment.
    #[must_use]
    pub fn of(frame: &Frame<'_>) -> Self {
        Self {
            conditions: frame.conditions().clone(),
            passage: frame.passage.clone(),
            grains: frame.grains().collect(),
            step: frame.step(),
            followed: frame.followed().cloned(),
            ledger: *frame.ledger,
            deposits: frame.deposits.clone(),
        }
    }

    /// The moment, as it was.
    #[must_use]
    pub fn frame(&self) -> Frame<'_> {
        Frame {
            conditions: &self.conditions,
            passage: &self.passage,
            chunks: &[],
            kept: &self.grains,
            step: self.step,
            followed: self.followed.as_ref(),
            ledger: &self.ledger,
            deposits: &self.deposits,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{conditions::demonstration, simulation::Simulation};

    #[test]
    fn a_kept_moment_stays_as_it_was_while_the_flight_goes_on() {
        let mut flight = Simulation::new(demonstration(), 1).expect("possible");
        for _ in 0..120 {
            flight.step();
        }
        let still = Still::of(&flight.frame());
        let seen = |frame: &Frame<'_>| {
            let grains: Vec<Grain> = frame.grains().collect();
            (frame.step(), frame.airborne(), grains, *frame.ledger)
        };
        let then = seen(&flight.frame());
        assert!(then.1 > 100);
        for _ in 0..24 {
            flight.step();
        }
        assert_eq!(seen(&still.frame()), then);
        assert_ne!(seen(&flight.frame()), then);
        let place = (0, 0.4, 0.1);
        assert_eq!(
            still.frame().field_v_m(place.0, place.1, place.2),
            flight.frame().field_v_m(place.0, place.1, place.2)
        );
    }
}
