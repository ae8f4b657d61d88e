//! The notebook of a learner: takes lessons up where they were left, and keeps them after every command.

use std::{
    collections::BTreeMap,
    fs::{self, File, TryLockError},
    io,
    path::{Path, PathBuf},
};

use ashlane_shared::conditions::sheet::{SaveError, write_atomically};

use super::{
    Attempts, Day, Due, Learner, Note, Record, StoreError,
    aside::{clear_leftovers, set_aside},
    due,
    record::{self, Found, VERSION},
};
use crate::engine::{Lesson, Progress, ResumeError};

/// The file that one program holds while it has this learner open.
const LOCK: &str = "in-use";
/// Words under which files are set aside.
const DAMAGED: &str = "damaged";
const NOT_READ: &str = "not-read";

/// Everything kept of a learner, open for writing.
#[derive(Debug)]
pub struct Notebook {
    pub(super) folder: PathBuf,
    pub(super) learner: Learner,
    hold: Hold,
    pages: BTreeMap<String, Page>,
}

/// Whether this program alone writes here.
#[derive(Debug)]
enum Hold {
    /// It does, as long as this file is open.
    Ours { _file: File },
    /// The folder cannot be written, or knows no locks.
    Unknown,
    /// Another program does.
    Theirs,
}

/// A lesson that was opened.
#[derive(Debug)]
struct Page {
    record: Record,
    /// A file that was not taken up stands in the way; it is set aside under this word first.
    in_the_way: Option<String>,
}

/// A lesson taken up again.
#[derive(Debug)]
pub struct Resumed {
    /// Where the learner is: where it was left, or at the beginning.
    pub progress: Progress,
    /// What is to be said about the file.
    pub notes: Vec<Note>,
    /// Why the file could not be read or written.
    pub trouble: Option<StoreError>,
}

impl Notebook {
    pub(super) fn open(folder: PathBuf, learner: Learner) -> Self {
        let hold = hold(&folder);
        if matches!(hold, Hold::Ours { .. }) {
            clear_leftovers(&folder);
        }
        Self {
            folder,
            learner,
            hold,
            pages: BTreeMap::new(),
        }
    }

    /// Whose it is.
    #[must_use]
    pub fn learner(&self) -> &Learner {
        &self.learner
    }

    /// Why nothing can be kept, to be told before a lesson begins; nothing if all is well.
    #[must_use]
    pub fn trouble(&self) -> Option<StoreError> {
        match self.hold {
            Hold::Theirs => Some(self.in_use()),
            Hold::Ours { .. } => None,
            Hold::Unknown => make(&self.folder)
                .err()
                .map(|source| self.unwritable(source)),
        }
    }

    /// Takes a lesson up where it was left.
    #[must_use]
    pub fn resume(&mut self, lesson: &Lesson) -> Resumed {
        let (notes, trouble) = self.load(lesson);
        let page = self.pages.get(&lesson.id);
        let kept = page.and_then(|page| page.record.progress.clone());
        Resumed {
            progress: kept.unwrap_or_else(|| Progress::new(lesson)),
            notes,
            trouble,
        }
    }

    /// Keeps a progress; to be called after every command. A way through that has come to its end goes to the attempts.
    ///
    /// # Errors
    /// It could not be written. It is held all the same: the lesson goes on, and the next call writes everything.
    pub fn save(
        &mut self,
        lesson: &Lesson,
        progress: &Progress,
        today: Day,
    ) -> Result<(), StoreError> {
        let trouble = match self.pages.contains_key(&lesson.id) {
            true => None,
            false => self.load(lesson).1,
        };
        let page = self.page(lesson);
        page.record.take(lesson, progress, today);
        match trouble {
            Some(trouble) => Err(trouble),
            None => self.write(&lesson.id),
        }
    }

    /// Every record, with what was done here since.
    #[must_use]
    pub fn records(&self) -> Vec<Record> {
        let (mut records, _) = record::all(&self.folder, &self.learner);
        for page in self.pages.values() {
            records.retain(|record| record.lesson != page.record.lesson);
            records.push(page.record.clone());
        }
        records
    }

    /// What is due again today, the one that has waited longest first.
    #[must_use]
    pub fn due(&self, today: Day) -> Vec<Due> {
        due(&self.records(), today)
    }

    /// The attempts at a lesson.
    #[must_use]
    pub fn attempts(&self, lesson: &str) -> Attempts {
        let mut records = self.records().into_iter();
        records
            .find(|record| record.lesson == lesson)
            .map(|record| record.attempts)
            .unwrap_or_default()
    }

    fn page(&mut self, lesson: &Lesson) -> &mut Page {
        self.pages.entry(lesson.id.clone()).or_insert_with(|| Page {
            record: Record::new(&lesson.id, lesson.revision),
            in_the_way: None,
        })
    }

    /// Reads the file of a lesson, and sets aside what cannot be taken up.
    fn load(&mut self, lesson: &Lesson) -> (Vec<Note>, Option<StoreError>) {
        if let Some(page) = self.pages.get(&lesson.id)
            && page.record.revision == lesson.revision
        {
            return (Vec::new(), None);
        }
        let mut record = Record::new(&lesson.id, lesson.revision);
        match record::find(&self.folder, &self.learner, &lesson.id) {
            Found::Nothing => {
                self.open_page(record, None);
                (Vec::new(), None)
            }
            Found::Whole(found) => self.take_up(lesson, *found),
            Found::Damaged(attempts) => {
                record.attempts = attempts;
                self.put_aside(lesson, record, None)
            }
            found @ (Found::Newer(_) | Found::Unreadable(_)) => {
                self.open_page(record, Some(NOT_READ.to_owned()));
                (Vec::new(), self.shut(&lesson.id, found))
            }
        }
    }

