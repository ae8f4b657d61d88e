//! Keys of `[appearance]` and `[names]`: what the machine looks like and what the site calls its parts.

use super::{Key, Shape};
use crate::conditions::{
    Electrode, FanPosition, FieldNumbering, GasDirection, Rapper, words::Words,
};

pub(super) const APPEARANCE: &[Key] = &[
    Key::with_default(
        "appearance.electrode",
        "",
        "Discharge electrode in the drawing.",
        Shape::Word {
            words: Electrode::all,
            get: |conditions| conditions.appearance.electrode.word(),
            set: |conditions, word| Electrode::choose(&mut conditions.appearance.electrode, word),
        },
    ),
    Key::with_default(
        "appearance.rapper",
        "",
        "Rapper of the plates in the drawing.",
        Shape::Word {
            words: Rapper::all,
            get: |conditions| conditions.appearance.rapper.word(),
            set: |conditions, word| Rapper::choose(&mut conditions.appearance.rapper, word),
        },
    ),
    Key::with_default(
        "appearance.hoppers_per_row",
        "",
        "Hoppers side by side under each field.",
        Shape::Count {
            min: 1,
            max: 12,
            sample: 3,
            get: |conditions| conditions.appearance.hoppers_per_row,
            set: |conditions, count| conditions.appearance.hoppers_per_row = count,
        },
    ),
    Key::with_default(
        "appearance.first_field_number",
        "",
        "Lowest number that the site gives a field.",
        Shape::Count {
            min: 0,
            max: 99,
            sample: 1,
            get: |conditions| conditions.appearance.first_field_number,
            set: |conditions, count| conditions.appearance.first_field_number = count,
        },
    ),
    Key::with_default(
        "appearance.field_numbering",
        "",
        "Way in which the numbers of the fields rise.",
        Shape::Word {
            words: FieldNumbering::all,
            get: |conditions| conditions.appearance.field_numbering.word(),
            set: |conditions, word| {
                FieldNumbering::choose(&mut conditions.appearance.field_numbering, word)
            },
        },
    ),
    Key::with_default(
        "appearance.gas_direction",
        "",
        "Way of the gas in the drawing.",
        Shape::Word {
            words: GasDirection::all,
            get: |conditions| conditions.appearance.gas_direction.word(),
            set: |conditions, word| {
                GasDirection::choose(&mut conditions.appearance.gas_direction, word)
            },
        },
    ),
    Key::with_default(
        "appearance.fan",
        "",
        "Where the fan stands: downstream pulls the gas, upstream pushes it.",
        Shape::Word {
            words: FanPosition::all,
            get: |conditions| conditions.appearance.fan.word(),
            set: |conditions, word| FanPosition::choose(&mut conditions.appearance.fan, word),
        },
    ),
];

pub(super) const NAMES: &[Key] = &[Key::optional(
    "names.PART",
    "",
    "What the site calls a part; PART is a key listed below, with _1, _2, … for that of one field, counted along the gas.",
    Shape::PartName { longest: 40 },
)];
