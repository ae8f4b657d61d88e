//! What the machine looks like and what the site calls its parts; no effect on the numbers.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

/// Discharge electrode.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Electrode {
    /// Round wire held in a frame.
    #[default]
    Wire,
    /// Round wire hanging from the upper frame, with a weight at its foot.
    WeightedWire,
    /// Tube with points, stiff by itself.
    RigidMast,
    /// Flat strip with punched points.
    SpikedStrip,
}

/// What cleans the plates.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Rapper {
    /// Hammers on a slowly turning shaft, striking the lower edge of the plates.
    #[default]
    TumblingHammer,
    /// Weights lifted and dropped on rods through the roof.
    RoofRapper,
}

/// Which way field numbers rise.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FieldNumbering {
    /// The first field the gas meets has the lowest number.
    #[default]
    AlongGas,
    /// The first field the gas meets has the highest number.
    AgainstGas,
}

/// Which way the gas runs across the drawing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum GasDirection {
    /// From left to right.
    #[default]
    LeftToRight,
    /// From right to left.
    RightToLeft,
}

/// Where the fan stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FanPosition {
    /// Behind the collector: induced draught, casing under suction.
    #[default]
    Downstream,
    /// Before the collector: casing under pressure.
    Upstream,
}

/// What the machine looks like and what the site calls its parts.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Appearance {
    /// Discharge electrode.
    pub electrode: Electrode,
    /// Rapper of the plates.
    pub rapper: Rapper,
    /// Hoppers side by side in each row.
    pub hoppers_per_row: usize,
    /// Lowest number of a field.
    pub first_field_number: usize,
    /// Which way field numbers rise.
    pub field_numbering: FieldNumbering,
    /// Direction of the gas in the drawing.
    pub gas_direction: GasDirection,
    /// Position of the fan.
    pub fan: FanPosition,
    /// Site names of parts, keyed by the part's own name (`parts`).
    pub part_names: BTreeMap<String, String>,
}

impl Default for Appearance {
    fn default() -> Self {
        Self {
            electrode: Electrode::default(),
            rapper: Rapper::default(),
            hoppers_per_row: 1,
            first_field_number: 1,
            field_numbering: FieldNumbering::default(),
            gas_direction: GasDirection::default(),
            fan: FanPosition::default(),
            part_names: BTreeMap::new(),
        }
    }
}
