//! The site sheet: a TOML file for people, read into typed conditions and written back in the author's own hand.
//!
//! Reading reports everything that is wrong at once. Saving keeps comments, order and units, and changes only what
//! changed. All of it walks the key table; this folder knows no key by itself but for the few that depend on another.

mod advice;
mod build;
mod convert;
mod file;
mod gather;
mod hand;
mod keep;
mod lists;
mod problem;
mod quantity;
mod report;
mod save;
mod syntax;

use toml_edit::{DocumentMut, Item, TableLike};

pub use convert::kind_of_item;
pub use file::{SaveError, read_file, read_text, write_atomically};
pub use problem::{SheetErrors, SheetProblem, Trouble};
pub use report::Report;
pub use syntax::parse as parse_document;

use super::{Conditions, Key, Rebased, Value};

/// Largest sheet that is read, bytes; an ordinary one has 3 000.
pub const MOST_BYTES: u64 = 1 << 20;

/// A sheet that was read: what it says, and its text for saving.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// What the sheet says.
    pub conditions: Conditions,
    document: DocumentMut,
    /// Whether lines end as they do on Windows.
    carriage_returns: bool,
}

/// Reads a sheet from text; `name` stands for it in messages.
///
/// # Errors
/// Lists everything that is wrong with it, each with line, key, value and what to do.
pub fn read_str(name: &str, text: &str) -> Result<Sheet, SheetErrors> {
    let mut report = Report::new(name, text);
    if text.len() as u64 > MOST_BYTES {
        let trouble = Trouble::TooLarge {
            bytes: text.len() as u64,
            most: MOST_BYTES,
        };
        report.name(String::new(), None, trouble);
        return Err(report.into_errors());
    }
    let (document, whole) = syntax::parse(text, &mut report);
    let Some(document) = document else {
        return Err(report.into_errors());
    };
    let gathered = gather::gather(document.as_table(), &mut report);
    let conditions = build::build(&gathered, &mut report, whole);
    if !report.is_clean() {
        return Err(report.into_errors());
    }
    Ok(Sheet {
        conditions,
        document: document.into_mut(),
        carriage_returns: text.contains("\r\n"),
    })
}

/// Conditions with some values replaced by those of a partial sheet; meaningful only if the report stays clean.
///
/// `table` has the sections and keys of a sheet, none of them required. Like a sheet, the result is its own reference.
#[must_use]
pub fn overlay(base: &Conditions, table: &dyn TableLike, report: &mut Report<'_>) -> Conditions {
    let gathered = gather::gather(table, report);
    build::overlay(base, &gathered, report)
}

/// Reads what stands behind one key of a sheet, for a collector in these conditions.
///
/// # Errors
/// What is wrong with it and what to write instead.
pub fn read_value(key: &Key, item: &Item, conditions: &Conditions) -> Result<Value, Trouble> {
    let context = convert::Context {
        gas: conditions.gas_state(),
        fields: conditions.collector.fields,
    };
    convert::convert(key, item, &context).map_err(|misfit| *misfit.trouble)
}

impl Sheet {
    /// The sheet with these conditions: the author's comments, order and units, and new values where they changed.
    ///
    /// Reading it back gives `conditions.rebased()`: values that were stated at the sheet's gas, voltage and spacing
    /// are restated at the present ones.
    #[must_use]
    pub fn save_text(&self, conditions: &Conditions) -> String {
        self.save_rebased(&conditions.rebased())
    }

    /// The same for conditions that are restated already, as after
    /// [`Conditions::rebased_with_drifts`](super::Conditions::rebased_with_drifts).
    #[must_use]
    pub fn save_rebased(&self, rebased: &Rebased) -> String {
        let text = save::save(&self.document, rebased);
        if self.carriage_returns {
            text.replace("\r\n", "\n").replace('\n', "\r\n")
        } else {
            text
        }
    }
}
