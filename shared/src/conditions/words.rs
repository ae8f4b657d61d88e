//! The words of the trade that the sheet uses for things that are chosen and not measured.

use super::{
    AshStandard, Charging, Electrode, FanPosition, FieldNumbering, GasDirection, Kind, Profile,
    Rapper,
};

/// A choice with one word for each of its values.
pub(crate) trait Words: Copy + PartialEq + Sized + 'static {
    /// Word and value, the usual one first.
    const WORDS: &'static [(&'static str, Self)];

    /// The word of this value.
    fn word(self) -> &'static str {
        Self::WORDS
            .iter()
            .find(|(_, value)| *value == self)
            .map_or("", |&(word, _)| word)
    }

    /// Puts the value of a word into `slot`; false when nothing is called so.
    fn choose(slot: &mut Self, word: &str) -> bool {
        let found = Self::WORDS.iter().find(|&&(known, _)| known == word);
        if let Some(&(_, value)) = found {
            *slot = value;
        }
        found.is_some()
    }

    /// Every word.
    fn all() -> Vec<&'static str> {
        Self::WORDS.iter().map(|&(word, _)| word).collect()
    }
}

impl Words for Kind {
    const WORDS: &'static [(&'static str, Self)] = &[("dry", Self::Dry), ("wet", Self::Wet)];
}

impl Words for Profile {
    const WORDS: &'static [(&'static str, Self)] =
        &[("flat", Self::Flat), ("parabolic", Self::Parabolic)];
}

impl Words for Charging {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("lawless", Self::Lawless),
        ("cochet", Self::Cochet),
        ("white", Self::White),
        ("field", Self::Field),
    ];
}

impl Words for AshStandard {
    const WORDS: &'static [(&'static str, Self)] =
        &[("EN 450-1", Self::En450), ("ASTM C618", Self::AstmC618)];
}

impl Words for Electrode {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("wire", Self::Wire),
        ("weighted wire", Self::WeightedWire),
        ("rigid mast", Self::RigidMast),
        ("spiked strip", Self::SpikedStrip),
    ];
}

impl Words for Rapper {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("tumbling hammer", Self::TumblingHammer),
        ("roof rapper", Self::RoofRapper),
    ];
}

impl Words for FieldNumbering {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("along the gas", Self::AlongGas),
        ("against the gas", Self::AgainstGas),
    ];
}

impl Words for GasDirection {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("left to right", Self::LeftToRight),
        ("right to left", Self::RightToLeft),
    ];
}

impl Words for FanPosition {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("downstream", Self::Downstream),
        ("upstream", Self::Upstream),
    ];
}
