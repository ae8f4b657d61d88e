//! The words of the program and their help, for people who teach and not for programmers.

use std::{ffi::OsStr, path::PathBuf};

use ashlane_shared::{
    conditions::nearest,
    units::{self, Dimension, GasState},
};
use clap::{Args, Parser, Subcommand};

use super::handout;
use crate::{
    faults::{self, SetFault},
    store::{Day, Learner},
};

/// Most parcels of a count.
const MOST_PARCELS: usize = 100_000_000;
/// Most threads.
const MOST_THREADS: usize = 256;
/// The words, for those who mistype them.
const WORDS: [&str; 6] = [
    "simulate", "corona", "picture", "fault", "lesson", "handout",
];

const ABOUT: &str = "A cross-section simulator of an electrostatic precipitator, for teaching";

const EXAMPLES: &str = "\
Examples:
  ashlane                              open the window on the demonstration collector
  ashlane site.toml                    open the window on your own collector
  ashlane simulate site.toml           count, and compare with the theory
  ashlane corona site.toml             onset, voltage–current curve, plate profile
  ashlane lesson list                  the lessons
  ashlane lesson new night-shift       begin a lesson of your own
  ashlane lesson run L5                play a lesson without a window
  ashlane handout L5 --out handouts    printable pages: handout and, apart from it, the key

A site sheet is a text file that describes one collector. Instead of a file, the name of a sheet
that comes with the program will do: demonstration, demonstration-us, cement-kiln,
pulverised-coal-ap42.

Exit codes: 0 fine, 1 a check failed, 2 wrong input.

Teaching model. Not a procedure.";

/// All words.
#[derive(Debug, Parser)]
#[command(
    name = "ashlane",
    bin_name = "ashlane",
    version,
    about = ABOUT,
    after_help = EXAMPLES,
    args_conflicts_with_subcommands = true,
    disable_help_subcommand = true
)]
pub(super) struct Words {
    /// Site sheet to open in the window; without one, the demonstration collector
    pub(super) sheet: Option<PathBuf>,
    /// Folder for what learners did; without it, the one that this system has for data of programs
    #[arg(long, value_name = "DIR")]
    pub(super) data: Option<PathBuf>,
    /// Code of the learner who works in the window
    #[arg(long, value_name = "CODE")]
    pub(super) learner: Option<Learner>,
    /// Lesson file of your own to open in the window; it is read again whenever you save it
    #[arg(long, value_name = "FILE")]
    pub(super) lesson: Option<PathBuf>,
    #[command(subcommand)]
    pub(super) word: Option<Word>,
}

#[derive(Debug, Subcommand)]
pub(super) enum Word {
    /// Count dust through a collector and compare with the theory
    #[command(after_help = SIMULATE_HELP)]
    Simulate(SimulateWords),
    /// Compute the corona of one field: onset, voltage–current curve, plate profile
    #[command(after_help = CORONA_HELP)]
    Corona(CoronaWords),
    /// Write a picture of one view, without a display
    #[command(after_help = PICTURE_HELP)]
    Picture(PictureWords),
    /// What an instructor can do to a collector
    Fault {
        #[command(subcommand)]
        word: FaultWord,
    },
    /// List, check, play or begin lessons
    Lesson {
        #[command(subcommand)]
        word: LessonWord,
    },
    /// Write printable pages of a lesson: a handout, and the key apart from it
    #[command(
        after_help = handout::HELP,
        override_usage = "ashlane handout <ID | --all> --out DIR [--overwrite] [--sheet SHEET]"
    )]
    Handout(handout::HandoutWords),
}

const SIMULATE_HELP: &str = "\
Parcels of dust are drawn by mass, charged, carried and caught, one by one. The table sets what was
counted beside the theory: finite mixing (the solver with everything in), Deutsch–Anderson (full
mixing, no losses) and laminar (no mixing). The exit code is 1 if the count and finite mixing
disagree.

The result depends on the sheet, the number of parcels and the seed, never on the threads.

Examples:
  ashlane simulate site.toml
  ashlane simulate site.toml --parcels 1000000 --seed 2
  ashlane simulate site.toml --json > result.json
  ashlane simulate site.toml --hours 24 --every \"10 min\" --csv day.csv
  ashlane simulate site.toml --hours 24 --fault supply-lost@6 --fault air-leak:0.5@8-12

