//! The value of any key, and why a value may be refused.

use super::Range;
use crate::{
    conditions::Mixing,
    units::{Dimension, GasState, Unit, number_text_down, number_text_up},
};

/// Digits in which a range is told.
const DIGITS: usize = 4;

/// The value of a key, in SI.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// A quantity.
    Number(f64),
    /// A quantity for each field.
    PerField(Vec<f64>),
    /// A whole number.
    Count(usize),
    /// One of the listed words.
    Word(&'static str),
    /// Free text.
    Text(String),
    /// Diameter (m) and mass fraction finer.
    Points(Vec<(f64, f64)>),
    /// How the gas mixes across.
    Mixing(Mixing),
}

impl Value {
    /// Whether both are the same value, apart from rounding of the last digits.
    #[must_use]
    pub fn same_as(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Number(a), Self::Number(b)) => same(*a, *b),
            (Self::PerField(a), Self::PerField(b)) => {
                a.len() == b.len() && a.iter().zip(b).all(|(&a, &b)| same(a, b))
            }
            (Self::Points(a), Self::Points(b)) => {
                a.len() == b.len()
                    && a.iter()
                        .zip(b)
                        .all(|(a, b)| same(a.0, b.0) && same(a.1, b.1))
            }
            (Self::Mixing(Mixing::Diffusivity(a)), Self::Mixing(Mixing::Diffusivity(b))) => {
                same(*a, *b)
            }
            _ => self == other,
        }
    }
}

/// Equal but for a few rounding errors of unit factors.
pub(in crate::conditions) fn same(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-14 * a.abs().max(b.abs())
}

/// Why a value is not accepted for a key.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Refusal {
    /// Not finite, or outside the range.
    #[error("outside the allowed range {}", range_text(*.allowed, *.dimension, .unit, .gas))]
    OutOfRange {
        /// What may be written, SI.
        allowed: Range,
        /// What it measures.
        dimension: Dimension,
        /// The unit the user wrote.
        unit: &'static Unit,
        /// The gas that normal and standard volumes refer to.
        gas: GasState,
    },
    /// A whole number outside its range.
    #[error("outside the allowed range {min} to {max}")]
    CountOutOfRange {
        /// Smallest.
        min: usize,
        /// Largest.
        max: usize,
    },
    /// A list without entries.
    #[error("the list is empty; write at least one entry")]
    EmptyList,
    /// More entries than there are fields.
    #[error(
        "the list has {entries} entries for {fields} fields; write at most {fields} (a shorter list repeats its last entry)"
    )]
    MoreThanFields {
        /// Entries written.
        entries: usize,
        /// Fields of the collector.
        fields: usize,
    },
    /// More points than a size table may have.
    #[error("the table has {points} points; write at most {most}")]
    TooManyPoints {
        /// Points written.
        points: usize,
        /// Points allowed.
        most: usize,
    },
    /// A word that is not listed.
    #[error("unknown word{}; write {words}", .nearest.as_ref().map_or_else(String::new, |word| format!(" (did you mean \"{word}\"?)")))]
    UnknownWord {
        /// What may have been meant.
        nearest: Option<String>,
        /// The words, each in quotation marks.
        words: String,
    },
    /// Text that does not fit its place.
    #[error("the text has {length} characters; write 1 to {longest}, all on one line")]
    TextLength {
        /// Characters written.
        length: usize,
        /// Characters allowed.
        longest: usize,
    },
    /// A value of another shape, from a program and not from a sheet.
    #[error("this key does not take such a value")]
    WrongShape,
}

/// A range in a unit, its ends rounded inwards so that both may be written.
pub(in crate::conditions) fn range_text(
    allowed: Range,
    dimension: Dimension,
    unit: &Unit,
    gas: &GasState,
) -> String {
    let ends = |unit: &Unit, gas: &GasState| {
        let low = number_text_up(unit.from_si(allowed.min, gas), DIGITS);
        let high = number_text_down(unit.from_si(allowed.max, gas), DIGITS);
        format!("{low} to {high} {}", unit.file_spelling())
            .trim_end()
            .to_owned()
    };
    let usual = dimension.display_unit(crate::units::UnitSystem::Si);
    if unit == usual {
        return ends(unit, gas);
    }
    format!("{} ({})", ends(unit, gas), ends(usual, &GasState::NORMAL))
}
