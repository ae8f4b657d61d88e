//! The plant clock: hours and days of layers, rapping and hoppers in a moment, by rates that were counted beforehand.
//!
//! Between two events (a rap, an emptying) dust arrives at steady rates, so the clock goes from event to event and takes
//! no steps of its own: the answer does not depend on how often anybody looks. The grains of the flight are not flown.
//!
//! Not here yet: what the drop across the layers does to voltage and current.

mod beside_flight;
mod electric_layer;
mod layer;
mod rates;
mod reading;
mod row;
#[cfg(test)]
mod tests;

use crate::{
    conditions::Conditions,
    physics::{
        PhysicsError,
        error::{not_negative, positive},
    },
    simulation::{Account, Ledger},
};
pub(crate) use beside_flight::Blow;
use electric_layer::ElectricLayers;
use layer::PlateLayer;
pub use rates::{Fate, Rates};
pub use reading::{FieldReading, PlantReading};
use row::HopperRow;

/// A collector on the plant clock.
///
/// # Source
/// Mass balance; rates from a size-resolved count (`design.md` 2).
///
/// # Validity
/// Steady conditions. Every field is struck as a whole, at once; what a rap sends into the gas is caught or lost within
/// the same moment, and its puff is told by [`PlantReading::puff_s`].
#[derive(Clone, Debug)]
pub struct Plant {
    conditions: Conditions,
    rates: Rates,
    time_s: f64,
    layers: Vec<PlateLayer>,
    electric: ElectricLayers,
    rows: Vec<HopperRow>,
    ledger: Ledger,
    /// Dust that left since the last reading, by class, kg.
    left_kg: Vec<f64>,
    read_at_s: f64,
}

/// What happens next.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Event {
    Rap(usize),
    Empty(usize),
}

impl Plant {
    /// A clean collector with empty hoppers.
    ///
    /// # Errors
    /// A formula refused the conditions; the message names which argument.
    pub fn new(conditions: &Conditions, rates: Rates) -> Result<Self, PhysicsError> {
        let fields = conditions.collector.fields;
        let classes = rates.fresh.left.len();
        Ok(Self {
            layers: (0..fields)
                .map(|field| PlateLayer::new(conditions, field, classes))
                .collect(),
            rows: (0..fields)
                .map(|field| HopperRow::new(conditions, field))
                .collect::<Result<_, _>>()?,
            electric: ElectricLayers::new(conditions)?,
            conditions: conditions.clone(),
            rates,
            time_s: 0.0,
            ledger: Ledger::default(),
            left_kg: vec![0.0; classes],
            read_at_s: 0.0,
        })
    }

    /// Goes on for a time.
    ///
    /// # Errors
    /// A time below 0, or a formula that refused the state.
    pub fn run(&mut self, duration_s: f64) -> Result<(), PhysicsError> {
        let end_s = self.time_s + not_negative("duration_s", duration_s)?;
        while let Some((at_s, event)) = self.next_event(end_s) {
            self.flow_until(at_s);
            match event {
                Event::Rap(field) => self.rap(field)?,
                Event::Empty(field) => self.empty(field),
            }
        }
        self.flow_until(end_s);
        Ok(())
    }

    /// The present moment, and what left since the last time somebody asked.
    ///
    /// # Errors
    /// A formula refused the state.
    pub fn reading(&mut self) -> Result<PlantReading, PhysicsError> {
        let reading = reading::reading(self)?;
        self.left_kg.fill(0.0);
        self.read_at_s = self.time_s;
        Ok(reading)
    }

