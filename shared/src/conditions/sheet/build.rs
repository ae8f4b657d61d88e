//! Makes typed conditions of what a sheet says, with defaults for the rest, and notes everything that is wrong.

use super::{
    advice::advice,
    convert::{Context, convert},
    gather::{Entry, Gathered},
    problem::Trouble,
    report::Report,
};
use crate::conditions::{
    Conditions, Kind,
    cross::clashes,
    keys::{Key, MOST_FIELDS, Presence, Shape, Value, defaults, keys},
};

/// These decide about defaults and list lengths, and are read first.
const FIRST: [&str; 2] = ["collector.kind", "collector.fields"];
/// These decide what a normal cubic metre is, and are read second.
const GAS_STATE: [&str; 3] = ["gas.temperature", "gas.pressure", "gas.moisture"];
/// Sizes are said in one of two ways.
const LOG_NORMAL: [&str; 2] = ["dust.mass_median_diameter", "dust.geometric_deviation"];
const COMPOSITION: &str = "dust.composition";

/// Conditions from all entries; meaningful only if the report is clean afterwards.
pub(super) fn build(gathered: &Gathered<'_>, report: &mut Report<'_>, whole: bool) -> Conditions {
    let noted = report.noted();
    let mut conditions = frame(gathered, report);
    take_rest(gathered, &mut conditions, report);
    one_way_only(gathered, report);
    // A sheet that could not be read as a whole may well have the key in the lost part.
    if whole {
        nothing_missing(gathered, report);
    }
    finish(conditions, gathered, noted, report)
}

/// Other conditions with these entries; meaningful only if the report is clean afterwards.
pub(super) fn overlay(
    base: &Conditions,
    gathered: &Gathered<'_>,
    report: &mut Report<'_>,
) -> Conditions {
    let noted = report.noted();
    let mut conditions = base.clone();
    for entry in named(gathered, &FIRST) {
        take(entry, &mut conditions, report);
    }
    take_rest(gathered, &mut conditions, report);
    one_way_only(gathered, report);
    finish(conditions, gathered, noted, report)
}

/// Reads all entries but those that are read first; the state of the gas before the others.
fn take_rest(gathered: &Gathered<'_>, conditions: &mut Conditions, report: &mut Report<'_>) {
    for entry in named(gathered, &GAS_STATE) {
        take(entry, conditions, report);
    }
    for entry in &gathered.entries {
        let path = entry.path.as_str();
        if !GAS_STATE.contains(&path) && !FIRST.contains(&path) {
            take(entry, conditions, report);
        }
    }
}

/// The entries with these paths.
fn named<'g, 'd>(
    gathered: &'g Gathered<'d>,
    paths: &'g [&str],
) -> impl Iterator<Item = &'g Entry<'d>> {
    gathered
        .entries
        .iter()
        .filter(|entry| paths.contains(&entry.path.as_str()))
}

/// Makes the conditions their own reference; where nothing else is wrong, notes what does not go together.
fn finish(
    mut conditions: Conditions,
    gathered: &Gathered<'_>,
    noted_before: usize,
    report: &mut Report<'_>,
) -> Conditions {
    conditions.reference = conditions.reference_here();
    if report.noted() == noted_before {
        for clash in clashes(&conditions) {
            let place = gathered
                .entry(&clash.key)
                .and_then(|entry| entry.place.clone());
            report.value(clash.key, place, Trouble::Clash(clash.message));
        }
    }
    conditions
}

/// Defaults for the kind and number of fields that the sheet names.
fn frame(gathered: &Gathered<'_>, report: &mut Report<'_>) -> Conditions {
    // With a wrong number of fields no list is called too long.
    let mut first = defaults(Kind::Dry, MOST_FIELDS);
    for entry in named(gathered, &FIRST) {
        take(entry, &mut first, report);
    }
    defaults(first.collector.kind, first.collector.fields)
}

/// Reads one entry into the conditions, or notes what is wrong with it.
fn take(entry: &Entry<'_>, conditions: &mut Conditions, report: &mut Report<'_>) {
    let context = Context {
        gas: conditions.gas_state(),
        fields: conditions.collector.fields,
    };
    match convert(entry.key, entry.item, &context) {
        Ok(Value::Text(text)) if matches!(entry.key.shape, Shape::PartName { .. }) => {
            let part = entry.path.trim_start_matches("names.").to_owned();
            conditions.appearance.part_names.insert(part, text);
        }
        Ok(value) => {
            entry.key.put(conditions, &value);
        }
        Err(misfit) => {
            let key = match misfit.entry {
                Some(number) => format!("{}, entry {number}", entry.path),
                None => entry.path.clone(),
            };
            report.value(
                key,
                misfit.place.or_else(|| entry.place.clone()),
                *misfit.trouble,
            );
        }
    }
}

/// Sizes and resistivity can each be said in two ways; a sheet says one.
fn one_way_only(gathered: &Gathered<'_>, report: &mut Report<'_>) {
    if let Some(sizes) = gathered.entry("dust.sizes") {
        for other in LOG_NORMAL.iter().filter_map(|path| gathered.entry(path)) {
            report.value(
                other.path.clone(),
                other.place.clone(),
                both(report, other, sizes),
            );
        }
    } else if let Some(largest) = gathered.entry("dust.largest") {
        let trouble = Trouble::Clash(
            "this goes with dust.sizes, which is missing; add it or take this away".to_owned(),
        );
        report.value(largest.path.clone(), largest.place.clone(), trouble);
    }
    let composition = gathered
        .entries
        .iter()
        .find(|entry| entry.key.split().0 == COMPOSITION);
    if let (Some(resistivity), Some(composition)) =
        (gathered.entry("dust.resistivity"), composition)
    {
        let trouble = both(report, resistivity, composition);
        report.value(resistivity.path.clone(), resistivity.place.clone(), trouble);
    }
}

fn both(report: &Report<'_>, one: &Entry<'_>, other: &Entry<'_>) -> Trouble {
    let line = other.place.clone().map_or_else(String::new, |place| {
        format!(" in line {}", report.line(place.start))
    });
    Trouble::Clash(format!(
        "{} and {}{line} say the same thing in two ways; keep one of them",
        one.path, other.path
    ))
}

/// Notes every key that must be there and is not.
fn nothing_missing(gathered: &Gathered<'_>, report: &mut Report<'_>) {
    let some_composition = gathered.section(COMPOSITION).is_some()
        || gathered
            .entries
            .iter()
            .any(|entry| entry.key.split().0 == COMPOSITION);
    let needed = |key: &&'static Key| {
        key.presence == Presence::Required
            || (some_composition && key.split().0 == COMPOSITION)
            || (key.path == "dust.largest" && gathered.entry("dust.sizes").is_some())
    };
    for key in keys()
        .filter(needed)
        .filter(|key| gathered.entry(key.path).is_none() && !gathered.is_misspelt(key))
    {
        let (section, name) = key.split();
        let advice = advice(key);
        let trouble = Trouble::Missing(format!("add {name} below [{section}]: {advice}"));
        report.name(key.path.to_owned(), gathered.section(section), trouble);
    }
}
