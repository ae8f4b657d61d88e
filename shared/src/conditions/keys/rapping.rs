//! Keys of `[rapping]` and `[hoppers]`.

use super::{
    Key, Shape,
    shape::{quantity, range},
};
use crate::units::Dimension;

const HOUR_S: f64 = 3600.0;

pub(super) const RAPPING: &[Key] = &[
    Key::with_default(
        "rapping.reentrained",
        "RR",
        "Share of the dislodged dust that leaves its field with the gas.",
        quantity(
            Dimension::Fraction,
            range(0.0, 0.6),
            range(0.0, 0.3),
            0.124,
            |conditions| Some(conditions.rapping.reentrained),
            |conditions, value| conditions.rapping.reentrained = value,
        ),
    )
    .when_wet(0.0),
    Key::with_default(
        "rapping.interval",
        "",
        "Time between raps of each field, or one value for all.",
        Shape::PerField {
            dimension: Dimension::Interval,
            allowed: range(60.0, 720.0 * HOUR_S),
            slider: range(0.1 * HOUR_S, 200.0 * HOUR_S),
            sample: &[4.0 * HOUR_S, 12.0 * HOUR_S, 48.0 * HOUR_S, 120.0 * HOUR_S],
            get: |conditions| &conditions.rapping.interval_s,
            list: |conditions| &mut conditions.rapping.interval_s,
        },
    ),
    Key::with_default(
        "rapping.acceleration",
        "a",
        "Peak acceleration of the plate when it is struck.",
        quantity(
            Dimension::Acceleration,
            range(10.0, 20_000.0),
            range(100.0, 4000.0),
            1500.0,
            |conditions| Some(conditions.rapping.acceleration_m_s2),
            |conditions, value| conditions.rapping.acceleration_m_s2 = value,
        ),
    ),
    Key::with_default(
        "rapping.layer",
        "h",
        "Thickness of the dust that lies on the plates of each field, or one value for all.",
        Shape::PerField {
            dimension: Dimension::PartSize,
            allowed: range(0.0, 0.05),
            slider: range(0.0, 0.02),
            sample: &[0.0],
            get: |conditions| &conditions.rapping.layer_m,
            list: |conditions| &mut conditions.rapping.layer_m,
        },
    ),
];

pub(super) const HOPPERS: &[Key] = &[
    Key::with_default(
        "hoppers.volume",
        "",
        "Volume of the one row of hoppers under each field.",
        quantity(
            Dimension::Volume,
            range(0.1, 1000.0),
            range(5.0, 100.0),
            30.0,
            |conditions| Some(conditions.hoppers.volume_m3),
            |conditions, value| conditions.hoppers.volume_m3 = value,
        ),
    ),
    Key::with_default(
        "hoppers.evacuation_interval",
        "",
        "Time between two emptyings of the hoppers under each field, or one value for all.",
        Shape::PerField {
            dimension: Dimension::Interval,
            allowed: range(60.0, 720.0 * HOUR_S),
            slider: range(0.1 * HOUR_S, 48.0 * HOUR_S),
            sample: &[2.0 * HOUR_S, 4.0 * HOUR_S, 8.0 * HOUR_S, 8.0 * HOUR_S],
            get: |conditions| &conditions.hoppers.evacuation_interval_s,
            list: |conditions| &mut conditions.hoppers.evacuation_interval_s,
        },
    ),
    Key::with_default(
        "hoppers.ash_density",
        "",
        "Density of the loose ash in the hoppers; take it low, for the time to the level alarm.",
        quantity(
            Dimension::Density,
            range(100.0, 2500.0),
            range(300.0, 1000.0),
            520.0,
            |conditions| Some(conditions.hoppers.ash_density_kg_m3),
            |conditions, value| conditions.hoppers.ash_density_kg_m3 = value,
        ),
    ),
];
