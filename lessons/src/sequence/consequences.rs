//! What has followed from the acts so far: amounts, computed and added up, none of them a verdict.

use ashlane_shared::units::{Dimension, UnitSystem, format};
use serde::{Deserialize, Serialize};

/// What has followed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Consequences {
    /// Time in which moist gas met insulators below its dew point, s.
    pub condensing_s: f64,
    /// Time of fields that were on while their insulators were below the dew point, added up by field, s.
    pub tracking_s: f64,
    /// Time of fields that were on while combustibles were above the site's set-point, added up by field, s.
    pub ignition_s: f64,
    /// Time of fields that were on before the purge was complete, added up by field, s.
    pub unpurged_s: f64,
    /// Time of fields that were on while a fire burned that was not stable, added up by field, s.
    pub unstable_s: f64,
    /// How often a fire was lit before the purge was complete.
    pub lit_unpurged: u32,
    /// Dust that came to lie on plates while the rappers stood still, kg.
    pub uncleaned_kg: f64,
    /// Ash that fell into hoppers while its removal stood still, kg.
    pub unremoved_kg: f64,
    /// Dust that left through the stack, kg.
    pub stack_kg: f64,
}

impl Consequences {
    /// Whether none of those has followed that a hold of the site is there for; dust in the stack is no hold.
    #[must_use]
    pub fn holds_were_kept(&self) -> bool {
        let times = [
            self.condensing_s,
            self.tracking_s,
            self.ignition_s,
            self.unpurged_s,
            self.unstable_s,
            self.uncleaned_kg,
            self.unremoved_kg,
        ];
        times.iter().all(|amount| *amount == 0.0) && self.lit_unpurged == 0
    }

    /// One line for each that has followed.
    #[must_use]
    pub fn lines(&self, units: UnitSystem) -> Vec<String> {
        let time = |value| format(value, Dimension::Interval, units);
        let mass = |value| format(value, Dimension::Mass, units);
        let Self {
            condensing_s,
            tracking_s,
            ignition_s,
            unpurged_s,
            unstable_s,
            lit_unpurged,
            uncleaned_kg,
            unremoved_kg,
            stack_kg,
        } = *self;
        let times = [
            (condensing_s, "water condensed on cold insulators"),
            (
                tracking_s,
                "fields were on over wet insulators: current runs over them, and one that cracks shatters",
            ),
            (
                ignition_s,
                "fields were on with combustibles above the set-point: a spark would have lit them",
            ),
            (unpurged_s, "fields were on before the purge was complete"),
            (unstable_s, "fields were on over an unsteady fire"),
        ];
        let masses = [
            (uncleaned_kg, "dust settled on plates that nobody rapped"),
            (unremoved_kg, "ash fell into hoppers that nobody emptied"),
            (stack_kg, "dust left through the stack"),
        ];
        let line = |amount: String, text: &str| format!("{amount}: {text}");
        let there = |(amount, _): &(f64, &str)| *amount > 0.0;
        let mut lines: Vec<String> = (times.into_iter().filter(there))
            .map(|(amount_s, text)| line(time(amount_s), text))
            .collect();
        if lit_unpurged > 0 {
            let text = "a fire was lit into gas that was not purged";
            lines.push(line(format!("{lit_unpurged} ×"), text));
        }
        let masses = masses.into_iter().filter(there);
        lines.extend(masses.map(|(amount_kg, text)| line(mass(amount_kg), text)));
        lines
    }
}
