//! Tells what to write for a key: an example in both unit systems, and the range.

use crate::{
    conditions::keys::{Key, Range, Shape, range_text},
    units::{Dimension, GasState, UnitSystem, number_text},
};

/// Digits of an example.
const DIGITS: usize = 4;

/// "write a flow such as "118.8 m3/s" or "251700 acfm" (0.1 to 5000 m3/s)".
pub(super) fn advice(key: &Key) -> String {
    match key.shape {
        Shape::Quantity { dimension, allowed, sample, .. } => of_quantity(dimension, allowed, sample),
        Shape::PerField { dimension, allowed, sample, .. } => {
            let entries: Vec<String> = sample.iter().map(|&value| example(value, dimension, UnitSystem::Si)).collect();
            let first = entries.first().cloned().unwrap_or_default();
            format!(
                "write {} such as {first} for all fields, or a list with one entry a field such as [{}] ({})",
                dimension.name(),
                entries.join(", "),
                ends(allowed, dimension)
            )
        }
        Shape::Count { min, max, sample, .. } => {
            format!("write a whole number such as {sample} without quotation marks ({min} to {max})")
        }
        Shape::Word { words, .. } => {
            let quoted: Vec<String> = words().iter().map(|word| format!("\"{word}\"")).collect();
            format!("write {}", quoted.join(" or "))
        }
        Shape::Text { longest, .. } | Shape::PartName { longest } => {
            format!("write text in quotation marks (1 to {longest} characters)")
        }
        Shape::Points { .. } => {
            "write pairs of diameter and share finer such as [[\"2.5 um\", \"6 %\"], [\"15 um\", \"32 %\"]]".to_owned()
        }
        Shape::Mixing { allowed, sample } => format!(
            "write \"none\" or \"full\" or {{ diffusivity = {} }} ({})",
            example(sample, Dimension::Diffusivity, UnitSystem::Si),
            ends(allowed, Dimension::Diffusivity)
        ),
    }
}

/// Advice for one quantity.
pub(super) fn of_quantity(dimension: Dimension, allowed: Range, sample: f64) -> String {
    let si = example(sample, dimension, UnitSystem::Si);
    let us = example(sample, dimension, UnitSystem::Us);
    let examples = if si == us {
        si
    } else {
        format!("{si} or {us}")
    };
    format!(
        "write {} such as {examples} ({})",
        dimension.name(),
        ends(allowed, dimension)
    )
}

/// An example as it stands in a sheet.
fn example(value_si: f64, dimension: Dimension, system: UnitSystem) -> String {
    let unit = dimension.display_unit(system);
    let number = number_text(unit.from_si(value_si, &GasState::NORMAL), DIGITS);
    match unit.file_spelling() {
        "" => number,
        spelling => format!("\"{number} {spelling}\""),
    }
}

fn ends(allowed: Range, dimension: Dimension) -> String {
    range_text(
        allowed,
        dimension,
        dimension.display_unit(UnitSystem::Si),
        &GasState::NORMAL,
    )
}