The JSON object has by_field (kV, mA, sparks, held by, share caught), layers, hoppers, emission
(dust and opacity) and gas_path (pressure, temperature, oxygen, water and flow at every station);
with --hours they are those at the end, and readings has the whole time.

Ctrl+C stops a run: a file is written whole at its end or not at all, and the exit code is 2.";

const THREADS_HELP: &str =
    "Threads to count with; otherwise as many as the machine has, or as RAYON_NUM_THREADS says";

#[derive(Debug, Args)]
pub(super) struct SimulateWords {
    /// Site sheet of the collector
    pub(super) sheet: PathBuf,
    /// Parcels of dust to count; four times as many halve the uncertainty
    #[arg(long, value_name = "N", default_value_t = 200_000, value_parser = parcels)]
    pub(super) parcels: usize,
    /// Seed of the dice; the same seed gives the same result
    #[arg(long, value_name = "S", default_value_t = 1, value_parser = seed)]
    pub(super) seed: u64,
    /// Threads to count with
    #[arg(long, value_name = "T", value_parser = threads, help = THREADS_HELP)]
    pub(super) threads: Option<usize>,
    /// Run the plant clock for so many hours: layers, raps, hoppers
    #[arg(long, value_name = "H", value_parser = hours)]
    pub(super) hours: Option<f64>,
    /// Time between two rows of the plant clock, such as "10 min"; a twenty-fourth of all if not said
    #[arg(long = "every", value_name = "T", value_parser = every, requires = "hours")]
    pub(super) every_s: Option<f64>,
    /// Write the rows of the plant clock as a table (CSV, SI units)
    #[arg(long, value_name = "FILE", requires = "hours")]
    pub(super) csv: Option<PathBuf>,
    /// Set a fault, once or more, with a severity from 0 to 1 and the hours of the plant clock in which it holds
    #[arg(long = "fault", value_name = "NAME[:SEVERITY[@FROM[-TO]]]", value_parser = faults::read)]
    pub(super) faults: Vec<SetFault>,
    /// Print one JSON object, with all numbers in SI units
    #[arg(long)]
    pub(super) json: bool,
}

const CORONA_HELP: &str = "\
The electric field, the ions and the current between one wire and the plates, in two dimensions.
Clean gas (air load) unless --dust. The quadratic law beside it is the textbook's.

Examples:
  ashlane corona site.toml
  ashlane corona site.toml --currents 3e-5,1e-4,3e-4 --json
  ashlane corona site.toml --field 2 --dust --map field.csv";

/// Longest run of the plant clock, hours: a year.
const MOST_HOURS: f64 = 8784.0;

/// Most points of a curve.
const MOST_POINTS: usize = 1_000;

#[derive(Debug, Args)]
pub(super) struct CoronaWords {
    /// Site sheet of the collector
    pub(super) sheet: PathBuf,
    /// Points of the curve, evenly from onset to sparking, or to 1.2 times onset where that is more
    #[arg(long, value_name = "N", default_value_t = 12, value_parser = points, conflicts_with = "currents")]
    pub(super) points: usize,
    /// Currents of the curve instead, A per metre of wire, in the order to print
    #[arg(long, value_name = "I1,I2,…", value_delimiter = ',', allow_hyphen_values = true, value_parser = current)]
    pub(super) currents: Vec<f64>,
    /// Field whose voltage and dust are taken, 1 for the inlet's
    #[arg(long, value_name = "N", default_value_t = 1, allow_hyphen_values = true, value_parser = field)]
    pub(super) field: usize,
    /// With the charge of the dust in the gas
    #[arg(long)]
    pub(super) dust: bool,
    /// Write potential, field and ions round the wire as a table (CSV, SI units)
    #[arg(long, value_name = "FILE")]
    pub(super) map: Option<PathBuf>,
    /// Print one JSON object, with all numbers in SI units
    #[arg(long)]
    pub(super) json: bool,
}

const PICTURE_HELP: &str = "\
Views:
  plan           one gas passage from above, with its agreement strip
  panel          operator’s panel after a shift of 8 h on the plant clock: alarms, values, trends
  cross-section  across the gas: passages side by side, the gas over the face, hoppers
  elevation      the whole machine from the side, to scale, with dust, hoppers and readings
  wire           one wire between its plates: field, ion paths, current on the plates
  grain          one grain from inlet to plate: path, forces, charge, speed
  energization   electrical set of one field: kV and mA over time, sparks, readings
  window         the whole window

