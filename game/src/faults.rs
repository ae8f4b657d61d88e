//! The trainer's faults: what the user set, and what holds once the faults that are on have struck it.
//!
//! Controls, sheet and lessons know what was set; the machine flies what holds. So nobody reads a fault off a control,
//! and no saved sheet has one in it.

use ashlane_panels::faults::FaultSwitch;
use ashlane_shared::{conditions::Conditions, physics::PhysicsError, simulation::struck_field};
use bevy::prelude::*;

use crate::{flight::Flight, session::Session};

/// Adds the system that tells of a fault that could not strike.
pub(crate) fn plugin(app: &mut App) {
    app.add_systems(Update, tell_trouble);
}

/// What the user set, and what the trainer did to it.
#[derive(Debug)]
pub(crate) struct Faults {
    /// What sheet and controls say.
    base: Conditions,
    /// Every fault that is set, whether it is due or not.
    set: Vec<FaultSwitch>,
    /// Those that have struck.
    acting: Vec<FaultSwitch>,
    /// Whether they are left out, as in a lesson.
    left_out: bool,
    /// The field is drawn with it, where nobody chooses one.
    seed: u64,
    /// Why one did not strike, until it is told.
    trouble: Option<String>,
}

impl Faults {
    /// Sound conditions.
    pub(crate) fn none(base: Conditions, seed: u64) -> Self {
        Self {
            base,
            set: Vec::new(),
            acting: Vec::new(),
            left_out: false,
            seed,
            trouble: None,
        }
    }

    /// What sheet and controls say.
    pub(crate) fn base(&self) -> &Conditions {
        &self.base
    }

    /// The faults that are set.
    pub(crate) fn set(&self) -> &[FaultSwitch] {
        &self.set
    }

    /// The field that a fault is set in at first, 0 for the first.
    pub(crate) fn field(&self) -> usize {
        struck_field(self.seed, self.base.collector.fields)
    }

    /// These conditions with the faults in them that hold at this time of the plant, s.
    ///
    /// # Errors
    /// A formula refused them.
    pub(crate) fn strike(
        &self,
        base: &Conditions,
        time_s: f64,
    ) -> Result<Conditions, PhysicsError> {
        struck(self.holding(time_s), base)
    }

    /// The same with another list of faults.
    ///
    /// # Errors
    /// A formula refused them.
    pub(crate) fn strike_with(
        &self,
        set: &[FaultSwitch],
        time_s: f64,
    ) -> Result<Conditions, PhysicsError> {
        if self.left_out {
            return Ok(self.base.clone());
        }
        struck(set.iter().filter(|set| set.from_s <= time_s), &self.base)
    }

    /// These conditions are set from now on.
    pub(crate) fn take_base(&mut self, base: Conditions) {
        self.base = base;
    }

    /// These faults are set from now on, and have struck where they are due.
    pub(crate) fn take_set(&mut self, set: Vec<FaultSwitch>, time_s: f64) {
        self.set = set;
        self.acting = self.due(time_s);
    }

    /// Leaves them out, or lets them act again.
    pub(crate) fn leave_out(&mut self, left_out: bool) {
        self.left_out = left_out;
    }

    /// Whether others hold at this time of the plant than have struck, s.
    pub(crate) fn turn_at(&self, time_s: f64) -> bool {
        let mut acting = self.acting.iter();
        !(self.holding(time_s).all(|set| acting.next() == Some(set)) && acting.next().is_none())
    }

    /// Those that hold at this time of the plant have struck, s.
    pub(crate) fn turned(&mut self, time_s: f64) {
        self.acting = self.due(time_s);
    }

    /// Those that were due just now could not strike: they are off, for this reason.
    pub(crate) fn refuse(&mut self, time_s: f64, why: &str) {
        let fresh: Vec<FaultSwitch> = self
            .holding(time_s)
            .filter(|set| !self.acting.contains(set))
            .copied()
            .collect();
        self.set.retain(|set| !fresh.contains(set));
        self.turned(time_s);
        // Whoever reads this must not learn what it was.
        self.trouble = Some(format!(
            "What was due at {:.2} h of the plant clock is left out. {why}",
            time_s / 3600.0
        ));
    }

