//! What the user works on: the sheet and its file, the history of changes, the state of the presentation, messages.

use std::path::{Path, PathBuf};

use ashlane_panels::{
    history::History,
    state::{Rung, UiState},
    view::{FileView, Message},
};
use ashlane_shared::conditions::{Conditions, sheet::Sheet};
use bevy::prelude::*;

/// The user's session.
#[derive(Resource, Debug)]
pub(crate) struct Session {
    /// The sheet as it was read.
    pub(crate) sheet: Sheet,
    /// Its name for people.
    pub(crate) name: String,
    /// Its file; the embedded demonstration has none.
    pub(crate) path: Option<PathBuf>,
    /// Changes that can be taken back.
    pub(crate) history: History,
    /// State of the presentation.
    pub(crate) ui: UiState,
    /// Something to tell.
    pub(crate) message: Option<Message>,
    /// Sheets that an open dialog offers.
    pub(crate) offered: Vec<String>,
}

impl Session {
    /// A session with a sheet.
    pub(crate) fn new(sheet: Sheet, path: Option<PathBuf>) -> Self {
        Self {
            name: name(path.as_deref()),
            sheet,
            path,
            history: History::default(),
            // The whole machine first: the rest is on the way into it.
            ui: UiState {
                rung: Rung::Elevation,
                ..UiState::default()
            },
            message: None,
            offered: Vec::new(),
        }
    }

    /// Takes up another sheet; the look stays.
    pub(crate) fn take_up(&mut self, sheet: Sheet, path: Option<PathBuf>) {
        self.name = name(path.as_deref());
        self.sheet = sheet;
        self.path = path;
        self.history = History::default();
    }

    /// File and history, for the panels.
    ///
    /// While a lesson flies its own collector, there is nothing to save or to undo.
    pub(crate) fn file(&self, controls: &Conditions, in_lessons: bool) -> FileView<'_> {
        let mine = !in_lessons;
        FileView {
            name: &self.name,
            has_path: mine && self.path.is_some(),
            unsaved: mine && *controls != self.sheet.conditions,
            can_undo: mine && self.history.can_undo(),
            can_redo: mine && self.history.can_redo(),
        }
    }

    /// Tells that something worked.
    pub(crate) fn tell(&mut self, text: impl Into<String>) {
        self.message = Some(Message {
            trouble: false,
            text: text.into(),
        });
    }

    /// Tells that something did not work.
    pub(crate) fn complain(&mut self, text: impl Into<String>) {
        self.message = Some(Message {
            trouble: true,
            text: text.into(),
        });
    }
}

fn name(path: Option<&Path>) -> String {
    path.and_then(Path::file_name).map_or_else(
        || "the embedded demonstration".to_owned(),
        |name| name.to_string_lossy().into_owned(),
    )
}
