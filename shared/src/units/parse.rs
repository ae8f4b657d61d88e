//! Reads a quantity written as "number unit".

use super::{Dimension, GasState, QuantityError, Unit, spelling::plain};

/// Longest piece of the user's text that a message repeats, in characters.
const LONGEST_ECHO: usize = 40;

/// A quantity as it was written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quantity<'t> {
    /// The number in front of the unit.
    pub number: f64,
    /// The unit.
    pub unit: &'static Unit,
    /// The value in SI.
    pub value_si: f64,
    /// Everything after the number, as typed, so that a new number can be written in the same hand.
    pub tail: &'t str,
}

/// Reads "number unit"; normal and standard volumes become actual ones in `gas`.
///
/// # Errors
/// Says what is wrong with the number or the unit and what to write instead.
pub fn parse<'t>(
    text: &'t str,
    wanted: Dimension,
    gas: &GasState,
) -> Result<Quantity<'t>, QuantityError> {
    let text = text.trim();
    if text.is_empty() {
        return Err(QuantityError::Empty);
    }
    let number_length = number_length(text);
    let (number_text, tail) = text
        .split_at_checked(number_length)
        .ok_or(QuantityError::NoNumber)?;
    let Ok(number) = number_text.replace('\u{2212}', "-").parse::<f64>() else {
        return Err(no_number(text));
    };
    if !number.is_finite() {
        return Err(QuantityError::NotFinite);
    }
    let unit = find_unit(tail, wanted).ok_or_else(|| wrong_tail(number_text, tail, wanted))?;
    let value_si = unit.to_si(number, gas);
    if !value_si.is_finite() {
        return Err(QuantityError::NotFinite);
    }
    Ok(Quantity {
        number,
        unit,
        value_si,
        tail,
    })
}

/// The unit of `wanted` that is spelled so.
#[must_use]
pub fn find_unit(spelling: &str, wanted: Dimension) -> Option<&'static Unit> {
    let typed = plain(spelling);
    wanted
        .units()
        .iter()
        .find(|unit| unit.spellings.iter().any(|known| plain(known) == typed))
}

/// Bytes of the number at the start: sign, digits, point, digits, exponent.
fn number_length(text: &str) -> usize {
    let digits = |from: usize| {
        text.get(from..).map_or(0, |rest| {
            rest.bytes().take_while(u8::is_ascii_digit).count()
        })
    };
    let sign = ['+', '-', '\u{2212}']
        .into_iter()
        .find(|&sign| text.starts_with(sign))
        .map_or(0, char::len_utf8);
    let mut end = sign + digits(sign);
    if text.get(end..).is_some_and(|rest| rest.starts_with('.')) {
        end += 1 + digits(end + 1);
    }
    // An "e" is an exponent only when digits follow it; "117 e" counts elementary charges.
    if text
        .get(end..)
        .is_some_and(|rest| rest.starts_with(['e', 'E']))
    {
        let signed = text
            .get(end + 1..)
            .is_some_and(|rest| rest.starts_with(['+', '-']));
        let first = end + 1 + usize::from(signed);
        let count = digits(first);
        if count > 0 {
            end = first + count;
        }
    }
    end
}

fn no_number(text: &str) -> QuantityError {
    let word: String = text
        .chars()
        .filter(|sign| sign.is_alphabetic())
        .take(8)
        .collect();
    let word = word.to_lowercase();
    if word.starts_with("nan") || word.starts_with("inf") {
        QuantityError::NotFinite
    } else {
        QuantityError::NoNumber
    }
}

/// Says why the text after the number is not a unit of the wanted kind.
fn wrong_tail(number: &str, tail: &str, wanted: Dimension) -> QuantityError {
    if let Some(error) = separator(number, tail) {
        return error;
    }
    let unit = tail.trim();
    if unit.is_empty() {
        return QuantityError::MissingUnit;
    }
    let typed = plain(unit);
    if typed.starts_with(".10") || typed.starts_with("x10") || typed.starts_with("x.10") {
        return QuantityError::PowerOfTen;
    }
    let echo = shortened(unit);
    if wanted == Dimension::Number {
        return QuantityError::NeedlessUnit(echo);
    }
    // Lengths before velocities and so on: the first kind that knows the unit names it.
    if let Some(is) = Dimension::all().find(|&kind| find_unit(unit, kind).is_some()) {
        return QuantityError::WrongDimension {
            unit: echo,
            is,
            wanted,
        };
    }
    QuantityError::UnknownUnit {
        nearest: nearest_unit(&typed, wanted),
        allowed: wanted.unit_list(),
        unit: echo,
    }
}

/// Finds commas and grouped digits right after the first digits.
fn separator(number: &str, tail: &str) -> Option<QuantityError> {
    let joins = |sign: char| {
        matches!(
            sign,
            ',' | '.' | '\'' | '’' | '_' | ' ' | '\u{a0}' | '\u{202f}'
        )
    };
    let more: String = tail
        .chars()
        .take_while(|&sign| sign.is_ascii_digit() || joins(sign))
        .take(LONGEST_ECHO)
        .collect();
    let more = more.trim_end();
    let mut signs = more.chars();
    let first = signs.next()?;
    // Three digits after a space are a group; fewer are the start of an odd unit.
    let group = more
        .chars()
        .skip(1)
        .take_while(char::is_ascii_digit)
        .count();
    if group == 0 || (first.is_whitespace() && group != 3) {
        return None;
    }
    let digits = |text: &str| {
        text.chars()
            .filter(|&sign| !joins(sign))
            .collect::<String>()
    };
    let written = format!("{number}{more}");
    if written.contains(',') && written.contains('.') {
        let (whole, decimals) = written.rsplit_once([',', '.'])?;
        return Some(QuantityError::ThousandsSeparator(format!(
            "{}.{decimals}",
            digits(whole)
        )));
    }
    if written.matches(joins).count() > 1 || first != ',' {
        return Some(QuantityError::ThousandsSeparator(digits(&written)));
    }
    let decimals = digits(more);
    let decimal = format!("{number}.{decimals}");
    if group == 3 {
        return Some(QuantityError::AmbiguousComma(
            format!("{number}{decimals}"),
            decimal,
        ));
    }
    Some(QuantityError::DecimalComma(decimal))
}

/// The unit that looks most like the typed one, if any looks like it at all.
fn nearest_unit(typed: &str, wanted: Dimension) -> Option<String> {
    // A long text is no misspelt unit, and comparing it would be slow.
    if typed.chars().count() > LONGEST_ECHO {
        return None;
    }
    let lower = typed.to_lowercase();
    wanted
        .units()
        .iter()
        .flat_map(|unit| {
            unit.spellings
                .iter()
                .map(move |spelling| (unit, plain(spelling).to_lowercase()))
        })
        .map(|(unit, known)| {
            (
                strsim::osa_distance(&lower, &known),
                known.chars().count(),
                unit,
            )
        })
        .filter(|&(distance, length, _)| distance * 2 <= length)
        .min_by_key(|&(distance, ..)| distance)
        .map(|(.., unit)| unit.file_spelling().to_owned())
}

fn shortened(text: &str) -> String {
    if text.chars().count() <= LONGEST_ECHO {
        return text.to_owned();
    }
    let start: String = text.chars().take(LONGEST_ECHO).collect();
    format!("{start}…")
}
