//! How work beside the frame gives way: to other workers where there are threads, to the next frame where there are none.

use std::{
    future::poll_fn,
    sync::{Arc, Mutex, MutexGuard, PoisonError},
    task::{Poll, Waker},
};

use bevy::{prelude::*, tasks::futures_lite::future::yield_now};

/// Adds the system that lets the waiting go on, once a frame.
pub(crate) fn plugin(app: &mut App) {
    app.insert_resource(Pace {
        by_frames: cfg!(target_arch = "wasm32"),
        ..default()
    })
    .add_systems(First, go_on);
}

/// Who waits for the next frame.
#[derive(Resource, Clone, Debug, Default)]
pub(crate) struct Pace {
    /// Whether work waits for frames; a browser has one thread for frames and work.
    pub(crate) by_frames: bool,
    frame: Arc<Mutex<Waiting>>,
}

#[derive(Debug, Default)]
struct Waiting {
    frame: u64,
    wakers: Vec<Waker>,
}

impl Pace {
    /// Comes back when others have had their turn.
    pub(crate) async fn give_way(&self) {
        if !self.by_frames {
            return yield_now().await;
        }
        let asked = self.waiting().frame;
        poll_fn(|context| {
            let mut waiting = self.waiting();
            if waiting.frame > asked {
                return Poll::Ready(());
            }
            waiting.wakers.push(context.waker().clone());
            Poll::Pending
        })
        .await;
    }

    fn waiting(&self) -> MutexGuard<'_, Waiting> {
        self.frame.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

fn go_on(pace: Res<Pace>) {
    let mut waiting = pace.waiting();
    waiting.frame += 1;
    waiting.wakers.drain(..).for_each(Waker::wake);
}
