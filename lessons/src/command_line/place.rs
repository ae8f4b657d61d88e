//! Whether a file that is to be written can stand where the user wants it, as far as can be said beforehand.

use std::path::Path;

use super::Failure;

/// A file in a folder that is there.
pub(super) fn place(path: &Path) -> Result<(), Failure> {
    if path.is_dir() {
        return Err(refused(path, "this is a folder; name a file in it"));
    }
    let folder = path.parent().unwrap_or_else(|| Path::new(""));
    if folder.as_os_str().is_empty() || folder.is_dir() {
        Ok(())
    } else {
        Err(refused(
            path,
            "there is no such folder; make it first, or check the path",
        ))
    }
}

/// Why a file cannot stand there.
pub(super) fn refused(path: &Path, reason: &'static str) -> Failure {
    Failure::Place {
        path: path.to_owned(),
        reason,
    }
}
