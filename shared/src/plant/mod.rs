//! The plant clock: hours and days of layers, rapping and hoppers in a moment, by rates that were counted beforehand.
//!
//! Between two events (a rap, an emptying) dust arrives at steady rates, so the clock goes from event to event and takes
//! no steps of its own: the answer does not depend on how often anybody looks. The grains of the flight are not flown.
//!
//! On dry plates dust lies in segments (`segments.rs`) until the hammers of its group strike (`shaft.rs`), on the wires
//! until theirs do (`wires.rs`); most of it falls into the row of hoppers (`row.rs`) and goes to the silo (`silo.rs`), some
//! goes back into the gas as a puff (`puffs.rs`). Wet plates are washed at once (`water.rs`) but for their dry patches.
//!
//! Every minute the fields are looked up anew with what lies on plates and wires and stands in the hoppers (`fields.rs`), and
//! the rates follow the drift of the dust in them (`worn_rates.rs`).

mod beside_flight;
mod fields;
mod hopper_state;
mod layer;
mod meters;
mod puffs;
mod rates;
mod reading;
mod row;
mod segments;
mod shaft;
mod silo;
#[cfg(test)]
mod tests;
mod water;
mod wires;
mod worn_rates;

use crate::{
    conditions::{Conditions, Kind},
    physics::{
        PhysicsError,
        error::{length, not_negative, positive, require},
    },
    simulation::{Account, Ledger, SizeSampler, Wear},
};
pub(crate) use beside_flight::Returned;
use fields::Fields;
pub use hopper_state::HopperState;
use layer::{Blow, PlateLayer};
use puffs::Puffs;
pub use puffs::{REFRACTIVE_INDEX, STACK_M, WAVELENGTH_M};
pub use rates::{Fate, Rates};
pub use reading::{FieldReading, PlantReading};
use row::HopperRow;
pub use row::{ALARM_LEVEL, OUTLET_SHARE, ROOM_M};
pub use segments::{SEGMENTS_ALONG, SEGMENTS_HIGH};
use segments::{height_shares, segment_shares};
use shaft::Shaft;
pub use shaft::struck_groups;
use silo::Silo;
pub use silo::{AshReading, AshRoute};
use water::Water;
pub use water::{WATER_KG_M3, WaterReading};
use wires::WireCoat;

/// Time between two looks at what the layers do to the fields, s. They hardly change in it.
const LOOK_EVERY_S: f64 = 60.0;

/// A collector on the plant clock.
///
/// # Source
/// Mass balance; rates from a size-resolved count (`design.md` 2).
///
/// # Validity
/// Steady conditions. What a rap sends into the gas is caught or lost within the same moment, and its puff is told by
/// [`PlantReading::puff_s`]. It flies as lumps of the sizes that the count gives to returning dust, and where it is
/// caught again it lies as such: mass is kept exactly, the make-up by size of what came back is not.
#[derive(Clone, Debug)]
pub struct Plant {
    conditions: Conditions,
    /// As they were counted.
    rates: Rates,
    /// As the fields are now.
    worn: Rates,
    time_s: f64,
    layers: Vec<PlateLayer>,
    shafts: Vec<Shaft>,
    wires: Vec<WireCoat>,
    fields: Fields,
    next_look_s: f64,
    rows: Vec<HopperRow>,
    silo: Silo,
    water: Option<Water>,
    puffs: Puffs,
    /// Share of the dust by row of the height.
    high: [f64; SEGMENTS_HIGH],
    ledger: Ledger,
    /// Dust that left since the last reading, by class, kg.
    left_kg: Vec<f64>,
    read_at_s: f64,
}

/// What happens next.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Event {
    Rap(usize),
    RapWires(usize),
    Empty(usize),
    Look,
}

impl Plant {
    /// A collector with empty hoppers and clean wires; on its plates lies the layer of the conditions.
    ///
    /// # Errors
    /// A formula refused the conditions; the message names which argument.
    pub fn new(conditions: &Conditions, rates: Rates) -> Result<Self, PhysicsError> {
        let fields = conditions.collector.fields;
        let classes = rates.fresh.left.len();
        let shafts: Vec<Shaft> = (0..fields)
            .map(|field| Shaft::new(conditions, field))
            .collect();
        let mut plant = Self {
            layers: (0..fields)
                .map(|field| PlateLayer::new(conditions, field, shafts[field].groups(), classes))
                .collect(),
            shafts,
            wires: (0..fields)
                .map(|field| WireCoat::new(conditions, field, classes))
                .collect(),
            rows: (0..fields)
                .map(|field| HopperRow::new(conditions, field, classes))
                .collect::<Result<_, _>>()?,
            silo: Silo::new(classes),
            water: Water::new(conditions)?,
            puffs: Puffs::new(conditions, &rates.diameters_m)?,
            high: height_shares(conditions)?,
            fields: Fields::new(conditions, &rates)?,
            next_look_s: 0.0,
            conditions: conditions.clone(),
            worn: rates.clone(),
            rates,
            time_s: 0.0,
            ledger: Ledger::default(),
            left_kg: vec![0.0; classes],
            read_at_s: 0.0,
        };
        plant.lay_first_layers()?;
        plant.look()?;
        Ok(plant)
    }

