//! Reads one quantity of a sheet and checks its range.

use toml_edit::Value as Toml;

use super::{
    convert::{Context, Misfit, kind_of},
    problem::Trouble,
};
use crate::{
    conditions::keys::{Range, check},
    units::{Dimension, GasState, Quantity, QuantityError, Unit, find_unit, parse},
};

/// A quantity as read from a sheet: its value and the hand it was written in.
#[derive(Clone, Copy, Debug)]
pub(super) struct Read<'t> {
    /// Value in SI.
    pub value_si: f64,
    /// Unit it was written in.
    pub unit: &'static Unit,
    /// What followed the number; nothing for a bare number.
    pub tail: Option<&'t str>,
}

/// Why something is no quantity.
#[derive(Debug)]
pub(super) enum ReadFailure {
    /// The text or number is wrong.
    Quantity(QuantityError),
    /// It is neither text nor number.
    NoQuantity(&'static str),
}

impl From<QuantityError> for ReadFailure {
    fn from(reason: QuantityError) -> Self {
        Self::Quantity(reason)
    }
}

/// Reads text or, where no unit is needed, a bare number; no range is checked.
pub(super) fn read_quantity<'t>(
    value: &'t Toml,
    dimension: Dimension,
    gas: &GasState,
) -> Result<Read<'t>, ReadFailure> {
    let number = match value {
        Toml::String(text) => {
            let Quantity {
                value_si,
                unit,
                tail,
                ..
            } = parse(text.value(), dimension, gas)?;
            return Ok(Read {
                value_si,
                unit,
                tail: Some(tail),
            });
        }
        Toml::Integer(number) => *number.value() as f64,
        Toml::Float(number) => *number.value(),
        other => return Err(ReadFailure::NoQuantity(kind_of(other))),
    };
    if !number.is_finite() {
        return Err(QuantityError::NotFinite.into());
    }
    let unit = find_unit("", dimension).ok_or(QuantityError::MissingUnit)?;
    Ok(Read {
        value_si: unit.to_si(number, gas),
        unit,
        tail: None,
    })
}

/// Reads a quantity within its range; `advice` tells what to write instead of something else.
pub(super) fn quantity<'t>(
    value: &'t Toml,
    dimension: Dimension,
    allowed: Range,
    advice: impl Fn() -> String,
    context: &Context,
) -> Result<Read<'t>, Misfit> {
    let read = read_quantity(value, dimension, &context.gas).map_err(|failure| match failure {
        ReadFailure::Quantity(reason) => Trouble::Quantity {
            reason,
            advice: advice(),
        },
        ReadFailure::NoQuantity(found) => Trouble::WrongType {
            found,
            advice: advice(),
        },
    })?;
    check::within_in(read.value_si, allowed, dimension, read.unit, &context.gas).map_err(
        |refusal| {
            let advice = percent_meant(&read, dimension, allowed).unwrap_or_default();
            Trouble::Refused { refusal, advice }
        },
    )?;
    Ok(read)
}

/// A share written as `5` was surely meant as 5 %.
fn percent_meant(read: &Read<'_>, dimension: Dimension, allowed: Range) -> Option<String> {
    let number = read.value_si;
    let likely = dimension == Dimension::Fraction
        && read.unit.symbol.is_empty()
        && allowed.holds(number / 100.0);
    likely.then(|| format!("did you mean \"{number} %\"?"))
}
