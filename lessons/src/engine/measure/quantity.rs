//! The quantities a lesson may measure: one row a quantity.
//!
//! All of them come from counted penetrations, and tolerances are shares of a penetration: 99.80 against 99.75 %
//! looks tiny and is a quarter more dust.

use ashlane_shared::count::Counted;
use serde::{Deserialize, Serialize};

/// A quantity.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Quantity {
    /// Share of the dust that gets through, at the target.
    Penetration,
    /// One less the penetration; its tolerance is that of the penetration.
    Efficiency,
    /// Penetration at the target over that at the start: how many times the dust.
    PenetrationRatio,
}

/// Name in lesson files and quantity.
pub const QUANTITIES: [(&str, Quantity); 3] = [
    ("penetration", Quantity::Penetration),
    ("efficiency", Quantity::Efficiency),
    ("penetration_ratio", Quantity::PenetrationRatio),
];

impl Quantity {
    /// Its name in lesson files.
    #[must_use]
    pub fn name(self) -> &'static str {
        QUANTITIES
            .iter()
            .find(|(_, quantity)| *quantity == self)
            .map_or("", |(name, _)| name)
    }

    /// Whether the count at the start takes part.
    #[must_use]
    pub fn needs_before(self) -> bool {
        self == Self::PenetrationRatio
    }

    /// Its value from the penetration before and after.
    #[must_use]
    pub fn of(self, before: f64, after: f64) -> f64 {
        match self {
            Self::Penetration => after,
            Self::Efficiency => 1.0 - after,
            Self::PenetrationRatio => after / before,
        }
    }

    /// What its tolerance is a share of.
    #[must_use]
    pub(super) fn scale(self, before: f64, after: f64) -> f64 {
        match self {
            Self::Penetration | Self::Efficiency => after,
            Self::PenetrationRatio => after / before,
        }
    }

    /// Its value and standard error from two independent counts.
    #[must_use]
    pub(in crate::engine) fn measured(self, before: Counted, after: Counted) -> Counted {
        let share = self.of(before.share, after.share);
        let standard_error = match self {
            Self::Penetration | Self::Efficiency => after.standard_error,
            // Relative errors of a quotient add as squares; written so that a count of nothing after is allowed.
            Self::PenetrationRatio => (after.standard_error / before.share)
                .hypot(share * before.standard_error / before.share),
        };
        Counted {
            share,
            standard_error,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn errors_of_a_ratio_add_as_squares() {
        let before = Counted {
            share: 0.10,
            standard_error: 0.003,
        };
        let after = Counted {
            share: 0.01,
            standard_error: 0.0004,
        };
        let ratio = Quantity::PenetrationRatio.measured(before, after);
        assert!((ratio.share - 0.1).abs() < 1e-12);
        // 3 % and 4 % make 5 %.
        assert!((ratio.standard_error - 0.005).abs() < 1e-12, "{ratio:?}");
        let efficiency = Quantity::Efficiency.measured(before, after);
        assert!((efficiency.share - 0.99).abs() < 1e-12);
        assert!((efficiency.standard_error - 0.0004).abs() < 1e-15);
    }

    #[test]
    fn every_quantity_has_its_name() {
        for (name, quantity) in QUANTITIES {
            assert_eq!(quantity.name(), name);
        }
    }
}
