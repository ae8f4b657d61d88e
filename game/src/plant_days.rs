//! Some days on the plant clock for the chart: worked out beside the frame, once the count of the conditions has settled.

use std::sync::{
    Arc,
    atomic::{AtomicBool, Ordering},
};

use ashlane_panels::charts::PlantView;
use ashlane_shared::{
    beside,
    checks::LongRun,
    conditions::Conditions,
    machine::RateOrder,
    physics::PhysicsError,
    plant::{Plant, PlantReading, Rates},
    theory::Theory,
    units::UnitSystem,
};
use bevy::{
    prelude::*,
    tasks::{AsyncComputeTaskPool, Task, block_on, futures_lite::future::poll_once},
};

use crate::{counting::Counting, flight::Flight, session::Session};

/// What is run and how often it is read, s.
const DURATION_S: f64 = 48.0 * 3600.0;
const EVERY_S: f64 = 1200.0;

/// Adds the system that works them out.
pub(crate) fn plugin(app: &mut App) {
    app.init_resource::<PlantDays>()
        .add_systems(Update, prepare);
}

/// The days on show.
#[derive(Resource, Debug, Default)]
pub(crate) struct PlantDays {
    shown: Option<(u64, Days)>,
    work: Option<Work>,
    /// Generation of the conditions that could not be run.
    failed: Option<u64>,
}

#[derive(Debug)]
struct Days {
    rates: Rates,
    readings: Vec<PlantReading>,
    conditions: Conditions,
    long_run: LongRun,
}

#[derive(Debug)]
struct Work {
    generation: u64,
    cancel: Arc<AtomicBool>,
    task: Task<Result<Option<Days>, PhysicsError>>,
}

impl PlantDays {
    /// As the panels draw them; nothing while those of the present conditions are not there.
    pub(crate) fn view(&self, generation: u64, units: UnitSystem) -> Option<PlantView<'_>> {
        let (of, days) = self.shown.as_ref()?;
        (*of == generation).then_some(PlantView {
            readings: &days.readings,
            conditions: &days.conditions,
            rates: &days.rates,
            steady_since_s: 0.0,
            long_run: days.long_run,
            units,
        })
    }

    /// The rates of these conditions, if they have been counted.
    pub(crate) fn rates(&self, generation: u64) -> Option<&Rates> {
        let (of, days) = self.shown.as_ref()?;
        (*of == generation).then_some(&days.rates)
    }

    /// Works them out at once, for pictures.
    pub(crate) fn settle_now(
        &mut self,
        generation: u64,
        order: &RateOrder,
        theory: &Theory,
    ) -> Result<(), PhysicsError> {
        if let Some(days) = days(order, theory, &AtomicBool::new(false))? {
            self.shown = Some((generation, days));
        }
        Ok(())
    }
}

fn days(
    order: &RateOrder,
    theory: &Theory,
    cancel: &AtomicBool,
) -> Result<Option<Days>, PhysicsError> {
    let going = |_| !cancel.load(Ordering::Relaxed);
    let Some(rates) = order.count(going)? else {
        return Ok(None);
    };
    let long_run = LongRun::new(&order.conditions, &rates, order.parcels, theory);
    let readings = Plant::new(&order.conditions, rates.clone())?.readings(DURATION_S, EVERY_S)?;
    Ok(Some(Days {
        rates,
        readings,
        conditions: order.conditions.clone(),
        long_run,
    }))
}

fn prepare(
    flight: Res<Flight>,
    counting: Res<Counting>,
    mut session: ResMut<Session>,
    mut plant: ResMut<PlantDays>,
) {
    let generation = flight.generation();
    if let Some(work) = &mut plant.work {
        if work.generation != generation {
            work.cancel.store(true, Ordering::Relaxed);
        }
        let Some(done) = block_on(poll_once(&mut work.task)) else {
            return;
        };
        let of = work.generation;
        plant.work = None;
        match done {
            Ok(Some(days)) => plant.shown = Some((of, days)),
            Ok(None) => {}
            Err(error) => {
                plant.failed = Some(of);
                session.complain(format!("Plant clock: {error}"));
            }
        }
    }
    let known = plant
        .shown
        .as_ref()
        .is_some_and(|(of, _)| *of == generation);
    let settled = counting.is_settled() && counting.is_of(generation);
    let (false, true, Some(theory)) = (
        known || plant.failed == Some(generation),
        settled,
        &counting.theory,
    ) else {
        return;
    };
    let (order, theory) = (flight.machine().rate_order(), theory.clone());
    let cancel = Arc::new(AtomicBool::new(false));
    let stop = cancel.clone();
    let work = async move { beside(|| days(&order, &theory, &stop)) };
    plant.work = Some(Work {
        generation,
        cancel,
        task: AsyncComputeTaskPool::get().spawn(work),
    });
}
