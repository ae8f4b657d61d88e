//! The alarms of the flown collector: they look at its instruments after its steps, and the operator answers them.
//!
//! They change no physics and no conditions. What the operator asks of the sets is what the controls say, so a set that a
//! fault has taken off calls and one that was switched off does not.

use ashlane_shared::{
    alarms::{AlarmCommand, AlarmError, Annunciator, Instruments},
    conditions::Conditions,
    machine::Machine,
    physics::PhysicsError,
    simulation::{GasAlong, gas_along},
};

use bevy::prelude::*;

use crate::{flight::Flight, session::Session};

/// Adds the system that tells of instruments that cannot be read.
pub(crate) fn plugin(app: &mut App) {
    app.add_systems(Update, tell_trouble);
}

/// Time of the plant between two looks, s: on the plant clock every step is longer.
const EVERY_S: f64 = 1.0;

/// The alarms, and the gas that their meters stand in.
#[derive(Debug, Default)]
pub(crate) struct Alarms {
    annunciator: Annunciator,
    /// The gas along its way, and the generation of the conditions that it is of.
    gas: Option<(u64, GasAlong)>,
    looked_s: Option<f64>,
    /// Why the instruments could not be read last time.
    trouble: Option<String>,
}

impl Alarms {
    /// As they are now.
    pub(crate) fn annunciator(&self) -> &Annunciator {
        &self.annunciator
    }

    /// Does what the operator says.
    ///
    /// # Errors
    /// No such alarm, a time on the shelf that is not possible.
    pub(crate) fn apply(&mut self, command: AlarmCommand) -> Result<(), AlarmError> {
        self.annunciator.apply(command)
    }

    /// Looks at the instruments when it is time; a machine that was started anew is looked at at once. What cannot be
    /// read leaves the alarms as they were, and is told.
    pub(crate) fn watch(&mut self, machine: &Machine, asked: &Conditions, generation: u64) {
        let time_s = machine.plant_time_s();
        let soon = |looked_s: f64| (looked_s..looked_s + EVERY_S).contains(&time_s);
        if self.looked_s.is_some_and(soon) {
            return;
        }
        self.looked_s = Some(time_s);
        self.trouble = match self.look(machine, asked, generation) {
            Ok(()) => None,
            Err(error) => Some(error.to_string()),
        };
    }

    fn look(
        &mut self,
        machine: &Machine,
        asked: &Conditions,
        generation: u64,
    ) -> Result<(), PhysicsError> {
        if self.gas.as_ref().is_none_or(|(of, _)| *of != generation) {
            self.gas = Some((generation, gas_along(machine.conditions())?));
        }
        let gas = self.gas.as_ref().map(|(_, gas)| gas);
        self.annunciator
            .look(&Instruments::of(machine, asked, gas)?);
        Ok(())
    }

    /// Why the instruments could not be read last time.
    pub(crate) fn trouble(&self) -> Option<&str> {
        self.trouble.as_deref()
    }
}

/// Says once why the alarms cannot read their instruments.
fn tell_trouble(
    flight: Res<Flight>,
    mut session: ResMut<Session>,
    mut told: Local<Option<String>>,
) {
    let trouble = flight.alarm_trouble();
    if told.as_deref() != trouble {
        if let Some(trouble) = trouble {
            session.complain(format!("Alarms: {trouble}"));
        }
        *told = trouble.map(ToOwned::to_owned);
    }
}

/// What the operator says; a refusal is told.
pub(crate) fn tell(command: AlarmCommand, flight: &mut Flight, session: &mut Session) {
    if let Err(error) = flight.answer(command) {
        session.complain(error.to_string());
    }
}

#[cfg(test)]
mod tests {
    use ashlane_panels::faults::FaultSwitch;
    use ashlane_shared::{
        alarms::{AlarmState, Tag},
        conditions::{Mixing, demonstration},
        simulation::{Clock, Command},
    };

    use super::*;

    const SHORT: Tag = Tag {
        key: "field-short",
        field: Some(1),
    };

