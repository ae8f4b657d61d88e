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
    /// Dust that leaves, kg/h, at the target over that at the start: the flow counts too.
    OutletDustRatio,
}

/// Name in lesson files and quantity.
pub const QUANTITIES: [(&str, Quantity); 4] = [
    ("penetration", Quantity::Penetration),
    ("efficiency", Quantity::Efficiency),
    ("penetration_ratio", Quantity::PenetrationRatio),
    ("outlet_dust_ratio", Quantity::OutletDustRatio),
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
        matches!(self, Self::PenetrationRatio | Self::OutletDustRatio)
    }

    /// Its value from the penetration before and after, and the dust that enters after over that before.
    #[must_use]
    pub fn of(self, before: f64, after: f64, inlet_ratio: f64) -> f64 {
        match self {
            Self::Penetration => after,
            Self::Efficiency => 1.0 - after,
            Self::PenetrationRatio => after / before,
            Self::OutletDustRatio => inlet_ratio * after / before,
        }
    }

    /// What its tolerance is a share of.
    #[must_use]
    pub(super) fn scale(self, before: f64, after: f64, inlet_ratio: f64) -> f64 {
        match self {
            Self::Efficiency => after,
            _ => self.of(before, after, inlet_ratio),
        }
    }

    /// Its value and standard error from two independent counts.
    #[must_use]
    pub(in crate::engine) fn measured(
        self,
        before: Counted,
        after: Counted,
        inlet_ratio: f64,
    ) -> Counted {
        let share = self.of(before.share, after.share, inlet_ratio);
        let standard_error = match self {
            Self::Penetration | Self::Efficiency => after.standard_error,
            // Relative errors of a quotient add as squares; written so that a count of nothing after is allowed.
            Self::PenetrationRatio | Self::OutletDustRatio => {
                let of_after = self.of(before.share, after.standard_error, inlet_ratio);
                of_after.hypot(share * before.standard_error / before.share)
            }
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
        let ratio = Quantity::PenetrationRatio.measured(before, after, 3.0);
        assert!((ratio.share - 0.1).abs() < 1e-12);
        // 3 % and 4 % make 5 %.
        assert!((ratio.standard_error - 0.005).abs() < 1e-12, "{ratio:?}");
        // Three times the dust enters, so three times as much leaves, and its error with it.
        let dust = Quantity::OutletDustRatio.measured(before, after, 3.0);
        assert!((dust.share - 0.3).abs() < 1e-12);
        assert!((dust.standard_error - 0.015).abs() < 1e-12, "{dust:?}");
        let efficiency = Quantity::Efficiency.measured(before, after, 3.0);
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
