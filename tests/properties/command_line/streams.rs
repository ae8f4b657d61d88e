//! Streams that close or fail: no panic, and no error where the reader has simply had enough.

use std::io::{Error, ErrorKind, Result, Write};

use ashlane_lessons::command_line::{Io, Outcome, run};

/// A stream on which every write fails.
struct Failing(ErrorKind);

impl Write for Failing {
    fn write(&mut self, _: &[u8]) -> Result<usize> {
        Err(Error::from(self.0))
    }

    fn flush(&mut self) -> Result<()> {
        Err(Error::from(self.0))
    }
}

fn code(words: &[String], out: &mut dyn Write, err: &mut dyn Write) -> u8 {
    let args = std::iter::once("ashlane".into()).chain(words.iter().map(Into::into));
    let outcome = run(
        args,
        &mut Io {
            out,
            err,
            err_is_terminal: false,
            go_on: &|| true,
        },
    );
    match outcome {
        Outcome::Done(code) => code,
        other => panic!("not at its end: {other:?}"),
    }
}

/// Words of every kind that print something.
fn lines() -> Vec<Vec<String>> {
    let sheet = super::one_field().display().to_string();
    let lesson = super::file("sample.toml", include_str!("../lessons/sample.toml"));
    let lesson = lesson.display().to_string();
    [
        vec!["--help"],
        vec!["--version"],
        vec!["lesson", "list"],
        vec!["lesson", "check", &lesson],
        vec!["lesson", "run", &lesson],
        vec!["simulate", &sheet, "--parcels", "2000"],
        vec!["simulate", &sheet, "--parcels", "2000", "--json"],
    ]
    .into_iter()
    .map(|words| words.into_iter().map(str::to_owned).collect())
    .collect()
}

#[test]
fn a_closed_pipe_ends_quietly() {
    for words in lines() {
        let mut err = Vec::new();
        let code = code(&words, &mut Failing(ErrorKind::BrokenPipe), &mut err);
        assert_eq!(code, 0, "{words:?}");
        assert!(
            err.is_empty(),
            "{words:?}: {}",
            String::from_utf8_lossy(&err)
        );
    }
}

#[test]
fn a_full_disk_is_told() {
    for words in lines() {
        let mut err = Vec::new();
        let code = code(&words, &mut Failing(ErrorKind::StorageFull), &mut err);
        assert_eq!(code, 2, "{words:?}");
        let err = String::from_utf8_lossy(&err);
        assert!(
            err.contains("the result cannot be written"),
            "{words:?}: {err}"
        );
    }
}

#[test]
fn without_anybody_to_tell_it_still_ends() {
    let mut closed = Failing(ErrorKind::BrokenPipe);
    let mut out = Vec::new();
    let words = ["simulate", "nothing.toml"].map(str::to_owned);
    assert_eq!(code(&words, &mut out, &mut closed), 2);
    assert!(out.is_empty());
}
