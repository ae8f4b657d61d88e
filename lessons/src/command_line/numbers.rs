//! Numbers as a reader of a table expects them.

use ashlane_shared::units::{Dimension, UnitSystem, format};

/// Decimals of a per cent value so that its uncertainty has two digits, and one more for the values beside it.
pub(super) fn decimals(error_percent: f64) -> usize {
    let place = error_percent.max(1e-9).log10().floor();
    (2.0 - place).clamp(1.0, 9.0) as usize
}

/// A share in per cent, without the sign.
pub(super) fn percent(share: f64, decimals: usize) -> String {
    format!("{:.decimals$}", 100.0 * share)
}

/// A share in per cent with so many digits that three of them count.
pub(super) fn percent_short(share: f64) -> String {
    let place = (100.0 * share.abs()).max(1e-9).log10().floor();
    let decimals = (2.0 - place).clamp(0.0, 6.0) as usize;
    percent(share, decimals)
}

/// Whole numbers in groups of three.
pub(super) fn thousands(number: u64) -> String {
    let digits = number.to_string();
    let mut text = String::with_capacity(digits.len() + digits.len() / 3);
    for (index, digit) in digits.chars().enumerate() {
        if index > 0 && (digits.len() - index).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

/// A quantity in SI units, with US units behind where they differ.
pub(super) fn both(value_si: f64, dimension: Dimension) -> String {
    let si = format(value_si, dimension, UnitSystem::Si);
    let us = format(value_si, dimension, UnitSystem::Us);
    if si == us { si } else { format!("{si} ({us})") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_written_with_the_digits_that_count() {
        assert_eq!(thousands(999), "999");
        assert_eq!(thousands(1_234_567), "1,234,567");
        assert_eq!(percent(0.003741, decimals(0.041)), "0.3741");
        assert_eq!(percent(0.187, decimals(0.37)), "18.700");
        assert_eq!(percent_short(0.003741), "0.374");
        assert_eq!(percent_short(1.0), "100");
        assert_eq!(percent_short(0.0), "0.000000");
        assert_eq!(both(1.2, Dimension::Velocity), "1.2 m/s (3.937 ft/s)");
        assert_eq!(both(45e3, Dimension::Voltage), "45 kV");
    }
}
