//! Keys of `[dust]` and `[dust.composition]`.

use super::{
    Key, Shape,
    shape::{quantity, range},
};
use crate::{
    conditions::{Composition, Conditions, Resistivity, Sizes},
    units::Dimension,
};

pub(super) const DUST: &[Key] = &[
    Key::required(
        "dust.load",
        "C",
        "Dust entering, per actual volume of gas unless written per normal volume.",
        quantity(
            Dimension::DustLoad,
            range(1e-6, 0.2),
            range(1e-3, 0.05),
            8e-3,
            |conditions| Some(conditions.dust.load_kg_m3),
            |conditions, value| conditions.dust.load_kg_m3 = value,
        ),
    ),
    Key::with_default(
        "dust.mass_median_diameter",
        "MMD",
        "Half of the mass is in grains smaller than this.",
        quantity(
            Dimension::GrainSize,
            range(0.05e-6, 200e-6),
            range(1e-6, 40e-6),
            10e-6,
            |conditions| log_normal(conditions).map(|(median_m, _)| median_m),
            |conditions, value| set_log_normal(conditions, Some(value), None),
        ),
    ),
    Key::with_default(
        "dust.geometric_deviation",
        "GSD",
        "Spread of the diameters: 84 % of the mass is finer than MMD · GSD.",
        quantity(
            Dimension::Number,
            range(1.05, 8.0),
            range(1.2, 5.0),
            3.0,
            |conditions| log_normal(conditions).map(|(_, deviation)| deviation),
            |conditions, value| set_log_normal(conditions, None, Some(value)),
        ),
    ),
    Key::optional(
        "dust.sizes",
        "",
        "Measured sizes instead of MMD and GSD: pairs of diameter and mass per cent finer.",
        Shape::Points {
            allowed: range(0.01e-6, 1e-3),
        },
    ),
    Key::optional(
        "dust.largest",
        "",
        "Diameter that all grains of `sizes` are finer than.",
        quantity(
            Dimension::GrainSize,
            range(0.05e-6, 2e-3),
            range(10e-6, 500e-6),
            100e-6,
            |conditions| match conditions.dust.sizes {
                Sizes::Table { largest_m, .. } => Some(largest_m),
                Sizes::LogNormal { .. } => None,
            },
            |conditions, value| match &mut conditions.dust.sizes {
                Sizes::Table { largest_m, .. } => *largest_m = value,
                sizes @ Sizes::LogNormal { .. } => {
                    *sizes = Sizes::Table {
                        finer: Vec::new(),
                        largest_m: value,
                    }
                }
            },
        ),
    ),
    Key::with_default(
        "dust.density",
        "ρ_p",
        "Density of a grain.",
        quantity(
            Dimension::Density,
            range(300.0, 8000.0),
            range(1000.0, 4000.0),
            2300.0,
            |conditions| Some(conditions.dust.density_kg_m3),
            |conditions, value| conditions.dust.density_kg_m3 = value,
        ),
    ),
    Key::with_default(
        "dust.permittivity",
        "ε_r",
        "Relative permittivity of a grain.",
        quantity(
            Dimension::Number,
            range(1.0, 100.0),
            range(2.0, 15.0),
            5.0,
            |conditions| Some(conditions.dust.permittivity),
            |conditions, value| conditions.dust.permittivity = value,
        ),
    ),
    Key::with_default(
        "dust.layer_density",
        "ρ_b",
        "Density of the dust layer on the plates.",
        quantity(
            Dimension::Density,
            range(100.0, 4000.0),
            range(300.0, 1200.0),
            600.0,
            |conditions| Some(conditions.dust.layer_density_kg_m3),
            |conditions, value| conditions.dust.layer_density_kg_m3 = value,
        ),
    ),
    Key::with_default(
        "dust.resistivity",
        "ρ",
        "Resistivity of the layer; or give a [dust.composition].",
        quantity(
            Dimension::Resistivity,
            range(1.0, 1e13),
            range(1e5, 1e11),
            2e8,
            |conditions| match conditions.dust.resistivity {
                Resistivity::Given(resistivity_ohm_m) => Some(resistivity_ohm_m),
                Resistivity::FromComposition(_) => None,
            },
            |conditions, value| conditions.dust.resistivity = Resistivity::Given(value),
        ),
    ),
];

