//! The program `ashlane` as a library: reads its words, does what they say, and hands back what is left to do.
//!
//! Results go to standard output, diagnostics and the progress bar to standard error. Exit codes: 0 fine, 1 a check
//! failed, 2 wrong input. Opening the window, pictures and handouts are left to the caller, as an [`Outcome`].

mod corona;
mod counting;
mod failure;
mod fault;
mod handout;
mod headless;
mod here;
mod lesson;
mod numbers;
mod open;
mod output;
mod picture;
mod place;
mod simulate;
mod table;
mod words;

use std::ffi::{OsStr, OsString};

use clap::{Parser, error::ErrorKind};

use failure::Failure;
use words::{Word, Words, is_word, word_meant};

pub use handout::{Counted, ELEVATION, ELEVATION_FILES, HandoutWish, lesson_files, play_and_keep};
pub use headless::headless;
pub use here::{headless_here, run_here};
pub use open::Opened;
pub use output::{GoOn, Io};
pub use picture::{PictureWish, SIZE_LIMITS, VIEWS};

/// Exit code when everything is fine.
pub const FINE: u8 = 0;
/// Exit code when a check failed.
pub const CHECK_FAILED: u8 = 1;
/// Exit code for wrong input.
pub const WRONG_INPUT: u8 = 2;

/// What is left to do.
#[derive(Debug)]
pub enum Outcome {
    /// Nothing: the program ends with this exit code.
    Done(u8),
    /// Open the window on this sheet.
    Window(Box<Opened>),
    /// Make this picture.
    Picture(Box<PictureWish>),
    /// Make these handouts.
    Handout(Box<HandoutWish>),
}

/// Does what the words say; the first is the name of the program.
pub fn run(args: impl IntoIterator<Item = OsString>, io: &mut Io<'_>) -> Outcome {
    let args: Vec<OsString> = args.into_iter().collect();
    let words = match Words::try_parse_from(&args) {
        Ok(words) => words,
        Err(error) => return misread(&error, &args, io),
    };
    obey(words, io).unwrap_or_else(|failure| {
        io.tell(&failure.to_string());
        Outcome::Done(WRONG_INPUT)
    })
}

/// Help and version are no mistakes; everything else is told with what was probably meant.
fn misread(error: &clap::Error, args: &[OsString], io: &mut Io<'_>) -> Outcome {
    let text = error.render().to_string();
    if !error.use_stderr() {
        return match io.print(&text) {
            Ok(()) => Outcome::Done(FINE),
            Err(failure) => {
                io.tell(&failure.to_string());
                Outcome::Done(WRONG_INPUT)
            }
        };
    }
    io.tell(&better(error.kind(), args).unwrap_or_else(|| text.trim_end().to_owned()));
    Outcome::Done(WRONG_INPUT)
}

/// A plainer message where the first argument was taken for a sheet and more followed.
fn better(kind: ErrorKind, args: &[OsString]) -> Option<String> {
    let taken = matches!(
        kind,
        ErrorKind::ArgumentConflict | ErrorKind::UnknownArgument | ErrorKind::InvalidSubcommand
    );
    let first = args.get(1).filter(|_| taken)?;
    if let Some(word) = word_meant(first) {
        return Some(no_such_word(first, word));
    }
    let path = std::path::Path::new(first);
    (kind == ErrorKind::ArgumentConflict && !is_word(first)).then(|| {
        format!(
            "{}: only one sheet can be opened; to do something else with it, put a word first (see `ashlane --help`)",
            path.display()
        )
    })
}

fn no_such_word(written: &OsStr, word: &str) -> String {
    format!(
        "there is no word \"{}\"; did you mean \"{word}\"? `ashlane --help` lists them all",
        written.display()
    )
}

fn obey(words: Words, io: &mut Io<'_>) -> Result<Outcome, Failure> {
    match words.word {
        None => {
            let mut opened = window(words.sheet, io)?;
            (opened.data, opened.learner, opened.lesson) =
                (words.data, words.learner, words.lesson);
            Ok(Outcome::Window(Box::new(opened)))
        }
        Some(Word::Simulate(words)) => simulate::simulate(&words, io).map(Outcome::Done),
        Some(Word::Corona(words)) => corona::corona(&words, io).map(Outcome::Done),
        Some(Word::Picture(words)) => {
            picture::picture(&words).map(|wish| Outcome::Picture(Box::new(wish)))
        }
        Some(Word::Handout(words)) => {
            handout::handout(&words).map(|wish| Outcome::Handout(Box::new(wish)))
        }
        Some(Word::Fault { word }) => fault::fault(&word, io).map(Outcome::Done),
        Some(Word::Lesson { word }) => lesson::lesson(&word, io).map(Outcome::Done),
    }
}

/// The field of this number, from 0.
fn field_index(number: usize, opened: &Opened) -> Result<usize, Failure> {
    let fields = opened.sheet.conditions.collector.fields;
    if !(1..=fields).contains(&number) {
        return Err(Failure::NoSuchField(format!(
            "--field {number}: {} has fields 1 to {fields}",
            opened.name
        )));
    }
    Ok(number - 1)
}

fn window(sheet: Option<std::path::PathBuf>, io: &mut Io<'_>) -> Result<Opened, Failure> {
    Ok(match &sheet {
        None => open::demonstration()?,
        Some(path) => match open::open(path) {
            Ok(opened) => opened,
            Err(errors) => {
                if !path.exists()
                    && let Some(word) = word_meant(path.as_os_str())
                {
                    io.tell(&no_such_word(path.as_os_str(), word));
                }
                return Err(errors.into());
            }
        },
    })
}
