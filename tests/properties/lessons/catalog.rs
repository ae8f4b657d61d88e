//! Every lesson that comes with the program is sound, and what it teaches is seen in what it measures.

use ashlane_lessons::{
    catalog::{LESSONS, find, lessons, nearest_id},
    engine::{Kind, examine},
};
use serde_json::Value as Json;

use crate::command_line::whole_catalog;

#[test]
fn every_file_is_read_and_called_by_its_number() {
    let lessons = lessons().unwrap_or_else(|errors| panic!("{errors}"));
    assert_eq!(lessons.len(), LESSONS.len());
    for ((file, _), lesson) in LESSONS.iter().zip(&lessons) {
        let number: u32 = file[..3].parse().expect("a file begins with its number");
        assert_eq!(lesson.id, format!("L{number}"), "{file}");
        assert!(file.ends_with(".toml"), "{file}");
        assert_eq!(examine(file, lesson), Ok(()));
        // training.md 3.1: 12 to 20 minutes, five segments at most.
        assert!((12..=20).contains(&lesson.minutes), "{file}");
        assert!((1..=5).contains(&lesson.segments.len()), "{file}");
        assert_eq!(
            find(&lessons, &lesson.id.to_lowercase()).map(|found| &found.id),
            Some(&lesson.id)
        );
    }
    assert_eq!(nearest_id(&lessons, "L55"), Some("L5"));
    assert_eq!(nearest_id(&lessons, "twice-the-plate-aera"), Some("L5"));
    assert_eq!(nearest_id(&lessons, "gardening"), None);
}

#[test]
fn every_file_of_the_folder_is_in_the_table() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../lessons/catalog");
    let mut files: Vec<String> = std::fs::read_dir(folder)
        .expect("the catalog")
        .map(|entry| {
            let name = entry.expect("an entry").file_name();
            name.into_string().expect("a plain name")
        })
        .collect();
    files.sort();
    let listed: Vec<&str> = LESSONS.iter().map(|(name, _)| *name).collect();
    assert_eq!(files, listed);
}

#[test]
fn twice_the_plate_area_corrects_its_misconceptions() {
    let lessons = lessons().expect("sound lessons");
    let lesson = find(&lessons, "L5").expect("lesson 5");
    let ideas: Vec<&str> = lesson
        .misconceptions
        .iter()
        .map(|idea| idea.statement.as_str())
        .collect();
    for idea in [
        "double the plates, double the efficiency",
        "the last 0.5 % costs the same as the first",
        "Deutsch is exact",
    ] {
        assert!(ideas.contains(&idea), "{idea} is not corrected: {ideas:?}");
    }
    let first = &lesson.segments[0];
    assert!(
        matches!(first.predict.kind, Kind::Number(_)),
        "a number is asked for"
    );
    let area =
        |conditions: &ashlane_shared::conditions::Conditions| conditions.collecting_area_m2();
    assert!(
        (area(&first.target) / area(&first.start) - 2.0).abs() < 1e-12,
        "the plate area is doubled exactly"
    );
}

/// What training.md 3.2 has each lesson correct.
#[rustfmt::skip]
const CORRECTED: [(&str, &[&str]); 17] = [
    ("L1", &["the fan pushes gas through and leaks blow ash out", "it is a filter, so it has a big pressure drop", "the plate with holes catches dust"]),
    ("L2", &["corona is a small spark", "the whole gap is ionised", "the plate is positive", "dust gets a positive charge from the negative wire"]),
    ("L3", &["small dust charges less so it is not caught", "charging takes the whole length", "all particles carry the same charge"]),
    ("L4", &["gas must be slow so that dust can fall", "particles go straight to the plate", "w is a constant of the machine"]),
    ("L6", &["efficiency drops in proportion to speed", "a little over design flow is harmless"]),
    ("L7", &["current does the work, voltage is just on or off", "high mA always means good"]),
    ("L8", &["wider is always worse", "spacing does not matter if kV is the same"]),
    ("L9", &["the finer the dust the worse it is caught", "99.8 % means 99.8 % of every size"]),
    ("L10", &["more current is better", "high sulphur makes dust harder to collect", "hotter gas always lowers resistivity", "back corona is a spark"]),
    ("L11", &["sparks mean it is broken", "zero sparks is the goal", "sparks collect dust"]),
    ("L12", &["rap as hard and as often as possible", "rapped dust goes straight down", "puffs mean the ESP has failed"]),
    ("L13", &["fast and slow parts average out", "hoppers are outside the gas stream"]),
    ("L14", &["lose 1 of 4, lose 25 %", "the outlet field does nothing because it catches so little"]),
    ("L15", &["water shorts it out", "wet means no dust disposal"]),
    ("L16", &["all hoppers fill alike", "a hopper is a bin", "a hopper that stopped flowing is empty", "ash is waste"]),
    ("L17", &["one meter tells all", "high current = good field", "opacity monitor is always right", "reset and hope"]),
    ("L18", &["energize early for a clean stack", "power off means safe to enter", "the interlock is the protection", "same looking compartment, same state"]),
];

