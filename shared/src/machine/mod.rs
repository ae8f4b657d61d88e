//! The collector with its two clocks: dust that is drawn second by second, and layers, raps and hoppers by counted rates.
//!
//! There is one set of books. While the flight clock runs, the drawn dust moves them, and a blow shows its puff. While
//! the plant clock runs, rates move them, k times faster; the drawn dust flies on as illustration and books nothing, and
//! what was in the gas at the switch stays one account until the flight clock runs again.

mod order;
mod plates;
#[cfg(test)]
mod tests;
mod trend;

use std::borrow::Cow;

use crate::{
    conditions::Conditions,
    physics::{PhysicsError, rapping},
    plant::{HopperState, Plant, PlantReading, Rates, Returned},
    simulation::{
        Clock, Command, CommandError, Digest, FIELD_DELAY_STEPS, FieldState, Flown, Frame, Ledger,
        LoggedCommand, PLANT_TIMES, Simulation, TIME_STEP_S, electrics_are_ready,
    },
};

pub use order::RateOrder;
use plates::Plates;
pub use plates::{FallenSheet, FieldPlates, Turn};
use trend::Trend;
pub use trend::{TREND_EVERY_S, TREND_READINGS};

/// A drawn flight and a plant with one set of books.
///
/// Conditions, seed and log are a recording: one step of the flight is one step of the machine whichever clock runs, and
/// new rates take over so many steps after their command as a new field does.
///
/// # Source
/// `design.md` 2.4; mass balance.
///
/// # Validity
/// The flight sends a steady share of what it catches back into the gas, which stands for all raps; a blow on the
/// flight clock comes on top. While a collector of another shape is being worked out, 1/8 s, what is caught is taken
/// away.
#[derive(Debug)]
pub struct Machine {
    flight: Simulation,
    plant: Plant,
    /// The same collector as at its start.
    clean: Plant,
    clock: Clock,
    /// Conditions that the plant knows.
    known: Conditions,
    /// Whether it has rates of these.
    has_rates: bool,
    /// Whether the flight's collector has another shape than the plant's.
    outgrown: bool,
    /// Step before which the plant takes over the present conditions.
    due: Option<u64>,
    /// Rates that somebody has counted, until they are due.
    offered: Option<(RateOrder, Rates)>,
    /// Fields to be struck once there are plates again.
    blows: Vec<usize>,
    /// Time of the plant since which the present conditions hold, s.
    steady_since_s: f64,
    trend: Trend,
    plates: Plates,
    trouble: Option<PhysicsError>,
    rate_parcels: usize,
}

impl Machine {
    /// An empty collector under these conditions, on the flight clock.
    ///
    /// # Errors
    /// A formula refused the conditions; the message names which argument.
    pub fn new(conditions: Conditions, seed: u64) -> Result<Self, PhysicsError> {
        let flight = Simulation::new(conditions.clone(), seed)?;
        let clean = Plant::new(&conditions, unknown_rates(&flight))?;
        Ok(Self {
            flight,
            plant: clean.clone(),
            clean,
            clock: Clock::Flight,
            known: conditions,
            has_rates: false,
            outgrown: false,
            due: None,
            offered: None,
            blows: Vec::new(),
            steady_since_s: 0.0,
            trend: Trend::default(),
            plates: Plates::default(),
            trouble: None,
            rate_parcels: order::PARCELS,
        })
    }

    /// The same, whose rates are counted with so many parcels.
    #[must_use]
    pub fn with_rate_parcels(mut self, parcels: usize) -> Self {
        self.rate_parcels = parcels;
        self
    }

    /// The same, with about so many grains of the drawn flight in the gas at a time.
    ///
    /// # Errors
    /// As [`Self::new`].
    pub fn with_drawn(mut self, grains: usize) -> Result<Self, PhysicsError> {
        self.flight = self.flight.with_drawn(grains)?;
        Ok(self)
    }

