//! Why a command is refused, in words for the learner.

use crate::engine::{Change, value_text_both};

/// A refusal; nothing has changed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Refused {
    /// The learner has stopped for a while.
    #[error("the lesson is paused; resume it first")]
    Paused,
    /// The answer is locked.
    #[error("the prediction is locked and stays as it is")]
    Locked,
    /// Not an answer to this question.
    #[error("{0}")]
    NoAnswer(String),
    /// Nothing to lock.
    #[error("answer the question first")]
    AnswerFirst,
    /// The confidence is missing.
    #[error("say how sure you are first")]
    ConfidenceFirst,
    /// A result was asked for before the prediction.
    #[error("lock your prediction first; the result comes after it")]
    PredictFirst,
    /// A control that this segment keeps.
    #[error("{key} is locked in this segment; free: {free}")]
    ControlLocked {
        /// Dotted path of the control.
        key: String,
        /// The controls that may be moved.
        free: String,
    },
    /// A value that cannot be.
    #[error("this is not possible: {0}")]
    Impossible(String),
    /// The controls are not where the task wants them.
    #[error("first change {}", .left.join(" and "))]
    NotThere {
        /// What remains to be done.
        left: Vec<String>,
    },
    /// The work of the segment is not finished.
    #[error("first {0}")]
    WorkLeft(String),
    /// There is no measurement at this place.
    #[error("there is nothing to measure here")]
    NothingToMeasure,
    /// A reading of another segment.
    #[error("this result belongs to another segment")]
    OtherSegment,
    /// The step is not finished.
    #[error("finish this step first")]
    NotFinished,
    /// There is no step before or behind.
    #[error("there is no step there")]
    NoSuchStep,
}

impl Refused {
    /// What remains to be changed, such as "collector.fields to 2".
    pub(super) fn not_there(left: &[&Change]) -> Self {
        let text = |change: &&Change| {
            format!(
                "{} to {}",
                change.key.path,
                value_text_both(change.key, &change.to)
            )
        };
        Self::NotThere {
            left: left.iter().map(text).collect(),
        }
    }
}