#[test]
fn each_lesson_corrects_what_it_was_written_for() {
    let lessons = lessons().expect("sound lessons");
    for (id, wanted) in CORRECTED {
        let lesson = find(&lessons, id).unwrap_or_else(|| panic!("no lesson {id}"));
        for idea in wanted {
            let listed = lesson.misconceptions.iter();
            let place = listed
                .clone()
                .position(|misconception| misconception.statement == *idea);
            let place = place.unwrap_or_else(|| panic!("{id} does not correct {idea:?}"));
            // A wrong prediction about something that is measured, and not only the question at the end.
            assert!(
                lesson
                    .segments
                    .iter()
                    .flat_map(|segment| &segment.explain.wrong)
                    .any(|branch| branch.misconception == place),
                "{id}: nothing measured stands against {idea:?}"
            );
        }
    }
}

#[test]
fn what_is_said_to_hold_with_losses_too_is_measured_in_both_columns() {
    let lessons = lessons().expect("sound lessons");
    for id in ["L6", "L7", "L8", "L14"] {
        let lesson = find(&lessons, id).unwrap_or_else(|| panic!("no lesson {id}"));
        for column in ["ideal", "spread"] {
            assert!(
                lesson
                    .segments
                    .iter()
                    .any(|segment| lesson.columns[segment.column].name == column),
                "{id}: nothing is measured in the column {column}"
            );
        }
    }
}

/// What a check read before the change: that of its own instrument, or the penetration of the whole count.
fn before(reading: &Json, check: &Json) -> Option<f64> {
    match (check["before"].as_f64(), check["quantity"].as_str()) {
        (Some(before), _) => Some(before),
        (None, Some("penetration")) => Some(number(&reading["before"]["penetration"]["share"])),
        (None, Some("efficiency")) => {
            Some(1.0 - number(&reading["before"]["penetration"]["share"]))
        }
        // Without an effect as much leaves after as before.
        (None, Some("penetration_ratio" | "outlet_dust_ratio")) => Some(1.0),
        _ => None,
    }
}

/// Every check of every lesson, with where it stands.
fn checks() -> Vec<(String, &'static Json, &'static Json)> {
    let lessons = whole_catalog()["lessons"].as_array().expect("lessons");
    let mut found = Vec::new();
    for lesson in lessons {
        for step in lesson["steps"].as_array().expect("steps") {
            let reading = &step["reading"];
            for check in reading["checks"].as_array().into_iter().flatten() {
                let place = format!(
                    "{} {} {}",
                    lesson["id"], step["id"], check["formula"]["formula"]
                );
                found.push((place, reading, check));
            }
        }
    }
    assert!(found.len() >= LESSONS.len());
    found
}

fn number(value: &Json) -> f64 {
    value
        .as_f64()
        .unwrap_or_else(|| panic!("{value} is no number"))
}

#[test]
fn three_sigma_is_at_most_twice_the_stated_tolerance() {
    for (place, _, check) in checks() {
        let upper = check["upper"]["stated"].as_f64().unwrap_or(0.0);
        let stated = number(&check["formula"]["stated"]).max(upper);
        let noise = 3.0 * number(&check["standard_error"]);
        assert!(
            noise <= 2.0 * stated,
            "{place}: 3 σ {noise}, stated {stated}"
        );
    }
}

#[test]
fn no_check_was_true_before_the_change() {
    for (place, reading, check) in checks() {
        let Some(before) = before(reading, check).filter(|_| check["relation"] == "equals") else {
            continue;
        };
        let away = (before - number(&check["formula"]["value"])).abs();
        let mut band = number(&check["tolerance"]);
        if check["quantity"] == "penetration" {
            let error = &reading["before"]["penetration"]["standard_error"];
            band = band.max(3.0 * number(error));
        }
        assert!(
            away > band,
            "{place}: already {away} from the formula before the change"
        );
    }
}

#[test]
fn the_contrast_taught_is_five_times_its_band() {
    let mut weak = Vec::new();
    for (place, reading, check) in checks() {
        let band = 3.0 * number(&check["standard_error"]);
        let contrast = match (check["relation"].as_str(), before(reading, check)) {
            (Some("above" | "below"), _) => number(&check["difference"]).abs(),
            (Some("equals" | "between"), Some(before)) => {
                (number(&check["measured"]) - before).abs()
            }
            _ => continue,
        };
        assert!(contrast > 0.0, "{place}: nothing is taught");
        if contrast < 5.0 * band {
            weak.push(format!("{place}: {contrast} against a band of {band}"));
        }
    }
    assert!(weak.is_empty(), "{weak:#?}");
}

#[test]
fn every_measured_segment_has_a_wrong_answer_that_claims_a_listed_misconception() {
    for lesson in lessons().expect("sound lessons") {
        for segment in lesson.segments.iter().filter(|one| !one.checks.is_empty()) {
            let claims = |branch: &ashlane_lessons::engine::Branch| {
                let said = segment.predict.options.get(branch.option);
                let idea = lesson.misconceptions.get(branch.misconception);
                said.is_some() && idea.is_some_and(|idea| !idea.statement.is_empty())
            };
            assert!(
                segment.explain.wrong.iter().any(claims),
                "{} {}: no wrong answer claims a misconception",
                lesson.id,
                segment.id
            );
        }
    }
}
