//! What kind of value a key takes, within which limits, and where it lives in the conditions.

use crate::{conditions::Conditions, units::Dimension};

/// Lowest and highest value, both allowed, in SI.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// Lowest.
    pub min: f64,
    /// Highest.
    pub max: f64,
}

impl Range {
    /// Whether a value lies within; a value that is not a number does not.
    #[must_use]
    pub fn holds(self, value: f64) -> bool {
        value >= self.min && value <= self.max
    }
}

/// Kind, limits and place of a value.
#[derive(Clone, Copy, Debug)]
pub enum Shape {
    /// One quantity.
    Quantity {
        /// What it measures.
        dimension: Dimension,
        /// What a sheet may say.
        allowed: Range,
        /// What a slider offers.
        slider: Range,
        /// What the demonstration says: default and example.
        sample: f64,
        /// Reads it; nothing when the conditions say it in another way or not at all.
        get: fn(&Conditions) -> Option<f64>,
        /// Writes it.
        set: fn(&mut Conditions, f64),
    },
    /// One quantity for each field.
    PerField {
        /// What it measures.
        dimension: Dimension,
        /// What a sheet may say.
        allowed: Range,
        /// What a slider offers.
        slider: Range,
        /// What the demonstration says.
        sample: &'static [f64],
        /// Reads the list.
        get: fn(&Conditions) -> &[f64],
        /// Reaches the list to write it.
        list: fn(&mut Conditions) -> &mut Vec<f64>,
    },
    /// A whole number.
    Count {
        /// Smallest.
        min: usize,
        /// Largest.
        max: usize,
        /// What the demonstration says.
        sample: usize,
        /// Reads it.
        get: fn(&Conditions) -> usize,
        /// Writes it.
        set: fn(&mut Conditions, usize),
    },
    /// One of several words.
    Word {
        /// The words, the usual one first.
        words: fn() -> Vec<&'static str>,
        /// Reads it.
        get: fn(&Conditions) -> &'static str,
        /// Writes it; false when there is no such word.
        set: fn(&mut Conditions, &str) -> bool,
    },
    /// Free text.
    Text {
        /// Most characters.
        longest: usize,
        /// What a sheet without it says.
        sample: &'static str,
        /// Reads it.
        get: fn(&Conditions) -> &str,
        /// Writes it.
        set: fn(&mut Conditions, String),
    },
    /// Cumulative size table.
    Points {
        /// Allowed diameters, m.
        allowed: Range,
    },
    /// `"none"`, `"full"` or `{ diffusivity = "0.002 m2/s" }`.
    Mixing {
        /// Allowed diffusivities, m²/s.
        allowed: Range,
        /// An example, m²/s.
        sample: f64,
    },
    /// Free text for any of the listed parts.
    PartName {
        /// Most characters.
        longest: usize,
    },
}

/// A range from its ends.
pub(super) const fn range(min: f64, max: f64) -> Range {
    Range { min, max }
}

/// A quantity: what it measures, allowed range, slider range, demonstration value, getter and setter.
pub(super) const fn quantity(
    dimension: Dimension,
    allowed: Range,
    slider: Range,
    sample: f64,
    get: fn(&Conditions) -> Option<f64>,
    set: fn(&mut Conditions, f64),
) -> Shape {
    Shape::Quantity {
        dimension,
        allowed,
        slider,
        sample,
        get,
        set,
    }
}
