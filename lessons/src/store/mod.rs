//! What a learner did, on disk: how far each lesson is, every attempt at it, and what is due again.
//!
//! A learner is a code of letters made here: no name, no account. Each code has a folder, each lesson a file in it,
//! written whole or not at all. A file that is damaged or belongs to another revision of its lesson is set aside under a
//! name that says so. Nothing here stops a lesson: what cannot be kept is told, and the lesson goes on in memory. There
//! is no clock; whoever calls says which day it is.
//!
//! A window does this:
//!
//! ```
//! use ashlane_lessons::{catalog, engine::Command, store::{Day, Store}};
//!
//! # let folder = std::env::temp_dir().join(format!("ashlane-doc-{}", std::process::id()));
//! let store = Store::at(&folder); // or Store::usual()?
//! let learner = store.new_learner()?; // the learner writes this code down
//! let today: Day = "2026-03-02".parse()?;
//! let mut notebook = store.notebook(&learner);
//!
//! let lessons = catalog::lessons()?;
//! let lesson = &lessons[0];
//! let resumed = notebook.resume(lesson); // resumed.notes and resumed.trouble are for the learner
//! let mut progress = resumed.progress;
//! progress.apply(lesson, Command::Pause)?;
//! notebook.save(lesson, &progress, today)?; // after every command
//!
//! let due = notebook.due(today);
//! assert!(due.is_empty());
//! let everything = notebook.export()?; // one JSON text
//! assert!(everything.contains(learner.as_str()));
//! notebook.delete()?; // everything of this learner, nothing else
//! # std::fs::remove_dir_all(folder)?;
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod aside;
mod attempts;
mod day;
mod due;
mod export;
mod learner;
mod notebook;
mod record;
mod trouble;

use std::{
    fs,
    path::{Path, PathBuf},
};

use etcetera::BaseStrategy;

pub use attempts::{Attempt, Attempts, StepAttempt, Tally};
pub use day::{Day, WrongDay};
pub use due::{Due, INTERVALS_DAYS, Standing, due, standing};
pub use learner::{Learner, WrongCode};
pub use notebook::{Notebook, Resumed};
pub use record::Record;
pub use trouble::{Note, StoreError};

/// What is kept, and about whom: to be shown where a code is made or typed in.
pub const PRIVACY: &str = "\
A learner is a code of eight letters, made by chance; no name and no account is asked for.
Kept are answers, results, and the day of each attempt, in files on this machine.
Nothing is sent anywhere. An export is made only when you ask for one.
Deleting a learner deletes all of it; an export that you made is yours to delete.
Who has which code is written nowhere but where you write it.";

/// Name of our folder among the data of other programs.
const OWN_FOLDER: &str = "ashlane";
/// Codes that are tried before making one is given up.
const MOST_CODES: usize = 100;

/// The data folder.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Store {
    folder: PathBuf,
}

impl Store {
    /// The folder in which this platform keeps the data of programs.
    ///
    /// # Errors
    /// The platform names none, as without a home folder.
    pub fn usual() -> Result<Self, StoreError> {
        let places = etcetera::base_strategy::choose_native_strategy()
            .map_err(|_no_home| StoreError::NoFolder)?;
        Ok(Self::at(places.data_dir().join(OWN_FOLDER)))
    }

    /// A folder of the user's choice.
    #[must_use]
    pub fn at(folder: impl Into<PathBuf>) -> Self {
        Self {
            folder: folder.into(),
        }
    }

    /// The folder that was chosen, or else the usual one.
    ///
    /// # Errors
    /// None was chosen and the platform names none.
    pub fn chosen(folder: Option<&Path>) -> Result<Self, StoreError> {
        folder.map_or_else(Self::usual, |folder| Ok(Self::at(folder)))
    }

    /// The data folder.
    #[must_use]
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// A code that nobody here has; nothing is written yet.
    ///
    /// # Errors
    /// The machine has no random numbers, or does not stop giving codes that are taken.
    pub fn new_learner(&self) -> Result<Learner, StoreError> {
        for _ in 0..MOST_CODES {
            let learner = Learner::new_code()?;
            if !self.folder_of(&learner).exists() {
                return Ok(learner);
            }
        }
        Err(StoreError::NoChance)
    }

    /// Every learner with a folder here, in the order of their codes.
    #[must_use]
    pub fn learners(&self) -> Vec<Learner> {
        let entries = fs::read_dir(self.learners_folder()).into_iter().flatten();
        let mut found: Vec<Learner> = entries
            .flatten()
            .filter_map(|entry| {
                let name = entry.file_name().into_string().ok()?;
                let learner: Learner = name.parse().ok()?;
                // A folder of any other spelling is not ours.
                (learner.as_str() == name).then_some(learner)
            })
            .collect();
        found.sort();
        found
    }

    /// Opens what is kept of a learner; a new one begins with nothing. Look at [`Notebook::trouble`].
    #[must_use]
    pub fn notebook(&self, learner: &Learner) -> Notebook {
        Notebook::open(self.folder_of(learner), learner.clone())
    }

    /// Reads what is kept of a learner and changes nothing: the lessons that can be read, and why others cannot.
    ///
    /// # Errors
    /// There is nothing of this learner here.
    pub fn records(&self, learner: &Learner) -> Result<(Vec<Record>, Vec<StoreError>), StoreError> {
        let folder = self.folder_of(learner);
        if !folder.is_dir() {
            return Err(StoreError::NoSuchLearner {
                learner: learner.clone(),
                folder: self.folder.clone(),
            });
        }
        Ok(record::all(&folder, learner))
    }

    fn learners_folder(&self) -> PathBuf {
        self.folder.join("learners")
    }

    fn folder_of(&self, learner: &Learner) -> PathBuf {
        self.learners_folder().join(learner.as_str())
    }
}
