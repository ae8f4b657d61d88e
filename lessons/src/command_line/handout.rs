//! `ashlane handout`: checks what is asked for and where it goes, so that whoever makes the pages gets only what can be made.

use std::path::{Path, PathBuf};

use ashlane_shared::count::{Count, CountResult};
use clap::Args;

use super::{Failure, Opened, counting, lesson::find, open, place::refused};
use crate::{
    catalog,
    engine::{CountOrder, Lesson, PlayError, PlayedLesson, play},
};

/// The sheet with a machine whose parts have to be named, as one asks for it.
pub const ELEVATION: &str = "elevation";

pub(super) const HELP: &str = "\
For each lesson three files, which need neither network nor screen and print on A4 and on Letter:
  L5-handout.html   goal, figure, worked example, every question with room to write, words, cautions
  L5-key.html       for the trainer: answers, what was measured, what each wrong answer means
  L5-data.csv       for the trainer: the numbers behind figures and checks, in SI units
\"elevation\" instead of a lesson makes elevation-blank.html, a machine whose labels are left blank,
and elevation-key.html with the names; --sheet draws it for your own collector and its names.

Every number is measured anew, so a lesson takes some seconds. The exit code is 1 if a measurement
disagrees with its formula. Files that are there already are left alone unless --overwrite is given.

Examples:
  ashlane handout L5 --out handouts
  ashlane handout --all --out handouts --overwrite
  ashlane handout elevation --sheet site.toml --out handouts";

#[derive(Debug, Args)]
pub(super) struct HandoutWords {
    /// Lesson by its id, such as L5, or a lesson file; or the word elevation
    #[arg(
        value_name = "ID",
        required_unless_present = "all",
        conflicts_with = "all"
    )]
    pub(super) what: Option<String>,
    /// All lessons that come with the program, and the elevation
    #[arg(long)]
    pub(super) all: bool,
    /// Folder to write to; made if it is not there
    #[arg(long, value_name = "DIR")]
    pub(super) out: PathBuf,
    /// Write over handouts that are there already
    #[arg(long)]
    pub(super) overwrite: bool,
    /// Site sheet of the collector on the elevation; the demonstration collector if not said
    #[arg(long, value_name = "SHEET")]
    pub(super) sheet: Option<PathBuf>,
}

/// Handouts to make.
#[derive(Clone, Debug)]
pub struct HandoutWish {
    /// Lessons to make pages of.
    pub lessons: Vec<Lesson>,
    /// The collector whose parts have to be named, if that is wanted.
    pub elevation: Option<Opened>,
    /// Folder to write to; perhaps not there yet.
    pub out: PathBuf,
}

/// Names of the files of a lesson: handout, key, data.
#[must_use]
pub fn lesson_files(lesson: &Lesson) -> [String; 3] {
    ["handout.html", "key.html", "data.csv"].map(|end| format!("{}-{end}", lesson.id))
}

/// Names of the files of the elevation: to be filled in, and filled in.
pub const ELEVATION_FILES: [&str; 2] = ["elevation-blank.html", "elevation-key.html"];

/// Checks what is asked for.
pub(super) fn handout(words: &HandoutWords) -> Result<HandoutWish, Failure> {
    let asked = words.what.as_deref().map(str::trim);
    let elevation = asked.is_none_or(|what| what.eq_ignore_ascii_case(ELEVATION));
    if words.sheet.is_some() && !elevation {
        return Err(Failure::Handout(
            "--sheet goes with the elevation; a lesson brings its own collector".to_owned(),
        ));
    }
    let lessons = match asked {
        None => catalog::lessons()?,
        Some(_) if elevation => Vec::new(),
        Some(id) => vec![find(id)?],
    };
    let elevation = match (&words.sheet, elevation) {
        (Some(path), true) => Some(open::open(path)?),
        (None, true) => Some(open::demonstration()?),
        (_, false) => None,
    };
    let wish = HandoutWish {
        lessons,
        elevation,
        out: words.out.clone(),
    };
    folder(&wish.out)?;
    if !words.overwrite {
        nothing_lost(&wish)?;
    }
    Ok(wish)
}

/// A folder that is there or can be made.
fn folder(out: &Path) -> Result<(), Failure> {
    if out.exists() && !out.is_dir() {
        return Err(refused(out, "this is a file; name a folder"));
    }
    let above = out.parent().filter(|above| !above.as_os_str().is_empty());
    match above {
        Some(above) if !above.is_dir() => Err(refused(
            out,
            "there is no folder to make it in; make that first, or check the path",
        )),
        _ => Ok(()),
    }
}

/// No file that is there would be written over.
fn nothing_lost(wish: &HandoutWish) -> Result<(), Failure> {
    let of_lessons = wish.lessons.iter().flat_map(lesson_files);
    let of_elevation = wish
        .elevation
        .iter()
        .flat_map(|_| ELEVATION_FILES.map(str::to_owned));
    let there = |name: &String| wish.out.join(name).exists();
    let found: Vec<String> = of_lessons.chain(of_elevation).filter(there).collect();
    let Some(first) = found.first() else {
        return Ok(());
    };
    let more = match found.len() - 1 {
        0 => String::new(),
        more => format!(" and {more} more"),
    };
    Err(Failure::Handout(format!(
        "{}: there already{more}; add --overwrite to write over it, or name another folder",
        wish.out.join(first).display()
    )))
}

/// A lesson played to its end, with every count that was run for it.
#[derive(Debug)]
pub struct Counted {
    /// What came of it.
    pub played: PlayedLesson,
    /// The counts at start and target of every segment.
    pub counts: Vec<[CountResult; 2]>,
}

/// Plays a lesson and keeps its counts; with a progress bar if somebody watches.
///
/// # Errors
/// As [`play`].
pub fn play_and_keep(lesson: &Lesson, err_is_terminal: bool) -> Result<Counted, PlayError> {
    let mut kept = Vec::new();
    let mut count = |order: &CountOrder| {
        let prepared = Count::new(&order.conditions, order.parcels, order.seed)?;
        let bar = counting::bar(err_is_terminal, &order.conditions, order.parcels)?;
        let result = counting::run(prepared, &bar);
        kept.push(result.clone());
        Ok(result)
    };
    let played = play(lesson, &mut count)?;
    // Each segment is measured once, at its start and at its target.
    let counts = kept.as_chunks::<2>().0.to_vec();
    Ok(Counted { played, counts })
}
