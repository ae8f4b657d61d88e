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
        "Peak acceleration of the plate when it is struck; a hammer_mass with its hammer_drop says it instead.",
        quantity(
            Dimension::Acceleration,
            range(10.0, 20_000.0),
            range(100.0, 4000.0),
            1500.0,
            |conditions| Some(conditions.rapping.acceleration_m_s2),
            |conditions, value| conditions.rapping.acceleration_m_s2 = value,
        ),
    ),
    Key::optional(
        "rapping.hammer_mass",
        "m",
        "Mass of a hammer; with hammer_drop the energy of the blow decides about the acceleration.",
        quantity(
            Dimension::Mass,
            range(0.5, 50.0),
            range(1.0, 15.0),
            8.0,
            |conditions| conditions.rapping.hammer_mass_kg,
            |conditions, value| conditions.rapping.hammer_mass_kg = Some(value),
        ),
    ),
    Key::optional(
        "rapping.hammer_drop",
        "",
        "Height that the middle of a hammer falls; goes with hammer_mass.",
        quantity(
            Dimension::Length,
            range(0.01, 3.0),
            range(0.05, 1.5),
            0.6,
            |conditions| conditions.rapping.hammer_drop_m,
            |conditions, value| conditions.rapping.hammer_drop_m = Some(value),
        ),
    ),
    Key::with_default(
        "rapping.shaft_speed",
        "",
        "Turns of the shaft that lifts the hammers; in one turn every plate of the field is struck once.",
        quantity(
            Dimension::Turning,
            range(0.05 / 60.0, 10.0 / 60.0),
            range(0.2 / 60.0, 4.0 / 60.0),
            0.25 / 60.0,
            |conditions| Some(conditions.rapping.shaft_speed_per_s),
            |conditions, value| conditions.rapping.shaft_speed_per_s = value,
        ),
    ),
    Key::with_default(
        "rapping.wire_interval",
        "",
        "Time between blows on the wires of each field, or one value for all.",
        Shape::PerField {
            dimension: Dimension::Interval,
            allowed: range(60.0, 720.0 * HOUR_S),
            slider: range(0.1 * HOUR_S, 200.0 * HOUR_S),
            sample: &[2.0 * HOUR_S, 6.0 * HOUR_S, 12.0 * HOUR_S, 24.0 * HOUR_S],
            get: |conditions| &conditions.rapping.wire_interval_s,
            list: |conditions| &mut conditions.rapping.wire_interval_s,
        },
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
