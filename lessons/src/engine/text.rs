//! Text of a lesson, with quantities that are shown in the reader's units.
//!
//! A quantity stands in braces in the unit people read it in: `{3 m}` becomes "3 m" or "9.84 ft". Line breaks within
//! a paragraph are only for the writer; an empty line begins a new paragraph.

use ashlane_shared::units::{Dimension, GasState, UnitSystem, format_in, parse};

/// Longest piece of the file that a message repeats, in characters.
const LONGEST_ECHO: usize = 30;
/// Digits of a quantity in the other unit system.
const DIGITS: usize = 3;

/// Text for people.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Text {
    pieces: Vec<Piece>,
}

#[derive(Clone, Debug, PartialEq)]
enum Piece {
    Words(String),
    Quantity {
        written: String,
        value_si: f64,
        dimension: Dimension,
    },
}

impl Text {
    /// Reads text as it stands in a lesson file.
    ///
    /// # Errors
    /// Says which brace or quantity is wrong and what to write.
    pub fn parse(text: &str) -> Result<Self, String> {
        let mut pieces = Vec::new();
        let flowing = flowing(text);
        let mut rest = flowing.as_str();
        while let Some((words, after)) = rest.split_once('{') {
            let Some((written, after)) = after.split_once('}') else {
                return Err("a brace { is not closed; write a quantity as {3 m}".to_owned());
            };
            no_stray_brace(words)?;
            pieces.push(Piece::Words(words.to_owned()));
            pieces.push(quantity(written)?);
            rest = after;
        }
        no_stray_brace(rest)?;
        pieces.push(Piece::Words(rest.to_owned()));
        pieces.retain(|piece| !matches!(piece, Piece::Words(words) if words.is_empty()));
        Ok(Self { pieces })
    }

    /// The text in one system of units; paragraphs are separated by an empty line.
    #[must_use]
    pub fn show(&self, units: UnitSystem) -> String {
        // On screen a line must not end between a number and its unit.
        self.with(|written, value_si, dimension| {
            match units {
                UnitSystem::Si => written.to_owned(),
                UnitSystem::Us => in_us(value_si, dimension),
            }
            .replace(' ', "\u{a0}")
        })
        .replace(" %", "\u{a0}%")
    }

    /// The text with every quantity in both systems of units, where they differ.
    #[must_use]
    pub fn show_both(&self) -> String {
        self.with(|written, value_si, dimension| {
            let us = in_us(value_si, dimension);
            if same_unit(dimension) {
                written.to_owned()
            } else {
                format!("{written} ({us})")
            }
        })
    }

    /// Whether there is nothing to read.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.pieces.is_empty()
    }

    fn with(&self, show: impl Fn(&str, f64, Dimension) -> String) -> String {
        self.pieces
            .iter()
            .map(|piece| match piece {
                Piece::Words(words) => words.clone(),
                Piece::Quantity {
                    written,
                    value_si,
                    dimension,
                } => show(written, *value_si, *dimension),
            })
            .collect()
    }
}

/// Whether both systems read this quantity in the same unit.
fn same_unit(dimension: Dimension) -> bool {
    dimension.display_unit(UnitSystem::Si) == dimension.display_unit(UnitSystem::Us)
}

fn in_us(value_si: f64, dimension: Dimension) -> String {
    let unit = dimension.display_unit(UnitSystem::Us);
    format_in(value_si, unit, &GasState::NORMAL, DIGITS)
}

fn no_stray_brace(words: &str) -> Result<(), String> {
    if words.contains('}') {
        Err("a brace } without its {; write a quantity as {3 m}".to_owned())
    } else {
        Ok(())
    }
}

fn quantity(written: &str) -> Result<Piece, String> {
    let written = written.trim();
    let (value_si, dimension) = measure(written).ok_or_else(|| {
        format!(
            "\"{}\" is no quantity in a unit that is shown; write one such as 3 m, 300 mm, 9.32 cm/s or 118.8 m³/s",
            echo(written)
        )
    })?;
    Ok(Piece::Quantity {
        written: written.to_owned(),
        value_si,
        dimension,
    })
}

/// A piece of the file on one line and not too long.
fn echo(text: &str) -> String {
    let plain = |sign: char| if sign.is_control() { ' ' } else { sign };
    let mut short: String = text.chars().take(LONGEST_ECHO).map(plain).collect();
    if text.chars().nth(LONGEST_ECHO).is_some() {
        short.push('…');
    }
    short
}

/// SI value and kind of "number unit", where the unit is the one that its kind is shown in.
pub(super) fn measure(text: &str) -> Option<(f64, Dimension)> {
    Dimension::all()
        .filter(|&dimension| dimension != Dimension::Number)
        .find_map(|dimension| {
            let read = parse(text, dimension, &GasState::NORMAL).ok()?;
            (read.unit == dimension.display_unit(UnitSystem::Si))
                .then_some((read.value_si, dimension))
        })
}

/// Lines joined into paragraphs.
fn flowing(text: &str) -> String {
    let mut paragraphs: Vec<String> = vec![String::new()];
    for line in text.trim().lines().map(str::trim) {
        match paragraphs.last_mut() {
            Some(paragraph) if !line.is_empty() => {
                if !paragraph.is_empty() {
                    paragraph.push(' ');
                }
                paragraph.push_str(line);
            }
            Some(paragraph) if !paragraph.is_empty() => paragraphs.push(String::new()),
            _ => {}
        }
    }
    paragraphs.join("\n\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(text: &str) -> Text {
        Text::parse(text).unwrap_or_else(|trouble| panic!("{trouble}"))
    }

    #[test]
    fn quantities_are_shown_in_the_readers_units() {
        let text = text("Each field is {3 m} long,\nand w is {9.32 cm/s}.\n\n\nNow {150 °C}.");
        assert_eq!(
            text.show(UnitSystem::Si),
            "Each field is 3\u{a0}m long, and w is 9.32\u{a0}cm/s.\n\nNow 150\u{a0}°C."
        );
        assert_eq!(
            text.show(UnitSystem::Us),
            "Each field is 9.84\u{a0}ft long, and w is 0.306\u{a0}ft/s.\n\nNow 302\u{a0}°F."
        );
        assert!(text.show_both().contains("3 m (9.84 ft) long"));
    }

    #[test]
    fn the_unit_decides_what_is_measured() {
        assert_eq!(measure("300 mm"), Some((0.3, Dimension::PartSize)));
        assert_eq!(measure("99.5 %"), Some((0.995, Dimension::Fraction)));
        assert_eq!(text("{99 %}").show_both(), "99 %");
        // Inches are read in sheets, but a lesson is written in the units it is shown in.
        assert_eq!(measure("12 in"), None);
        assert_eq!(measure("12"), None);
    }

    #[test]
    fn wrong_braces_are_named() {
        for (wrong, says) in [
            ("{3 m", "not closed"),
            ("3 m}", "without its {"),
            ("{3 parsec}", "parsec"),
            ("{}", "no quantity"),
            (
                "{ two\n\nparagraphs that belong to no quantity at all, {3 m}",
                "\"two  paragraphs that belong to…\"",
            ),
        ] {
            let trouble = Text::parse(wrong).expect_err(wrong);
            assert_eq!(trouble.lines().count(), 1, "{trouble}");
            assert!(trouble.contains(says), "{wrong}: {trouble}");
        }
    }
}