    /// Runs a recording on a fresh machine: the same conditions, seed and log give the same bits.
    ///
    /// # Errors
    /// A logged command does not apply.
    pub fn replayed(mut self, log: &[LoggedCommand], steps: u64) -> Result<Self, CommandError> {
        let mut log = log.iter().peekable();
        loop {
            while let Some(logged) = log.next_if(|logged| logged.step <= self.steps()) {
                self.apply(logged.command.clone())?;
            }
            if self.steps() >= steps {
                return Ok(self);
            }
            self.step();
        }
    }

    /// Takes one step of 1/240 s of the flight, whichever clock runs.
    pub fn step(&mut self) {
        if self.due.is_some_and(|due| due <= self.steps()) {
            self.due = None;
            self.trouble = self.take_over().err();
        }
        self.flight.step();
        let flown = self.flight.take_flown();
        let done = match self.runs() {
            Clock::Plant { times } => self.plant.run(times * TIME_STEP_S),
            Clock::Flight => self.fly(flown),
        };
        if let Err(error) = done.and_then(|()| self.look()) {
            self.leave_plant_clock();
            self.trouble = Some(error);
        }
        debug_assert!(self.ledger().imbalance() < 1e-9, "{:?}", self.ledger());
    }

    /// Whether the next step has to wait until a field is solved or rates are counted.
    ///
    /// [`Self::step`] would do both itself; who must not stand still has them done elsewhere and asks again.
    #[must_use]
    pub fn waits(&self) -> bool {
        let due = self.due.is_some_and(|due| due <= self.steps());
        let missing = || !electrics_are_ready(self.conditions()) || self.wanted_rates().is_some();
        self.flight.waits_for_field() || (due && missing())
    }

    /// Rates that are needed and that nobody has offered yet.
    #[must_use]
    pub fn wanted_rates(&self) -> Option<RateOrder> {
        if self.clock == Clock::Flight || self.due.is_none() {
            return None;
        }
        let order = self.rate_order();
        let there = self.offered.as_ref().is_some_and(|(of, _)| *of == order);
        (!there && !self.has_rates_of_now()).then_some(order)
    }

    /// What rates of the present conditions are counted by.
    #[must_use]
    pub fn rate_order(&self) -> RateOrder {
        RateOrder::new(self.conditions(), self.rate_parcels, self.flight.seed())
    }

    /// Hands in rates that were counted by this order; they take over when they are due, not before.
    pub fn offer_rates(&mut self, order: RateOrder, rates: Rates) {
        self.offered = Some((order, rates));
    }

    /// Applies a command between two steps and keeps it in the log.
    ///
    /// # Errors
    /// Impossible conditions, a clock or a field that there is not; nothing is changed then.
    pub fn apply(&mut self, command: Command) -> Result<(), CommandError> {
        match command {
            Command::Clock(clock) => {
                self.turn_to(clock)?;
                self.flight.note(command);
            }
            Command::RapNow { field } => {
                self.rap_now(field)?;
                self.flight.note(command);
            }
            Command::Restart => {
                self.flight.apply(command)?;
                self.plant = self.clean.clone();
                self.blows.clear();
                self.trend.forget();
                self.plates.forget();
                self.steady_since_s = 0.0;
            }
            Command::Conditions(_) => self.change(command)?,
            Command::Follow(_) => self.flight.apply(command)?,
        }
        Ok(())
    }

