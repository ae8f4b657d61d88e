//! What was tried: every state whose count has settled, in the order in which it was set.

use ashlane_shared::{
    checks::{Agreement, agreement},
    conditions::Conditions,
    count::CountResult,
    simulation::FieldState,
    theory::Theory,
};

use crate::board::amperes;

/// States that are remembered.
const MOST: usize = 60;

/// A state that was counted.
#[derive(Clone, Debug, PartialEq)]
pub struct Trial {
    /// What the controls said.
    pub controls: Conditions,
    /// What held: with the faults that were set.
    pub conditions: Conditions,
    /// Count and theory.
    pub agreement: Agreement,
    /// Deutsch number De.
    pub deutsch_number: f64,
    /// Power of all fields of the passages, W.
    pub power_w: f64,
}

impl Trial {
    /// A state with its meters, its count and its theory.
    #[must_use]
    pub fn new(
        (controls, conditions): (&Conditions, &Conditions),
        fields: &[FieldState],
        (count, theory): (&CountResult, &Theory),
    ) -> Self {
        let watts = |field: &FieldState| field.metered_v() * amperes(field, conditions);
        Self {
            controls: controls.clone(),
            conditions: conditions.clone(),
            agreement: agreement(count, theory),
            deutsch_number: theory.deutsch_number,
            power_w: fields.iter().map(watts).sum(),
        }
    }

    /// Dust in the gas that leaves, kg/m³.
    #[must_use]
    pub fn outlet_kg_m3(&self) -> f64 {
        self.agreement.counted.share * self.conditions.dust.load_kg_m3
    }
}

/// Everything that was tried.
#[derive(Clone, Debug, Default)]
pub struct Tried {
    trials: Vec<Trial>,
    forgotten: usize,
}

impl Tried {
    /// Notes a state; while it is still the last one, a larger count takes the place of a smaller.
    pub fn note(&mut self, trial: Trial) {
        if let Some(last) = self.trials.last_mut()
            && last.conditions == trial.conditions
        {
            *last = trial;
            return;
        }
        if self.trials.len() == MOST {
            self.trials.remove(0);
            self.forgotten += 1;
        }
        self.trials.push(trial);
    }

    /// What is remembered, the oldest first.
    #[must_use]
    pub fn trials(&self) -> &[Trial] {
        &self.trials
    }

    /// The number by which people call the trial at this place.
    #[must_use]
    pub fn number(&self, index: usize) -> usize {
        self.forgotten + index + 1
    }
}

#[cfg(test)]
mod tests {
    use ashlane_shared::{conditions::demonstration, count::Count, theory};

    use super::*;

    fn trial(flow_m3_s: f64, parcels: usize) -> Trial {
        let mut conditions = demonstration();
        conditions.teaching.migration_velocity_m_s = Some(0.09);
        conditions.gas.flow_m3_s = flow_m3_s;
        let mut count = Count::new(&conditions, parcels, 1).expect("possible");
        count.run(|_| true);
        let theory = theory::solve(&conditions).expect("possible");
        Trial::new((&conditions, &conditions), &[], (&count.result(), &theory))
    }

    #[test]
    fn a_state_is_noted_once_as_long_as_it_stands_and_numbers_outlive_what_is_forgotten() {
        let mut tried = Tried::default();
        let (first, second) = (trial(100.0, 200), trial(120.0, 200));
        tried.note(first.clone());
        tried.note(trial(100.0, 400));
        assert_eq!(tried.trials().len(), 1);
        assert!(tried.trials()[0].agreement.parcels > first.agreement.parcels);
        for _ in 0..MOST {
            tried.note(second.clone());
            tried.note(first.clone());
        }
        assert_eq!(tried.trials().len(), MOST);
        assert_eq!(tried.number(MOST - 1), 1 + 2 * MOST);
        assert_eq!(tried.trials()[MOST - 1], first);
    }
}
