//! Alarms: what an operator is called for, from which instruments, and what is asked of whoever is called.
//!
//! An alarm is a signal of a fault or a deviation that needs a response; what needs none is no alarm (ANSI/ISA-18.2-2016 and
//! IEC 62682:2014, from memory of their definitions). One file and one row in [`ALARMS`] each. An alarm reads instruments and
//! changes nothing: no physics, no control, no conditions.
//!
//! Priorities say how bad it gets and how soon. Of alarms that come in, about 5 % high, 15 % medium and 80 % low is what the
//! same standards aim for; that is a target for rates, not for this short list.

mod annunciator;
mod field_short;
mod hopper_level;
mod instruments;
mod opacity;
mod oxygen_rise;
mod set_dead;
mod state;
mod table;
#[cfg(test)]
mod tests;
mod voltage_low;

use crate::units::Dimension;

pub use annunciator::{AlarmCommand, AlarmError, Annunciator, Change, Point, SHELF_MINUTES, Tag};
pub use instruments::{FieldInstruments, Instruments};
pub use state::AlarmState;
pub use table::{ALARMS, find_alarm};

/// How urgent an alarm is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Priority {
    /// The worst that can follow follows within minutes.
    High,
    /// Within hours, or the stack is over its set-point.
    Medium,
    /// Look at it in this shift.
    Low,
}

impl Priority {
    /// Every priority, the highest first.
    pub const ALL: [Self; 3] = [Self::High, Self::Medium, Self::Low];

    /// As a word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::High => "high",
            Self::Medium => "medium",
            Self::Low => "low",
        }
    }

    /// As a number, 1 for the highest.
    #[must_use]
    pub const fn number(self) -> u8 {
        match self {
            Self::High => 1,
            Self::Medium => 2,
            Self::Low => 3,
        }
    }
}

/// What an alarm belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// Every field has its own.
    EachField,
    /// There is one for the whole collector.
    Collector,
}

/// On which side of its set-point a reading is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// At the set-point and above.
    Above,
    /// Below the set-point.
    Below,
}

/// One instrument with its set-point. The field counts from 0; of the whole collector it means nothing.
#[derive(Clone, Copy, Debug)]
pub struct Sign {
    /// The instrument.
    pub instrument: &'static str,
    /// How its numbers are written.
    pub dimension: Dimension,
    /// The wrong side.
    pub side: Side,
    /// What it shows; nothing where it cannot be read at the moment.
    pub reading: fn(&Instruments, usize) -> Option<f64>,
    /// From where on it is wrong.
    pub set_point: fn(&Instruments, usize) -> Option<f64>,
    /// How far it has to come back, as a share of the set-point, before it is right again.
    pub dead_band: f64,
}

impl Sign {
    /// Where it is right again.
    #[must_use]
    pub fn clears_at(&self, set_point: f64) -> f64 {
        match self.side {
            Side::Above => set_point * (1.0 - self.dead_band),
            Side::Below => set_point * (1.0 + self.dead_band),
        }
    }

    /// Whether it is wrong, if it was before or was not; nothing where it cannot be read.
    fn is_wrong(&self, shown: &Instruments, field: usize, was: bool) -> Option<bool> {
        let reading = (self.reading)(shown, field)?;
        let set_point = (self.set_point)(shown, field)?;
        Some(self.is_beyond(reading, set_point, was))
    }

    /// The same of a reading and a set-point.
    fn is_beyond(&self, reading: f64, set_point: f64, was: bool) -> bool {
        let at = if was {
            self.clears_at(set_point)
        } else {
            set_point
        };
        match self.side {
            Side::Above => reading >= at,
            Side::Below => reading < at,
        }
    }
}

/// A kind of alarm.
#[derive(Clone, Copy, Debug)]
pub struct Alarm {
    /// Its key.
    pub key: &'static str,
    /// What is wrong, in a few words.
    pub name: &'static str,
    /// How urgent it is.
    pub priority: Priority,
    /// What it belongs to.
    pub place: Place,
    /// All of them have to be wrong.
    pub signs: &'static [Sign],
    /// Where the set-points come from.
    pub source: &'static str,
    /// What follows if nobody does anything.
    pub consequence: &'static str,
    /// What is asked of whoever is called.
    pub response: &'static str,
    /// Whether the operation itself makes it meaningless.
    pub by_design: fn(&Instruments, usize) -> bool,
    /// Keys of alarms of the same field that say the same thing better; they stand before this one in the table.
    pub said_by: &'static [&'static str],
}

impl Alarm {
    /// Whether all signs are wrong; nothing where one that decides cannot be read.
    fn is_beyond(&self, shown: &Instruments, field: usize, was: bool) -> Option<bool> {
        let mut unread = false;
        for sign in self.signs {
            match sign.is_wrong(shown, field, was) {
                Some(false) => return Some(false),
                Some(true) => {}
                None => unread = true,
            }
        }
        (!unread).then_some(true)
    }
}

/// Whether the set of a field was switched off on purpose.
fn set_is_off(shown: &Instruments, field: usize) -> bool {
    let field = shown.fields.get(field);
    field.is_none_or(|field| field.asked_v <= 0.0)
}