    /// The layer that lies on the plates at the start came in as dust once.
    fn lay_first_layers(&mut self) -> Result<(), PhysicsError> {
        let makeup = SizeSampler::new(&self.conditions)?.class_shares();
        for (field, layer) in self.layers.iter_mut().enumerate() {
            let thickness_m = self.conditions.rapping.layer_m[field];
            let kg = layer.lay_evenly(&makeup, thickness_m);
            self.ledger.transfer(Account::Inlet, Account::Layers, kg);
        }
        Ok(())
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
                Event::RapWires(field) => self.rap_wires(field)?,
                Event::Empty(field) => self.empty(field)?,
                Event::Look => self.look()?,
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
        self.puffs.was_read();
        self.left_kg.fill(0.0);
        self.read_at_s = self.time_s;
        Ok(reading)
    }

    /// Goes on under other conditions: layers, hoppers and books stay, rates and intervals are the new ones.
    ///
    /// # Errors
    /// Another number of fields or of size classes; the plant is as it was then.
    pub fn change(&mut self, conditions: &Conditions, rates: Rates) -> Result<(), PhysicsError> {
        length("fields", conditions.collector.fields, self.layers.len())?;
        length("size classes", rates.fresh.left.len(), self.left_kg.len())?;
        let mut changed = self.clone();
        changed.adopt(conditions, rates)?;
        *self = changed;
        Ok(())
    }

    /// Everything that follows from the conditions; on an error half of it is done.
    fn adopt(&mut self, conditions: &Conditions, rates: Rates) -> Result<(), PhysicsError> {
        self.fields = Fields::new(conditions, &rates)?;
        self.water = Water::new(conditions)?;
        self.high = height_shares(conditions)?;
        self.puffs.adopt(conditions, &rates.diameters_m)?;
        for field in 0..self.layers.len() {
            self.layers[field].adopt(conditions, field);
            self.shafts[field].adopt(conditions, field);
            self.wires[field].adopt(conditions, field);
            self.rows[field].adopt(conditions, field)?;
        }
        self.conditions = conditions.clone();
        self.worn = rates.clone();
        self.rates = rates;
        self.next_look_s = self.time_s;
        self.look()
    }

    /// Looks at the fields: what lies on plates and wires and stands below them acts from now on.
    fn look(&mut self) -> Result<(), PhysicsError> {
        self.next_look_s += LOOK_EVERY_S;
        let wear: Vec<Wear> = (0..self.layers.len())
            .map(|field| self.wear(field))
            .collect::<Result<_, _>>()?;
        if self.fields.look(&wear)? {
            let around = self.conditions.collector.sneakage;
            self.worn = self.rates.worn(self.fields.drifts(), around);
        }
        Ok(())
    }

    fn wear(&self, field: usize) -> Result<Wear, PhysicsError> {
        let clear_m = if self.is_rapped() {
            self.rows[field].below_frame_m()
        } else {
            f64::INFINITY
        };
        Ok(Wear {
            layer_m: self.layer_m(field)?,
            wire_coating_m: self.wire_coating_m(field),
            displaced_m: 0.0,
            ash_share: (clear_m / self.conditions.gap_m()).min(1.0),
        })
    }

    /// Begins to rap a field at once; its next turn comes an interval later. A turn that is under way goes on, and
    /// plates that are washed are not struck.
    ///
    /// # Errors
    /// No such field, counted from 0.
    pub fn rap_now(&mut self, field: usize) -> Result<(), PhysicsError> {
        let there = field < self.shafts.len();
        require(there, "field", field as f64, "one of the fields, from 0")?;
        self.shafts[field].begin(self.time_s);
        Ok(())
    }

    /// Mean thickness of the layer on the plates of a field, m.
    pub(crate) fn layer_m(&self, field: usize) -> Result<f64, PhysicsError> {
        self.layers[field].thickness_m()
    }

    /// Thickness of the coat on the wires of a field, m, without what a defect leaves there.
    pub(crate) fn wire_coating_m(&self, field: usize) -> f64 {
        self.wires[field].thickness_m()
    }