    fn flight() -> Flight {
        let mut conditions = demonstration();
        conditions.teaching.migration_velocity_m_s = Some(0.09);
        conditions.teaching.mixing = Some(Mixing::Full);
        Flight::new(conditions).expect("possible")
    }

    fn short(flight: &mut Flight) {
        let fault = FaultSwitch {
            name: "dead-short",
            severity: 1.0,
            from_s: 0.0,
            field: 1,
        };
        flight.set_faults(vec![fault]).expect("possible");
    }

    fn state(flight: &Flight, tag: Tag) -> AlarmState {
        let mut points = flight.alarms().points();
        points.find(|point| point.tag == tag).expect("there").state
    }

    /// Seen to fail with the look taken once a call instead of once a step.
    #[test]
    fn the_same_steps_and_answers_give_the_same_alarms_however_they_are_cut_into_frames() {
        let run = |frame: u64| {
            let mut flight = flight();
            let digest_before = flight.digest();
            short(&mut flight);
            let clock = Command::Clock(Clock::Plant { times: 3600.0 });
            flight.apply(clock).expect("possible");
            for part in 0..4 {
                for _ in 0..240 / frame {
                    flight.step(frame);
                }
                let answer = match part {
                    0 => AlarmCommand::Acknowledge(SHORT),
                    1 => AlarmCommand::Shelve {
                        tag: SHORT,
                        minutes: 30.0,
                    },
                    _ => AlarmCommand::Silence,
                };
                flight.answer(answer).expect("possible");
            }
            assert_ne!(digest_before, flight.digest());
            (flight.alarms().clone(), flight.digest())
        };
        let (alarms, digest) = run(1);
        assert!(alarms.changes().len() > 3, "{:?}", alarms.changes());
        for frame in [8, 240] {
            assert_eq!(
                run(frame),
                (alarms.clone(), digest),
                "{frame} steps a frame"
            );
        }
    }

    #[test]
    fn answers_change_nothing_of_the_machine() {
        let (mut one, mut other) = (flight(), flight());
        for flight in [&mut one, &mut other] {
            short(flight);
            flight.step(300);
        }
        assert_eq!(state(&one, SHORT), AlarmState::Unacknowledged);
        one.answer(AlarmCommand::Acknowledge(SHORT)).expect("there");
        assert_eq!(state(&one, SHORT), AlarmState::Acknowledged);
        one.step(300);
        other.step(300);
        assert_eq!(one.digest(), other.digest());
        assert_eq!(one.machine().log().len(), other.machine().log().len());
    }

    /// Seen to fail with the struck conditions taken for what was asked.
    #[test]
    fn a_set_that_a_fault_takes_off_calls() {
        let mut flight = flight();
        let fault = FaultSwitch {
            name: "supply-lost",
            severity: 1.0,
            from_s: 0.0,
            field: 2,
        };
        flight.set_faults(vec![fault]).expect("possible");
        flight.step(300);
        let dead = Tag {
            key: "set-dead",
            field: Some(2),
        };
        assert_eq!(state(&flight, dead), AlarmState::Unacknowledged);
    }

    #[test]
    fn a_set_that_is_switched_off_calls_nobody_and_a_restart_forgets() {
        let mut flight = flight();
        let mut wanted = flight.controls().clone();
        wanted.electrical.voltage_v[2] = 0.0;
        let command = Command::Conditions(Box::new(wanted));
        flight.apply(command).expect("possible");
        flight.step(300);
        let dead = Tag {
            key: "set-dead",
            field: Some(2),
        };
        assert_eq!(state(&flight, dead), AlarmState::SuppressedByDesign);
        assert!(flight.alarms().announced().is_empty());
        short(&mut flight);
        flight.step(300);
        assert_eq!(flight.alarms().announced().len(), 1);
        flight.set_faults(Vec::new()).expect("possible");
        flight.step(300);
        let short = state(&flight, SHORT);
        assert_eq!(short, AlarmState::ReturnedUnacknowledged);
        flight.apply(Command::Restart).expect("always");
        flight.step(60);
        assert!(flight.alarms().announced().is_empty());
    }
}
