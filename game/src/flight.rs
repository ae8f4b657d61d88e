//! The machine in the engine: steps at a fixed rate, commands between them.

use ashlane_panels::{
    faults::{FaultSwitch, FaultsView},
    view::{ClockView, FlightView},
};
use ashlane_shared::{
    alarms::{AlarmCommand, AlarmError, Annunciator},
    conditions::{self, Conditions},
    machine::Machine,
    physics::PhysicsError,
    simulation::{Clock, Command, CommandError, Frame},
};
use bevy::prelude::*;

use crate::{alarms::Alarms, faults::Faults};

/// Fixed ticks a second; four steps each at speed 1.
pub(crate) const TICKS_PER_S: f64 = 60.0;
const STEPS_PER_TICK: f64 = 4.0;
/// Ticks after which a field that nobody has solved is solved on the spot.
const MOST_WAITED: u32 = 600;
/// Steps after which a record that is not at its end is shown as it is: half a minute of flight.
const MOST_RECORD_STEPS: u32 = 7200;
/// Seed of the drawn stream.
const SEED: u64 = 1;

/// Adds the fixed rate and the system that flies the dust.
pub(crate) fn plugin(app: &mut App) {
    app.insert_resource(Time::<Fixed>::from_hz(TICKS_PER_S))
        .add_systems(FixedUpdate, advance);
}

/// The running machine.
#[derive(Resource, Debug)]
pub(crate) struct Flight {
    machine: Machine,
    faults: Faults,
    alarms: Alarms,
    /// Whether it runs.
    pub(crate) running: bool,
    /// Speed over the usual.
    pub(crate) speed: f64,
    /// Steps due, below one.
    due: f64,
    /// Counts changes of the conditions.
    generation: u64,
    /// Ticks for which a field or rates have been waited for.
    waited: u32,
}

impl Flight {
    /// A flight under these conditions.
    pub(crate) fn new(conditions: Conditions) -> Result<Self, PhysicsError> {
        let machine = Machine::new(conditions.clone(), SEED)?;
        Ok(Self {
            machine,
            faults: Faults::none(conditions, SEED),
            alarms: Alarms::default(),
            running: true,
            speed: 1.0,
            due: 0.0,
            generation: 0,
            waited: 0,
        })
    }

