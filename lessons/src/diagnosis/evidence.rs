//! Runs the machine of a case and a sound one beside it on the plant clock, for checks to read.

use ashlane_shared::{
    conditions::Conditions,
    machine::Machine,
    physics::PhysicsError,
    plant::{FieldReading, PlantReading},
    side_by_side,
    simulation::{Clock, Command, FieldState, GasAlong, TIME_STEP_S, gas_along},
};

use super::{CHECKS, Case, Check, Finding, Signs, readings::Number};

/// How many times faster the plant clock runs: 2.5 minutes a step.
const TIMES: f64 = 36_000.0;
/// Parcels of the rates, and grains that are drawn beside: nobody looks at these.
const RATE_PARCELS: usize = 12_000;
const DRAWN: usize = 100;
/// Seed of the machines: the same, so that what differs is the fault.
const SEED: u64 = 1;
const HOUR_S: f64 = 3600.0;

/// What one machine has shown.
#[derive(Clone, Debug)]
pub struct Shown {
    /// Conditions that held in it.
    pub conditions: Conditions,
    /// What its instruments showed every ten minutes.
    pub trend: Vec<PlantReading>,
    /// What its meters show at the end.
    pub meters: Vec<FieldState>,
    /// The gas along its way.
    pub gas: GasAlong,
    /// What every check reads, in the order of [`CHECKS`].
    numbers: Vec<Vec<Number>>,
}

impl Shown {
    /// Runs a machine under these conditions for so many hours of the plant.
    ///
    /// # Errors
    /// A formula refused the conditions or the state.
    pub fn after(holds: &Conditions, hours: f64) -> Result<Self, PhysicsError> {
        let machine = Machine::new(holds.clone(), SEED)?.with_rate_parcels(RATE_PARCELS);
        let mut machine = machine.with_drawn(DRAWN)?;
        let clock = Command::Clock(Clock::Plant { times: TIMES });
        machine.apply(clock).map_err(|error| impossible(&error))?;
        // The rates take over a little later; a fault of the machine stops its clock.
        let steps = (hours * HOUR_S / (TIMES * TIME_STEP_S)).ceil() as u64 + 60;
        while machine.plant_time_s() < hours * HOUR_S && machine.steps() < steps {
            machine.step();
        }
        if let Some(trouble) = machine.trouble() {
            return Err(trouble.clone());
        }
        let mut shown = Self {
            trend: machine.trend().to_vec(),
            meters: machine.meters().into_owned(),
            gas: gas_along(holds)?,
            conditions: holds.clone(),
            numbers: Vec::new(),
        };
        shown.numbers = CHECKS
            .iter()
            .map(|check| (check.read)(&shown))
            .collect::<Result<_, _>>()?;
        Ok(shown)
    }

    /// What a check reads.
    fn numbers(&self, check: &Check) -> &[Number] {
        let place = CHECKS.iter().position(|row| row.key == check.key);
        let numbers = place.and_then(|place| self.numbers.get(place));
        numbers.map_or(&[], Vec::as_slice)
    }

    /// The last reading of every field.
    #[must_use]
    pub fn fields(&self) -> &[FieldReading] {
        self.trend.last().map_or(&[], |last| &last.fields)
    }

    /// Plate area of one field, m².
    #[must_use]
    pub fn field_area_m2(&self) -> f64 {
        self.conditions.collecting_area_m2() / self.conditions.collector.fields as f64
    }
}

/// The machine of a case beside a sound one.
#[derive(Clone, Debug)]
pub struct Evidence {
    /// The field that is struck, from 0.
    pub place: usize,
    /// The sound machine.
    pub sound: Shown,
    /// That of the case.
    pub ill: Shown,
}

impl Evidence {
    /// Runs both machines of a case; `sound` are the conditions without the fault.
    ///
    /// # Errors
    /// A formula refused the conditions.
    pub fn of(case: &Case, sound: &Conditions) -> Result<Self, PhysicsError> {
        let holds = case.holds(sound)?;
        let both = side_by_side(&[sound, &holds], |&conditions| {
            Shown::after(conditions, case.hours)
        });
        let Ok([usual, ill]) = <[_; 2]>::try_from(both) else {
            return Err(PhysicsError::Impossible {
                reason: "a machine was lost on its way".to_owned(),
            });
        };
        Ok(Self {
            place: case.place(sound),
            sound: usual?,
            ill: ill?,
        })
    }

    /// The same, where the sound machine has run already, or where another cause holds.
    ///
    /// # Errors
    /// A formula refused the conditions.
    pub fn beside(
        usual: Shown,
        holds: &Conditions,
        case: &Case,
        sound: &Conditions,
    ) -> Result<Self, PhysicsError> {
        Ok(Self {
            place: case.place(sound),
            sound: usual,
            ill: Shown::after(holds, case.hours)?,
        })
    }

    /// What of it is a sign: of some checks only the struck field and the collector as a whole.
    #[must_use]
    pub fn signs(&self, check: &Check) -> Vec<Finding> {
        let mut findings = self.reveals(check);
        if check.signs == Signs::Own {
            findings.retain(|finding| finding.field.is_none_or(|field| field == self.place));
        }
        findings
    }

    /// What a check reveals.
    #[must_use]
    pub fn reveals(&self, check: &Check) -> Vec<Finding> {
        let (usual, shows) = (self.sound.numbers(check), self.ill.numbers(check));
        let findings = shows.iter().zip(usual).map(|(shows, usual)| Finding {
            what: shows.what,
            field: shows.field,
            shows: shows.value,
            usual: usual.value,
            dimension: check.dimension,
            fine: check.fine,
            share: check.share,
        });
        findings.collect()
    }
}

fn impossible(error: &dyn std::fmt::Display) -> PhysicsError {
    PhysicsError::Impossible {
        reason: error.to_string(),
    }
}
