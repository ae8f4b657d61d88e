//! Opens the sheet that the user names: a file, or one of the sheets that come with the program.

use std::path::{Path, PathBuf};

use ashlane_shared::conditions::{
    SITES, demonstration_sheet,
    sheet::{Sheet, SheetErrors, read_file, read_str},
};

/// A sheet that was read, and where it came from.
#[derive(Clone, Debug)]
pub struct Opened {
    /// The sheet.
    pub sheet: Sheet,
    /// Its file; a sheet that comes with the program has none.
    pub path: Option<PathBuf>,
    /// What to call it.
    pub name: String,
}

/// The demonstration collector.
pub(super) fn demonstration() -> Result<Opened, SheetErrors> {
    Ok(Opened {
        sheet: demonstration_sheet()?,
        path: None,
        name: "demonstration".to_owned(),
    })
}

/// A sheet by its path, or by its name if there is no such file.
pub(super) fn open(path: &Path) -> Result<Opened, SheetErrors> {
    let name = path.display().to_string();
    let embedded = SITES
        .iter()
        .find(|(site, _)| Path::new(site) == path && !path.exists());
    if let Some((site, text)) = embedded {
        return Ok(Opened {
            sheet: read_str(site, text)?,
            path: None,
            name,
        });
    }
    Ok(Opened {
        sheet: read_file(path)?,
        path: Some(path.to_owned()),
        name,
    })
}