    /// Goes on under other conditions: layers, hoppers and books stay, rates and intervals are the new ones.
    ///
    /// # Errors
    /// Another number of fields or of size classes; the plant is as it was then.
    pub fn change(&mut self, conditions: &Conditions, rates: Rates) -> Result<(), PhysicsError> {
        let same = |argument: &'static str, got: usize, expected: usize| {
            if got == expected {
                Ok(())
            } else {
                Err(PhysicsError::WrongLength {
                    argument,
                    got,
                    expected,
                })
            }
        };
        same("fields", conditions.collector.fields, self.layers.len())?;
        same("size classes", rates.fresh.left.len(), self.left_kg.len())?;
        self.electric = ElectricLayers::new(conditions)?;
        for (field, layer) in self.layers.iter_mut().enumerate() {
            layer.strike_every(conditions.rapping.interval_s[field]);
        }
        self.conditions = conditions.clone();
        self.rates = rates;
        Ok(())
    }

    /// Runs for a time and reads it at even intervals, the start included.
    ///
    /// # Errors
    /// As [`Self::run`], or an interval that is not above 0.
    pub fn readings(
        &mut self,
        duration_s: f64,
        every_s: f64,
    ) -> Result<Vec<PlantReading>, PhysicsError> {
        positive("every_s", every_s)?;
        let end_s = self.time_s + not_negative("duration_s", duration_s)?;
        let mut readings = vec![self.reading()?];
        while self.time_s < end_s {
            self.run(every_s.min(end_s - self.time_s))?;
            readings.push(self.reading()?);
        }
        Ok(readings)
    }

    /// The books.
    #[must_use]
    pub fn ledger(&self) -> &Ledger {
        &self.ledger
    }

    /// Time since the start, s.
    #[must_use]
    pub fn time_s(&self) -> f64 {
        self.time_s
    }

    /// The earliest event up to a time; of two at once the rap, and of two raps the one upstream, comes first.
    fn next_event(&self, end_s: f64) -> Option<(f64, Event)> {
        let raps = self.layers.iter().enumerate();
        let raps = raps.map(|(field, layer)| (layer.next_rap_s, Event::Rap(field)));
        let rows = self.rows.iter().enumerate();
        let emptyings = rows.map(|(field, row)| (row.next_emptying_s, Event::Empty(field)));
        raps.chain(emptyings)
            .filter(|(at_s, _)| *at_s <= end_s)
            .min_by(|one, other| one.0.total_cmp(&other.0))
    }

    /// Dust arrives at steady rates.
    fn flow_until(&mut self, until_s: f64) {
        let inlet_kg = self.conditions.inlet_mass_kg_s() * (until_s - self.time_s);
        self.ledger
            .transfer(Account::Inlet, Account::Airborne, inlet_kg);
        let fate = self.rates.fresh.clone();
        self.settle(&fate, inlet_kg);
        self.time_s = until_s;
    }

    /// Airborne dust ends on the plates or leaves.
    fn settle(&mut self, fate: &Fate, mass_kg: f64) {
        for (layer, caught) in self.layers.iter_mut().zip(&fate.caught) {
            let arrived_kg = layer.add(caught, mass_kg);
            self.ledger
                .transfer(Account::Airborne, Account::Layers, arrived_kg);
        }
        for (left_kg, share) in self.left_kg.iter_mut().zip(&fate.left) {
            *left_kg += share * mass_kg;
            self.ledger
                .transfer(Account::Airborne, Account::Outlet, share * mass_kg);
        }
    }

    /// The plates of a field are struck: most of what comes off falls, a share goes back into the gas.
    fn rap(&mut self, field: usize) -> Result<(), PhysicsError> {
        let back_kg = self.strike(field)?;
        let fate = self.rates.behind[field].clone();
        self.settle(&fate, back_kg);
        Ok(())
    }

    /// A blow on the plates of a field; returns what is in the gas now and has not been settled, kg.
    fn strike(&mut self, field: usize) -> Result<f64, PhysicsError> {
        let dislodged_kg = self.layers[field].strike(&self.conditions, self.time_s)?;
        let back_kg = self.conditions.rapping.reentrained * dislodged_kg;
        self.ledger
            .transfer(Account::Layers, Account::Airborne, back_kg);
        self.ledger
            .transfer(Account::Layers, Account::Hoppers, dislodged_kg - back_kg);
        self.rows[field].kg += dislodged_kg - back_kg;
        Ok(back_kg)
    }

    fn empty(&mut self, field: usize) {
        let taken_kg = self.rows[field].empty();
        self.ledger
            .transfer(Account::Hoppers, Account::TakenAway, taken_kg);
    }
}
