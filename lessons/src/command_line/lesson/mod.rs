//! `ashlane lesson`: list, check and run.

mod check;
mod json;
mod list;
mod report;
mod run;

pub(super) use run::find;

use super::{Failure, Io, words::LessonWord};

pub(super) fn lesson(word: &LessonWord, io: &mut Io<'_>) -> Result<u8, Failure> {
    match word {
        LessonWord::List => list::list(io),
        LessonWord::Check { files } => check::check(files, io),
        LessonWord::Run(words) => run::run(words, io),
    }
}
