//! The batch count and the theory, beside the frame: started anew when the conditions change, refined while idle.
//!
//! The drawn stream does not read them, so they take effect when they are ready, and replay does not depend on them.

use std::sync::{
    Arc, Mutex, PoisonError,
    atomic::{AtomicBool, Ordering},
};

use ashlane_shared::{
    beside,
    conditions::Conditions,
    count::{CHUNK, Count, CountResult},
    physics::PhysicsError,
    simulation::{ElectricsWork, electrics_are_ready},
    theory::{self, Theory},
};
use bevy::{prelude::*, tasks::AsyncComputeTaskPool};

use crate::{flight::Flight, pace::Pace, session::Session};

/// Parcels at which a count can be read and its verdict stands: four cores get there within a second of a change.
const SETTLED: usize = 50_000;
/// Parcels of a picture that is made at once.
const PICTURE: usize = 100_000;
/// Parcels at which a count stops while nothing changes.
const MOST: usize = 1_000_000;
/// Chunks of parcels between two looks at what has been counted.
const SLICE: usize = 5;
/// Seed of the count; the drawn stream has its own.
const SEED: u64 = 2;
/// Frames without a change after which a new count starts, so that a drag does not start one at every frame.
const CALM_FRAMES: u32 = 4;

/// Adds the systems that start and collect counts.
pub(crate) fn plugin(app: &mut App) {
    app.init_resource::<Counting>()
        .add_systems(Update, (collect, start).chain());
}

/// What a worker leaves for the frame to collect.
#[derive(Debug, Default)]
struct Desk {
    result: Option<CountResult>,
    theory: Option<Theory>,
    share: f32,
    failure: Option<String>,
}

/// The count that is shown and the one that is under way.
#[derive(Resource, Debug, Default)]
pub(crate) struct Counting {
    /// The last count that has something to show.
    pub(crate) result: Option<CountResult>,
    /// The theory of the same conditions.
    pub(crate) theory: Option<Theory>,
    /// Share done until the count is settled; nothing once it is.
    pub(crate) settling: Option<f32>,
    desk: Arc<Mutex<Desk>>,
    cancel: Arc<AtomicBool>,
    /// Conditions that the count is for.
    generation: Option<u64>,
    /// Whether workers have been sent out.
    at_work: bool,
    calm: u32,
    changed_from: u64,
}

impl Counting {
    /// Whether a count of the present conditions has enough parcels to be read, and the theory is there.
    pub(crate) fn is_settled(&self) -> bool {
        self.result.is_some() && self.theory.is_some() && self.settling.is_none()
    }

    /// Whether it is a count of the conditions with this generation.
    pub(crate) fn is_of(&self, generation: u64) -> bool {
        self.generation == Some(generation)
    }

    /// Counts and solves at once, for pictures and tests.
    pub(crate) fn settle_now(&mut self, conditions: &Conditions, generation: u64) -> Result<()> {
        let mut count = Count::new(conditions, PICTURE, SEED)?;
        count.run(|_| true);
        self.result = Some(count.result());
        self.theory = Some(theory::solve(conditions)?);
        self.settling = None;
        self.generation = Some(generation);
        Ok(())
    }
}

/// A window that is gone leaves no work to the others of this process.
impl Drop for Counting {
    fn drop(&mut self) {
        self.cancel.store(true, Ordering::Relaxed);
    }
}

