//! Values that are possible one by one and not together.

use super::{NAME, demonstration_with, good, refused, site};

#[track_caller]
pub(super) fn check(text: &str, line: usize, says: &[&str]) {
    let errors = refused(text);
    let message = errors.to_string();
    assert!(
        message.starts_with(&format!("{NAME}:{line}: ")),
        "wrong place: {message}"
    );
    for piece in says {
        assert!(message.contains(piece), "{piece:?} is not said: {message}");
    }
    assert_eq!(
        errors.problems.len(),
        1,
        "one mistake, one message: {message}"
    );
}

/// What is changed, to what, where the message stands, and pieces of it.
#[rustfmt::skip] // one row a line
const GEOMETRY: &[(&str, &str, &str, &[&str])] = &[
    ("\"2.7 mm\"", "\"40 mm\"", "wire_diameter =", &["collector.wire_diameter", "40 mm is too thick", "gap of 150 mm", "at most 37.5 mm"]),
    ("\"250 mm\"", "\"900 mm\"", "wire_spacing =", &["collector.wire_spacing", "900 mm apart", "50 mm to 750 mm"]),
    ("\"3 m\"", "\"0.2 m\"", "wire_spacing =", &["collector.wire_spacing", "leave none in a field of 0.2 m"]),
    ("passages = 33", "passages = 1", "flow =", &["gas.flow", "1 passages of 300 mm × 10 m", "39.6 m/s", "0.02 m/s to 15 m/s"]),
    ("\"4.0 kV/cm\"", "\"0.9 kV/cm\"", "voltage =", &["electrical.voltage", "46 kV can never be reached", "sparks at 13.5 kV", "at most 40.5 kV"]),
    ("\"600 kg/m3\"", "\"2400 kg/m3\"", "layer_density =", &["dust.layer_density", "denser than its grains of 2300"]),
];

#[test]
fn geometry_that_cannot_be() {
    for &(from, to, place, says) in GEOMETRY {
        let (text, _) = demonstration_with(from, to);
        // The message stands at the key to change, which need not be the one that was changed.
        let (_, line) = demonstration_with(place, place);
        check(&text, line, says);
    }
}

#[test]
fn a_hammer_is_described_whole_or_not_at_all() {
    let acceleration = "acceleration = \"1500 m/s2\"                   # peak, at the plate; or hammer_mass and hammer_drop";
    for (there, missing) in [
        ("hammer_mass = \"8 kg\"", "rapping.hammer_drop"),
        ("hammer_drop = \"0.6 m\"", "rapping.hammer_mass"),
    ] {
        let (text, line) = demonstration_with(acceleration, there);
        let key = there.split(' ').next().expect("a key");
        check(&text, line, &[&format!("rapping.{key}"), missing, "add it"]);
    }
    let (text, _) = demonstration_with(
        acceleration,
        "hammer_mass = \"8 kg\"\nhammer_drop = \"0.6 m\"",
    );
    let rapping = good(&text).conditions.rapping;
    assert_eq!(rapping.hammer_mass_kg, Some(8.0));
    assert_eq!(rapping.hammer_drop_m, Some(0.6));
}

const SIZES: &str = "[[\"15 um\", \"32 %\"], [\"2.5 um\", \"6 %\"]]";
const LOG_NORMAL: &str = "mass_median_diameter = \"10 um\"               # half of the mass is finer\n\
                          geometric_deviation = 3.0                    # 84 % of the mass is finer than 3 × 10 um";

/// Size tables and pieces of the answer.
#[rustfmt::skip] // one row a line
const TABLES: &[(&str, &[&str])] = &[
    ("[[\"15 um\", \"6 %\"], [\"2.5 um\", \"32 %\"]]", &["dust.sizes", "32 % is finer than 2.5 µm but only 6 %"]),
    ("[[\"15 um\", \"32 %\"], [\"15 um\", \"40 %\"]]", &["dust.sizes", "must all rise or all fall"]),
    ("[[\"1 um\", \"1 %\"], [\"9 um\", \"20 %\"], [\"5 um\", \"30 %\"]]", &["dust.sizes", "must all rise"]),
    ("[[\"15 um\", \"132 %\"]]", &["dust.sizes, entry 1 = \"132 %\"", "0 to 100 %"]),
    ("[[\"15 um\", 32]]", &["dust.sizes, entry 1 = 32", "did you mean \"32 %\"?"]),
    ("[[\"15 um\"]]", &["dust.sizes, entry 1 = [\"15 um\"]", "pairs of diameter"]),
    ("[]", &["dust.sizes = []", "list is empty"]),
    ("\"15 um\"", &["dust.sizes", "this is text", "pairs of diameter"]),
    ("[[\"15 kg\", \"32 %\"]]", &["dust.sizes, entry 1 = \"15 kg\"", "is a mass and not a length"]),
];

#[test]
fn size_tables_that_cannot_be() {
    for &(sizes, says) in TABLES {
        let (text, line) = demonstration_with(
            LOG_NORMAL,
            &format!("sizes = {sizes}\nlargest = \"100 um\""),
        );
        check(&text, line, says);
    }
    let (text, line) =
        demonstration_with(LOG_NORMAL, &format!("sizes = {SIZES}\nlargest = \"15 um\""));
    check(
        &text,
        line + 1,
        &[
            "dust.largest = \"15 um\"",
            "15 µm is not above the last diameter",
        ],
    );
    let many = format!("[{}]", vec!["[\"15 um\", \"32 %\"]"; 65].join(", "));
    let (text, line) =
        demonstration_with(LOG_NORMAL, &format!("sizes = {many}\nlargest = \"100 um\""));
    check(&text, line, &["dust.sizes", "65 points", "at most 64"]);
}

#[test]
fn one_thing_is_said_in_one_way() {
    let (text, line) = demonstration_with(
        "density = \"2300",
        &format!("sizes = {SIZES}\nlargest = \"100 um\"\ndensity = \"2300"),
    );
    let errors = refused(&text).to_string();
    assert_eq!(errors.lines().count(), 2, "{errors}");
    assert!(
        errors.contains("dust.mass_median_diameter and dust.sizes in line"),
        "{errors}"
    );
    assert!(
        errors.contains(&format!(
            "dust.geometric_deviation and dust.sizes in line {line} "
        )),
        "{errors}"
    );

    let (text, line) = demonstration_with(LOG_NORMAL, &format!("sizes = {SIZES}"));
    check(&text, line - 2, &["dust.largest: missing", "below [dust]"]);
    let (text, line) =
        demonstration_with("density = \"2300", "largest = \"100 um\"\ndensity = \"2300");
    check(&text, line, &["dust.largest", "goes with dust.sizes"]);

    let composition = "[dust.composition]\nlithium_sodium = \"0.42 %\"\niron = \"1 %\"\nmagnesium_calcium = \"1.5 %\"\npotassium = \"1.2 %\"\n";
    let (_, line) = demonstration_with("resistivity =", "resistivity =");
    check(
        &format!("{}{composition}", site("demonstration")),
        line,
        &[
            "dust.resistivity and dust.composition.lithium_sodium",
            "keep one",
        ],
    );
    let (text, _) = demonstration_with("resistivity = \"2e10 ohm.cm\"", "");
    good(&format!("{text}{composition}"));
    let line = text.lines().count() + 1;
    check(
        &format!("{text}{}", composition.replace("iron = \"1 %\"\n", "")),
        line,
        &["dust.composition.iron: missing"],
    );
}