/// Atomic per cent in the conditions, a share of the whole in the sheet.
const PERCENT: f64 = 100.0;

pub(super) const COMPOSITION: &[Key] = &[
    Key::optional(
        "dust.composition.lithium_sodium",
        "X",
        "Lithium and sodium in the ash, atomic share.",
        quantity(
            Dimension::Fraction,
            range(5e-4, 0.1),
            range(1e-3, 0.03),
            0.0042,
            |conditions| {
                composition(conditions).map(|parts| parts.lithium_sodium_percent / PERCENT)
            },
            |conditions, value| {
                set_share(conditions, |parts| &mut parts.lithium_sodium_percent, value);
            },
        ),
    ),
    Key::optional(
        "dust.composition.iron",
        "Y",
        "Iron in the ash, atomic share.",
        quantity(
            Dimension::Fraction,
            range(1e-3, 0.3),
            range(2e-3, 0.1),
            0.01,
            |conditions| composition(conditions).map(|parts| parts.iron_percent / PERCENT),
            |conditions, value| set_share(conditions, |parts| &mut parts.iron_percent, value),
        ),
    ),
    Key::optional(
        "dust.composition.magnesium_calcium",
        "Z",
        "Magnesium and calcium in the ash, atomic share.",
        quantity(
            Dimension::Fraction,
            range(1e-3, 0.4),
            range(5e-3, 0.2),
            0.015,
            |conditions| {
                composition(conditions).map(|parts| parts.magnesium_calcium_percent / PERCENT)
            },
            |conditions, value| {
                set_share(
                    conditions,
                    |parts| &mut parts.magnesium_calcium_percent,
                    value,
                );
            },
        ),
    ),
    Key::optional(
        "dust.composition.potassium",
        "K",
        "Potassium in the ash, atomic share.",
        quantity(
            Dimension::Fraction,
            range(0.0, 0.1),
            range(0.0, 0.03),
            0.012,
            |conditions| composition(conditions).map(|parts| parts.potassium_percent / PERCENT),
            |conditions, value| set_share(conditions, |parts| &mut parts.potassium_percent, value),
        ),
    ),
];

fn log_normal(conditions: &Conditions) -> Option<(f64, f64)> {
    match conditions.dust.sizes {
        Sizes::LogNormal {
            mass_median_diameter_m,
            geometric_deviation,
        } => Some((mass_median_diameter_m, geometric_deviation)),
        Sizes::Table { .. } => None,
    }
}

/// Writes either number; coming from a table, the other takes its default.
fn set_log_normal(conditions: &mut Conditions, median_m: Option<f64>, deviation: Option<f64>) {
    const MEDIAN_M: f64 = 10e-6;
    const DEVIATION: f64 = 3.0;
    let (old_median_m, old_deviation) = log_normal(conditions).unwrap_or((MEDIAN_M, DEVIATION));
    conditions.dust.sizes = Sizes::LogNormal {
        mass_median_diameter_m: median_m.unwrap_or(old_median_m),
        geometric_deviation: deviation.unwrap_or(old_deviation),
    };
}

fn composition(conditions: &Conditions) -> Option<&Composition> {
    match &conditions.dust.resistivity {
        Resistivity::FromComposition(parts) => Some(parts),
        Resistivity::Given(_) => None,
    }
}

/// Writes one share; a given resistivity gives way to a composition with the demonstration's other shares.
fn set_share(conditions: &mut Conditions, part: fn(&mut Composition) -> &mut f64, share: f64) {
    let mut parts = composition(conditions).cloned().unwrap_or(Composition {
        lithium_sodium_percent: 0.42,
        iron_percent: 1.0,
        magnesium_calcium_percent: 1.5,
        potassium_percent: 1.2,
    });
    *part(&mut parts) = PERCENT * share;
    conditions.dust.resistivity = Resistivity::FromComposition(parts);
}