/// Starts a count when the conditions have changed and are calm again.
fn start(flight: Res<Flight>, pace: Res<Pace>, mut counting: ResMut<Counting>) {
    let generation = flight.generation();
    if counting.generation == Some(generation) {
        return;
    }
    if counting.changed_from != generation {
        counting.changed_from = generation;
        counting.calm = 0;
        counting.cancel.store(true, Ordering::Relaxed);
        counting.settling = Some(0.0);
    }
    counting.calm += 1;
    if counting.calm <= CALM_FRAMES && counting.result.is_some() {
        return;
    }
    counting.generation = Some(generation);
    counting.at_work = true;
    counting.settling = Some(0.0);
    counting.desk = Arc::new(Mutex::new(Desk::default()));
    counting.cancel = Arc::new(AtomicBool::new(false));
    let pool = AsyncComputeTaskPool::get();
    let job = || Job {
        conditions: flight.conditions().clone(),
        desk: counting.desk.clone(),
        cancel: counting.cancel.clone(),
        pace: pace.clone(),
    };
    let (field, solver, counter) = (job(), job(), job());
    // The field first, round by round, so that nobody waits who could do something else; then theory and count.
    let work = async move {
        if field.solve_field().await {
            AsyncComputeTaskPool::get()
                .spawn(async move { solver.solve() })
                .detach();
            counter.count().await;
        }
    };
    pool.spawn(work).detach();
}

/// Takes over what the workers have finished.
fn collect(mut counting: ResMut<Counting>, mut session: ResMut<Session>) {
    if !counting.at_work {
        return;
    }
    let desk = counting.desk.clone();
    let mut desk = desk.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(failure) = desk.failure.take() {
        session.complain(failure);
    }
    let pending = counting.changed_from != counting.generation.unwrap_or_default();
    // Count and theory are shown together, so that a new count never stands beside an old theory.
    if let Some(theory) = &desk.theory
        && let Some(result) = &desk.result
        && !pending
    {
        if counting.theory.as_ref() != Some(theory) {
            counting.theory = Some(theory.clone());
        }
        if counting.result.as_ref() != Some(result) {
            counting.result = Some(result.clone());
        }
        counting.settling = (desk.share < 1.0).then_some(desk.share);
    } else if !pending {
        counting.settling = Some(desk.share.min(0.99));
    }
}

/// What a worker needs.
struct Job {
    conditions: Conditions,
    desk: Arc<Mutex<Desk>>,
    cancel: Arc<AtomicBool>,
    pace: Pace,
}

impl Job {
    fn leave(&self, change: impl FnOnce(&mut Desk)) {
        change(&mut self.desk.lock().unwrap_or_else(PoisonError::into_inner));
    }

    /// Solves the field a round at a time; false when it is not wanted any more or cannot be solved.
    async fn solve_field(&self) -> bool {
        if electrics_are_ready(&self.conditions) {
            return true;
        }
        let fail = |error: PhysicsError| {
            ElectricsWork::keep_failure(&self.conditions, &error);
            self.leave(|desk| desk.failure = Some(format!("Field: {error}")));
            false
        };
        let mut work = match ElectricsWork::new(&self.conditions) {
            Ok(work) => work,
            Err(error) => return fail(error),
        };
        while !work.is_done() {
            self.pace.give_way().await;
            if self.cancel.load(Ordering::Relaxed) {
                return false;
            }
            if let Err(error) = beside(|| work.advance()) {
                return fail(error);
            }
        }
        work.keep();
        true
    }

    fn solve(&self) {
        match beside(|| theory::solve(&self.conditions)) {
            Ok(theory) => self.leave(|desk| desk.theory = Some(theory)),
            Err(error) => self.leave(|desk| desk.failure = Some(format!("Theory: {error}"))),
        }
    }

    async fn count(self) {
        let mut count = match Count::new(&self.conditions, MOST, SEED) {
            Ok(count) => count,
            Err(error) => return self.leave(|desk| desk.failure = Some(format!("Count: {error}"))),
        };
        let settled = SETTLED.div_ceil(CHUNK);
        while !count.is_done() && !self.cancel.load(Ordering::Relaxed) {
            beside(|| count.advance(SLICE));
            let share = count.chunks_done() as f32 / settled as f32;
            self.leave(|desk| {
                desk.result = Some(count.result());
                desk.share = share.min(1.0);
            });
            // A machine with few cores has one worker for everything; a measurement must not wait for the last parcel.
            self.pace.give_way().await;
        }
    }
}
