//! What can be wrong with a site sheet, told so that the reader knows where to look and what to write.

use std::fmt;

use crate::{conditions::keys::Refusal, units::QuantityError};

/// One kind of trouble.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Trouble {
    /// The file could not be read.
    #[error("{0}")]
    Unreadable(String),
    /// The file is no text of ours.
    #[error("too large: {bytes} bytes, and at most {most} are read; is this the right file?")]
    TooLarge {
        /// Size of the file, or what was read of it.
        bytes: u64,
        /// Largest allowed.
        most: u64,
    },
    /// Not TOML.
    #[error(
        "not valid TOML here ({0}); a line reads name = \"value\", a section begins with [section]"
    )]
    Syntax(String),
    /// Written a second time.
    #[error("written twice; keep one of them")]
    Duplicate,
    /// A section nobody knows.
    #[error("unknown section{}; the sections are {known}", did_you_mean(.nearest))]
    UnknownSection {
        /// What may have been meant.
        nearest: Option<String>,
        /// All sections.
        known: String,
    },
    /// A key nobody knows.
    #[error("unknown key{}; {advice}", did_you_mean(.nearest))]
    UnknownKey {
        /// What may have been meant.
        nearest: Option<String>,
        /// What may stand here.
        advice: String,
    },
    /// A section that is no section.
    #[error(
        "this is {found} and not a section; write [{section}] on a line of its own and its keys below"
    )]
    NotASection {
        /// What stands there.
        found: &'static str,
        /// Name of the section.
        section: String,
    },
    /// A key a collector cannot do without.
    #[error("missing; {0}")]
    Missing(String),
    /// Not a quantity.
    #[error("{reason}; {advice}")]
    Quantity {
        /// What is wrong with the text.
        reason: QuantityError,
        /// What to write.
        advice: String,
    },
    /// A value outside its limits.
    #[error("{refusal}{}", after_semicolon(.advice))]
    Refused {
        /// What is wrong with the value.
        refusal: Refusal,
        /// What to write, when the limits do not say it already.
        advice: String,
    },
    /// A number where text is wanted, and the like.
    #[error("this is {found}; {advice}")]
    WrongType {
        /// What stands there.
        found: &'static str,
        /// What to write.
        advice: String,
    },
    /// Values that do not go together.
    #[error("{0}")]
    Clash(String),
}

fn did_you_mean(nearest: &Option<String>) -> String {
    nearest
        .as_ref()
        .map_or_else(String::new, |name| format!(" (did you mean \"{name}\"?)"))
}

fn after_semicolon(advice: &str) -> String {
    if advice.is_empty() {
        String::new()
    } else {
        format!("; {advice}")
    }
}

/// One thing that is wrong, and where.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetProblem {
    /// Line of the sheet, from 1, if the trouble has one.
    pub line: Option<usize>,
    /// Dotted key, or the section; empty for the whole file.
    pub key: String,
    /// The value as written, shortened; empty if there is none.
    pub value: String,
    /// What is wrong and what to do.
    pub trouble: Trouble,
}

impl fmt::Display for SheetProblem {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(line) = self.line {
            write!(out, "{line}: ")?;
        }
        if !self.key.is_empty() {
            write!(out, "{}", self.key)?;
            if !self.value.is_empty() {
                write!(out, " = {}", self.value)?;
            }
            write!(out, ": ")?;
        }
        write!(out, "{}", self.trouble)
    }
}

/// Everything that is wrong with a sheet, in the order of its lines.
///
/// The first line of the text stands alone: it names file, line, key, value and what to do.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub struct SheetErrors {
    /// Name of the file as it was given.
    pub file: String,
    /// What is wrong; never empty.
    pub problems: Vec<SheetProblem>,
    /// Problems that were found and not listed.
    pub left_out: usize,
}

impl fmt::Display for SheetErrors {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let total = self.problems.len() + self.left_out;
        for (index, problem) in self.problems.iter().enumerate() {
            let separator = if problem.line.is_some() { ":" } else { ": " };
            write!(out, "{}{separator}{problem}", self.file)?;
            if index == 0 && total > 1 {
                write!(out, " (1 of {total} problems)")?;
            }
            if index + 1 < self.problems.len() {
                writeln!(out)?;
            }
        }
        if self.left_out > 0 {
            write!(out, "\n{}: and {} more problems", self.file, self.left_out)?;
        }
        Ok(())
    }
}
