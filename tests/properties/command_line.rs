//! The command line: outputs, exit codes, and that nothing a user types makes it panic.

mod cancelled;
mod corona;
mod counting;
mod errors;
mod gas_path;
mod handouts;
mod help;
mod json;
mod lesson_files;
mod lessons;
mod plant;
mod streams;

use std::{
    ffi::OsString,
    path::PathBuf,
    sync::{
        OnceLock,
        atomic::{AtomicU32, Ordering},
    },
};

use ashlane_lessons::command_line::{Io, Outcome, run};
use serde_json::Value as Json;

/// What came of a run.
#[derive(Debug)]
pub(crate) struct Ran {
    outcome: Outcome,
    out: String,
    pub(crate) err: String,
}

impl Ran {
    /// The exit code, where the program is at its end.
    #[track_caller]
    pub(crate) fn code(&self) -> u8 {
        match self.outcome {
            Outcome::Done(code) => code,
            _ => panic!("not at its end: {self:?}"),
        }
    }
}

/// Runs the program with these words, without a terminal.
pub(crate) fn ashlane<W: Into<OsString>>(words: impl IntoIterator<Item = W>) -> Ran {
    let mut args = vec![OsString::from("ashlane")];
    args.extend(words.into_iter().map(Into::into));
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let outcome = run(
        args,
        &mut Io {
            out: &mut out,
            err: &mut err,
            err_is_terminal: false,
            go_on: &|| true,
        },
    );
    Ran {
        outcome,
        out: String::from_utf8(out).expect("text"),
        err: String::from_utf8(err).expect("text"),
    }
}

/// Runs words that are separated by spaces.
pub(crate) fn words(line: &str) -> Ran {
    ashlane(line.split_whitespace())
}

/// Runs words that must print one JSON object.
#[track_caller]
fn object(line: &str) -> Json {
    let ran = words(line);
    assert_eq!(ran.code(), 0, "{ran:?}");
    serde_json::from_str(&ran.out).unwrap_or_else(|error| panic!("{error}\n{}", ran.out))
}

/// A file for a test, in a folder of its own.
pub(crate) fn file(name: &str, bytes: impl AsRef<[u8]>) -> PathBuf {
    static NUMBER: AtomicU32 = AtomicU32::new(0);
    let number = NUMBER.fetch_add(1, Ordering::Relaxed);
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR"))
        .join(format!("command-line-{}-{number}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let path = folder.join(name);
    std::fs::write(&path, bytes).expect("a file");
    path
}

/// The demonstration with one field only, which theory answers quickly.
fn one_field() -> PathBuf {
    let sheet = ashlane_shared::conditions::SITES[0].1;
    file(
        "one-field.toml",
        sheet
            .replace("fields = 4", "fields = 1")
            .replace("[\"46 kV\", \"45 kV\", \"44 kV\", \"43 kV\"]", "\"46 kV\"")
            .replace("[\"4 h\", \"12 h\", \"48 h\", \"120 h\"]", "\"4 h\"")
            .replace("[\"2 h\", \"6 h\", \"12 h\", \"24 h\"]", "\"2 h\"")
            .replace("[\"2 h\", \"4 h\", \"8 h\", \"8 h\"]", "\"2 h\""),
    )
}

/// `simulate` of the demonstration as JSON, once for all tests.
fn demonstration_object() -> &'static Json {
    static OBJECT: OnceLock<Json> = OnceLock::new();
    OBJECT.get_or_init(|| object("simulate demonstration --parcels 20000 --seed 3 --json"))
}

/// `lesson run --all --json`, once for all tests: its counts are the longest part of them.
pub(crate) fn whole_catalog() -> &'static Json {
    static CATALOG: OnceLock<Json> = OnceLock::new();
    CATALOG.get_or_init(|| object("lesson run --all --json"))
}
