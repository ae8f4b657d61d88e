//! Keys of `[teaching]`: simplifications, all of them optional.

use super::{
    Key, Shape,
    shape::{quantity, range},
};
use crate::{
    conditions::{Charging, Profile, words::Words},
    units::Dimension,
};

pub(super) const TEACHING: &[Key] = &[
    Key::optional(
        "teaching.migration_velocity",
        "w",
        "One migration velocity for every grain, at the sheet's voltage and spacing; scales with (V/s)².",
        quantity(
            Dimension::MigrationVelocity,
            range(1e-6, 20.0),
            range(0.01, 0.3),
            0.0932,
            |conditions| conditions.teaching.migration_velocity_m_s,
            |conditions, value| conditions.teaching.migration_velocity_m_s = Some(value),
        ),
    ),
    Key::optional(
        "teaching.mixing",
        "D",
        "Mixing across a passage instead of the computed one: \"none\", \"full\" or { diffusivity = … }.",
        Shape::Mixing {
            allowed: range(1e-7, 1.0),
            sample: 0.002,
        },
    ),
    Key::optional(
        "teaching.single_diameter",
        "d",
        "One diameter for every grain.",
        quantity(
            Dimension::GrainSize,
            range(0.01e-6, 1e-3),
            range(0.1e-6, 50e-6),
            5e-6,
            |conditions| conditions.teaching.single_diameter_m,
            |conditions, value| conditions.teaching.single_diameter_m = Some(value),
        ),
    ),
    Key::with_default(
        "teaching.profile",
        "",
        "Velocity of the gas across a passage.",
        Shape::Word {
            words: Profile::all,
            get: |conditions| conditions.teaching.profile.word(),
            set: |conditions, word| Profile::choose(&mut conditions.teaching.profile, word),
        },
    ),
    Key::with_default(
        "teaching.charging",
        "",
        "Author of the charging formula, or \"field\" for field charging alone.",
        Shape::Word {
            words: Charging::all,
            get: |conditions| conditions.teaching.charging.word(),
            set: |conditions, word| Charging::choose(&mut conditions.teaching.charging, word),
        },
    ),
    Key::optional(
        "teaching.thin_layer",
        "h0",
        "A rapped layer much thinner than this returns to the gas as powder, one of 10 mm as rapping.reentrained says.",
        quantity(
            Dimension::PartSize,
            range(1e-5, 0.05),
            range(1e-4, 0.01),
            0.002,
            |conditions| conditions.teaching.thin_layer_m,
            |conditions, value| conditions.teaching.thin_layer_m = Some(value),
        ),
    ),
];
