//! The counts that measure what a step asks for, beside the frame.

use std::sync::{
    Arc, Mutex, PoisonError,
    atomic::{AtomicBool, Ordering},
};

use ashlane_lessons::engine::{CountOrder, Plan, Reading};
use ashlane_shared::{
    count::{Count, CountResult},
    physics::PhysicsError,
};
use bevy::tasks::{AsyncComputeTaskPool, futures_lite::future::yield_now};

/// Chunks of parcels between two looks at whether the measurement is still wanted.
const SLICE: usize = 5;

/// Counts that are under way.
#[derive(Debug)]
pub(super) struct Measurement {
    desk: Arc<Mutex<Desk>>,
    cancel: Arc<AtomicBool>,
}

#[derive(Debug, Default)]
pub(super) struct Desk {
    pub(super) share: f32,
    pub(super) outcome: Option<Result<Reading, PhysicsError>>,
}

impl Measurement {
    pub(super) fn start(plan: Plan) -> Self {
        let (desk, cancel) = (Arc::default(), Arc::default());
        let job = Job {
            plan,
            desk: Arc::clone(&desk),
            cancel: Arc::clone(&cancel),
        };
        AsyncComputeTaskPool::get().spawn(job.run()).detach();
        Self { desk, cancel }
    }

    pub(super) fn desk(&self) -> std::sync::MutexGuard<'_, Desk> {
        self.desk.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Drop for Measurement {
    fn drop(&mut self) {
        self.cancel.store(true, Ordering::Relaxed);
    }
}

/// What the worker needs.
struct Job {
    plan: Plan,
    desk: Arc<Mutex<Desk>>,
    cancel: Arc<AtomicBool>,
}

impl Job {
    async fn run(self) {
        let outcome = self.read().await;
        let mut desk = self.desk.lock().unwrap_or_else(PoisonError::into_inner);
        desk.outcome = outcome.transpose();
    }

    /// The reading; nothing when it is not wanted any more.
    async fn read(&self) -> Result<Option<Reading>, PhysicsError> {
        let total = self.plan.before.parcels + self.plan.after.parcels;
        let share = self.plan.before.parcels as f32 / total.max(1) as f32;
        let Some(before) = self.count(&self.plan.before, (0.0, share)).await? else {
            return Ok(None);
        };
        let Some(after) = self.count(&self.plan.after, (share, 1.0)).await? else {
            return Ok(None);
        };
        self.plan.read(&before, &after).map(Some)
    }

    async fn count(
        &self,
        order: &CountOrder,
        (from, to): (f32, f32),
    ) -> Result<Option<CountResult>, PhysicsError> {
        let mut count = Count::new(&order.conditions, order.parcels, order.seed)?;
        let chunks = order.parcels.div_ceil(ashlane_shared::count::CHUNK).max(1);
        while !count.is_done() {
            if self.cancel.load(Ordering::Relaxed) {
                return Ok(None);
            }
            ashlane_shared::beside(|| count.advance(SLICE));
            let done = count.chunks_done() as f32 / chunks as f32;
            self.desk
                .lock()
                .unwrap_or_else(PoisonError::into_inner)
                .share = from + (to - from) * done.min(1.0);
            yield_now().await;
        }
        Ok(Some(count.result()))
    }
}
