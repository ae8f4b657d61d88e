//! Writes the reference of the site sheet out of the key table, so that it cannot differ from what is read.

use super::{
    Conditions, Kind, Mixing,
    keys::{Key, Presence, Range, SECTIONS, Shape, Value, defaults, keys},
    parts::PARTS,
    sites::SITES,
};
use crate::units::{
    Dimension, GasState, Unit, UnitSystem, format, format_in, number_text, number_text_down,
    number_text_up,
};

/// Digits of the ends of a range.
const DIGITS: usize = 4;
/// Digits of a default.
const DEFAULT_DIGITS: usize = 6;
/// Fields of the collector whose defaults are told.
const FIELDS: usize = 4;

const INTRODUCTION: &str = "\
# Site sheets

This page is written by the program from its own key table; do not edit it by hand.
To renew it, run the tests with `ASHLANE_RENEW=1`.

A site sheet is a TOML file that describes one collector.
A quantity is text of the form `\"number unit\"`; where a key has no unit, a plain number is enough.
Units may be typed in ASCII or Unicode: `um` or `µm`, `m3/s` or `m³/s`, `ohm.cm` or `Ω·cm`.
Decimals take a point; digits are not grouped.
A list with one entry a field may be shorter than the number of fields: its last entry is repeated.
Dust load is per actual cubic metre unless written per normal (`g/Nm3`: 0 °C, 101.325 kPa, wet) or standard volume (`gr/scf`: 68 °F, 101.325 kPa, wet; `gr/dscf`: the same, dry).
";

/// The reference of the site sheet as Markdown: keys, units, parts and the sites that come with the program.
#[must_use]
pub fn site_sheet_guide() -> String {
    let mut page = INTRODUCTION.to_owned();
    page.push_str(&sites());
    for section in SECTIONS {
        page.push_str(&section_table(section));
    }
    page.push_str(&parts());
    page.push_str(&units());
    page
}

fn sites() -> String {
    let mut text = "\n## Sites in this folder\n\n| file | title |\n|---|---|\n".to_owned();
    for (name, sheet) in SITES {
        let title = super::sheet::read_str(name, sheet)
            .map_or_else(|_| String::new(), |sheet| sheet.conditions.title);
        text.push_str(&format!("| `{name}.toml` | {title} |\n"));
    }
    text
}

fn section_table(section: &str) -> String {
    let dry = defaults(Kind::Dry, FIELDS);
    let mut text = format!(
        "\n## `[{section}]`\n\n| key | takes | allowed | in US units | if absent | symbol | meaning |\n|---|---|---|---|---|---|---|\n"
    );
    for key in keys().filter(|key| key.split().0 == section) {
        let (takes, allowed, allowed_us) = value_columns(key);
        text.push_str(&format!(
            "| `{}` | {takes} | {allowed} | {allowed_us} | {} | {} | {} |\n",
            key.split().1,
            if_absent(key, &dry),
            key.symbol,
            key.meaning
        ));
    }
    text
}

/// What a key takes, and its range in both systems.
fn value_columns(key: &Key) -> (String, String, String) {
    let quoted = |words: Vec<&str>| {
        words
            .iter()
            .map(|word| format!("`\"{word}\"`"))
            .collect::<Vec<_>>()
            .join(", ")
    };
    let ranges = |dimension: Dimension, allowed: Range| {
        let si = range_in(allowed, dimension.display_unit(UnitSystem::Si));
        let us = range_in(allowed, dimension.display_unit(UnitSystem::Us));
        if si == us {
            (si, String::new())
        } else {
            (si, us)
        }
    };
    match key.shape {
        Shape::Quantity {
            dimension, allowed, ..
        } => {
            let (si, us) = ranges(dimension, allowed);
            (dimension.name().to_owned(), si, us)
        }
        Shape::PerField {
            dimension, allowed, ..
        } => {
            let (si, us) = ranges(dimension, allowed);
            (
                format!("{}, or a list with one a field", dimension.name()),
                si,
                us,
            )
        }
        Shape::Count { min, max, .. } => (
            "a whole number".to_owned(),
            format!("{min} to {max}"),
            String::new(),
        ),
        Shape::Word { words, .. } => ("a word".to_owned(), quoted(words()), String::new()),
        Shape::Text { longest, .. } | Shape::PartName { longest } => (
            "text".to_owned(),
            format!("1 to {longest} characters"),
            String::new(),
        ),
        Shape::Points { allowed } => {
            let (si, us) = ranges(Dimension::GrainSize, allowed);
            ("pairs of a length and a share".to_owned(), si, us)
        }
        Shape::Mixing { allowed, .. } => {
            let (si, us) = ranges(Dimension::Diffusivity, allowed);
            ("a word, or a diffusivity in braces".to_owned(), si, us)
        }
    }
}

