//! The only place that touches files: reads a sheet, and writes one so that a half-written file is never seen.

use std::{
    fs::{self, File, OpenOptions},
    io::{self, ErrorKind, Read, Write},
    path::{Path, PathBuf},
};

use super::{MOST_BYTES, Sheet, SheetErrors, Trouble, problem::SheetProblem, read_str};

/// Names tried for the file that is written first; more than a few means that the folder is full of leftovers.
const MOST_NAMES: usize = 100;

/// Reads a sheet from a file.
///
/// # Errors
/// When the file cannot be read, is too large or is not UTF-8, and for everything that is wrong in it.
pub fn read_file(path: &Path) -> Result<Sheet, SheetErrors> {
    read_str(&path.display().to_string(), &read_text(path)?)
}

/// Reads the text of a sheet or of another small file of ours.
///
/// # Errors
/// When the file cannot be read, is too large or is not UTF-8.
pub fn read_text(path: &Path) -> Result<String, SheetErrors> {
    let name = path.display().to_string();
    let bytes = read_bytes(path).map_err(|trouble| whole_file(&name, None, trouble))?;
    String::from_utf8(bytes).map_err(|error| {
        let valid = error.utf8_error().valid_up_to();
        let line = error
            .as_bytes()
            .iter()
            .take(valid)
            .filter(|&&byte| byte == b'\n')
            .count()
            + 1;
        let trouble = Trouble::Unreadable(not_utf8(error.as_bytes()));
        whole_file(&name, Some(line), trouble)
    })
}

fn whole_file(file: &str, line: Option<usize>, trouble: Trouble) -> SheetErrors {
    let problem = SheetProblem {
        line,
        key: String::new(),
        value: String::new(),
        trouble,
    };
    SheetErrors {
        file: file.to_owned(),
        problems: vec![problem],
        left_out: 0,
    }
}

/// The bytes of a file, but never many more than a sheet may have.
fn read_bytes(path: &Path) -> Result<Vec<u8>, Trouble> {
    let unreadable =
        |error: io::Error| Trouble::Unreadable(format!("cannot be read: {}", why(&error)));
    if path.is_dir() {
        return Err(Trouble::Unreadable(
            "this is a folder; name a file in it, such as site.toml".to_owned(),
        ));
    }
    let file = File::open(path).map_err(unreadable)?;
    let size = file.metadata().map_err(unreadable)?.len();
    if size > MOST_BYTES {
        return Err(Trouble::TooLarge {
            bytes: size,
            most: MOST_BYTES,
        });
    }
    // A pipe or device has no size; one byte more than allowed is enough for the reader to refuse it.
    let mut bytes = Vec::new();
    file.take(MOST_BYTES + 1)
        .read_to_end(&mut bytes)
        .map_err(unreadable)?;
    Ok(bytes)
}

fn not_utf8(bytes: &[u8]) -> String {
    let wide = bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]);
    let found = if wide {
        "this is UTF-16 text"
    } else {
        "this is not UTF-8 text"
    };
    format!("{found}; save the file as UTF-8 and try again")
}

/// What went wrong with a file, in words.
fn why(error: &io::Error) -> String {
    match error.kind() {
        ErrorKind::NotFound => "there is no such file; check the path".to_owned(),
        ErrorKind::PermissionDenied => {
            "permission denied; check who may read and write it".to_owned()
        }
        ErrorKind::IsADirectory => "this is a folder".to_owned(),
        ErrorKind::StorageFull => "the disk is full".to_owned(),
        ErrorKind::ReadOnlyFilesystem => "the disk is read-only".to_owned(),
        _ => error.to_string(),
    }
}

/// Why a sheet could not be written.
#[derive(Debug, thiserror::Error)]
#[error("{}: cannot be written: {}", .path.display(), why(.source))]
pub struct SaveError {
    /// The file that was to be written; it is as it was before.
    pub path: PathBuf,
    /// What went wrong.
    #[source]
    pub source: io::Error,
}

/// Writes a file in one step: the old one stays complete until the new one is.
///
/// # Errors
/// When the folder does not exist or may not be written to, or the disk is full; the old file is then untouched.
pub fn write_atomically(path: &Path, contents: impl AsRef<[u8]>) -> Result<(), SaveError> {
    // Through a link, the file behind it is replaced and not the link.
    let target = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let failed = |source: io::Error| SaveError {
        path: path.to_owned(),
        source,
    };
    if target.is_dir() {
        return Err(failed(ErrorKind::IsADirectory.into()));
    }
    let (temporary, file) = temporary_beside(&target).map_err(failed)?;
    let moved =
        fill(file, contents.as_ref(), &target).and_then(|()| fs::rename(&temporary, &target));
    moved.map_err(|source| {
        // The first error is the one to tell; a leftover file is only untidy.
        drop(fs::remove_file(&temporary));
        failed(source)
    })
}

/// A new file in the folder of `target`, since only there a rename is one step.
fn temporary_beside(target: &Path) -> io::Result<(PathBuf, File)> {
    let name = target
        .file_name()
        .ok_or(ErrorKind::InvalidInput)?
        .to_string_lossy();
    let mut last = io::Error::from(ErrorKind::AlreadyExists);
    for number in 0..MOST_NAMES {
        let temporary = target.with_file_name(format!(".{name}.{number}.new"));
        match OpenOptions::new()
            .write(true)
            .create_new(true)
            .open(&temporary)
        {
            Ok(file) => return Ok((temporary, file)),
            Err(error) if error.kind() == ErrorKind::AlreadyExists => last = error,
            Err(error) => return Err(error),
        }
    }
    Err(last)
}

fn fill(mut file: File, contents: &[u8], target: &Path) -> io::Result<()> {
    file.write_all(contents)?;
    if let Ok(old) = fs::metadata(target) {
        file.set_permissions(old.permissions())?;
    }
    file.sync_all()
}
