//! Writes a value in the author's hand: the unit, spacing and layout that stood there, with new numbers.

use toml_edit::{Array, InlineTable, Item, Value as Toml};

use super::{convert::Context, quantity::read_quantity};
use crate::{
    conditions::{
        Mixing,
        keys::{Key, Shape, Value, same},
    },
    units::{Dimension, UnitSystem, shortest_text},
};

/// What decides how a new value is written.
#[derive(Clone, Copy, Debug)]
pub(super) struct Style {
    /// State of the gas and number of fields.
    pub context: Context,
    /// Units for keys that the author did not write.
    pub system: UnitSystem,
}

/// The item that says `value` for `key`, written like `old` where there is one.
pub(super) fn write(key: &Key, value: &Value, old: Option<&Item>, style: &Style) -> Item {
    if let (Value::Mixing(Mixing::Diffusivity(number)), Some(Item::Table(table))) = (value, old) {
        let mut table = table.clone();
        let inner = table.get("diffusivity").and_then(Item::as_value);
        let written = quantity(*number, Dimension::Diffusivity, inner, style);
        table.insert("diffusivity", Item::Value(written));
        return Item::Table(table);
    }
    let old = old.and_then(Item::as_value);
    let written = match value {
        Value::Number(number) => quantity(*number, dimension_of(key), old, style),
        Value::PerField(numbers) => per_field(numbers, dimension_of(key), old, style),
        Value::Count(count) => Toml::from(i64::try_from(*count).unwrap_or(i64::MAX)),
        Value::Word(word) => Toml::from(*word),
        Value::Text(text) => Toml::from(text.as_str()),
        Value::Points(points) => size_table(points, old, style),
        Value::Mixing(mixing) => mixed(*mixing, old, style),
    };
    Item::Value(dressed_like(written, old))
}

fn dimension_of(key: &Key) -> Dimension {
    match key.shape {
        Shape::Quantity { dimension, .. } | Shape::PerField { dimension, .. } => dimension,
        _ => Dimension::Number,
    }
}

/// Takes over the white space and comment around the old value.
fn dressed_like(mut value: Toml, old: Option<&Toml>) -> Toml {
    if let Some(old) = old {
        *value.decor_mut() = old.decor().clone();
    }
    value
}

/// One quantity in the unit of the old one; the old one itself if it still says the same.
fn quantity(value_si: f64, dimension: Dimension, old: Option<&Toml>, style: &Style) -> Toml {
    let gas = &style.context.gas;
    let read = old.and_then(|old| read_quantity(old, dimension, gas).ok());
    if let (Some(old), Some(read)) = (old, read)
        && same(read.value_si, value_si)
    {
        return old.clone();
    }
    let unit = read.map_or_else(|| dimension.display_unit(style.system), |read| read.unit);
    let number = shortest_text(value_si, unit, gas);
    let written = match read.map(|read| read.tail) {
        Some(Some(tail)) => Toml::from(format!("{number}{tail}")),
        None if !unit.file_spelling().is_empty() => {
            Toml::from(format!("{number} {}", unit.file_spelling()))
        }
        _ => Toml::from(number.parse::<f64>().unwrap_or(value_si)),
    };
    dressed_like(written, old)
}

/// One value if all fields agree and no list stood there, else a list that keeps the entries that still hold.
fn per_field(numbers: &[f64], dimension: Dimension, old: Option<&Toml>, style: &Style) -> Toml {
    let Some(&last) = numbers.last() else {
        return Toml::Array(Array::new());
    };
    let Some(list) = old.and_then(Toml::as_array) else {
        if numbers.iter().all(|&number| same(number, last)) {
            return quantity(last, dimension, old, style);
        }
        let plain = old.map(bare);
        let entries = numbers
            .iter()
            .map(|&number| quantity(number, dimension, plain.as_ref(), style));
        return Toml::Array(
            entries
                .enumerate()
                .map(|(index, entry)| spaced(entry, index))
                .collect(),
        );
    };
    // As many entries as it takes, since the last one is repeated.
    let alike = numbers
        .iter()
        .rev()
        .take_while(|&&number| same(number, last))
        .count();
    let length = (numbers.len() + 1 - alike)
        .max(list.len())
        .min(numbers.len());
    let mut written = Array::new();
    for (index, &number) in numbers.iter().take(length).enumerate() {
        let like = list
            .get(index)
            .cloned()
            .or_else(|| list.iter().last().map(bare));
        let entry = quantity(number, dimension, like.as_ref(), style);
        written.push_formatted(if index < list.len() {
            entry
        } else {
            spaced(entry, index)
        });
    }
    framed_like(written, list)
}

/// Takes over the trailing comma and what stands before the closing bracket.
fn framed_like(mut written: Array, old: &Array) -> Toml {
    written.set_trailing(old.trailing().clone());
    written.set_trailing_comma(old.trailing_comma());
    Toml::Array(written)
}

/// A new entry of a list, with a space after the comma before it.
fn spaced(entry: Toml, index: usize) -> Toml {
    entry.decorated(if index == 0 { "" } else { " " }, "")
}

/// The value without the white space and comments around it.
fn bare(value: &Toml) -> Toml {
    value.clone().decorated("", "")
}

/// Pairs in the order and units of the old table.
fn size_table(points: &[(f64, f64)], old: Option<&Toml>, style: &Style) -> Toml {
    let old = old.and_then(Toml::as_array);
    let first_of = |pair: Option<&Toml>| {
        let diameter = pair?.as_array()?.get(0)?;
        read_quantity(diameter, Dimension::GrainSize, &style.context.gas)
            .ok()
            .map(|read| read.value_si)
    };
    let falling = old.is_some_and(|old| first_of(old.get(0)) > first_of(old.iter().last()));
    let ordered: Vec<(f64, f64)> = if falling {
        points.iter().rev().copied().collect()
    } else {
        points.to_vec()
    };
    let mut written = Array::new();
    for (index, &(diameter_m, finer)) in ordered.iter().enumerate() {
        let like = old.and_then(|old| old.get(index));
        let hand = like
            .or_else(|| old.and_then(|old| old.iter().last()))
            .and_then(Toml::as_array);
        let diameter = quantity(
            diameter_m,
            Dimension::GrainSize,
            hand.and_then(|pair| pair.get(0)),
            style,
        );
        let share = quantity(
            finer,
            Dimension::Fraction,
            hand.and_then(|pair| pair.get(1)),
            style,
        );
        let mut pair = Array::new();
        pair.push_formatted(diameter);
        pair.push_formatted(share);
        let pair = hand.map_or_else(
            || Toml::Array(pair.clone()),
            |hand| framed_like(pair.clone(), hand),
        );
        let pair = dressed_like(pair, like);
        written.push_formatted(if like.is_some() {
            pair
        } else {
            spaced(pair, index)
        });
    }
    old.map_or_else(
        || Toml::Array(written.clone()),
        |old| framed_like(written.clone(), old),
    )
}

fn mixed(mixing: Mixing, old: Option<&Toml>, style: &Style) -> Toml {
    let number = match mixing {
        Mixing::None => return Toml::from("none"),
        Mixing::Full => return Toml::from("full"),
        Mixing::Diffusivity(number) => number,
    };
    let mut table = old
        .and_then(Toml::as_inline_table)
        .cloned()
        .unwrap_or_else(InlineTable::new);
    let inner = table.get("diffusivity").cloned();
    let written = quantity(number, Dimension::Diffusivity, inner.as_ref(), style);
    table.insert("diffusivity", written);
    Toml::InlineTable(table)
}