    /// Why one did not strike, once.
    pub(crate) fn take_trouble(&mut self) -> Option<String> {
        self.trouble.take()
    }

    fn holding(&self, time_s: f64) -> impl Iterator<Item = &FaultSwitch> {
        let set = if self.left_out { &[] } else { &*self.set };
        set.iter().filter(move |set| set.from_s <= time_s)
    }

    fn due(&self, time_s: f64) -> Vec<FaultSwitch> {
        self.holding(time_s).copied().collect()
    }
}

/// Struck anew from the sound conditions, one fault after the other, so that one that is lifted leaves nothing behind.
fn struck<'a>(
    mut faults: impl Iterator<Item = &'a FaultSwitch>,
    base: &Conditions,
) -> Result<Conditions, PhysicsError> {
    faults.try_fold(base.clone(), |struck, fault| fault.strike(struck))
}

/// Says once why a fault did not strike when it was due.
fn tell_trouble(mut flight: ResMut<Flight>, mut session: ResMut<Session>) {
    if let Some(trouble) = flight.take_fault_trouble() {
        session.complain(trouble);
    }
}

#[cfg(test)]
mod tests {
    use ashlane_shared::{
        conditions::{Mixing, demonstration},
        machine::Machine,
        simulation::Command,
    };

    use super::*;

    /// The demonstration with one drift for all: quick to count.
    fn plain() -> Conditions {
        let mut conditions = demonstration();
        conditions.teaching.migration_velocity_m_s = Some(0.09);
        conditions.teaching.mixing = Some(Mixing::Full);
        conditions
    }

    fn flight(conditions: &Conditions) -> Flight {
        Flight::new(conditions.clone()).expect("possible")
    }

    fn switch(name: &'static str, from_s: f64) -> FaultSwitch {
        FaultSwitch {
            name,
            severity: 1.0,
            from_s,
            field: 1,
        }
    }

    /// Seen to fail with the controls read off the machine.
    #[test]
    fn controls_know_of_no_fault_and_one_that_is_lifted_leaves_nothing() {
        let sound = plain();
        let mut flight = flight(&sound);
        flight.step(5);
        let short = switch("dead-short", 0.0);
        flight.set_faults(vec![short]).expect("possible");
        assert!(flight.conditions().defects[1].leakage_s > 0.0);
        assert_eq!(*flight.controls(), sound);
        // A control that is turned meanwhile is turned for good.
        let mut wanted = sound.clone();
        wanted.gas.flow_m3_s = 120.0;
        let command = Command::Conditions(Box::new(wanted.clone()));
        flight.apply(command).expect("possible");
        assert_eq!(*flight.controls(), wanted);
        assert_eq!(flight.conditions().gas.flow_m3_s, 120.0);
        assert!(flight.conditions().defects[1].leakage_s > 0.0);
        flight.step(5);
        flight.set_faults(Vec::new()).expect("possible");
        assert_eq!(*flight.conditions(), wanted, "to the last bit");
    }

    #[test]
    fn a_fault_strikes_when_the_clock_gets_there_and_the_log_replays_to_the_same_bits() {
        let sound = plain();
        let mut flight = flight(&sound);
        let from_s = 0.5;
        let set = vec![switch("air-leak", from_s), switch("hard-rapping", 1e6)];
        flight.set_faults(set).expect("possible");
        assert_eq!(*flight.conditions(), sound, "too early");
        while flight.machine().plant_time_s() < from_s {
            assert_eq!(*flight.conditions(), sound, "too early");
            flight.step(1);
        }
        flight.step(1);
        assert!(flight.conditions().gas.in_leakage.inlet > sound.gas.in_leakage.inlet);
        assert_eq!(
            flight.conditions().rapping,
            sound.rapping,
            "the second is not due"
        );
        flight.step(100);
        flight.set_faults(Vec::new()).expect("possible");
        flight.step(100);
        let log = flight.machine().log();
        assert_eq!(log.len(), 2, "{log:?}");
        let fresh = Machine::new(sound, 1).expect("possible");
        let again = fresh.replayed(log, flight.machine().steps());
        assert_eq!(again.expect("applies").digest(), flight.digest());
    }