    /// Whether the ash of a field's hoppers stands up to the frame of its wires, which then is shorted.
    pub(crate) fn ash_at_frame(&self, field: usize) -> bool {
        self.is_rapped() && self.rows[field].below_frame_m() <= 0.0
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

    /// The earliest event up to a time; of two at once plates come before wires and these before hoppers and looks,
    /// and of the same kind the one upstream. What has become overdue happens now.
    fn next_event(&self, end_s: f64) -> Option<(f64, Event)> {
        let rapped = self.is_rapped();
        let shafts = self.shafts.iter().enumerate();
        let raps = shafts.map(|(field, shaft)| (shaft.next_strike_s(), Event::Rap(field)));
        let wires = self.wires.iter().enumerate();
        let blows = wires.map(|(field, coat)| (coat.next_blow_s, Event::RapWires(field)));
        let rows = self.rows.iter().enumerate();
        let emptyings = rows.map(|(field, row)| (row.next_emptying_s, Event::Empty(field)));
        let look = (self.next_look_s, Event::Look);
        raps.chain(blows)
            .filter(|_| rapped)
            .chain(emptyings)
            .chain((!self.rates.fields.is_empty()).then_some(look))
            .map(|(at_s, event)| (at_s.max(self.time_s), event))
            .filter(|(at_s, _)| *at_s <= end_s)
            .min_by(|one, other| one.0.total_cmp(&other.0))
    }

    /// Washed plates are not struck.
    fn is_rapped(&self) -> bool {
        self.conditions.collector.kind == Kind::Dry
    }

    /// Dust arrives at steady rates.
    fn flow_until(&mut self, until_s: f64) {
        let inlet_kg = self.conditions.inlet_mass_kg_s() * (until_s - self.time_s);
        self.ledger
            .transfer(Account::Inlet, Account::Airborne, inlet_kg);
        let fate = self.worn.fresh.clone();
        self.settle(&fate, inlet_kg);
        self.time_s = until_s;
    }

    /// Airborne dust ends on the plates and wires, in the water or leaves.
    fn settle(&mut self, fate: &Fate, mass_kg: f64) {
        for (field, (caught, along)) in fate.caught.iter().zip(&fate.along).enumerate() {
            let (layer, wires) = (&mut self.layers[field], &mut self.wires[field]);
            let places = segment_shares(along, &self.high);
            let stays_kg = layer.dry_share() * mass_kg;
            let arrived_kg = layer.add(caught, &places, (1.0 - wires.share) * stays_kg)
                + wires.add(caught, wires.share * stays_kg);
            self.ledger
                .transfer(Account::Airborne, Account::Layers, arrived_kg);
            let washed_kg = self.rows[field].add(caught, mass_kg - stays_kg);
            self.ledger
                .transfer(Account::Airborne, Account::Hoppers, washed_kg);
        }
        for (left_kg, share) in self.left_kg.iter_mut().zip(&fate.left) {
            *left_kg += share * mass_kg;
            self.ledger
                .transfer(Account::Airborne, Account::Outlet, share * mass_kg);
        }
    }

    /// The next group of plates of a field is struck.
    fn rap(&mut self, field: usize) -> Result<(), PhysicsError> {
        let blow = self.strike_plates(field)?;
        self.fall(field, &blow);
        Ok(())
    }

    fn strike_plates(&mut self, field: usize) -> Result<Blow, PhysicsError> {
        let acceleration_m_s2 = shaft::acceleration_m_s2(&self.conditions, field)?;
        let group = self.shafts[field].strike(self.time_s);
        self.layers[field].strike(group, acceleration_m_s2, &self.conditions)
    }

    /// The wires of a field are struck.
    fn rap_wires(&mut self, field: usize) -> Result<(), PhysicsError> {
        let blow = self.strike_wires(field)?;
        self.fall(field, &blow);
        Ok(())
    }

    fn strike_wires(&mut self, field: usize) -> Result<Blow, PhysicsError> {
        let left = self.conditions.defects[field].uncleaned_wires;
        self.wires[field].strike(self.time_s, left, &self.conditions)
    }

    /// Most of what a blow throws off falls, a share goes back into the gas and on its way with it.
    fn fall(&mut self, field: usize, blow: &Blow) {
        let back_kg = self.throw_off(field, blow);
        let fate = self.worn.behind[field].clone();
        let puff_kg: Vec<f64> = fate.left.iter().map(|share| share * back_kg).collect();
        self.puffs.add(self.time_s, &puff_kg, &self.leaving_kg_s());
        self.settle(&fate, back_kg);
    }

    /// What a blow throws off falls or is in the gas, kg of which it returns.
    fn throw_off(&mut self, field: usize, blow: &Blow) -> f64 {
        let fallen_kg = self.rows[field].add(&blow.kg, 1.0 - blow.returned);
        let back_kg = blow.kg.iter().sum::<f64>() - fallen_kg;
        self.ledger
            .transfer(Account::Layers, Account::Airborne, back_kg);
        self.ledger
            .transfer(Account::Layers, Account::Hoppers, fallen_kg);
        back_kg
    }

    /// What leaves all the time, by size class, kg/s.
    fn leaving_kg_s(&self) -> Vec<f64> {
        let inlet_kg_s = self.conditions.inlet_mass_kg_s();
        let left = self.worn.fresh.left.iter();
        left.map(|share| share * inlet_kg_s).collect()
    }

    /// The hoppers of a field give their ash to the silo.
    fn empty(&mut self, field: usize) -> Result<(), PhysicsError> {
        let load_kg = self.rows[field].empty(self.conditions.defects[field].bridged);
        self.ledger.transfer(
            Account::Hoppers,
            Account::TakenAway,
            load_kg.iter().sum::<f64>(),
        );
        self.silo
            .take(&load_kg, &self.conditions, &self.rates.diameters_m)
    }
}
