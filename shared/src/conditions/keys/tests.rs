//! Every row of the key table does what it says.

use super::{MOST_FIELDS, Presence, SECTIONS, Shape, Value, defaults, find_key, keys};
use crate::conditions::{Kind, Mixing, check};

#[test]
fn paths_are_unique_and_belong_to_a_section() {
    let all: Vec<&str> = keys().map(|key| key.path).collect();
    for (index, path) in all.iter().enumerate() {
        assert!(!all[..index].contains(path), "{path} twice");
        let (section, name) = find_key(path).expect("a key is found by its path").split();
        assert!(SECTIONS.contains(&section) && !name.is_empty(), "{path}");
    }
}

#[test]
fn what_is_set_is_what_is_got() {
    for key in keys() {
        let mut conditions = defaults(Kind::Dry, 4);
        for value in other_values(&key.shape) {
            key.set(&mut conditions, &value)
                .unwrap_or_else(|refusal| panic!("{} {value:?}: {refusal}", key.path));
            let got = key
                .get(&conditions)
                .unwrap_or_else(|| panic!("{} is lost", key.path));
            assert!(
                got.same_as(&value),
                "{}: set {value:?}, got {got:?}",
                key.path
            );
        }
        key.clear(&mut conditions);
        let optional_teaching = key.presence == Presence::Optional && key.split().0 == "teaching";
        assert_eq!(
            key.get(&conditions).is_none() && optional_teaching,
            optional_teaching,
            "{}",
            key.path
        );
    }
}

/// Values at the ends of the range and between.
fn other_values(shape: &Shape) -> Vec<Value> {
    match *shape {
        Shape::Quantity {
            allowed, sample, ..
        } => [allowed.min, sample, allowed.max]
            .map(Value::Number)
            .to_vec(),
        Shape::PerField { allowed, .. } => vec![Value::PerField(vec![
            allowed.min,
            allowed.max,
            allowed.min,
            allowed.min,
        ])],
        Shape::Count { min, max, .. } => vec![Value::Count(min), Value::Count(max)],
        Shape::Word { words, .. } => words().into_iter().map(Value::Word).collect(),
        Shape::Text { .. } => vec![Value::Text("Unit 3 – Süd".to_owned())],
        Shape::Points { allowed } => {
            vec![Value::Points(vec![(allowed.min, 0.0), (allowed.max, 1.0)])]
        }
        Shape::Mixing { allowed, .. } => {
            vec![
                Value::Mixing(Mixing::Full),
                Value::Mixing(Mixing::Diffusivity(allowed.min)),
                Value::Mixing(Mixing::None),
            ]
        }
        Shape::PartName { .. } => Vec::new(),
    }
}

#[test]
fn values_outside_are_refused_and_change_nothing() {
    for key in keys() {
        let mut conditions = defaults(Kind::Dry, 4);
        let untouched = conditions.clone();
        for value in wrong_values(&key.shape) {
            assert!(
                key.set(&mut conditions, &value).is_err(),
                "{} took {value:?}",
                key.path
            );
            assert_eq!(conditions, untouched, "{}", key.path);
        }
    }
}

fn wrong_values(shape: &Shape) -> Vec<Value> {
    match *shape {
        Shape::Quantity { allowed, .. } => [
            allowed.min - 1e-9 - 0.001 * allowed.min.abs(),
            1.001 * allowed.max,
            f64::NAN,
            f64::INFINITY,
        ]
        .map(Value::Number)
        .to_vec(),
        Shape::PerField { allowed, .. } => vec![
            Value::PerField(Vec::new()),
            Value::PerField(vec![allowed.max; 5]),
            Value::PerField(vec![allowed.max, f64::NAN]),
            Value::Number(allowed.max),
        ],
        Shape::Count { max, .. } => vec![Value::Count(max + 1), Value::Number(1.0)],
        Shape::Word { .. } => vec![Value::Word("nonsense"), Value::Count(1)],
        Shape::Text { longest, .. } | Shape::PartName { longest } => {
            vec![
                Value::Text(String::new()),
                Value::Text("x".repeat(longest + 1)),
                Value::Text("a\nb".to_owned()),
            ]
        }
        Shape::Points { allowed } => vec![
            Value::Points(Vec::new()),
            Value::Points(vec![(allowed.max, 1.1)]),
            Value::Points(vec![(allowed.max, 0.5); 65]),
        ],
        Shape::Mixing { allowed, .. } => {
            vec![Value::Mixing(Mixing::Diffusivity(1.1 * allowed.max))]
        }
    }
}

#[test]
fn sliders_and_samples_lie_within_the_range() {
    for key in keys() {
        let (Some(allowed), Some(slider)) = (key.allowed(), key.slider()) else {
            continue;
        };
        assert!(
            allowed.min < allowed.max && slider.min < slider.max,
            "{}",
            key.path
        );
        assert!(
            allowed.holds(slider.min) && allowed.holds(slider.max),
            "{}",
            key.path
        );
        if let Shape::Quantity { sample, .. } = key.shape {
            assert!(
                allowed.holds(sample) && slider.min <= sample && sample <= slider.max,
                "{}",
                key.path
            );
        }
        assert!(
            key.wet_default.is_none_or(|wet| allowed.holds(wet)),
            "{}",
            key.path
        );
    }
}

#[test]
fn every_key_is_explained_in_one_line() {
    for key in keys() {
        assert!(
            key.meaning.ends_with('.') && !key.meaning.contains('\n'),
            "{}",
            key.path
        );
        assert!(
            key.meaning.chars().count() <= 120,
            "{} is explained at length",
            key.path
        );
    }
}

#[test]
fn defaults_hold_for_every_kind_and_size() {
    for kind in [Kind::Dry, Kind::Wet] {
        for fields in 1..=MOST_FIELDS {
            let conditions = defaults(kind, fields);
            assert_eq!(check(&conditions), Ok(()), "{kind:?}, {fields} fields");
            assert_eq!(conditions.electrical.voltage_v.len(), fields);
            let wet = kind == Kind::Wet;
            // physics.md 11: a wet collector loses nothing to rapping and 5 % to sneakage.
            assert_eq!(
                conditions.rapping.reentrained,
                if wet { 0.0 } else { 0.124 }
            );
            assert_eq!(conditions.collector.sneakage, 0.05);
        }
    }
}

#[test]
fn only_what_a_collector_cannot_do_without_is_required() {
    let required: Vec<&str> = keys()
        .filter(|key| key.presence == Presence::Required)
        .map(|key| key.path)
        .collect();
    // design.md 4: flow, temperature, fields, passages, spacing, height, length, dust load, voltage.
    assert_eq!(
        required,
        [
            "gas.flow",
            "gas.temperature",
            "collector.fields",
            "collector.passages",
            "collector.plate_spacing",
            "collector.plate_height",
            "collector.field_length",
            "dust.load",
            "electrical.voltage",
        ]
    );
}
