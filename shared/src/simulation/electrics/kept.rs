//! The last few answers, kept so that nobody solves the same conditions twice.

use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use super::Electrics;
use crate::{conditions::Conditions, physics::PhysicsError};

/// What a solution came to.
type Answer = Result<Arc<Electrics>, PhysicsError>;

/// Answers that are kept.
const MOST: usize = 16;

/// Newest last.
static ANSWERS: Mutex<Vec<(Conditions, Answer)>> = Mutex::new(Vec::new());
/// Held while somebody solves: whoever asks the same meanwhile waits for that answer.
static SOLVING: Mutex<()> = Mutex::new(());

/// The kept answer for these conditions, or a new one that is then kept.
pub(super) fn or_else(
    conditions: &Conditions,
    solve: impl FnOnce() -> Result<Electrics, PhysicsError>,
) -> Answer {
    if let Some(answer) = kept(conditions) {
        return answer;
    }
    let _turn = locked(&SOLVING);
    if let Some(answer) = kept(conditions) {
        return answer;
    }
    let answer = solve().map(Arc::new);
    remember(conditions, answer.clone());
    answer
}

/// Keeps an answer, or why there is none, that was worked out in slices.
pub(super) fn keep(conditions: &Conditions, answer: Result<Electrics, PhysicsError>) {
    if kept(conditions).is_none() {
        remember(conditions, answer.map(Arc::new));
    }
}

fn remember(conditions: &Conditions, answer: Answer) {
    let mut answers = locked(&ANSWERS);
    if answers.len() >= MOST {
        drop(answers.remove(0));
    }
    answers.push((conditions.clone(), answer));
}

/// The kept answer, if there is one.
pub(super) fn kept(conditions: &Conditions) -> Option<Answer> {
    locked(&ANSWERS)
        .iter()
        .find(|(known, _)| known == conditions)
        .map(|(_, answer)| answer.clone())
}

/// Nothing is left half done behind these locks, so a panic elsewhere does no harm.
fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}
