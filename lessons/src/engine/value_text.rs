//! Values of controls as people read them.

use ashlane_shared::{
    conditions::{Key, Mixing, Value},
    units::{Dimension, UnitSystem, format, number_text},
};

/// Digits of a plain number.
const DIGITS: usize = 4;

/// A value in one system of units.
#[must_use]
pub fn value_text(key: &Key, value: &Value, units: UnitSystem) -> String {
    let dimension = key.dimension().unwrap_or(Dimension::Number);
    match value {
        Value::Number(number) | Value::Mixing(Mixing::Diffusivity(number)) => {
            format(*number, dimension, units)
        }
        Value::PerField(list) => {
            let mut texts: Vec<String> = list
                .iter()
                .map(|&number| format(number, dimension, units))
                .collect();
            // One value for all fields is said once; else each field has its own, so that it is clear which is which.
            if texts.windows(2).all(|pair| pair[0] == pair[1]) {
                texts.truncate(1);
            }
            texts.join(", ")
        }
        Value::Count(count) => count.to_string(),
        Value::Word(word) => (*word).to_owned(),
        Value::Text(text) => text.clone(),
        Value::Mixing(Mixing::None) => "none".to_owned(),
        Value::Mixing(Mixing::Full) => "full".to_owned(),
        Value::Points(points) => {
            let pair = |&(diameter_m, finer): &(f64, f64)| {
                let diameter = format(diameter_m, Dimension::GrainSize, units);
                format!("{diameter} {} %", number_text(100.0 * finer, DIGITS))
            };
            points.iter().map(pair).collect::<Vec<_>>().join(", ")
        }
    }
}

/// A value in both systems of units, where they differ.
#[must_use]
pub fn value_text_both(key: &Key, value: &Value) -> String {
    let si = value_text(key, value, UnitSystem::Si);
    let us = value_text(key, value, UnitSystem::Us);
    if si == us { si } else { format!("{si} ({us})") }
}

#[cfg(test)]
mod tests {
    use ashlane_shared::conditions::find_key;

    use super::*;

    #[test]
    fn values_are_told_in_both_systems_where_they_differ() {
        for (path, value, text) in [
            ("collector.fields", Value::Count(2), "2"),
            (
                "collector.field_length",
                Value::Number(3.0),
                "3 m (9.843 ft)",
            ),
            (
                "electrical.voltage",
                Value::PerField(vec![45e3; 2]),
                "45 kV",
            ),
            (
                "electrical.voltage",
                Value::PerField(vec![45e3, 0.0, 45e3, 45e3]),
                "45 kV, 0 kV, 45 kV, 45 kV",
            ),
            ("teaching.mixing", Value::Mixing(Mixing::Full), "full"),
            (
                "teaching.mixing",
                Value::Mixing(Mixing::Diffusivity(0.005)),
                "0.005 m²/s (0.05382 ft²/s)",
            ),
        ] {
            let key = find_key(path).expect("a known key");
            assert_eq!(value_text_both(key, &value), text);
        }
    }
}