    #[test]
    fn after_a_restart_it_strikes_again_at_its_hour() {
        let sound = plain();
        let mut flight = flight(&sound);
        flight
            .set_faults(vec![switch("air-leak", 1.0)])
            .expect("possible");
        flight.step(250);
        assert_ne!(*flight.conditions(), sound);
        flight.apply(Command::Restart).expect("always");
        assert_eq!(*flight.conditions(), sound);
        flight.step(250);
        assert_ne!(*flight.conditions(), sound);
    }

    #[test]
    fn a_lesson_has_none_and_they_are_back_behind_it() {
        let sound = plain();
        let mut flight = flight(&sound);
        flight
            .set_faults(vec![switch("supply-lost", 0.0)])
            .expect("possible");
        flight.leave_faults_out(true);
        assert_eq!(*flight.conditions(), sound);
        flight.step(3);
        flight.leave_faults_out(false);
        assert_ne!(*flight.conditions(), sound);
    }

    /// Hammers at three quarters of what a sheet may say cannot strike twice as hard.
    #[test]
    fn what_cannot_strike_is_told_once_and_changes_nothing() {
        let mut hard = plain();
        hard.rapping.acceleration_m_s2 = 15_000.0;
        let mut flight = flight(&hard);
        let refused = flight.set_faults(vec![switch("hard-rapping", 0.0)]);
        let text = refused.expect_err("too hard").to_string();
        assert!(text.contains("rapping.acceleration"), "{text}");
        assert!(flight.faults().set.is_empty() && flight.machine().log().is_empty());
        // Its hour comes later: then it is told, and what was set beside it stays.
        let leak = switch("air-leak", 0.0);
        flight
            .set_faults(vec![leak, switch("hard-rapping", 0.1)])
            .expect("possible");
        let before = flight.conditions().clone();
        flight.step(60);
        let told = flight.take_fault_trouble().expect("told");
        assert!(
            told.contains("0.00 h") && told.contains("10 to 20000"),
            "{told}"
        );
        assert!(!told.contains("hard-rapping"), "{told}");
        flight.step(60);
        assert_eq!(flight.take_fault_trouble(), None);
        assert_eq!(
            (*flight.conditions() == before, flight.faults().set),
            (true, &[leak][..])
        );
    }

    #[test]
    fn a_control_that_would_be_impossible_with_the_fault_stays_where_it_was() {
        let sound = plain();
        let mut flight = flight(&sound);
        flight
            .set_faults(vec![switch("hard-rapping", 0.0)])
            .expect("possible");
        let before = (flight.conditions().clone(), flight.machine().log().len());
        let mut wanted = sound.clone();
        wanted.rapping.acceleration_m_s2 = 15_000.0;
        let refused = flight.apply(Command::Conditions(Box::new(wanted)));
        assert!(refused.is_err());
        assert_eq!(*flight.controls(), sound);
        assert_eq!(
            before,
            (flight.conditions().clone(), flight.machine().log().len())
        );
    }

    #[test]
    fn the_trend_is_steady_only_since_the_strike() {
        let mut flight = flight(&plain());
        flight.step(240);
        assert_eq!(flight.machine().steady_since_s(), 0.0);
        let now_s = flight.machine().plant_time_s();
        flight
            .set_faults(vec![switch("air-leak", 0.0)])
            .expect("possible");
        // Paused, nothing of what is there yet is steady under the new conditions.
        assert_eq!(flight.machine().steady_since_s(), now_s);
        flight.step(60);
        let since_s = flight.machine().steady_since_s();
        assert!(since_s > now_s && since_s < flight.machine().plant_time_s());
        flight.apply(Command::Restart).expect("always");
        flight.step(60);
        assert!(flight.machine().steady_since_s() <= flight.machine().plant_time_s());
    }
}
