//! Keys of `[collector]`.

use super::{
    Key, MOST_FIELDS, Shape,
    shape::{quantity, range},
};
use crate::{
    conditions::{Kind, words::Words},
    units::Dimension,
};

pub(super) const COLLECTOR: &[Key] = &[
    Key::with_default(
        "collector.kind",
        "",
        "Dry: plates are rapped. Wet: plates are washed.",
        Shape::Word {
            words: Kind::all,
            get: |conditions| conditions.collector.kind.word(),
            set: |conditions, word| Kind::choose(&mut conditions.collector.kind, word),
        },
    ),
    Key::required(
        "collector.fields",
        "N",
        "Electrical fields one after the other along the gas.",
        Shape::Count {
            min: 1,
            max: MOST_FIELDS,
            sample: 4,
            get: |conditions| conditions.collector.fields,
            set: |conditions, count| conditions.set_fields(count),
        },
    ),
    Key::required(
        "collector.passages",
        "",
        "Gas passages side by side.",
        Shape::Count {
            min: 1,
            max: 400,
            sample: 33,
            get: |conditions| conditions.collector.passages,
            set: |conditions, count| conditions.collector.passages = count,
        },
    ),
    Key::required(
        "collector.plate_spacing",
        "2s",
        "Distance between neighbouring plates, twice the gap from wire to plate.",
        quantity(
            Dimension::PartSize,
            range(0.1, 0.8),
            range(0.2, 0.5),
            0.3,
            |conditions| Some(conditions.collector.plate_spacing_m),
            |conditions, value| conditions.collector.plate_spacing_m = value,
        ),
    ),
    Key::required(
        "collector.plate_height",
        "H",
        "Height of the plates.",
        quantity(
            Dimension::Length,
            range(0.1, 25.0),
            range(2.0, 16.0),
            10.0,
            |conditions| Some(conditions.collector.plate_height_m),
            |conditions, value| conditions.collector.plate_height_m = value,
        ),
    ),
    Key::required(
        "collector.field_length",
        "L/N",
        "Length of one field along the gas.",
        quantity(
            Dimension::Length,
            range(0.1, 10.0),
            range(1.0, 6.0),
            3.0,
            |conditions| Some(conditions.collector.field_length_m),
            |conditions, value| conditions.collector.field_length_m = value,
        ),
    ),
    Key::with_default(
        "collector.wire_spacing",
        "c",
        "Distance between neighbouring wires along the gas.",
        quantity(
            Dimension::PartSize,
            range(0.05, 1.0),
            range(0.1, 0.5),
            0.25,
            |conditions| Some(conditions.collector.wire_spacing_m),
            |conditions, value| conditions.collector.wire_spacing_m = value,
        ),
    ),
    Key::with_default(
        "collector.wire_diameter",
        "2r_w",
        "Diameter of a wire.",
        quantity(
            Dimension::PartSize,
            range(1e-4, 0.05),
            range(1e-3, 1e-2),
            2.7e-3,
            |conditions| Some(conditions.collector.wire_diameter_m),
            |conditions, value| conditions.collector.wire_diameter_m = value,
        ),
    ),
    Key::with_default(
        "collector.wire_roughness",
        "m",
        "Roughness factor of the wire in Peek's formula: 1 when polished, less when rough or dusty.",
        quantity(
            Dimension::Number,
            range(0.3, 1.0),
            range(0.5, 1.0),
            0.85,
            |conditions| Some(conditions.collector.wire_roughness),
            |conditions, value| conditions.collector.wire_roughness = value,
        ),
    ),
    Key::with_default(
        "collector.sneakage",
        "S",
        "Share of the gas that goes around the charged zone of each field.",
        quantity(
            Dimension::Fraction,
            range(0.0, 0.3),
            range(0.0, 0.2),
            0.05,
            |conditions| Some(conditions.collector.sneakage),
            |conditions, value| conditions.collector.sneakage = value,
        ),
    )
    .when_wet(0.05),
    Key::with_default(
        "collector.hopper_share",
        "",
        "Share of the sneakage that goes through the hoppers, the rest goes over the top; teaching value.",
        quantity(
            Dimension::Fraction,
            range(0.0, 1.0),
            range(0.0, 1.0),
            0.5,
            |conditions| Some(conditions.collector.hopper_share),
            |conditions, value| conditions.collector.hopper_share = value,
        ),
    ),
    Key::with_default(
        "collector.hopper_sweepage",
        "",
        "Share of the falling ash that gas through the hoppers takes back, over its share of all gas; teaching value.",
        quantity(
            Dimension::Number,
            range(0.0, 3.0),
            range(0.0, 1.0),
            0.0,
            |conditions| Some(conditions.collector.hopper_sweepage),
            |conditions, value| conditions.collector.hopper_sweepage = value,
        ),
    ),
    Key::with_default(
        "collector.distribution_plates",
        "",
        "Perforated distribution plates one behind the other.",
        Shape::Count {
            min: 1,
            max: 3,
            sample: 1,
            get: |conditions| conditions.collector.distribution_plates,
            set: |conditions, count| conditions.collector.distribution_plates = count,
        },
    ),
    Key::with_default(
        "collector.distribution_open_area",
        "f",
        "Open share of each perforated distribution plate.",
        quantity(
            Dimension::Fraction,
            range(0.1, 0.9),
            range(0.25, 0.65),
            0.45,
            |conditions| Some(conditions.collector.distribution_open_area),
            |conditions, value| conditions.collector.distribution_open_area = value,
        ),
    ),
];
