//! What can be wrong with a quantity written as text, in words that say what to write instead.

use super::Dimension;

/// Why a text is not a quantity of the wanted kind.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum QuantityError {
    /// Nothing was written.
    #[error("nothing is written here")]
    Empty,
    /// The text does not begin with a number.
    #[error("this does not begin with a number")]
    NoNumber,
    /// Infinite, not a number, or beyond what a computer can hold.
    #[error("this is not a finite number")]
    NotFinite,
    /// A comma where the decimal point should be.
    #[error("decimals take a point, not a comma: write {0}")]
    DecimalComma(String),
    /// Digits in groups.
    #[error("digits are written without separators: write {0}")]
    ThousandsSeparator(String),
    /// A comma that may be either.
    #[error("the comma may mean thousands or decimals: write {0} or {1}")]
    AmbiguousComma(String, String),
    /// A power of ten written out.
    #[error("powers of ten are written with e, such as 2e10 or 2.2e-4")]
    PowerOfTen,
    /// A number alone.
    #[error("the unit is missing")]
    MissingUnit,
    /// A unit of something else.
    #[error("\"{unit}\" is {} and not {}", .is.name(), .wanted.name())]
    WrongDimension {
        /// The unit as written.
        unit: String,
        /// What it measures.
        is: Dimension,
        /// What is measured here.
        wanted: Dimension,
    },
    /// A unit nobody knows.
    #[error("unknown unit \"{unit}\"{}; allowed: {allowed}", did_you_mean(.nearest))]
    UnknownUnit {
        /// The unit as written.
        unit: String,
        /// What may have been meant.
        nearest: Option<String>,
        /// Every unit that may be written here.
        allowed: String,
    },
    /// A unit after a plain number.
    #[error("a plain number is written without a unit, and \"{0}\" follows it")]
    NeedlessUnit(String),
}

fn did_you_mean(nearest: &Option<String>) -> String {
    nearest
        .as_ref()
        .map_or_else(String::new, |unit| format!(" (did you mean \"{unit}\"?)"))
}