Examples:
  ashlane picture site.toml --view plan --out plan.png
  ashlane picture site.toml --view wire --field 2 --out wire.svg --svg";

#[derive(Debug, Args)]
pub(super) struct PictureWords {
    /// Site sheet of the collector
    pub(super) sheet: PathBuf,
    /// What to show: a name from the list of views below
    #[arg(long, value_name = "NAME")]
    pub(super) view: String,
    /// File to write
    #[arg(long, value_name = "FILE")]
    pub(super) out: PathBuf,
    /// Width and height in pixels
    #[arg(long, value_name = "WxH", default_value = "1440x900", value_parser = super::picture::size)]
    pub(super) size: (u32, u32),
    /// The field that a close look is at, 1 for the inlet's
    #[arg(long, value_name = "N", default_value_t = 1, allow_hyphen_values = true, value_parser = field)]
    pub(super) field: usize,
    /// Write line drawings (SVG) instead of pixels (PNG); not for the window
    #[arg(long)]
    pub(super) svg: bool,
}

#[derive(Debug, Subcommand)]
pub(super) enum FaultWord {
    /// List the faults that can be set: row of the troubleshooting table, name, what, severity, signs
    List,
}

#[derive(Debug, Subcommand)]
pub(super) enum LessonWord {
    /// List the lessons that come with the program, and how a learner stands with each
    #[command(after_help = LIST_HELP)]
    List(ListWords),
    /// Check lesson files without playing them; those of the program if none is named
    Check {
        /// Lesson files
        files: Vec<PathBuf>,
    },
    /// Play model answers and every wrong answer, and compare each measurement with its formula
    #[command(after_help = RUN_HELP, override_usage = "ashlane lesson run <ID | --all> [--json] [--table FILE]")]
    Run(RunWords),
    /// Write a lesson file to begin with: a lesson that works, with a comment on each key
    #[command(after_help = NEW_HELP)]
    New(NewWords),
}

const LIST_HELP: &str = "\
A learner is a code of eight letters; the window makes one. A lesson that came to its end is due
again after 1, 7 and 30 days: a teaching setting, without a source.

Examples:
  ashlane lesson list
  ashlane lesson list --learner BCDF-GHJB
  ashlane lesson list --learner BCDF-GHJB --data class-of-may --on 2026-05-04";

#[derive(Debug, Args)]
pub(super) struct ListWords {
    /// Show beside each lesson what this learner has begun, has done, and has to do again
    #[arg(long, value_name = "CODE")]
    pub(super) learner: Option<Learner>,
    /// Folder with the files of the learners; otherwise where this machine keeps data of programs
    #[arg(long, value_name = "DIR", requires = "learner")]
    pub(super) data: Option<PathBuf>,
    /// Day to look at, such as 2026-05-04; otherwise today (UTC)
    #[arg(long, value_name = "DAY", requires = "learner")]
    pub(super) on: Option<Day>,
}

const NEW_HELP: &str = "\
The file says which words may stand where. It passes `lesson check` and `lesson run` as it is, so
that every later message is about what you changed. A file that is there is never written over.

Examples:
  ashlane lesson new night-shift
  ashlane lesson new night-shift --out lessons/night.toml
  ashlane lesson check night-shift.toml
  ashlane lesson run night-shift.toml";

#[derive(Debug, Args)]
pub(super) struct NewWords {
    /// Id of the lesson: letters, digits and hyphens, such as night-shift
    #[arg(value_name = "NAME", value_parser = lesson_name)]
    pub(super) name: String,
    /// File to write; otherwise NAME.toml in this folder
    #[arg(long, value_name = "FILE")]
    pub(super) out: Option<PathBuf>,
}

const RUN_HELP: &str = "\
Each measurement is set beside its formula, with the tolerance (the larger of the stated one and
3 σ) and the verdict. The exit code is 1 if any of them disagrees.

Examples:
  ashlane lesson run L5
  ashlane lesson run my_lesson.toml
  ashlane lesson run --all --json
  ashlane lesson run --all --table lessons/CHECKS.md";

