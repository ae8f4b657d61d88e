//! Writes quantities: in the unit people expect, with as many digits as make sense.

use super::{Dimension, GasState, Unit, UnitSystem};

/// Digits people read in a value.
const DIGITS: usize = 4;
/// Largest number of digits that a double needs to come back unchanged.
const ALL_DIGITS: usize = 17;
/// Numbers from here on are written with an exponent.
const LARGE: f64 = 1e7;
/// Numbers below are written with an exponent.
const SMALL: f64 = 1e-3;

/// A value in the unit it is shown in, and that unit.
#[must_use]
pub fn display(value_si: f64, dimension: Dimension, system: UnitSystem) -> (f64, &'static str) {
    let unit = dimension.display_unit(system);
    (unit.from_si(value_si, &GasState::NORMAL), unit.symbol)
}

/// SI value of a number typed in the unit it is shown in.
#[must_use]
pub fn from_display(value: f64, dimension: Dimension, system: UnitSystem) -> f64 {
    dimension
        .display_unit(system)
        .to_si(value, &GasState::NORMAL)
}

/// "number unit" in the unit it is shown in, four digits.
#[must_use]
pub fn format(value_si: f64, dimension: Dimension, system: UnitSystem) -> String {
    format_in(
        value_si,
        dimension.display_unit(system),
        &GasState::NORMAL,
        DIGITS,
    )
}

/// "number unit" in a chosen unit with a chosen number of digits.
#[must_use]
pub fn format_in(value_si: f64, unit: &Unit, gas: &GasState, digits: usize) -> String {
    let number = number_text(unit.from_si(value_si, gas), digits);
    if unit.symbol.is_empty() {
        number
    } else {
        format!("{number} {}", unit.symbol)
    }
}

/// A number rounded to so many significant digits, without useless zeros.
#[must_use]
pub fn number_text(value: f64, digits: usize) -> String {
    plain_or_exponent(rounded(value, digits))
}

/// The number of so many digits that is not above `value`: for the upper end of a range.
#[must_use]
pub fn number_text_down(value: f64, digits: usize) -> String {
    let nearest = rounded(value, digits);
    let inside = if nearest > value {
        rounded(value - last_place(value, digits), digits)
    } else {
        nearest
    };
    plain_or_exponent(inside)
}

/// The number of so many digits that is not below `value`: for the lower end of a range.
#[must_use]
pub fn number_text_up(value: f64, digits: usize) -> String {
    let nearest = rounded(value, digits);
    let inside = if nearest < value {
        rounded(value + last_place(value, digits), digits)
    } else {
        nearest
    };
    plain_or_exponent(inside)
}

/// The shortest number in `unit` that reads back as `value_si`.
#[must_use]
pub fn shortest_text(value_si: f64, unit: &Unit, gas: &GasState) -> String {
    let value = unit.from_si(value_si, gas);
    let close = |digits: &usize| {
        let back = unit.to_si(rounded(value, *digits), gas);
        // A few rounding errors of the factors, far below anything anyone reads.
        (back - value_si).abs() <= 4e-15 * value_si.abs()
    };
    let digits = (1..ALL_DIGITS).find(close).unwrap_or(ALL_DIGITS);
    number_text(value, digits)
}

/// One unit of the last digit, so that rounding again lands on the next number down or up.
fn last_place(value: f64, digits: usize) -> f64 {
    let exponent = value.abs().log10().floor();
    if exponent.is_finite() {
        10f64.powf(exponent + 1.0 - digits as f64)
    } else {
        0.0
    }
}

fn rounded(value: f64, digits: usize) -> f64 {
    // The decimal writer of the standard library rounds exactly, which arithmetic cannot.
    format!("{value:.*e}", digits.saturating_sub(1))
        .parse()
        .unwrap_or(value)
}

fn plain_or_exponent(value: f64) -> String {
    let size = value.abs();
    if value == 0.0 {
        "0".to_owned()
    } else if size.is_finite() && !(SMALL..LARGE).contains(&size) {
        format!("{value:e}")
    } else {
        format!("{value}")
    }
}
