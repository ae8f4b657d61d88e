//! Keys of `[site]` and `[gas]`.

use super::{
    Key, Shape,
    shape::{quantity, range},
};
use crate::units::Dimension;

pub(super) const SITE: &[Key] = &[Key::with_default(
    "site.title",
    "",
    "Name of the site, shown in titles.",
    Shape::Text {
        longest: 80,
        sample: "Untitled collector",
        get: |conditions| &conditions.title,
        set: |conditions, text| conditions.title = text,
    },
)];

pub(super) const GAS: &[Key] = &[
    Key::required(
        "gas.flow",
        "Q",
        "Gas through the whole collector, as it is: hot and wet.",
        quantity(
            Dimension::Flow,
            range(0.1, 5000.0),
            range(20.0, 400.0),
            118.8,
            |conditions| Some(conditions.gas.flow_m3_s),
            |conditions, value| conditions.gas.flow_m3_s = value,
        ),
    ),
    Key::required(
        "gas.temperature",
        "T",
        "Temperature of the gas.",
        quantity(
            Dimension::Temperature,
            range(273.15, 773.15),
            range(323.15, 673.15),
            423.15,
            |conditions| Some(conditions.gas.temperature_k),
            |conditions, value| conditions.gas.temperature_k = value,
        ),
    ),
    Key::with_default(
        "gas.pressure",
        "p",
        "Absolute pressure of the gas.",
        quantity(
            Dimension::Pressure,
            range(50e3, 300e3),
            range(80e3, 120e3),
            101_325.0,
            |conditions| Some(conditions.gas.pressure_pa),
            |conditions, value| conditions.gas.pressure_pa = value,
        ),
    ),
    Key::with_default(
        "gas.moisture",
        "W",
        "Water vapour in the gas, by volume.",
        quantity(
            Dimension::Fraction,
            range(0.0, 0.6),
            range(0.0, 0.3),
            0.08,
            |conditions| Some(conditions.gas.moisture),
            |conditions, value| conditions.gas.moisture = value,
        ),
    ),
    Key::with_default(
        "gas.so3",
        "C",
        "Sulphur trioxide in the gas, by volume; lowers the resistivity computed from a composition.",
        quantity(
            Dimension::TraceShare,
            range(0.0, 200.0),
            range(0.0, 50.0),
            0.0,
            |conditions| Some(conditions.gas.sulphur_trioxide_ppm),
            |conditions, value| conditions.gas.sulphur_trioxide_ppm = value,
        ),
    ),
    Key::with_default(
        "gas.oxygen",
        "",
        "Oxygen in the gas where the inlet duct begins, dry, by volume.",
        quantity(
            Dimension::Fraction,
            range(0.0, 0.18),
            range(0.0, 0.12),
            0.06,
            |conditions| Some(conditions.gas.oxygen),
            |conditions, value| conditions.gas.oxygen = value,
        ),
    ),
    Key::with_default(
        "gas.in_leakage_inlet",
        "",
        "Air sucked in before the fields over the gas that came in, dry; flow, heat, water and dust load are those behind it.",
        quantity(
            Dimension::Fraction,
            range(0.0, 0.5),
            range(0.0, 0.2),
            0.0,
            |conditions| Some(conditions.gas.in_leakage.inlet),
            |conditions, value| conditions.gas.in_leakage.inlet = value,
        ),
    ),
    Key::with_default(
        "gas.in_leakage_casing",
        "",
        "Air sucked in along the fields over the gas that came in, dry; for the gas path alone.",
        quantity(
            Dimension::Fraction,
            range(0.0, 0.5),
            range(0.0, 0.2),
            0.0,
            |conditions| Some(conditions.gas.in_leakage.casing),
            |conditions, value| conditions.gas.in_leakage.casing = value,
        ),
    ),
    Key::with_default(
        "gas.in_leakage_outlet",
        "",
        "Air sucked in behind the fields over the gas that came in, dry; for the gas path alone.",
        quantity(
            Dimension::Fraction,
            range(0.0, 0.5),
            range(0.0, 0.2),
            0.0,
            |conditions| Some(conditions.gas.in_leakage.outlet),
            |conditions, value| conditions.gas.in_leakage.outlet = value,
        ),
    ),
    Key::with_default(
        "gas.velocity_spread",
        "",
        "Unevenness of the gas behind the distribution plate: RMS of the face velocity over its mean.",
        quantity(
            Dimension::Fraction,
            range(0.0, 0.4),
            range(0.0, 0.3),
            0.1,
            |conditions| Some(conditions.gas.velocity_spread),
            |conditions, value| conditions.gas.velocity_spread = value,
        ),
    ),
];
