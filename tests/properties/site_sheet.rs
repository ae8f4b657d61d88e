//! The site sheet: what it accepts, what it refuses and how it says so, and that saving loses nothing.

mod clashes;
mod files;
mod garbage;
mod guide;
mod mistakes;
mod saving;
mod sites;
mod toml_text;
mod turning;
mod unknown;

use ashlane_shared::conditions::{Conditions, SITES, sheet};
use serde_json::Value as Json;

/// Name under which the tests read their sheets.
const NAME: &str = "site.toml";

/// Text of a site that comes with the program.
#[track_caller]
fn site(name: &str) -> &'static str {
    SITES
        .iter()
        .find(|(known, _)| *known == name)
        .map_or_else(|| panic!("no site {name}"), |&(_, text)| text)
}

/// The demonstration with one piece of text replaced, and the line it stands on.
#[track_caller]
fn demonstration_with(from: &str, to: &str) -> (String, usize) {
    let text = site("demonstration");
    let Some(place) = text.find(from) else {
        panic!("the demonstration has no {from:?}")
    };
    (
        text.replacen(from, to, 1),
        text[..place].matches('\n').count() + 1,
    )
}

/// Reads a sheet that must be good.
#[track_caller]
fn good(text: &str) -> sheet::Sheet {
    sheet::read_str(NAME, text).unwrap_or_else(|errors| panic!("{errors}\n\nin\n{text}"))
}

/// Reads a sheet that must be refused.
#[track_caller]
fn refused(text: &str) -> sheet::SheetErrors {
    match sheet::read_str(NAME, text) {
        Ok(_) => panic!("this was accepted:\n{text}"),
        Err(errors) => errors,
    }
}

/// Where two sets of conditions differ by more than a relative tolerance.
fn difference(one: &Conditions, other: &Conditions, tolerance: f64) -> Option<String> {
    let json = |conditions: &Conditions| {
        serde_json::to_value(conditions)
            .unwrap_or_else(|error| panic!("conditions cannot be written: {error}"))
    };
    differ("conditions", &json(one), &json(other), tolerance)
}

fn differ(path: &str, one: &Json, other: &Json, tolerance: f64) -> Option<String> {
    match (one, other) {
        (Json::Number(a), Json::Number(b)) => {
            let (a, b) = (a.as_f64()?, b.as_f64()?);
            let same = (a - b).abs() <= tolerance * a.abs().max(b.abs());
            (!same).then(|| format!("{path}: {a} and {b}"))
        }
        (Json::Array(a), Json::Array(b)) if a.len() == b.len() => a
            .iter()
            .zip(b)
            .enumerate()
            .find_map(|(index, (a, b))| differ(&format!("{path}[{index}]"), a, b, tolerance)),
        (Json::Object(a), Json::Object(b)) if a.keys().eq(b.keys()) => a
            .iter()
            .find_map(|(name, a)| differ(&format!("{path}.{name}"), a, b.get(name)?, tolerance)),
        _ => (one != other).then(|| format!("{path}: {one} and {other}")),
    }
}

#[test]
fn differences_are_seen() {
    let one = good(site("demonstration")).conditions;
    let mut other = one.clone();
    assert_eq!(difference(&one, &other, 0.0), None);
    other.electrical.voltage_v[2] *= 1.0 + 1e-11;
    assert!(difference(&one, &other, 1e-12).is_some_and(|text| text.contains("voltage_v[2]")));
    assert_eq!(difference(&one, &other, 1e-10), None);
    other.title.push('!');
    assert!(difference(&one, &other, 1e-10).is_some_and(|text| text.contains("title")));
}
