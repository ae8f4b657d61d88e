//! Hands everything of a learner out as one JSON text, and takes everything of a learner away.

use std::{fs, io::ErrorKind, path::Path};

use ashlane_shared::conditions::sheet::write_atomically;
use serde::Serialize;

use super::{Learner, Notebook, Record, StoreError, record::VERSION};
use crate::engine::NOTICE_LONG;

#[derive(Serialize)]
struct Everything<'n> {
    notice: &'static str,
    program: &'static str,
    program_version: &'static str,
    version: u64,
    learner: &'n Learner,
    lessons: Vec<Record>,
    /// Files that are no record: set aside, damaged, or of a newer program.
    other_files: Vec<OtherFile>,
}

#[derive(Serialize)]
struct OtherFile {
    name: String,
    text: String,
}

impl Notebook {
    /// Everything of this learner as one JSON text, with the notice in it.
    ///
    /// # Errors
    /// A file of the folder cannot be read.
    pub fn export(&self) -> Result<String, StoreError> {
        let lessons = self.records();
        let everything = Everything {
            notice: NOTICE_LONG,
            program: "ashlane",
            program_version: env!("CARGO_PKG_VERSION"),
            version: VERSION,
            learner: &self.learner,
            other_files: self.other_files(&lessons)?,
            lessons,
        };
        let text = serde_json::to_string_pretty(&everything).map_err(StoreError::NoText)?;
        Ok(text + "\n")
    }

    /// Writes the export in one step.
    ///
    /// # Errors
    /// Something cannot be read, or the file cannot be written.
    pub fn export_to(&self, path: &Path) -> Result<(), StoreError> {
        write_atomically(path, self.export()?).map_err(StoreError::NotExported)
    }

    /// Files with something in them that is not among the records.
    fn other_files(&self, lessons: &[Record]) -> Result<Vec<OtherFile>, StoreError> {
        let known: Vec<String> = lessons
            .iter()
            .map(|record| super::record::name_of(&record.lesson))
            .collect();
        let mut found = Vec::new();
        for entry in fs::read_dir(&self.folder).into_iter().flatten().flatten() {
            let (path, name) = (
                entry.path(),
                entry.file_name().to_string_lossy().into_owned(),
            );
            if known.contains(&name) {
                continue;
            }
            let bytes = fs::read(&path).map_err(|why| StoreError::Unreadable { path, why })?;
            if !bytes.is_empty() {
                let text = String::from_utf8_lossy(&bytes).into_owned();
                found.push(OtherFile { name, text });
            }
        }
        found.sort_by(|one, other| one.name.cmp(&other.name));
        Ok(found)
    }

    /// Deletes everything of this learner and nothing else.
    ///
    /// # Errors
    /// Another window has the learner open, or something could not be deleted and is still there.
    pub fn delete(self) -> Result<(), StoreError> {
        if let Some(trouble @ StoreError::InUse { .. }) = self.trouble() {
            return Err(trouble);
        }
        let path = self.close();
        match fs::remove_dir_all(&path) {
            Err(why) if why.kind() != ErrorKind::NotFound => {
                Err(StoreError::NotDeleted { path, why })
            }
            _ => Ok(()),
        }
    }
}
