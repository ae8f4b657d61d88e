//! What the work of a step shows: the machine of a case, run beside the frame, or the sequence board.

use std::sync::{Arc, Mutex, PoisonError};

use ashlane_lessons::{
    diagnosis::{Case, Evidence},
    engine::{Work, WorkAct, board_acts},
    sequence::Board,
};
use ashlane_panels::lesson::WorkView;
use ashlane_shared::{conditions::Conditions, physics::PhysicsError};
use bevy::tasks::AsyncComputeTaskPool;

/// Lesson and step.
type Place = (usize, usize);
/// Where a worker lays the machine of a case.
type Shelf = Arc<Mutex<Option<Result<Evidence, PhysicsError>>>>;

/// What is shown, and for which step.
#[derive(Debug, Default)]
pub(crate) struct Workbench {
    place: Option<Place>,
    /// So many acts the board has taken.
    acts: usize,
    board: Option<Board>,
    evidence: Option<Evidence>,
    trouble: Option<String>,
    shelf: Option<Shelf>,
}

impl Workbench {
    /// What the panel may see; nothing where the step has no work.
    pub(crate) fn view(&self) -> Option<WorkView<'_>> {
        self.place?;
        Some(match (&self.trouble, &self.evidence, &self.board) {
            (Some(why), ..) => WorkView::Trouble(why),
            (None, Some(evidence), _) => WorkView::Case(evidence),
            (None, None, Some(board)) => WorkView::Board(board),
            _ => WorkView::Preparing,
        })
    }

    /// Prepares what this step shows, after these acts.
    pub(crate) fn keep(&mut self, place: Place, work: &Work, acts: &[WorkAct], start: &Conditions) {
        if self.place != Some(place) {
            *self = Self {
                place: Some(place),
                ..Self::default()
            };
            if let Work::Diagnosis(case) = work {
                self.shelf = Some(run(case, start));
            }
        }
        match work {
            Work::Diagnosis(_) => self.take_evidence(),
            Work::Sequence(exercise) => {
                if self.board.is_some() && self.acts == acts.len() {
                    return;
                }
                self.acts = acts.len();
                let board =
                    board_acts(acts).and_then(|acts| Board::replayed(exercise, start, &acts));
                match board {
                    Ok(board) => self.board = Some(board),
                    Err(why) => self.trouble = Some(why),
                }
            }
        }
    }

    fn take_evidence(&mut self) {
        let taken = self.shelf.as_ref().and_then(|shelf| {
            let mut laid = shelf.lock().unwrap_or_else(PoisonError::into_inner);
            laid.take()
        });
        match taken {
            Some(Ok(evidence)) => self.evidence = Some(evidence),
            Some(Err(error)) => self.trouble = Some(error.to_string()),
            None => {}
        }
    }
}

/// Runs the sound and the ill machine, beside the frame.
fn run(case: &Case, start: &Conditions) -> Shelf {
    let shelf = Shelf::default();
    let (case, start, laid) = (case.clone(), start.clone(), Arc::clone(&shelf));
    let work = async move {
        let evidence = ashlane_shared::beside(|| Evidence::of(&case, &start));
        *laid.lock().unwrap_or_else(PoisonError::into_inner) = Some(evidence);
    };
    AsyncComputeTaskPool::get().spawn(work).detach();
    shelf
}
