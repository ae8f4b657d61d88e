//! The books over the dust: every kilogram is in one account, and moves between accounts through one function.

use serde::{Deserialize, Serialize};

/// Where dust can be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Account {
    /// Came in since the start; the source of all others.
    Inlet,
    /// In the gas.
    Airborne,
    /// On the plates.
    Layers,
    /// In the hoppers.
    Hoppers,
    /// Removed from the hoppers.
    TakenAway,
    /// Left with the gas.
    Outlet,
}

/// All accounts, kg.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Ledger {
    accounts_kg: [f64; 6],
}

impl Ledger {
    /// Mass in an account, kg.
    #[must_use]
    pub fn kg(&self, account: Account) -> f64 {
        self.accounts_kg[account as usize]
    }

    /// Moves mass from one account to another. The inlet only gives: what it holds is what it has given.
    pub fn transfer(&mut self, from: Account, to: Account, mass_kg: f64) {
        let sign = if from == Account::Inlet { 1.0 } else { -1.0 };
        self.accounts_kg[from as usize] += sign * mass_kg;
        self.accounts_kg[to as usize] += mass_kg;
    }

    /// |inlet − (airborne + layers + hoppers + taken away + outlet)| over the inlet.
    #[must_use]
    pub fn imbalance(&self) -> f64 {
        let inlet_kg = self.kg(Account::Inlet);
        let rest_kg: f64 = self.accounts_kg[1..].iter().sum();
        if inlet_kg > 0.0 {
            (inlet_kg - rest_kg).abs() / inlet_kg
        } else {
            rest_kg.abs()
        }
    }

    /// The accounts in the order of [`Account`], for a digest.
    pub(crate) fn values(&self) -> &[f64] {
        &self.accounts_kg
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn transfers_keep_the_balance_and_a_lost_kilogram_shows() {
        let mut ledger = Ledger::default();
        ledger.transfer(Account::Inlet, Account::Airborne, 2.0);
        ledger.transfer(Account::Airborne, Account::Layers, 1.5);
        ledger.transfer(Account::Layers, Account::Airborne, 0.25);
        ledger.transfer(Account::Airborne, Account::Outlet, 0.5);
        assert!(ledger.imbalance() < 1e-15, "{ledger:?}");
        assert!(
            (ledger.kg(Account::Airborne) - 0.25).abs() < 1e-15,
            "{ledger:?}"
        );
        ledger.accounts_kg[Account::Layers as usize] -= 1e-6;
        assert!(ledger.imbalance() > 4e-7, "a lost milligram went unseen");
    }
}
