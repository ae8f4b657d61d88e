//! A stage to test on, where there is something that renders, and folders that clean up behind themselves.

use std::{
    io::{Write, stderr},
    path::{Path, PathBuf},
};

use ashlane::{Arrangement, Stage};
use ashlane_panels::state::UiState;
use ashlane_shared::conditions::demonstration_sheet;

/// Set where a missing renderer is a failure.
const REQUIRED: &str = "ASHLANE_REQUIRE_RENDER";

/// Whether pictures can be rendered; says SKIPPED where not.
///
/// # Panics
/// Where nothing renders although it must.
pub(crate) fn can_render(test: &str) -> bool {
    if ashlane::adapter().is_some() {
        return true;
    }
    assert!(
        std::env::var_os(REQUIRED).is_none_or(|value| value != "1"),
        "no GPU and no software renderer, and {REQUIRED} is set"
    );
    // Around the test harness, which keeps the words of tests that pass.
    writeln!(stderr(), "SKIPPED {test}: no GPU and no software renderer").expect("a stream");
    false
}

/// The demonstration on a stage; nothing where nothing renders.
pub(crate) fn demonstration_stage(test: &str, size: (u32, u32)) -> Option<Stage> {
    let sheet = demonstration_sheet().expect("the embedded sheet");
    can_render(test).then(|| {
        Stage::new(&sheet, UiState::default(), size, Arrangement::Window).expect("a stage")
    })
}

/// A folder for one test, removed at its end.
pub(crate) struct Folder(PathBuf);

impl Folder {
    pub(crate) fn new(test: &str) -> Self {
        let path = std::env::temp_dir().join(format!("ashlane_{}_{test}", std::process::id()));
        std::fs::create_dir_all(&path).expect("a folder");
        Self(path)
    }

    pub(crate) fn path(&self) -> &Path {
        &self.0
    }

    pub(crate) fn file(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        // What is left over in the system's folder for such things harms nobody.
        drop(std::fs::remove_dir_all(&self.0));
    }
}
