//! The plant clock as an instrument: hours of layers, blows, hoppers, ash and water, by rates that are counted first.
//!
//! A run goes on for a time under the conditions of the start and then, for the time that is read, under those of the target;
//! the reading before the change is that of a plant that went on under the first.

use ashlane_shared::{
    conditions::Conditions,
    physics::PhysicsError,
    plant::{Plant, PlantReading, Rates},
};

use crate::engine::Span;

/// Readings of one run, fewest and shortest: every minute, or a few hundred of a long one.
const MOST_READINGS: f64 = 600.0;
const EVERY_S: f64 = 60.0;

/// The time of a run that is read.
#[derive(Clone, Debug)]
pub(in crate::engine) struct PlantRun {
    /// What holds in it.
    pub(super) conditions: Conditions,
    /// The first of them is its start.
    pub(super) readings: Vec<PlantReading>,
    /// Ash that fell into each row in it, kg.
    pub(super) fallen_kg: Vec<f64>,
    /// Share of the dust that comes to lie in each field in the long run.
    pub(super) arriving: Vec<f64>,
    /// Parcels with which the rates were counted.
    pub(super) parcels: usize,
}

impl PlantRun {
    /// How long it is, s.
    pub(super) fn time_s(&self) -> f64 {
        let ends = self.readings.first().zip(self.readings.last());
        ends.map_or(0.0, |(first, last)| last.time_s - first.time_s)
    }

    /// Mean over its time of a quantity that each reading has since the one before.
    pub(super) fn mean(&self, of: impl Fn(&PlantReading) -> f64) -> f64 {
        let pairs = self.readings.windows(2);
        let sum: f64 = pairs
            .map(|pair| of(&pair[1]) * (pair[1].time_s - pair[0].time_s))
            .sum();
        sum / self.time_s()
    }
}

/// What two runs of a segment are made of.
#[derive(Clone, Copy, Debug)]
pub(in crate::engine) struct RunOrder<'c> {
    /// Conditions of the start.
    pub(in crate::engine) before: &'c Conditions,
    /// Those of the target.
    pub(in crate::engine) after: &'c Conditions,
    /// Parcels for the rates.
    pub(in crate::engine) parcels: usize,
    /// Seed of the rates.
    pub(in crate::engine) seed: u64,
}

/// The runs of one segment: each is made once, however many checks read it.
#[derive(Debug)]
pub(in crate::engine) struct PlantRuns<'c> {
    order: RunOrder<'c>,
    rates: Option<(Rates, Rates)>,
    made: Vec<(Span, [PlantRun; 2])>,
}

impl<'c> PlantRuns<'c> {
    pub(in crate::engine) fn new(order: RunOrder<'c>) -> Self {
        Self {
            order,
            rates: None,
            made: Vec::new(),
        }
    }

    /// The run without the change and the run with it.
    pub(super) fn both(&mut self, span: Span) -> Result<&[PlantRun; 2], PhysicsError> {
        if let Some(at) = self.made.iter().position(|(made, _)| *made == span) {
            return Ok(&self.made[at].1);
        }
        let (first, second) = self.rates()?;
        let RunOrder { before, after, .. } = self.order;
        let mut settled = Plant::new(before, first.clone())?;
        settled.run(span.settle_s)?;
        // Without a time before, the plant has never been another.
        let changed = if span.settle_s > 0.0 {
            let mut changed = settled.clone();
            changed.change(after, second.clone())?;
            changed
        } else {
            Plant::new(after, second.clone())?
        };
        let runs = [
            self.run(span, settled, (before, &first))?,
            self.run(span, changed, (after, &second))?,
        ];
        self.made.push((span, runs));
        // The one that was pushed.
        Ok(&self.made[self.made.len() - 1].1)
    }

    fn rates(&mut self) -> Result<(Rates, Rates), PhysicsError> {
        if let Some(rates) = &self.rates {
            return Ok(rates.clone());
        }
        let RunOrder {
            before,
            after,
            parcels,
            seed,
        } = self.order;
        let count = |conditions: &Conditions, seed: u64| {
            let whole = Rates::count(conditions, parcels, seed, |_| true)?;
            whole.ok_or_else(|| PhysicsError::Impossible {
                reason: "the count of the rates was cancelled".to_owned(),
            })
        };
        let first = count(before, seed)?;
        let second = if flown_alike(before, after) {
            first.clone()
        } else {
            count(after, seed.wrapping_add(1))?
        };
        self.rates = Some((first.clone(), second.clone()));
        Ok((first, second))
    }

    fn run(
        &self,
        span: Span,
        mut plant: Plant,
        (conditions, rates): (&Conditions, &Rates),
    ) -> Result<PlantRun, PhysicsError> {
        let fallen_kg = plant.fallen_kg();
        let every_s = EVERY_S.max(span.time_s / MOST_READINGS);
        let readings = plant.readings(span.time_s, every_s)?;
        let fell = plant.fallen_kg().into_iter().zip(fallen_kg);
        Ok(PlantRun {
            conditions: conditions.clone(),
            readings,
            fallen_kg: fell.map(|(now_kg, then_kg)| now_kg - then_kg).collect(),
            arriving: rates.arriving(conditions.returned_share()),
            parcels: self.order.parcels,
        })
    }
}

/// Whether two conditions differ in nothing that a flying grain meets: only in blows, hoppers, ash or water.
fn flown_alike(one: &Conditions, other: &Conditions) -> bool {
    let mut other = other.clone();
    other.rapping.clone_from(&one.rapping);
    other.hoppers.clone_from(&one.hoppers);
    other.water.clone_from(&one.water);
    other.ash.clone_from(&one.ash);
    other.teaching.thin_layer_m = one.teaching.thin_layer_m;
    other.collector.kind = one.collector.kind;
    *one == other
}