    /// The present moment, with the books of the whole machine.
    #[must_use]
    pub fn frame(&self) -> Frame<'_> {
        let mut frame = self.flight.frame();
        frame.ledger = self.ledger();
        frame
    }

    /// The drawn flight.
    #[must_use]
    pub fn flight(&self) -> &Simulation {
        &self.flight
    }

    /// The conditions that hold.
    #[must_use]
    pub fn conditions(&self) -> &Conditions {
        self.flight.frame().conditions()
    }

    /// The books.
    #[must_use]
    pub fn ledger(&self) -> &Ledger {
        self.plant.ledger()
    }

    /// The clock that was asked for last.
    #[must_use]
    pub fn clock(&self) -> Clock {
        self.clock
    }

    /// The clock that moves the books: the plant clock runs from when its rates are there.
    #[must_use]
    pub fn runs(&self) -> Clock {
        if self.has_rates && !self.outgrown {
            self.clock
        } else {
            Clock::Flight
        }
    }

    /// Time of the layers and hoppers since they were clean, s.
    #[must_use]
    pub fn plant_time_s(&self) -> f64 {
        self.plant.time_s()
    }

    /// The rows of hoppers at this moment.
    ///
    /// # Errors
    /// A formula refused the state.
    pub fn hoppers(&self) -> Result<Vec<HopperState>, PhysicsError> {
        self.plant.hoppers()
    }

    /// What the meters of the sets show now: of the flight, or while the plant clock runs of the plant with its layers.
    #[must_use]
    pub fn meters(&self) -> Cow<'_, [FieldState]> {
        let solved = self.flight.frame().fields();
        match self.runs() {
            Clock::Flight => Cow::Borrowed(solved),
            Clock::Plant { .. } => Cow::Owned(self.plant.meters(solved)),
        }
    }

    /// What the instruments of the plant showed every [`TREND_EVERY_S`], the last week of it; nothing before the plant
    /// clock has run.
    #[must_use]
    pub fn trend(&self) -> &[PlantReading] {
        self.trend.readings()
    }

    /// The plates of every field at the drawn passage; nothing while a collector of another shape is being worked out.
    #[must_use]
    pub fn plates(&self) -> &[FieldPlates] {
        self.plates.fields()
    }

    /// Why the plant did not take over the present conditions, or stopped.
    #[must_use]
    pub fn trouble(&self) -> Option<&PhysicsError> {
        self.trouble.as_ref()
    }

    /// Dust that the drawn flight has in the gas, kg.
    #[must_use]
    pub fn flying_kg(&self) -> f64 {
        self.flight.airborne_kg()
    }

    /// Commands applied so far.
    #[must_use]
    pub fn log(&self) -> &[LoggedCommand] {
        self.flight.log()
    }

    /// Steps taken so far.
    #[must_use]
    pub fn steps(&self) -> u64 {
        self.flight.frame().step()
    }

    /// A number that changes with every bit of the state: the flight's, and layers, hoppers and books of the plant.
    #[must_use]
    pub fn digest(&self) -> u64 {
        let mut digest = Digest::new();
        digest.add(self.flight.digest());
        self.plant
            .bits()
            .into_iter()
            .for_each(|bits| digest.add(bits));
        if let Clock::Plant { times } = self.runs() {
            digest.add(times.to_bits());
        }
        self.plates.add_to(&mut digest);
        digest.value()
    }

    fn turn_to(&mut self, clock: Clock) -> Result<(), CommandError> {
        let Clock::Plant { times } = clock else {
            self.leave_plant_clock();
            return Ok(());
        };
        if !(PLANT_TIMES.0..=PLANT_TIMES.1).contains(&times) {
            return Err(CommandError::Times { times });
        }
        self.clock = clock;
        if !self.has_rates_of_now() {
            self.due = Some(self.steps() + FIELD_DELAY_STEPS);
        }
        Ok(())
    }

    /// From the plant clock to the flight clock: the dust in the gas is the drawn dust again.
    fn leave_plant_clock(&mut self) {
        self.land();
        self.clock = Clock::Flight;
    }

    /// Time of the plant since which the present conditions hold, s; its present time until it knows them.
    #[must_use]
    pub fn steady_since_s(&self) -> f64 {
        if self.known == *self.conditions() {
            self.steady_since_s
        } else {
            self.plant_time_s()
        }
    }

    fn land(&mut self) {
        if self.runs() != Clock::Flight {
            self.plant.land(self.flight.airborne_kg());
        }
    }

    fn rap_now(&mut self, field: usize) -> Result<(), CommandError> {
        let fields = self.conditions().collector.fields;
        if field >= fields {
            return Err(CommandError::NoField { field, fields });
        }
        self.leave_plant_clock();
        if self.outgrown {
            self.blows.push(field);
            return Ok(());
        }
        Ok(self.plant.rap_now(field)?)
    }

    /// The puff of a blow flies, and its sheet falls.
    fn show(&mut self, blow: Returned) -> Result<(), PhysicsError> {
        let conditions = self.conditions();
        let duration_s = rapping::puff_duration_s(
            conditions.collector.plate_height_m,
            conditions.collector.field_length_m,
            conditions.gas_velocity_m_s(),
        )?;
        let (step, conditions) = (self.steps(), self.flight.frame().conditions());
        if let Some(plate) = self.plates.struck(&blow, step, conditions)? {
            self.flight.fell(blow.field, plate == 0);
        }
        if blow.back_kg > 0.0 {
            self.flight
                .puff(blow.field as u32, blow.back_kg, duration_s);
        }
        Ok(())
    }

    fn change(&mut self, command: Command) -> Result<(), CommandError> {
        let before = (self.conditions().collector.fields, self.flight.classes());
        self.flight.apply(command)?;
        let now = (self.conditions().collector.fields, self.flight.classes());
        if now != before {
            self.land();
            self.outgrown = true;
            self.trend.forget();
            self.plates.forget();
            self.blows.clear();
        }
        self.due = Some(self.steps() + FIELD_DELAY_STEPS);
        Ok(())
    }

    /// The drawn dust moves the books.
    fn fly(&mut self, flown: Flown) -> Result<(), PhysicsError> {
        if self.outgrown {
            self.plant.lay_nowhere(&flown);
            return Ok(());
        }
        for blow in self.plant.fly(TIME_STEP_S, flown)? {
            self.show(blow)?;
        }
        Ok(())
    }

    /// Looks at the plates, and reads the instruments when it is time.
    fn look(&mut self) -> Result<(), PhysicsError> {
        if !self.outgrown {
            let fields = self.conditions().collector.fields;
            self.plates.look(&self.plant, fields)?;
        }
        if self.has_rates && !self.outgrown && self.plant.time_s() >= self.trend.next_s() {
            self.trend.read(&mut self.plant)?;
        }
        Ok(())
    }

    fn has_rates_of_now(&self) -> bool {
        self.has_rates && !self.outgrown && self.known == *self.conditions()
    }

    /// The plant takes over the present conditions, and on the plant clock their rates.
    fn take_over(&mut self) -> Result<(), PhysicsError> {
        if self.has_rates_of_now() {
            return Ok(());
        }
        let rates = match self.clock {
            Clock::Flight => None,
            Clock::Plant { .. } => Some(self.count()?),
        };
        let has_rates = rates.is_some();
        let conditions = self.conditions().clone();
        let rates = rates.unwrap_or_else(|| unknown_rates(&self.flight));
        if self.outgrown {
            self.clean = Plant::new(&conditions, rates)?;
            self.plant = self.plant.replaced_by(self.clean.clone());
            self.outgrown = false;
        } else {
            self.clean.change(&conditions, rates.clone())?;
            self.plant.change(&conditions, rates)?;
        }
        self.known = conditions;
        self.steady_since_s = self.plant.time_s();
        self.has_rates = has_rates;
        for field in std::mem::take(&mut self.blows) {
            self.plant.rap_now(field)?;
        }
        Ok(())
    }

    fn count(&mut self) -> Result<Rates, PhysicsError> {
        let order = self.rate_order();
        match self.offered.take() {
            Some((of, rates)) if of == order => Ok(rates),
            _ => Ok(order
                .count(|_| true)?
                .unwrap_or_else(|| unknown_rates(&self.flight))),
        }
    }
}

/// Rates of no dust, until there are better ones.
fn unknown_rates(flight: &Simulation) -> Rates {
    Rates::unknown(
        flight.frame().conditions().collector.fields,
        flight.classes(),
    )
}
