//! `ashlane lesson`: list, check, run and new.

mod check;
mod json;
mod list;
mod new;
mod report;
mod run;
mod work;

pub(super) use run::find;

use super::{Failure, Io, words::LessonWord};

pub(super) fn lesson(word: &LessonWord, io: &mut Io<'_>) -> Result<u8, Failure> {
    match word {
        LessonWord::List(words) => list::list(words, io),
        LessonWord::Check { files } => check::check(files, io),
        LessonWord::Run(words) => run::run(words, io),
        LessonWord::New(words) => new::new(words, io),
    }
}
