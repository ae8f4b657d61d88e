//! The checks a value must pass before it is written into the conditions.

use super::{MOST_POINTS, Range, Refusal};
use crate::{
    conditions::nearest::nearest,
    units::{Dimension, GasState, Unit, UnitSystem},
};

/// A share of a whole.
pub(in crate::conditions) const WHOLE: Range = Range { min: 0.0, max: 1.0 };

/// Refuses a number outside `allowed`, telling the range in the unit people usually read.
pub(super) fn within(value: f64, allowed: Range, dimension: Dimension) -> Result<(), Refusal> {
    within_in(
        value,
        allowed,
        dimension,
        dimension.display_unit(UnitSystem::Si),
        &GasState::NORMAL,
    )
}

/// Refuses a number outside `allowed`, telling the range in `unit`.
pub(in crate::conditions) fn within_in(
    value: f64,
    allowed: Range,
    dimension: Dimension,
    unit: &'static Unit,
    gas: &GasState,
) -> Result<(), Refusal> {
    if allowed.holds(value) {
        Ok(())
    } else {
        Err(Refusal::OutOfRange {
            allowed,
            dimension,
            unit,
            gas: *gas,
        })
    }
}

/// Refuses lists that are empty or longer than there are fields.
pub(in crate::conditions) fn per_field_length(
    entries: usize,
    fields: usize,
) -> Result<(), Refusal> {
    match entries {
        0 => Err(Refusal::EmptyList),
        _ if entries > fields => Err(Refusal::MoreThanFields { entries, fields }),
        _ => Ok(()),
    }
}

/// Refuses size tables that are empty or too long.
pub(in crate::conditions) fn points_length(points: usize) -> Result<(), Refusal> {
    match points {
        0 => Err(Refusal::EmptyList),
        _ if points > MOST_POINTS => Err(Refusal::TooManyPoints {
            points,
            most: MOST_POINTS,
        }),
        _ => Ok(()),
    }
}

/// Refuses text that is empty, too long or on several lines.
pub(in crate::conditions) fn text_length(text: &str, longest: usize) -> Result<(), Refusal> {
    let length = text.chars().count();
    let one_line = !text.chars().any(char::is_control);
    if (1..=longest).contains(&length) && one_line && !text.trim().is_empty() {
        Ok(())
    } else {
        Err(Refusal::TextLength { length, longest })
    }
}

/// Refuses a word that is not in the list, and proposes the nearest.
pub(in crate::conditions) fn known_word(word: &str, words: &[&'static str]) -> Result<(), Refusal> {
    if words.contains(&word) {
        return Ok(());
    }
    let quoted: Vec<String> = words.iter().map(|word| format!("\"{word}\"")).collect();
    Err(Refusal::UnknownWord {
        nearest: nearest(word, words.iter().copied()).map(str::to_owned),
        words: quoted.join(" or "),
    })
}
