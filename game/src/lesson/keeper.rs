//! Keeps what a learner does, on disk where there is a place for it, and says how every lesson stands.

use std::{
    path::Path,
    time::{Duration, Instant, SystemTime, UNIX_EPOCH},
};

use ashlane_lessons::{
    engine::{Lesson, Progress},
    store::{Day, Learner, Note, Notebook, Record, Standing, Store, StoreError, standing},
};

/// A control that is dragged is kept this often.
const OFTEN: Duration = Duration::from_millis(300);

/// The clock of this machine, which only says when something is written.
#[expect(
    clippy::disallowed_methods,
    reason = "when a file is written plays no part in what is simulated"
)]
fn now() -> Instant {
    Instant::now()
}

/// Where progress is kept, and whose.
#[derive(Debug, Default)]
pub(crate) struct Keeper {
    store: Option<Store>,
    notebook: Option<Notebook>,
    /// The codes that are known here.
    codes: Vec<String>,
    code: Option<String>,
    /// The records, as they were when the catalog was opened last.
    records: Vec<Record>,
    /// What was said last of trouble: it is said once.
    told: String,
    kept: Option<Instant>,
    /// Something has changed since it was kept last.
    owed: bool,
}

impl Keeper {
    /// Keeps in this folder, or in the usual one; a learner who is named, or the only one there is, goes on.
    ///
    /// # Errors
    /// There is no folder.
    pub(crate) fn open(
        folder: Option<&Path>,
        learner: Option<Learner>,
    ) -> Result<Self, StoreError> {
        let store = Store::chosen(folder)?;
        let mut keeper = Self {
            store: Some(store),
            ..Self::default()
        };
        let known = keeper.learners();
        let only = (known.len() == 1).then(|| known[0].clone());
        if let Some(learner) = learner.or(only) {
            keeper.take(&learner);
        }
        keeper.look();
        Ok(keeper)
    }

    fn learners(&self) -> Vec<Learner> {
        self.store.as_ref().map(Store::learners).unwrap_or_default()
    }

    fn take(&mut self, learner: &Learner) {
        self.notebook = self.store.as_ref().map(|store| store.notebook(learner));
        self.code = Some(learner.as_str().to_owned());
    }

    /// Looks anew at what is kept.
    pub(crate) fn look(&mut self) {
        let known = self.learners();
        self.codes = known.iter().map(|code| code.as_str().to_owned()).collect();
        self.records = self
            .notebook
            .as_ref()
            .map(Notebook::records)
            .unwrap_or_default();
    }

    /// Whether anything can be kept at all.
    pub(crate) fn has_place(&self) -> bool {
        self.store.is_some()
    }

    /// The present learner.
    pub(crate) fn code(&self) -> Option<&str> {
        self.code.as_deref()
    }

    /// Every learner who is known here.
    pub(crate) fn codes(&self) -> &[String] {
        &self.codes
    }

    /// How a lesson stands by what is kept.
    pub(crate) fn standing(&self, lesson: &Lesson) -> Standing {
        let record = self
            .records
            .iter()
            .find(|record| record.lesson == lesson.id);
        standing(record, today())
    }

    /// From now on a new learner.
    ///
    /// # Errors
    /// No code could be made.
    pub(crate) fn new_learner(&mut self) -> Result<(), StoreError> {
        if let Some(store) = &self.store {
            let learner = store.new_learner()?;
            self.take(&learner);
            self.look();
        }
        Ok(())
    }

    /// From now on the learner of this code.
    ///
    /// # Errors
    /// It is no code.
    pub(crate) fn use_learner(&mut self, code: &str) -> Result<(), String> {
        let learner: Learner = code
            .parse()
            .map_err(|wrong: ashlane_lessons::store::WrongCode| wrong.to_string())?;
        self.take(&learner);
        self.look();
        Ok(())
    }

    /// Writes everything of the learner.
    ///
    /// # Errors
    /// It cannot be read or written.
    pub(crate) fn export(&self, path: &Path) -> Result<(), StoreError> {
        self.notebook
            .as_ref()
            .map_or(Ok(()), |notebook| notebook.export_to(path))
    }

    /// Deletes everything of the learner.
    ///
    /// # Errors
    /// Something is still there.
    pub(crate) fn delete(&mut self) -> Result<(), StoreError> {
        let deleted = self.notebook.take().map_or(Ok(()), Notebook::delete);
        self.code = None;
        self.owed = false;
        self.look();
        deleted
    }

    /// Takes a lesson up where it was left, with what is to be said about it.
    pub(crate) fn resume(&mut self, lesson: &Lesson) -> (Progress, Option<String>) {
        let Some(notebook) = &mut self.notebook else {
            return (Progress::new(lesson), None);
        };
        let resumed = notebook.resume(lesson);
        let notes = resumed.notes.iter().map(Note::to_string);
        let trouble = resumed.trouble.iter().map(StoreError::to_string);
        let said: Vec<String> = notes.chain(trouble).collect();
        let said = (!said.is_empty()).then(|| said.join("\n"));
        (resumed.progress, said)
    }

    /// Something has changed: kept at once, or, while a control is dragged, a little later.
    pub(crate) fn changed(
        &mut self,
        lesson: &Lesson,
        progress: &Progress,
        dragged: bool,
    ) -> Option<String> {
        self.owed = true;
        let waits = self.kept.is_some_and(|kept| kept.elapsed() < OFTEN);
        if dragged && waits {
            return None;
        }
        self.keep(lesson, progress)
    }

    /// Keeps what is owed; says what went wrong, once.
    pub(crate) fn keep(&mut self, lesson: &Lesson, progress: &Progress) -> Option<String> {
        let notebook = self.notebook.as_mut().filter(|_| self.owed)?;
        let outcome = notebook.save(lesson, progress, today());
        self.owed = false;
        self.kept = Some(now());
        let said = outcome.err().map(|error| error.to_string());
        let news = said.filter(|said| *said != self.told)?;
        self.told.clone_from(&news);
        Some(news)
    }

    /// Whether something is owed that has waited long enough.
    pub(crate) fn is_due(&self) -> bool {
        self.owed && self.kept.is_none_or(|kept| kept.elapsed() >= OFTEN)
    }
}

/// The day by this machine's clock, in UTC.
#[expect(
    clippy::disallowed_methods,
    reason = "the day of an attempt plays no part in what is simulated"
)]
fn today() -> Day {
    let passed = SystemTime::now().duration_since(UNIX_EPOCH);
    Day::of_unix_time(passed.unwrap_or_default().as_secs())
}
