//! Whatever is turned in the window, a saved sheet reads back as the same machine.

use ashlane_shared::conditions::{
    Conditions, Key, Mixing, SITES, Shape, Sizes, Value, check, keys,
};
use proptest::prelude::*;

use super::{difference, good, saving::comments};

/// What a control may do to a key: somewhere in its slider, or another word.
fn turn(key: &Key, conditions: &mut Conditions, share: f64) {
    let between = |low: f64, high: f64| low + share * (high - low);
    // Some keys are not there until somebody asks for them.
    let can_be_added = ["teaching", "dust.composition"].contains(&key.split().0);
    let value = match key.shape {
        Shape::Quantity { allowed, .. } if share > 0.8 && key.get(conditions).is_some() => {
            Value::Number(between(allowed.min, allowed.max))
        }
        Shape::Quantity { slider, .. } if key.get(conditions).is_some() || can_be_added => {
            Value::Number(between(slider.min, slider.max))
        }
        Shape::PerField { slider, .. } => {
            let fields = conditions.collector.fields;
            Value::PerField(
                (0..fields)
                    .map(|field| between(slider.min, slider.max) / (1 + field) as f64)
                    .collect(),
            )
        }
        Shape::Count { min, max, .. } => Value::Count(between(min as f64, max as f64) as usize),
        Shape::Word { words, .. } => words()
            .get(between(0.0, words().len() as f64) as usize)
            .map_or(Value::Count(0), |word| Value::Word(word)),
        Shape::Text { .. } => Value::Text(format!("Kessel {share:.3} \"ü\" \\ #")),
        Shape::Mixing { .. } if share < 0.3 => Value::Mixing(Mixing::None),
        Shape::Mixing { .. } => Value::Mixing(Mixing::Diffusivity(between(1e-4, 1e-2))),
        Shape::Points { .. } if share < 0.5 => {
            let (small_m, large_m) = (between(0.1e-6, 2e-6), between(3e-6, 20e-6));
            conditions.dust.sizes = Sizes::Table {
                finer: vec![(small_m, 0.1), (large_m, share)],
                largest_m: 1e-4,
            };
            return;
        }
        Shape::Points { .. } => {
            conditions.dust.sizes = Sizes::LogNormal {
                mass_median_diameter_m: between(1e-6, 40e-6),
                geometric_deviation: 3.0,
            };
            return;
        }
        Shape::PartName { .. } => {
            let part = if share < 0.5 { "stack" } else { "field_2" };
            conditions
                .appearance
                .part_names
                .insert(part.to_owned(), format!("S{share:.2}"));
            return;
        }
        Shape::Quantity { .. } => return,
    };
    // A control that is out of range does nothing, as in the window.
    if key.set(conditions, &value).is_err() {
        key.clear(conditions);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, max_global_rejects: 20_000, ..ProptestConfig::default() })]

    /// read(save(c)) is c, restated, whatever was turned; and no comment is lost.
    #[test]
    fn saved_conditions_read_back(
        which: prop::sample::Index,
        turns in prop::collection::vec((any::<prop::sample::Index>(), 0.0..1.0), 0..9),
        off in prop::option::of(0..3usize),
    ) {
        let (_, text) = which.get(SITES);
        let sheet = good(text);
        let mut conditions = sheet.conditions.clone();
        let table: Vec<&Key> = keys().collect();
        for (index, share) in &turns {
            turn(table[index.index(table.len())], &mut conditions, *share);
        }
        if let Some(voltage_v) = off.and_then(|field| conditions.electrical.voltage_v.get_mut(field)) {
            *voltage_v = 0.0;
        }
        prop_assume!(check(&conditions).is_ok());
        let saved = sheet.save_text(&conditions);
        let again = good(&saved);
        let rebased = conditions.rebased().conditions;
        prop_assert_eq!(difference(&again.conditions, &rebased, 1e-12), None, "{}", saved);
        for comment in comments(text) {
            prop_assert!(saved.contains(comment), "{} is lost in\n{}", comment, saved);
        }
        prop_assert_eq!(again.save_text(&again.conditions), saved, "saving again changes nothing");
    }
}
