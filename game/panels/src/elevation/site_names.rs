//! Which part of the drawing a name of the site belongs to: its own name stands wherever the part is named.

use ashlane_shared::conditions::{Conditions, capitalised};

use super::{PARTS, Part};

/// Name of a part of the drawing, and its key under `[names]` of the sheet.
const KEYS: [(&str, &str); 27] = [
    ("Turning vanes", "turning_vanes"),
    ("Inlet nozzle", "inlet_nozzle"),
    ("Perforated distribution plate", "distribution_plate"),
    ("Collecting plate", "collecting_electrode"),
    ("Discharge electrode", "discharge_electrode"),
    ("Outlet nozzle", "outlet_nozzle"),
    ("ID fan", "fan"),
    ("Pushing fan", "fan"),
    ("Opacity monitor", "opacity_monitor"),
    ("Stack", "stack"),
    ("Transformer-rectifier", "tr_set"),
    ("High-voltage frame", "high_voltage_frame"),
    ("Support insulator", "support_insulator"),
    ("Plate rapper", "plate_rapper"),
    ("Discharge-electrode rapper", "wire_rapper"),
    ("Distribution-plate rapper", "distribution_rapper"),
    ("Anvil", "anvil"),
    ("Stabiliser", "stabiliser"),
    ("Baffle", "baffle"),
    ("Ground switch", "ground_switch"),
    ("Bus duct", "bus_duct"),
    ("Hopper", "hopper"),
    ("Level probe", "level_probe"),
    ("Airlock", "airlock"),
    ("Hopper heater", "hopper_heater"),
    ("Ash conveyor", "ash_conveyor"),
    ("Key interlock", "key_interlock"),
];

impl Part {
    /// Its key under `[names]` of the sheet; nothing where no site can have a name for it.
    #[must_use]
    pub fn key(&self) -> Option<&'static str> {
        let row = KEYS.iter().find(|(name, _)| *name == self.name);
        row.map(|(_, key)| *key)
    }

    /// What the site calls it; our name where the site has none of its own.
    #[must_use]
    pub fn shown(&self, conditions: &Conditions) -> String {
        let own = |key: &str| conditions.appearance.part_names.get(key);
        self.key()
            .and_then(own)
            .map_or_else(|| self.name.to_owned(), |own| capitalised(own))
    }
}

/// The part of the drawing that a key of the sheet's parts means.
#[must_use]
pub fn part_of_key(key: &str) -> Option<&'static Part> {
    let (name, _) = KEYS.iter().find(|(_, known)| *known == key)?;
    PARTS.iter().find(|part| part.name == *name)
}

/// What the site calls the part of a key, else these words.
pub(crate) fn site_words(conditions: &Conditions, key: &str, ours: &str) -> String {
    let own = conditions.appearance.part_names.get(key);
    own.map_or_else(|| ours.to_owned(), Clone::clone)
}
