//! Which part of the drawing a name of the site belongs to: its own name stands wherever the part is named.

use ashlane_shared::conditions::{Conditions, capitalised};

use super::Part;

/// Name of a part of the drawing, and its key under `[names]` of the sheet.
const KEYS: [(&str, &str); 9] = [
    ("Turning vanes", "turning_vanes"),
    ("Inlet nozzle", "inlet_nozzle"),
    ("Perforated distribution plate", "distribution_plate"),
    ("Collecting plate", "collecting_electrode"),
    ("Discharge electrode", "discharge_electrode"),
    ("Outlet nozzle", "outlet_nozzle"),
    ("ID fan", "fan"),
    ("Stack", "stack"),
    ("Transformer-rectifier", "tr_set"),
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

/// What the site calls the part of a key, else these words.
pub(crate) fn site_words(conditions: &Conditions, key: &str, ours: &str) -> String {
    let own = conditions.appearance.part_names.get(key);
    own.map_or_else(|| ours.to_owned(), Clone::clone)
}
