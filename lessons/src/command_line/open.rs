//! Opens the sheet that the user names: a file, or one of the sheets that come with the program.

use std::path::{Path, PathBuf};

use ashlane_shared::conditions::{
    SITES, demonstration_sheet,
    sheet::{Sheet, SheetErrors, read_file, read_str},
};

use crate::store::Learner;

/// A sheet that was read, and where it came from.
#[derive(Clone, Debug)]
pub struct Opened {
    /// The sheet.
    pub sheet: Sheet,
    /// Its file; a sheet that comes with the program has none.
    pub path: Option<PathBuf>,
    /// What to call it.
    pub name: String,
    /// Folder for what learners did; the usual one where nothing is named.
    pub data: Option<PathBuf>,
    /// The learner who works in the window, if one was named.
    pub learner: Option<Learner>,
    /// A lesson file of the user's own to open in the window.
    pub lesson: Option<PathBuf>,
}

impl Opened {
    fn new(sheet: Sheet, path: Option<PathBuf>, name: String) -> Self {
        Self {
            sheet,
            path,
            name,
            data: None,
            learner: None,
            lesson: None,
        }
    }
}

/// The demonstration collector.
pub(super) fn demonstration() -> Result<Opened, SheetErrors> {
    let name = "demonstration".to_owned();
    Ok(Opened::new(demonstration_sheet()?, None, name))
}

/// A sheet by its path, or by its name if there is no such file.
pub(super) fn open(path: &Path) -> Result<Opened, SheetErrors> {
    let name = path.display().to_string();
    let embedded = SITES
        .iter()
        .find(|(site, _)| Path::new(site) == path && !path.exists());
    if let Some((site, text)) = embedded {
        return Ok(Opened::new(read_str(site, text)?, None, name));
    }
    Ok(Opened::new(read_file(path)?, Some(path.to_owned()), name))
}
