//! Keys of `[water]` and `[ash]`: what washes the plates of a wet collector, and what becomes of the ash taken away.

use super::{
    Key, Shape,
    shape::{quantity, range},
};
use crate::{
    conditions::{AshStandard, words::Words},
    units::Dimension,
};

pub(super) const WATER: &[Key] = &[
    Key::with_default(
        "water.per_gas",
        "",
        "Water sprayed on gas and plates per volume of gas; for a wet collector.",
        quantity(
            Dimension::WaterPerGas,
            range(1e-4, 5e-3),
            range(2e-4, 2e-3),
            0.67e-3,
            |conditions| Some(conditions.water.per_gas),
            |conditions, value| conditions.water.per_gas = value,
        ),
    ),
    Key::with_default(
        "water.recycled",
        "r",
        "Share of the drained water that is sprayed again, the rest is blown down; for a wet collector.",
        quantity(
            Dimension::Fraction,
            range(0.0, 0.99),
            range(0.5, 0.98),
            0.9,
            |conditions| Some(conditions.water.recycled),
            |conditions, value| conditions.water.recycled = value,
        ),
    ),
];

pub(super) const ASH: &[Key] = &[
    Key::with_default(
        "ash.loss_on_ignition",
        "LOI",
        "Share of the ash that burns off, mostly unburned carbon; too much of it spoils the sale.",
        quantity(
            Dimension::Fraction,
            range(0.0, 0.5),
            range(0.0, 0.15),
            0.04,
            |conditions| Some(conditions.ash.loss_on_ignition),
            |conditions, value| conditions.ash.loss_on_ignition = value,
        ),
    ),
    Key::with_default(
        "ash.standard",
        "",
        "Whose limits for loss on ignition and fineness decide whether ash can be sold for concrete.",
        Shape::Word {
            words: AshStandard::all,
            get: |conditions| conditions.ash.standard.word(),
            set: |conditions, word| AshStandard::choose(&mut conditions.ash.standard, word),
        },
    ),
    Key::with_default(
        "ash.sale_price",
        "",
        "What 1000 kg of sold ash bring, in the money of the site, a plain number; the default is invented.",
        quantity(
            Dimension::Number,
            range(0.0, 1000.0),
            range(0.0, 100.0),
            15.0,
            |conditions| Some(conditions.ash.sale_price_per_tonne),
            |conditions, value| conditions.ash.sale_price_per_tonne = value,
        ),
    ),
    Key::with_default(
        "ash.disposal_price",
        "",
        "What 1000 kg of other ash cost, in the money of the site, a plain number; the default is invented.",
        quantity(
            Dimension::Number,
            range(0.0, 1000.0),
            range(0.0, 100.0),
            25.0,
            |conditions| Some(conditions.ash.disposal_price_per_tonne),
            |conditions, value| conditions.ash.disposal_price_per_tonne = value,
        ),
    ),
];