fn range_in(allowed: Range, unit: &Unit) -> String {
    let low = number_text_up(unit.from_si(allowed.min, &GasState::NORMAL), DIGITS);
    let high = number_text_down(unit.from_si(allowed.max, &GasState::NORMAL), DIGITS);
    format!("{low} to {high} {}", unit.symbol)
        .trim_end()
        .to_owned()
}

/// What holds when a key is not there.
fn if_absent(key: &Key, dry: &Conditions) -> String {
    match key.presence {
        Presence::Required => "required".to_owned(),
        Presence::Optional => String::new(),
        Presence::Default => {
            let usual = key
                .usual(dry)
                .map_or_else(String::new, |value| shown(key, &value));
            match key
                .wet_default
                .and_then(|wet| key.dimension().map(|dimension| (wet, dimension)))
            {
                Some((wet, dimension)) => {
                    format!("{usual}; wet: {}", format(wet, dimension, UnitSystem::Si))
                }
                None => usual,
            }
        }
    }
}

fn shown(key: &Key, value: &Value) -> String {
    let dimension = key.dimension().unwrap_or(Dimension::Number);
    let unit = dimension.display_unit(UnitSystem::Si);
    match value {
        Value::Number(number) => format_in(*number, unit, &GasState::NORMAL, DEFAULT_DIGITS),
        Value::PerField(list) => {
            let numbers: Vec<String> = list
                .iter()
                .map(|&number| number_text(unit.from_si(number, &GasState::NORMAL), DEFAULT_DIGITS))
                .collect();
            format!("{} {}", numbers.join(", "), unit.symbol)
        }
        Value::Count(count) => count.to_string(),
        Value::Word(word) => format!("`\"{word}\"`"),
        Value::Text(text) => text.clone(),
        Value::Mixing(Mixing::None) => "none".to_owned(),
        Value::Mixing(Mixing::Full) => "full".to_owned(),
        Value::Mixing(Mixing::Diffusivity(number)) => {
            format_in(*number, unit, &GasState::NORMAL, DEFAULT_DIGITS)
        }
        Value::Points(points) => format!("{} pairs", points.len()),
    }
}

fn parts() -> String {
    let mut text =
        "\n## Parts that may have site names\n\n| key | part | one for each field |\n|---|---|---|\n".to_owned();
    for part in PARTS {
        let numbered = if part.numbered {
            format!("`{}_1`, `{}_2`, …", part.key, part.key)
        } else {
            String::new()
        };
        text.push_str(&format!(
            "| `{}` | {} | {numbered} |\n",
            part.key, part.name
        ));
    }
    text
}

fn units() -> String {
    let mut text = "\n## Units\n\n| quantity | units read |\n|---|---|\n".to_owned();
    let mut seen: Vec<&[Unit]> = Vec::new();
    for dimension in Dimension::all() {
        if seen.contains(&dimension.units()) || dimension == Dimension::Number {
            continue;
        }
        seen.push(dimension.units());
        let spellings: Vec<String> = dimension
            .units()
            .iter()
            .flat_map(|unit| unit.spellings.iter())
            .map(|&spelling| {
                if spelling.is_empty() {
                    "no unit".to_owned()
                } else {
                    format!("`{spelling}`")
                }
            })
            .collect();
        text.push_str(&format!(
            "| {} | {} |\n",
            dimension.name(),
            spellings.join(", ")
        ));
    }
    text
}