    /// The present moment.
    pub(crate) fn frame(&self) -> Frame<'_> {
        self.machine.frame()
    }

    /// The machine.
    pub(crate) fn machine(&self) -> &Machine {
        &self.machine
    }

    /// The machine, to hand rates to.
    pub(crate) fn machine_mut(&mut self) -> &mut Machine {
        &mut self.machine
    }

    /// The conditions that hold: those of the controls, struck by the faults that are on.
    pub(crate) fn conditions(&self) -> &Conditions {
        self.machine.conditions()
    }

    /// What sheet and controls say; no fault is in it.
    pub(crate) fn controls(&self) -> &Conditions {
        self.faults.base()
    }

    /// The faults that are set, for the trainer's panel.
    pub(crate) fn faults(&self) -> FaultsView<'_> {
        FaultsView {
            set: self.faults.set(),
            field: self.faults.field(),
            now_s: self.machine.plant_time_s(),
        }
    }

    /// The alarms of this collector.
    pub(crate) fn alarms(&self) -> &Annunciator {
        self.alarms.annunciator()
    }

    /// Does what the operator says of alarms; the machine does not notice.
    ///
    /// # Errors
    /// No such alarm, a time on the shelf that is not possible.
    pub(crate) fn answer(&mut self, command: AlarmCommand) -> Result<(), AlarmError> {
        self.alarms.apply(command)
    }

    /// Why the alarms cannot read their instruments.
    pub(crate) fn alarm_trouble(&self) -> Option<&str> {
        self.alarms.trouble()
    }

    /// The state as one number: the same bits give the same number.
    pub(crate) fn digest(&self) -> u64 {
        self.machine.digest()
    }

    /// As the panels show it.
    pub(crate) fn view(&self) -> FlightView {
        FlightView {
            waits_for_field: self.running && self.machine.flight().waits_for_field(),
            field_before: !self.running && self.machine.flight().has_field_before(),
            clock: ClockView {
                asked: self.machine.clock(),
                runs: self.machine.runs(),
                time_s: self.machine.plant_time_s(),
                counts_rates: self.machine.wanted_rates().is_some(),
            },
            ..FlightView::new(&self.frame(), self.running, self.speed())
        }
    }

    /// Why the field of the present conditions could not be solved.
    pub(crate) fn field_trouble(&self) -> Option<String> {
        let trouble = self.machine.flight().field_trouble();
        trouble.map(ToString::to_string)
    }

    /// Steps a tick over the usual: on the plant clock the drawn dust flies at ×1, whatever its own speed.
    fn speed(&self) -> f64 {
        match self.machine.clock() {
            Clock::Flight => self.speed,
            Clock::Plant { .. } => 1.0,
        }
    }

    /// A number that changes with every change of the conditions.
    pub(crate) fn generation(&self) -> u64 {
        self.generation
    }

    /// Applies a command between steps. Conditions are those of the controls; the faults that are on strike them.
    ///
    /// A refusal leaves everything as it was.
    pub(crate) fn apply(&mut self, command: Command) -> Result<(), CommandError> {
        if let Command::Conditions(wanted) = command {
            conditions::check(&wanted).map_err(CommandError::Conditions)?;
            let time_s = self.machine.plant_time_s();
            self.hold(self.faults.strike(&wanted, time_s)?)?;
            self.faults.take_base(*wanted);
            return Ok(());
        }
        self.machine.apply(command)?;
        // A restart turns the plant's time back to where no fault was on yet.
        self.keep_up();
        Ok(())
    }

    /// From now on these faults are set, and no others; a refusal leaves those as they were.
    pub(crate) fn set_faults(&mut self, set: Vec<FaultSwitch>) -> Result<(), CommandError> {
        let time_s = self.machine.plant_time_s();
        self.hold(self.faults.strike_with(&set, time_s)?)?;
        self.faults.take_set(set, time_s);
        Ok(())
    }

    /// A lesson has its own collector, and no fault that it does not know of.
    pub(crate) fn leave_faults_out(&mut self, left_out: bool) {
        self.faults.leave_out(left_out);
        self.keep_up();
    }

    /// Why a fault could not strike when it was due, once.
    pub(crate) fn take_fault_trouble(&mut self) -> Option<String> {
        self.faults.take_trouble()
    }

    /// Faults strike when the plant's time gets to them.
    fn keep_up(&mut self) {
        let time_s = self.machine.plant_time_s();
        if !self.faults.turn_at(time_s) {
            return;
        }
        let struck = self.faults.strike(self.faults.base(), time_s);
        let done = struck
            .map_err(CommandError::from)
            .and_then(|struck| self.hold(struck));
        match done {
            Ok(()) => self.faults.turned(time_s),
            Err(error) => self.faults.refuse(time_s, &error.to_string()),
        }
    }

    /// These conditions hold from the next step on; the machine keeps them in its log.
    fn hold(&mut self, wanted: Conditions) -> Result<(), CommandError> {
        if wanted == *self.machine.conditions() {
            return Ok(());
        }
        self.machine.apply(Command::Conditions(Box::new(wanted)))?;
        self.generation += 1;
        Ok(())
    }

    /// Takes over machine and faults of another flight; running and speed stay.
    pub(crate) fn replace_with(&mut self, other: Self) {
        self.machine = other.machine;
        self.faults = other.faults;
        self.alarms = other.alarms;
        self.due = 0.0;
        self.generation += 1;
    }

    /// Takes steps at once.
    pub(crate) fn step(&mut self, steps: u64) {
        for _ in 0..steps {
            self.keep_up();
            self.machine.step();
            let asked = self.faults.base();
            self.alarms.watch(&self.machine, asked, self.generation);
        }
    }
}

impl Flight {
    /// Flies on until the followed grain is caught or has left, if one is followed.
    pub(crate) fn finish_record(&mut self) {
        let open = |flight: &Self| {
            let followed = flight.frame().followed();
            followed.is_some_and(|grain| grain.fate.is_none())
        };
        for _ in 0..MOST_RECORD_STEPS {
            if !open(self) {
                return;
            }
            self.step(1);
        }
    }
}

fn advance(mut flight: ResMut<Flight>) {
    if !flight.running {
        return;
    }
    flight.due += STEPS_PER_TICK * flight.speed();
    while flight.due >= 1.0 {
        // Others solve the field and count the rates; the frame does not stand still for them.
        if flight.machine.waits() && flight.waited < MOST_WAITED {
            flight.waited += 1;
            flight.due = 0.0;
            return;
        }
        flight.waited = 0;
        flight.due -= 1.0;
        flight.step(1);
    }
}
