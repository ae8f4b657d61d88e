//! What can go wrong with files of learners: what, where, and what to do about it.

use std::{io, path::PathBuf};

use ashlane_shared::conditions::sheet::SaveError;

use super::Learner;

/// What cannot be kept, read or taken away.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    /// The folder or the disk takes nothing.
    #[error(
        "what you do in this lesson is not kept: {0}; make room there or name another folder with --data; the lesson goes on, and all of it is kept as soon as that works, but it is lost if the program ends before"
    )]
    Unwritable(SaveError),
    /// A file that is there and cannot be read.
    #[error(
        "what was done in this lesson cannot be read: {}: {why}; check who may read it; the lesson begins anew and is not kept, so that the file stays as it is", .path.display()
    )]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// Why not.
        why: io::Error,
    },
    /// A damaged file could not be set aside, and is not written over.
    #[error(
        "{}: this file is damaged or belongs to another revision of the lesson, and cannot be set aside ({why}); the lesson begins anew and is not kept, so that the file stays as it is; make room or move the file away", .path.display()
    )]
    NotSetAside {
        /// The file.
        path: PathBuf,
        /// Why not.
        why: io::Error,
    },
    /// A file of a newer program.
    #[error(
        "{}: this file has version {version} and this program knows versions up to {known}; use the newer program; the lesson begins anew and is not kept, so that the file stays as it is", .path.display()
    )]
    Newer {
        /// The file.
        path: PathBuf,
        /// Its version.
        version: u64,
        /// Newest version that is read.
        known: u64,
    },
    /// The same learner elsewhere.
    #[error(
        "learner {learner} is open in another window ({}); close it there and choose the learner again; what you do here is not kept", .folder.display()
    )]
    InUse {
        /// The learner.
        learner: Learner,
        /// Where.
        folder: PathBuf,
    },
    /// A file that is no record, found where nothing is to be changed.
    #[error("{}: this file is damaged; it is set aside when the lesson is opened again", .path.display())]
    Damaged {
        /// The file.
        path: PathBuf,
    },
    /// Nothing is kept of this learner.
    #[error(
        "nothing is kept of learner {learner} in {}; check the code, or name the folder with --data", .folder.display()
    )]
    NoSuchLearner {
        /// The learner.
        learner: Learner,
        /// The data folder.
        folder: PathBuf,
    },
    /// The platform names no folder.
    #[error("this machine names no folder for data of programs; name one with --data DIR")]
    NoFolder,
    /// No random numbers.
    #[error(
        "no learner code can be made: this machine gives no random numbers; try again, or use a code made elsewhere"
    )]
    NoChance,
    /// The export cannot be written.
    #[error("nothing was exported: {0}; make room there or choose another place")]
    NotExported(SaveError),
    /// Something of a learner is still there.
    #[error("{}: cannot be deleted: {why}; check who may write there and delete again", .path.display())]
    NotDeleted {
        /// What is still there.
        path: PathBuf,
        /// Why.
        why: io::Error,
    },
    /// What cannot be written as text.
    #[error("this cannot be written down: {0}; please report this")]
    NoText(serde_json::Error),
}

/// What became of a file that could not be taken up, for the learner.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Note {
    /// It was damaged.
    #[error(
        "the file of lesson {lesson} was damaged; it is kept as {}, {attempts} of its attempts could be read, and the lesson begins anew", .kept_as.display()
    )]
    Damaged {
        /// The lesson.
        lesson: String,
        /// Where it lies now.
        kept_as: PathBuf,
        /// How many attempts were read.
        attempts: usize,
    },
    /// The lesson has changed.
    #[error(
        "lesson {lesson} has changed since you began it (revision {saved}, now {now}); what you did is kept as {}, your attempts stay, and the lesson begins anew", .kept_as.display()
    )]
    OtherRevision {
        /// The lesson.
        lesson: String,
        /// Revision that was saved.
        saved: u32,
        /// Revision of the lesson.
        now: u32,
        /// Where it lies now.
        kept_as: PathBuf,
    },
}
