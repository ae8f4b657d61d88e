//! A lesson file of the user's own: read at the start, and again whenever it is saved.

use std::{
    fs,
    path::{Path, PathBuf},
    time::SystemTime,
};

use ashlane_lessons::engine::{Lesson, Progress, read_lesson};
use ashlane_shared::conditions::sheet::{SheetErrors, read_text};
use bevy::prelude::*;

use super::{Lessons, Workbench, follow, look};
use crate::{flight::Flight, session::Session};

/// Frames between two looks at the file.
const FRAMES: u32 = 30;

/// The file.
#[derive(Debug)]
pub(crate) struct OwnFile {
    path: PathBuf,
    /// When it was written that was read last.
    written: Option<SystemTime>,
    frames: u32,
}

impl OwnFile {
    /// Reads the lesson and remembers its file.
    ///
    /// # Errors
    /// Everything that is wrong with it, by line.
    pub(crate) fn open(path: &Path) -> Result<(Self, Lesson), SheetErrors> {
        let file = Self {
            path: path.to_owned(),
            written: written(path),
            frames: 0,
        };
        let lesson = file.read()?;
        Ok((file, lesson))
    }

    /// Its name for people.
    pub(super) fn name(&self) -> String {
        self.path.display().to_string()
    }

    /// Whether it has been saved since it was read; looks now and then only.
    pub(super) fn is_saved(&mut self) -> bool {
        self.frames += 1;
        if self.frames < FRAMES {
            return false;
        }
        self.frames = 0;
        // A file that is gone for a moment is one that is being replaced.
        let now = written(&self.path);
        let saved = now.is_some() && now != self.written;
        if saved {
            self.written = now;
        }
        saved
    }

    /// Reads it as it is now.
    ///
    /// # Errors
    /// Everything that is wrong with it, by line.
    pub(super) fn read(&self) -> Result<Lesson, SheetErrors> {
        let text = read_text(&self.path)?;
        read_lesson(&self.name(), &text)
    }
}

/// Takes a lesson of the user's own up again when its file was saved.
pub(super) fn read_again(
    mut lessons: ResMut<Lessons>,
    mut flight: ResMut<Flight>,
    mut session: ResMut<Session>,
) {
    let lessons = lessons.bypass_change_detection();
    let Some((file, own)) = lessons.own.as_mut() else {
        return;
    };
    if !file.is_saved() {
        return;
    }
    let name = file.name();
    let lesson = match file.read() {
        Ok(lesson) => lesson,
        Err(errors) => return session.complain(errors.to_string()),
    };
    *own = lesson.clone();
    session.tell(format!("{name} was read again."));
    if lessons.catalog.is_empty() {
        return;
    }
    let index = lessons.put(lesson);
    let before = lessons.progress[index].take();
    let lesson = &lessons.catalog[index];
    // Answers to other questions are of no use.
    let kept = before.map(|before| {
        before
            .resumed(lesson)
            .unwrap_or_else(|_| Progress::new(lesson))
    });
    lessons.progress[index] = kept;
    if lessons.open == Some(index) {
        lessons.measurement = None;
        lessons.bench = Workbench::default();
        follow(lessons, &mut flight, &mut session);
        look(lessons, &flight, &mut session.ui);
    }
}

fn written(path: &Path) -> Option<SystemTime> {
    fs::metadata(path).and_then(|about| about.modified()).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_read_again_once_it_is_saved_and_says_what_is_wrong_with_it() {
        let (_, text) = ashlane_lessons::catalog::LESSONS[0];
        let folder = std::env::temp_dir().join(format!("ashlane_own_{}", std::process::id()));
        fs::create_dir_all(&folder).expect("a folder");
        let path = folder.join("own.toml");
        fs::write(&path, text).expect("a file");
        let (mut file, lesson) = OwnFile::open(&path).expect("a sound lesson");
        let mut look = || (0..FRAMES).any(|_| file.is_saved());
        assert!(!look(), "nothing was saved");
        let title = format!("title = \"{}\"", lesson.title);
        let changed = text.replace(&title, "title = \"Another title\"");
        fs::write(&path, changed).expect("a file");
        let later = SystemTime::UNIX_EPOCH + std::time::Duration::from_secs(2_000_000_000);
        let opened = fs::File::options().write(true).open(&path).expect("a file");
        opened.set_modified(later).expect("a time");
        assert!(look(), "it was saved");
        assert!(!look(), "once is enough");
        assert_eq!(file.read().expect("sound").title, "Another title");
        fs::write(&path, "id = 3").expect("a file");
        let errors = file.read().expect_err("no lesson").to_string();
        assert!(
            errors.contains("own.toml") && errors.contains("id"),
            "{errors}"
        );
        fs::remove_dir_all(&folder).expect("a folder");
    }
}