#[derive(Debug, Args)]
pub(super) struct RunWords {
    /// Lesson by its id, such as L5, or a lesson file
    #[arg(
        value_name = "ID",
        required_unless_present = "all",
        conflicts_with = "all"
    )]
    pub(super) lesson: Option<String>,
    /// All lessons that come with the program
    #[arg(long)]
    pub(super) all: bool,
    /// Print one JSON object
    #[arg(long)]
    pub(super) json: bool,
    /// Write every check with its tolerance and what was measured to a Markdown table
    #[arg(long, value_name = "FILE")]
    pub(super) table: Option<PathBuf>,
}

/// Longest name of a new lesson.
const LONGEST_NAME: usize = 60;

fn lesson_name(text: &str) -> Result<String, String> {
    let plain = |sign: char| sign.is_ascii_alphanumeric() || sign == '-';
    let fits = (1..=LONGEST_NAME).contains(&text.len()) && !text.starts_with('-');
    if fits && text.chars().all(plain) {
        Ok(text.to_owned())
    } else {
        Err(format!(
            "write 1 to {LONGEST_NAME} letters, digits and hyphens, such as night-shift; --out says which file"
        ))
    }
}

fn parcels(text: &str) -> Result<usize, String> {
    whole(text, 1, MOST_PARCELS)
}

fn threads(text: &str) -> Result<usize, String> {
    whole(text, 1, MOST_THREADS)
}

fn hours(text: &str) -> Result<f64, String> {
    text.trim()
        .parse()
        .ok()
        .filter(|hours| (0.01..=MOST_HOURS).contains(hours))
        .ok_or_else(|| format!("write hours from 0.01 to {MOST_HOURS}, such as 24"))
}

fn every(text: &str) -> Result<f64, String> {
    let quantity = units::parse(text, Dimension::Interval, &GasState::NORMAL)
        .map_err(|error| error.to_string())?;
    Some(quantity.value_si)
        .filter(|time_s| *time_s >= 1.0)
        .ok_or_else(|| "write a time of 1 s or more, such as \"10 min\"".to_owned())
}

fn points(text: &str) -> Result<usize, String> {
    whole(text, 2, MOST_POINTS)
}

/// Whether the collector has this field is for the sheet to say.
fn field(text: &str) -> Result<usize, String> {
    text.parse()
        .map_err(|_ignored| "write the number of a field, 1 for the inlet's".to_owned())
}

fn current(text: &str) -> Result<f64, String> {
    text.trim()
        .parse()
        .ok()
        .filter(|current| *current == 0.0 || (1e-12..=1.0).contains(current))
        .ok_or_else(|| {
            "write 0 for onset, or currents from 1e-12 to 1 A per metre of wire, such as 3e-5,1e-4"
                .to_owned()
        })
}

fn whole(text: &str, low: usize, high: usize) -> Result<usize, String> {
    text.parse()
        .ok()
        .filter(|number| (low..=high).contains(number))
        .ok_or_else(|| format!("write a whole number from {low} to {high}"))
}

fn seed(text: &str) -> Result<u64, String> {
    text.parse()
        .map_err(|_ignored| format!("write a whole number from 0 to {}", u64::MAX))
}

/// Whether this is one of the words.
pub(super) fn is_word(written: &OsStr) -> bool {
    WORDS.iter().any(|word| *word == written)
}

/// The word that somebody may have meant who wrote this instead.
pub(super) fn word_meant(written: &OsStr) -> Option<&'static str> {
    let written = written
        .to_str()
        .filter(|text| !text.contains(['.', '/', '\\']))?;
    nearest(written, WORDS.into_iter()).filter(|word| *word != written)
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    use super::*;

    #[test]
    fn the_words_are_well_formed() {
        Words::command().debug_assert();
    }

    #[test]
    fn numbers_outside_their_range_are_refused() {
        assert_eq!(parcels("100000000"), Ok(MOST_PARCELS));
        for wrong in ["0", "100000001", "-1", "1e6", "many", ""] {
            assert!(parcels(wrong).is_err(), "{wrong}");
        }
        assert!(threads("0").is_err() && threads("257").is_err() && threads("256").is_ok());
        assert!(seed("-1").is_err() && seed("18446744073709551615").is_ok());
    }

    #[test]
    fn mistyped_words_are_recognised_and_files_are_not() {
        assert_eq!(word_meant(OsStr::new("simulat")), Some("simulate"));
        assert_eq!(word_meant(OsStr::new("lessons")), Some("lesson"));
        for other in ["simulate", "simulat.toml", "./lesson", "kiln"] {
            assert_eq!(word_meant(OsStr::new(other)), None, "{other}");
        }
    }
}
