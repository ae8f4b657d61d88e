//! Sets a file aside: a copy beside it under a name that says why, before anything else is written in its place.

use std::{
    fs::{self, File},
    io,
    path::{Path, PathBuf},
};

/// Copies a file to `lesson-L5.damaged.json`, or `lesson-L5.damaged-2.json` where that is taken; the file itself stays.
pub(super) fn set_aside(path: &Path, why: &str) -> io::Result<PathBuf> {
    let name = path.file_stem().unwrap_or_default().to_string_lossy();
    let numbered = |number: usize| match number {
        1 => format!("{name}.{why}.json"),
        _ => format!("{name}.{why}-{number}.json"),
    };
    let mut number = 1;
    let mut aside = path.with_file_name(numbered(number));
    while aside.symlink_metadata().is_ok() {
        number += 1;
        aside = path.with_file_name(numbered(number));
    }
    let copied = fs::copy(path, &aside).and_then(|_| File::open(&aside)?.sync_all());
    match copied {
        Ok(()) => Ok(aside),
        Err(error) => {
            // Half a copy helps nobody; the error is the one to tell.
            drop(fs::remove_file(&aside));
            Err(error)
        }
    }
}

/// Takes away what a program left half written that was killed while it wrote this file.
pub(super) fn clear_leftovers(folder: &Path) {
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let name = entry.file_name();
        let name = name.to_string_lossy();
        if name.starts_with(".lesson-") && name.ends_with(".new") {
            // One that cannot be taken away is only untidy.
            drop(fs::remove_file(entry.path()));
        }
    }
}
