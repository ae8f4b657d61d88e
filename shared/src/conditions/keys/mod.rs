//! The key table of the site sheet: one row a key, and everything that reads, checks, shows, saves or documents walks it.

mod appearance;
mod ash;
pub(super) mod check;
mod collector;
mod dust;
mod electrical;
mod gas;
mod key;
mod rapping;
mod shape;
mod teaching;
mod value;

pub use key::{Key, Presence};
pub use shape::{Range, Shape};
pub use value::{Refusal, Value};
pub(super) use value::{range_text, same};

use super::{
    Ash, AshStandard, Collector, Conditions, Dust, Electrical, Gas, Hoppers, InLeakage, Kind,
    Rapping, Reference, Resistivity, Sizes, Teaching, Water,
};

/// Most fields a sheet may have.
pub const MOST_FIELDS: usize = 12;
/// Most points of a size table.
pub const MOST_POINTS: usize = 64;

/// The sections of a sheet, in the order they are written.
pub const SECTIONS: [&str; 13] = [
    "site",
    "gas",
    "collector",
    "dust",
    "dust.composition",
    "electrical",
    "rapping",
    "hoppers",
    "water",
    "ash",
    "teaching",
    "appearance",
    "names",
];

/// Every key, in the order of the sheet.
pub fn keys() -> impl Iterator<Item = &'static Key> {
    [
        gas::SITE,
        gas::GAS,
        collector::COLLECTOR,
        dust::DUST,
        dust::COMPOSITION,
        electrical::ELECTRICAL,
        rapping::RAPPING,
        rapping::HOPPERS,
        ash::WATER,
        ash::ASH,
        teaching::TEACHING,
        appearance::APPEARANCE,
        appearance::NAMES,
    ]
    .into_iter()
    .flatten()
}

/// The row of a dotted path such as `gas.flow`.
#[must_use]
pub fn find_key(path: &str) -> Option<&'static Key> {
    keys().find(|key| key.path == path)
}

/// Conditions with the default of every key for a collector of this kind and size.
pub(super) fn defaults(kind: Kind, fields: usize) -> Conditions {
    let mut conditions = blank();
    conditions.collector.kind = kind;
    conditions.set_fields(fields);
    // Kind and number of fields decide about the others and are not theirs to change.
    let decided = |key: &&Key| matches!(key.path, "collector.kind" | "collector.fields");
    for key in keys().filter(|key| key.presence != Presence::Optional && !decided(key)) {
        if let Some(value) = key.usual(&conditions) {
            key.put(&mut conditions, &value);
        }
    }
    conditions.reference = conditions.reference_here();
    conditions
}

/// As [`blank`].
fn blank_rapping() -> Rapping {
    Rapping {
        reentrained: 0.0,
        interval_s: Vec::new(),
        acceleration_m_s2: 0.0,
        hammer_mass_kg: None,
        hammer_drop_m: None,
        shaft_speed_per_s: 0.0,
        wire_interval_s: Vec::new(),
        layer_m: Vec::new(),
    }
}

/// As [`blank`].
fn blank_hoppers() -> Hoppers {
    Hoppers {
        volume_m3: 0.0,
        evacuation_interval_s: Vec::new(),
        ash_density_kg_m3: 0.0,
    }
}

/// As [`blank`].
fn blank_ash() -> Ash {
    Ash {
        loss_on_ignition: 0.0,
        standard: AshStandard::default(),
        sale_price_per_tonne: 0.0,
        disposal_price_per_tonne: 0.0,
    }
}

/// As [`blank`].
fn blank_gas() -> Gas {
    Gas {
        flow_m3_s: 0.0,
        temperature_k: 0.0,
        pressure_pa: 0.0,
        moisture: 0.0,
        sulphur_trioxide_ppm: 0.0,
        oxygen: 0.0,
        in_leakage: InLeakage::default(),
        velocity_spread: 0.0,
    }
}

/// Something to write the defaults into; no number of it survives.
fn blank() -> Conditions {
    Conditions {
        title: String::new(),
        gas: blank_gas(),
        collector: Collector {
            kind: Kind::Dry,
            fields: 0,
            passages: 0,
            plate_spacing_m: 0.0,
            plate_height_m: 0.0,
            field_length_m: 0.0,
            wire_spacing_m: 0.0,
            wire_diameter_m: 0.0,
            wire_roughness: 0.0,
            sneakage: 0.0,
            hopper_share: 0.0,
            hopper_sweepage: 0.0,
            distribution_plates: 0,
            distribution_open_area: 0.0,
        },
        dust: Dust {
            load_kg_m3: 0.0,
            sizes: Sizes::LogNormal {
                mass_median_diameter_m: 0.0,
                geometric_deviation: 0.0,
            },
            density_kg_m3: 0.0,
            permittivity: 0.0,
            layer_density_kg_m3: 0.0,
            resistivity: Resistivity::Given(0.0),
        },
        electrical: Electrical {
            voltage_v: Vec::new(),
            ion_mobility_m2_v_s: 0.0,
            current_limit_a_m2: 0.0,
            rated_current_a_m2: 0.0,
            spark_target_per_s: 0.0,
            quench_s: 0.0,
            setback: 0.0,
            spark_field_v_m: 0.0,
        },
        rapping: blank_rapping(),
        hoppers: blank_hoppers(),
        water: Water {
            per_gas: 0.0,
            recycled: 0.0,
        },
        ash: blank_ash(),
        defects: Vec::new(),
        teaching: Teaching::default(),
        appearance: super::Appearance::default(),
        reference: Reference {
            temperature_k: 0.0,
            pressure_pa: 0.0,
            voltage_v: Vec::new(),
            plate_spacing_m: 0.0,
        },
    }
}

#[cfg(test)]
mod tests;
