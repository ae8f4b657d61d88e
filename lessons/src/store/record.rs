//! The file of one learner and one lesson: its shape, and reading one whatever it contains.

use std::{
    fs::File,
    io::{self, ErrorKind, Read},
    path::{Path, PathBuf},
};

use serde::{Deserialize, Serialize, de::DeserializeOwned};
use serde_json::Value;

use super::{Attempt, Attempts, Day, Learner, StoreError};
use crate::engine::{Lesson, Progress};

/// Version of the file; rises when its shape changes.
pub(super) const VERSION: u64 = 1;
/// Largest file that is read, bytes: thousands of attempts.
const MOST_BYTES: u64 = 1 << 26;
/// How every file of a lesson begins, so that no lesson is called like a device of an old system.
const PREFIX: &str = "lesson-";
const ENDING: &str = ".json";

/// What is kept of one lesson.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Record {
    /// The lesson.
    pub lesson: String,
    /// How far it is; nothing where it is to begin anew.
    pub progress: Option<Progress>,
    /// Day of the last save.
    pub day: Option<Day>,
    /// Whether this way through is among the attempts already.
    noted: bool,
    /// Every attempt.
    pub attempts: Attempts,
    /// Revision of the lesson.
    pub revision: u32,
}

/// The file around it.
#[derive(Serialize)]
struct Written<'r> {
    version: u64,
    learner: &'r Learner,
    #[serde(flatten)]
    record: &'r Record,
}

/// What a file holds.
pub(super) enum Found {
    /// There is none.
    Nothing,
    /// A record.
    Whole(Box<Record>),
    /// Something else; these attempts can be read.
    Damaged(Attempts),
    /// A file of a newer program.
    Newer(u64),
    /// It is there and cannot be read.
    Unreadable(io::Error),
}

impl Record {
    /// Nothing done yet.
    pub(super) fn new(lesson: &str, revision: u32) -> Self {
        Self {
            lesson: lesson.to_owned(),
            progress: None,
            day: None,
            noted: false,
            attempts: Attempts::default(),
            revision,
        }
    }

    /// Whether something was answered and locked.
    #[must_use]
    pub fn is_begun(&self) -> bool {
        self.attempts.count() > 0
            || self
                .progress
                .as_ref()
                .is_some_and(|progress| progress.locked_steps() > 0)
    }

    /// Takes a progress over; a way through that is finished or broken off goes to the attempts, once.
    pub(super) fn take(&mut self, lesson: &Lesson, progress: &Progress, today: Day) {
        if let Some(before) = &self.progress
            && progress.locked_steps() < before.locked_steps()
        {
            // Begun anew. The predictions that were locked are a try, for the results have been seen since.
            if !self.noted {
                let day = self.day.unwrap_or(today);
                self.attempts.add(Attempt::of(before, lesson, day));
            }
            self.noted = false;
        }
        if progress.is_finished(lesson) && !self.noted {
            self.attempts.add(Attempt::of(progress, lesson, today));
            self.noted = true;
        }
        self.revision = lesson.revision;
        self.day = Some(today);
        self.progress = Some(progress.clone());
    }

    /// Lets the progress go and keeps the attempts.
    pub(super) fn anew(&mut self, revision: u32) {
        self.revision = revision;
        self.progress = None;
        self.noted = false;
    }

    /// The text of the file.
    pub(super) fn text(&self, learner: &Learner) -> Result<String, StoreError> {
        let written = Written {
            version: VERSION,
            learner,
            record: self,
        };
        let text = serde_json::to_string(&written).map_err(StoreError::NoText)?;
        Ok(text + "\n")
    }
}

/// The file of a lesson.
pub(super) fn path_of(folder: &Path, lesson: &str) -> PathBuf {
    folder.join(name_of(lesson))
}

/// The name of that file.
pub(super) fn name_of(lesson: &str) -> String {
    format!("{PREFIX}{lesson}{ENDING}")
}

/// Reads the file of a lesson.
pub(super) fn find(folder: &Path, learner: &Learner, lesson: &str) -> Found {
    let bytes = match bytes(&path_of(folder, lesson)) {
        Ok(bytes) => bytes,
        Err(error) if error.kind() == ErrorKind::NotFound => return Found::Nothing,
        Err(error) => return Found::Unreadable(error),
    };
    let Ok(value) = serde_json::from_slice::<Value>(&bytes) else {
        return Found::Damaged(Attempts::default());
    };
    let is = |name: &str, wanted: &str| value.get(name).and_then(Value::as_str) == Some(wanted);
    let version = value.get("version").and_then(Value::as_u64);
    match version {
        Some(version) if version > VERSION => Found::Newer(version),
        // Attempts of somebody else, or at something else, are not taken over.
        Some(_) if !is("learner", learner.as_str()) || !is("lesson", lesson) => {
            Found::Damaged(Attempts::default())
        }
        _ => match read::<Record>(&value) {
            Some(record) if version == Some(VERSION) => Found::Whole(Box::new(record)),
            _ => Found::Damaged(attempts(value.get("attempts"))),
        },
    }
}

/// Every record of a folder that can be read, and what is wrong with the others; nothing is changed.
pub(super) fn all(folder: &Path, learner: &Learner) -> (Vec<Record>, Vec<StoreError>) {
    let (mut records, mut troubles) = (Vec::new(), Vec::new());
    for lesson in lessons(folder) {
        let path = path_of(folder, &lesson);
        match find(folder, learner, &lesson) {
            Found::Nothing => {}
            Found::Whole(record) => records.push(*record),
            Found::Damaged(_) => troubles.push(StoreError::Damaged { path }),
            Found::Newer(version) => troubles.push(StoreError::Newer {
                path,
                version,
                known: VERSION,
            }),
            Found::Unreadable(why) => troubles.push(StoreError::Unreadable { path, why }),
        }
    }
    (records, troubles)
}

/// Lessons with a file in a folder, in order; what was set aside has a dot in its name and is not among them.
fn lessons(folder: &Path) -> Vec<String> {
    let entries = std::fs::read_dir(folder).into_iter().flatten();
    let mut found: Vec<String> = entries
        .flatten()
        .filter_map(|entry| {
            let name = entry.file_name().into_string().ok()?;
            let lesson = name.strip_prefix(PREFIX)?.strip_suffix(ENDING)?;
            (!lesson.contains('.')).then(|| lesson.to_owned())
        })
        .collect();
    found.sort();
    found
}

fn bytes(path: &Path) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    // What is cut off here is no record any more, and is set aside.
    File::open(path)?.take(MOST_BYTES).read_to_end(&mut bytes)?;
    Ok(bytes)
}

fn read<T: DeserializeOwned>(value: &Value) -> Option<T> {
    T::deserialize(value).ok()
}

/// The attempts that can still be read; a later one does not become the first.
fn attempts(value: Option<&Value>) -> Attempts {
    let first = value.and_then(|value| value.get("first"));
    let later = value
        .and_then(|value| value.get("later"))
        .and_then(Value::as_array);
    Attempts {
        first: first.and_then(read),
        later: later.into_iter().flatten().filter_map(read).collect(),
    }
}
