//! The last reading of the plant clock by subject: fields, layers, hoppers, emission.

use ashlane_shared::{
    conditions::Conditions,
    plant::{PlantReading, Rates},
};
use serde::Serialize;
use serde_json::{Map, Value, json};

/// Lists of one object a field.
#[derive(Debug, Default, Serialize)]
pub(super) struct Sections {
    by_field: Vec<Value>,
    layers: Vec<Value>,
    hoppers: Vec<Value>,
    emission: Value,
}

/// A reading under these conditions, taken apart.
///
/// Whatever a reading has of a field goes where its name says: `layer_…` and `back_corona` to the layers, `hopper_…` to the
/// hoppers, everything else to the fields.
pub(super) fn sections(reading: &PlantReading, conditions: &Conditions, rates: &Rates) -> Sections {
    let area_m2 = conditions.collecting_area_m2() / conditions.collector.fields as f64;
    let mut sections = Sections {
        emission: json!({
            "dust_kg_m3": reading.emission_kg_m3,
            "dust_kg_s": reading.emission_kg_m3 * conditions.gas.flow_m3_s,
            "opacity": reading.opacity,
            "penetration": reading.penetration,
        }),
        ..Sections::default()
    };
    for (index, field) in reading.fields.iter().enumerate() {
        let number = Map::from_iter([("field".to_owned(), Value::from(index + 1))]);
        let mut parts = [number.clone(), number.clone(), number];
        let current_a = Value::from(field.metered_a_m2 * area_m2);
        parts[0].insert("current_a".to_owned(), current_a);
        let caught: f64 = rates.fresh.caught[index].iter().sum();
        parts[0].insert("caught_fraction".to_owned(), Value::from(caught));
        // A reading is plain numbers and words: it always has a form.
        if let Ok(Value::Object(values)) = serde_json::to_value(field) {
            for (name, value) in values {
                let part = match name.as_str() {
                    "back_corona" => 1,
                    name if name.starts_with("layer_") => 1,
                    name if name.starts_with("hopper_") => 2,
                    _ => 0,
                };
                parts[part].insert(name, value);
            }
        }
        let [by_field, layer, hopper] = parts.map(Value::Object);
        sections.by_field.push(by_field);
        sections.layers.push(layer);
        sections.hoppers.push(hopper);
    }
    sections
}
