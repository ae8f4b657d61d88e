//! The parts of the machine that a site may have its own names for.

/// One part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Part {
    /// Its key under `[names]`.
    pub key: &'static str,
    /// What Ashlane calls it.
    pub name: &'static str,
    /// Whether each field has its own, so that `key_2` names that of field 2.
    pub numbered: bool,
}

const fn one(key: &'static str, name: &'static str) -> Part {
    Part {
        key,
        name,
        numbered: false,
    }
}

const fn each(key: &'static str, name: &'static str) -> Part {
    Part {
        key,
        name,
        numbered: true,
    }
}

/// Every part, along the gas and from the roof down.
pub const PARTS: &[Part] = &[
    one("collector", "collector"),
    one("inlet_duct", "inlet duct"),
    one("turning_vanes", "turning vanes"),
    one("inlet_nozzle", "inlet nozzle"),
    one("distribution_plate", "perforated distribution plate"),
    one("casing", "casing"),
    one("baffle", "baffle"),
    one("outlet_nozzle", "outlet nozzle"),
    one("fan", "induced-draught fan"),
    one("stack", "stack"),
    each("field", "field"),
    each("bus_section", "bus section"),
    each("tr_set", "T/R set"),
    each("bus_duct", "bus duct"),
    each("ground_switch", "ground switch"),
    one("key_interlock", "key interlock"),
    one("insulator_compartment", "insulator compartment"),
    one("support_insulator", "support insulator"),
    one("high_voltage_frame", "high-voltage frame"),
    one("stabiliser", "stabiliser"),
    one("discharge_electrode", "discharge electrode"),
    one("collecting_electrode", "collecting electrode"),
    one("gas_passage", "gas passage"),
    each("plate_rapper", "plate rapper"),
    each("wire_rapper", "discharge-electrode rapper"),
    one("anvil", "anvil"),
    one("distribution_rapper", "distribution-plate rapper"),
    each("hopper", "hopper"),
    one("level_probe", "level probe"),
    one("hopper_heater", "hopper heater"),
    one("airlock", "airlock"),
    one("ash_conveyor", "ash conveyor"),
    one("opacity_monitor", "opacity monitor"),
];

/// The part a key under `[names]` means, and the number of the field (from 1) if it has one.
#[must_use]
pub fn find_part(key: &str) -> Option<(&'static Part, Option<usize>)> {
    if let Some(part) = PARTS.iter().find(|part| part.key == key) {
        return Some((part, None));
    }
    let (stem, number) = key.rsplit_once('_')?;
    // "field_02" and "field_+2" would be second spellings of one key.
    if number.starts_with(['0', '+']) {
        return None;
    }
    let number = number.parse().ok()?;
    let part = PARTS
        .iter()
        .find(|part| part.key == stem && part.numbered)?;
    Some((part, Some(number)))
}

#[cfg(test)]
mod tests {
    use super::{PARTS, find_part};

    #[test]
    fn keys_are_found_with_and_without_a_number() {
        assert_eq!(
            find_part("stack").map(|(part, number)| (part.name, number)),
            Some(("stack", None))
        );
        assert_eq!(
            find_part("tr_set_3").map(|(part, number)| (part.name, number)),
            Some(("T/R set", Some(3)))
        );
        for wrong in [
            "stack_1", "field_0", "field_02", "field_+2", "field_", "fields", "",
        ] {
            assert!(find_part(wrong).is_none(), "{wrong:?}");
        }
    }

    #[test]
    fn every_part_has_its_own_key_and_name() {
        for (index, part) in PARTS.iter().enumerate() {
            assert_eq!(find_part(part.key), Some((part, None)));
            assert!(
                PARTS[..index].iter().all(|other| other.name != part.name),
                "{} twice",
                part.name
            );
        }
    }
}
