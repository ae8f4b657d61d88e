//! What one instrument shows beside what it usually shows, and which way it has gone.

use ashlane_shared::units::{Dimension, UnitSystem, format};
use serde::{Deserialize, Serialize};

/// Share of the usual value below which a reading counts as gone.
const GONE: f64 = 0.1;

/// Share of the smallest difference that an instrument can tell, below which it shows 0. Teaching value, no source.
const NOTHING: f64 = 1e-3;

/// Which way a reading has gone against the sound machine.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Turn {
    /// Next to nothing is left.
    Gone,
    /// Down.
    Down,
    /// As usual, as far as this instrument can tell.
    Same,
    /// Up.
    Up,
}

impl Turn {
    /// Name in lesson files and turn.
    pub const ALL: [(&str, Self); 4] = [
        ("gone", Self::Gone),
        ("down", Self::Down),
        ("same", Self::Same),
        ("up", Self::Up),
    ];

    /// As a word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Gone => "next to nothing",
            Self::Down => "down",
            Self::Same => "as usual",
            Self::Up => "up",
        }
    }
}

/// One number of one instrument.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// What it measures, such as "secondary voltage".
    pub what: &'static str,
    /// The field, from 0; nothing where it is one of the whole collector.
    pub field: Option<usize>,
    /// What it shows.
    pub shows: f64,
    /// What the sound machine shows at the same time after its start.
    pub usual: f64,
    /// What both are.
    pub dimension: Dimension,
    /// Smallest difference that this instrument can tell.
    pub fine: f64,
    /// The same as a share of the usual value.
    pub share: f64,
}

impl Finding {
    /// Which way it has gone.
    #[must_use]
    pub fn turn(&self) -> Turn {
        let away = self.shows - self.usual;
        if away.abs() <= self.fine.max(self.share * self.usual.abs()) {
            Turn::Same
        } else if away > 0.0 {
            Turn::Up
        } else if self.shows <= GONE * self.usual {
            Turn::Gone
        } else {
            Turn::Down
        }
    }

    /// A value as this instrument tells it: next to nothing is nothing.
    #[must_use]
    pub fn told(&self, value: f64) -> f64 {
        if value.abs() < NOTHING * self.fine {
            0.0
        } else {
            value
        }
    }

    /// Over what is usual; nothing where that is nothing.
    #[must_use]
    pub fn ratio(&self) -> Option<f64> {
        (self.usual.abs() > self.fine).then(|| self.shows / self.usual)
    }

    /// Both numbers and the turn, for people.
    #[must_use]
    pub fn text(&self, units: UnitSystem) -> String {
        let number = |value| format(self.told(value), self.dimension, units);
        let place = self
            .field
            .map_or_else(String::new, |field| format!(", field {}", field + 1));
        format!(
            "{}{place}: {}, usually {}: {}",
            self.what,
            number(self.shows),
            number(self.usual),
            self.turn().word()
        )
    }
}

/// Whether two lists of findings look alike to somebody who reads them as a pattern.
#[must_use]
pub fn same_pattern(one: &[Finding], other: &[Finding]) -> bool {
    one.len() == other.len()
        && one
            .iter()
            .zip(other)
            .all(|(one, other)| one.turn() == other.turn())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reading_turns_when_its_instrument_can_tell() {
        let turn = |shows, usual| {
            Finding {
                what: "secondary voltage",
                field: Some(1),
                shows,
                usual,
                dimension: Dimension::Voltage,
                fine: 500.0,
                share: 0.02,
            }
            .turn()
        };
        assert_eq!(turn(45.8e3, 45e3), Turn::Same);
        assert_eq!(turn(46e3, 45e3), Turn::Up);
        assert_eq!(turn(40e3, 45e3), Turn::Down);
        assert_eq!(turn(2e3, 45e3), Turn::Gone);
        assert_eq!(turn(300.0, 0.0), Turn::Same);
        assert_eq!(turn(900.0, 0.0), Turn::Up);
    }

    #[test]
    fn a_hopper_that_was_just_emptied_shows_nothing_and_not_a_power_of_ten() {
        let finding = Finding {
            what: "level in the hoppers",
            field: None,
            shows: 1.8e-38,
            usual: 0.0033,
            dimension: Dimension::Fraction,
            fine: 0.08,
            share: 0.0,
        };
        let told = finding.text(UnitSystem::Si);
        assert!(told.contains(": 0 %, usually 0.33 %"), "{told}");
    }
}
