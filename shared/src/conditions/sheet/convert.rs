//! Turns what stands behind a key into a typed value, or says what is wrong with it.

use std::ops::Range as Span;

use toml_edit::{Item, TableLike, Value as Toml};

use super::{
    advice::advice,
    lists::{per_field, points},
    problem::Trouble,
    quantity::quantity,
};
use crate::{
    conditions::{
        Mixing,
        keys::{Key, Range, Refusal, Shape, Value, check},
        nearest::nearest,
    },
    units::{Dimension, GasState, QuantityError},
};

/// What a value may depend on.
#[derive(Clone, Copy, Debug)]
pub(super) struct Context {
    /// For normal and standard volumes.
    pub gas: GasState,
    /// For lists with one entry a field.
    pub fields: usize,
}

/// Why a value cannot be taken, and which part of it is meant.
#[derive(Clone, Debug)]
pub(super) struct Misfit {
    /// What is wrong.
    pub trouble: Box<Trouble>,
    /// Number of the list entry, from 1.
    pub entry: Option<usize>,
    /// Where exactly, if it is a part of the value.
    pub place: Option<Span<usize>>,
}

impl From<Trouble> for Misfit {
    fn from(trouble: Trouble) -> Self {
        Self {
            trouble: Box::new(trouble),
            entry: None,
            place: None,
        }
    }
}

impl From<Refusal> for Misfit {
    fn from(refusal: Refusal) -> Self {
        Trouble::Refused {
            refusal,
            advice: String::new(),
        }
        .into()
    }
}

/// The typed value of `item` for `key`.
pub(super) fn convert(key: &Key, item: &Item, context: &Context) -> Result<Value, Misfit> {
    if let (Shape::Mixing { allowed, .. }, Some(table)) = (key.shape, item.as_table_like()) {
        return diffusivity(key, table, allowed, context);
    }
    let value = item
        .as_value()
        .ok_or_else(|| wrong_type(key, kind_of_item(item)))?;
    let text = || {
        value
            .as_str()
            .ok_or_else(|| wrong_type(key, kind_of(value)))
    };
    match key.shape {
        Shape::Quantity {
            dimension, allowed, ..
        } => {
            let read = quantity(value, dimension, allowed, || advice(key), context)?;
            Ok(Value::Number(read.value_si))
        }
        Shape::PerField {
            dimension, allowed, ..
        } => per_field(key, value, dimension, allowed, context),
        Shape::Count { .. } => count(key, value, context),
        Shape::Word { words, .. } => {
            let word = text()?;
            let words = words();
            check::known_word(word, &words)?;
            // Found again so that the value borrows from the key table and not from the sheet.
            Ok(Value::Word(
                words
                    .into_iter()
                    .find(|&known| known == word)
                    .unwrap_or_default(),
            ))
        }
        Shape::Text { longest, .. } | Shape::PartName { longest } => {
            let text = text()?;
            check::text_length(text, longest)?;
            Ok(Value::Text(text.to_owned()))
        }
        Shape::Points { allowed } => points(key, value, allowed, context),
        Shape::Mixing { .. } => Ok(Value::Mixing(mixing_word(text()?)?)),
    }
}

fn count(key: &Key, value: &Toml, context: &Context) -> Result<Value, Misfit> {
    match value {
        Toml::Integer(number) => {
            // A negative or enormous count is out of range like any other.
            let count = Value::Count(usize::try_from(*number.value()).unwrap_or(usize::MAX));
            key.check(&count, context.fields)?;
            Ok(count)
        }
        Toml::Float(number) if !number.value().is_finite() => Err(Trouble::Quantity {
            reason: QuantityError::NotFinite,
            advice: advice(key),
        }
        .into()),
        other => Err(wrong_type(key, kind_of(other))),
    }
}

fn mixing_word(word: &str) -> Result<Mixing, Refusal> {
    match word {
        "none" => Ok(Mixing::None),
        "full" => Ok(Mixing::Full),
        other => Err(Refusal::UnknownWord {
            nearest: nearest(other, ["none", "full"].into_iter()).map(str::to_owned),
            words: "\"none\" or \"full\" or { diffusivity = \"0.002 m2/s\" }".to_owned(),
        }),
    }
}

/// `{ diffusivity = "0.002 m2/s" }` and nothing else.
fn diffusivity(
    key: &Key,
    table: &dyn TableLike,
    allowed: Range,
    context: &Context,
) -> Result<Value, Misfit> {
    let only = table
        .get("diffusivity")
        .filter(|_| table.len() == 1)
        .and_then(Item::as_value);
    let value = only.ok_or_else(|| wrong_type(key, "a table without the one key diffusivity"))?;
    let read = quantity(
        value,
        Dimension::Diffusivity,
        allowed,
        || advice(key),
        context,
    )
    .map_err(|misfit| Misfit {
        place: value.span(),
        ..misfit
    })?;
    Ok(Value::Mixing(Mixing::Diffusivity(read.value_si)))
}

/// Something of another type than the key takes.
pub(super) fn wrong_type(key: &Key, found: &'static str) -> Misfit {
    Trouble::WrongType {
        found,
        advice: advice(key),
    }
    .into()
}

/// What a reader calls this kind of value.
pub(super) fn kind_of(value: &Toml) -> &'static str {
    match value {
        Toml::String(_) => "text",
        Toml::Integer(_) => "a whole number",
        Toml::Float(_) => "a number with a decimal point",
        Toml::Boolean(_) => "true or false",
        Toml::Datetime(_) => "a date or time",
        Toml::Array(_) => "a list",
        Toml::InlineTable(_) => "a table",
    }
}

/// What a reader calls this kind of item.
#[must_use]
pub fn kind_of_item(item: &Item) -> &'static str {
    match item {
        Item::Value(value) => kind_of(value),
        Item::Table(_) => "a section",
        Item::ArrayOfTables(_) => "a list of sections written with [[ ]]",
        Item::None => "nothing",
    }
}
