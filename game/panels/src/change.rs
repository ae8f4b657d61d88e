//! One control after another: conditions with another value of a key, and by what two states differ.

use ashlane_shared::conditions::{Conditions, Key, Value, keys};

use crate::controls::label;

/// By how much two states differ.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Apart {
    /// Not at all.
    Same,
    /// By the control of this path, and by what it brings with it, as a number of fields brings their voltages.
    One(&'static str),
    /// By more than one control.
    More,
}

impl Apart {
    /// How two states differ.
    #[must_use]
    pub fn of(before: &Conditions, after: &Conditions) -> Self {
        if before == after {
            return Self::Same;
        }
        let alone = |key: &&Key| {
            let value = key.get(after);
            key.get(before) != value
                && with(before, key, value.as_ref()).is_ok_and(|one| one == *after)
        };
        keys()
            .find(alone)
            .map_or(Self::More, |key| Self::One(key.path))
    }
}

/// Every key that says something else.
pub(crate) fn differing<'a>(
    before: &'a Conditions,
    after: &'a Conditions,
) -> impl Iterator<Item = &'static Key> + use<'a> {
    keys().filter(move |key| key.get(before) != key.get(after))
}

/// These conditions with another value of a key; nothing takes an optional one away.
///
/// # Errors
/// The value is not allowed.
pub fn with(before: &Conditions, key: &Key, value: Option<&Value>) -> Result<Conditions, String> {
    let mut wanted = before.clone();
    match value {
        Some(value) => key
            .set(&mut wanted, value)
            .map_err(|refusal| format!("{}: {refusal}", label(key)))?,
        None => key.clear(&mut wanted),
    }
    if key.path == "teaching.migration_velocity" {
        // A velocity that is set here and now is stated at the voltages and the spacing of here and now.
        wanted
            .reference
            .voltage_v
            .clone_from(&wanted.electrical.voltage_v);
        wanted.reference.plate_spacing_m = wanted.collector.plate_spacing_m;
    }
    Ok(wanted)
}

#[cfg(test)]
mod tests {
    use ashlane_shared::conditions::{demonstration, find_key};

    use super::*;

    #[test]
    fn a_control_with_what_it_brings_is_one_and_two_controls_are_more() {
        let before = demonstration();
        assert_eq!(Apart::of(&before, &before), Apart::Same);
        let fields = find_key("collector.fields").expect("a key");
        let fewer = with(&before, fields, Some(&Value::Count(2))).expect("two fields");
        assert!(
            differing(&before, &fewer).count() > 1,
            "voltages come with the fields"
        );
        assert_eq!(Apart::of(&before, &fewer), Apart::One("collector.fields"));
        let mut both = fewer.clone();
        both.gas.flow_m3_s *= 1.1;
        assert_eq!(Apart::of(&before, &both), Apart::More);
        assert_eq!(Apart::of(&fewer, &both), Apart::One("gas.flow"));
    }
}
