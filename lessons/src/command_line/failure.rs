//! Why the program cannot do what it was told, in words that say what to do.

use std::{io, path::PathBuf};

use ashlane_shared::{
    ThreadError,
    conditions::sheet::{SaveError, SheetErrors},
    physics::PhysicsError,
};

/// A failure; all of them end with exit code 2.
#[derive(Debug, thiserror::Error)]
pub(super) enum Failure {
    /// A file with everything that is wrong with it.
    #[error(transparent)]
    File(#[from] SheetErrors),
    /// A formula refused the conditions.
    #[error("{name}: these conditions cannot be computed: {error}")]
    Physics {
        /// The sheet.
        name: String,
        /// Why.
        error: PhysicsError,
    },
    /// The threads could not be started.
    #[error("{0}")]
    Threads(#[from] ThreadError),
    /// The result could not be written.
    #[error("the result cannot be written: {0}")]
    Output(io::Error),
    /// A picture that cannot be made.
    #[error("{0}")]
    Picture(String),
    /// Handouts that cannot be made.
    #[error("{0}")]
    Handout(String),
    /// A file that could not be written; it is as it was before.
    #[error(transparent)]
    Save(#[from] SaveError),
    /// A field of a collector that it does not have.
    #[error("{0}")]
    NoSuchField(String),
    /// A run on the plant clock that cannot be made.
    #[error("{0}")]
    Plant(String),
    /// What is kept of a learner cannot be had.
    #[error(transparent)]
    Store(#[from] crate::store::StoreError),
    /// Somebody stopped it.
    #[error("cancelled; nothing was written")]
    Cancelled,
    /// A place where no file can be written.
    #[error("{}: {reason}", .path.display())]
    Place {
        /// The file.
        path: PathBuf,
        /// Why not.
        reason: &'static str,
    },
    /// There is no such lesson.
    #[error(
        "there is no lesson \"{id}\"{}; `ashlane lesson list` shows them all",
        .nearest.as_ref().map_or_else(String::new, |near| format!(" (did you mean \"{near}\"?)"))
    )]
    NoSuchLesson {
        /// As written.
        id: String,
        /// What may have been meant.
        nearest: Option<String>,
    },
    /// A lesson that cannot be played.
    #[error("lesson {id}: {error}")]
    Play {
        /// The lesson.
        id: String,
        /// Why.
        error: crate::engine::PlayError,
    },
}