    /// A record of the right shape: its progress is taken up, unless it does not fit the lesson.
    fn take_up(&mut self, lesson: &Lesson, mut record: Record) -> (Vec<Note>, Option<StoreError>) {
        match record.progress.take().map(|kept| kept.resumed(lesson)) {
            Some(Ok(progress)) => record.progress = Some(progress),
            None => {}
            Some(Err(ResumeError::OtherRevision { saved, .. })) => {
                return self.put_aside(lesson, record, Some(saved));
            }
            Some(Err(ResumeError::OtherLesson(_) | ResumeError::Damaged)) => {
                return self.put_aside(lesson, record, None);
            }
        }
        self.open_page(record, None);
        (Vec::new(), None)
    }

    /// Sets the file aside and writes what is left of it.
    fn put_aside(
        &mut self,
        lesson: &Lesson,
        mut record: Record,
        other_revision: Option<u32>,
    ) -> (Vec<Note>, Option<StoreError>) {
        record.anew(lesson.revision);
        let attempts = record.attempts.count();
        let why = other_revision.map_or_else(
            || DAMAGED.to_owned(),
            |revision| format!("revision-{revision}"),
        );
        self.open_page(record, Some(why));
        if matches!(self.hold, Hold::Theirs) {
            return (Vec::new(), Some(self.in_use()));
        }
        let kept_as = match self.clear_the_way(&lesson.id) {
            Ok(Some(kept_as)) => kept_as,
            Ok(None) => return (Vec::new(), None),
            Err(trouble) => return (Vec::new(), Some(trouble)),
        };
        let note = match other_revision {
            Some(saved) => Note::OtherRevision {
                lesson: lesson.id.clone(),
                saved,
                now: lesson.revision,
                kept_as,
            },
            None => Note::Damaged {
                lesson: lesson.id.clone(),
                kept_as,
                attempts,
            },
        };
        (vec![note], self.write(&lesson.id).err())
    }

    /// Sets the file that stands in the way aside, and says where it lies then.
    fn clear_the_way(&mut self, lesson: &str) -> Result<Option<PathBuf>, StoreError> {
        let Some(page) = self.pages.get_mut(lesson) else {
            return Ok(None);
        };
        let Some(why) = &page.in_the_way else {
            return Ok(None);
        };
        let path = record::path_of(&self.folder, lesson);
        let kept_as = match record::find(&self.folder, &self.learner, lesson) {
            Found::Nothing => None,
            Found::Whole(_) | Found::Damaged(_) => match set_aside(&path, why) {
                Ok(kept_as) => Some(kept_as),
                Err(why) => return Err(StoreError::NotSetAside { path, why }),
            },
            found => return self.shut(lesson, found).map_or(Ok(None), Err),
        };
        page.in_the_way = None;
        Ok(kept_as)
    }

    /// Why a file that was found stays shut.
    fn shut(&self, lesson: &str, found: Found) -> Option<StoreError> {
        let path = record::path_of(&self.folder, lesson);
        match found {
            Found::Newer(version) => Some(StoreError::Newer {
                path,
                version,
                known: VERSION,
            }),
            Found::Unreadable(why) => Some(StoreError::Unreadable { path, why }),
            Found::Nothing | Found::Whole(_) | Found::Damaged(_) => None,
        }
    }

    fn open_page(&mut self, record: Record, in_the_way: Option<String>) {
        let lesson = record.lesson.clone();
        self.pages.insert(lesson, Page { record, in_the_way });
    }

    /// Writes the file of a lesson in one step.
    fn write(&mut self, lesson: &str) -> Result<(), StoreError> {
        if matches!(self.hold, Hold::Unknown) {
            // The folder may have come back, or been opened by another program meanwhile.
            self.hold = hold(&self.folder);
        }
        if matches!(self.hold, Hold::Theirs) {
            return Err(self.in_use());
        }
        make(&self.folder).map_err(|source| self.unwritable(source))?;
        self.clear_the_way(lesson)?;
        let Some(page) = self.pages.get(lesson) else {
            return Ok(());
        };
        let text = page.record.text(&self.learner)?;
        let path = record::path_of(&self.folder, lesson);
        write_atomically(&path, text).map_err(StoreError::Unwritable)
    }

    /// Lets go of the folder and says which it is.
    pub(super) fn close(self) -> PathBuf {
        self.folder
    }

    fn in_use(&self) -> StoreError {
        StoreError::InUse {
            learner: self.learner.clone(),
            folder: self.folder.clone(),
        }
    }

    fn unwritable(&self, source: io::Error) -> StoreError {
        StoreError::Unwritable(SaveError {
            path: self.folder.clone(),
            source,
        })
    }
}

fn make(folder: &Path) -> io::Result<()> {
    fs::create_dir_all(folder)
}

fn hold(folder: &Path) -> Hold {
    let opened = make(folder).and_then(|()| {
        let mut options = File::options();
        options.write(true).create(true).truncate(false);
        options.open(folder.join(LOCK))
    });
    let Ok(file) = opened else {
        return Hold::Unknown;
    };
    match file.try_lock() {
        Ok(()) => Hold::Ours { _file: file },
        Err(TryLockError::WouldBlock) => Hold::Theirs,
        // Some network drives know no locks; then nobody can say.
        Err(TryLockError::Error(_)) => Hold::Unknown,
    }
}
