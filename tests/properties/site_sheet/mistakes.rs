//! Every mistake in one value is refused with file, line, key, value, range and what to do.

use super::{NAME, demonstration_with, refused};

/// A piece of the demonstration, what a user wrote instead, and pieces of the answer.
struct Mistake {
    from: &'static str,
    to: &'static str,
    says: &'static [&'static str],
}

const fn mistake(from: &'static str, to: &'static str, says: &'static [&'static str]) -> Mistake {
    Mistake { from, to, says }
}

const FLOW: &str = "flow = \"118.8 m3/s\"";
const FIELDS: &str = "fields = 4";
const VOLTAGE: &str = "voltage = [\"46 kV\", \"45 kV\", \"44 kV\", \"43 kV\"]";

#[rustfmt::skip] // one row a line
const QUANTITIES: &[Mistake] = &[
    mistake(FLOW, "flow = \"5 m\"", &["gas.flow = \"5 m\"", "\"m\" is a length", "\"118.8 m3/s\" or \"251700 acfm\"", "(0.1 to 5000 m3/s)"]),
    mistake(FLOW, "flow = \"118.8 m3/sec\"", &["gas.flow", "unknown unit \"m3/sec\"", "did you mean \"m3/s\"", "acfm"]),
    mistake(FLOW, "flow = \"118.8\"", &["gas.flow = \"118.8\"", "unit is missing", "\"118.8 m3/s\""]),
    mistake(FLOW, "flow = 118.8", &["gas.flow = 118.8", "unit is missing"]),
    mistake(FLOW, "flow = \"118,8 m3/s\"", &["gas.flow", "point, not a comma", "118.8"]),
    mistake(FLOW, "flow = \"251,700 acfm\"", &["gas.flow", "251700 or 251.700"]),
    mistake(FLOW, "flow = \"251 700 acfm\"", &["gas.flow", "without separators", "251700"]),
    mistake(FLOW, "flow = \"\"", &["gas.flow = \"\"", "nothing is written"]),
    mistake(FLOW, "flow = \"much\"", &["gas.flow = \"much\"", "does not begin with a number"]),
    mistake(FLOW, "flow = \"nan m3/s\"", &["gas.flow", "not a finite number"]),
    mistake(FLOW, "flow = \"1e400 m3/s\"", &["gas.flow", "not a finite number"]),
    mistake(FLOW, "flow = inf", &["gas.flow = inf", "not a finite number"]),
    mistake(FLOW, "flow = true", &["gas.flow = true", "this is true or false", "write a flow"]),
    mistake(FLOW, "flow = [\"118.8 m3/s\"]", &["gas.flow", "this is a list", "write a flow"]),
    mistake(FLOW, "flow = { value = 3 }", &["gas.flow", "this is a table"]),
    mistake(FLOW, "flow = 1979-05-27", &["gas.flow", "this is a date or time"]),
    mistake(FLOW, "flow = \"6000 m3/s\"", &["gas.flow = \"6000 m3/s\"", "outside the allowed range 0.1 to 5000 m3/s"]),
    mistake(FLOW, "flow = \"-5 m3/s\"", &["gas.flow = \"-5 m3/s\"", "0.1 to 5000 m3/s"]),
    mistake(FLOW, "flow = \"20000000 acfm\"", &["gas.flow", "211.9 to 1.059e7 acfm (0.1 to 5000 m3/s)"]),
    mistake("\"150 °C\"", "\"2000 °F\"", &["gas.temperature = \"2000 °F\"", "32 to 932 °F (0 to 500 °C)"]),
    mistake("moisture = \"8 %\"", "moisture = 8", &["gas.moisture = 8", "0 to 0.6 (0 to 60 %)", "did you mean \"8 %\"?"]),
    mistake("wire_roughness = 0.85", "wire_roughness = \"0.85 m\"", &["collector.wire_roughness", "without a unit"]),
    mistake("wire_roughness = 0.85", "wire_roughness = nan", &["collector.wire_roughness = nan", "not a finite number"]),
    mistake("wire_roughness = 0.85", "wire_roughness = 2.0", &["collector.wire_roughness = 2.0", "0.3 to 1"]),
    mistake("\"8 g/m3\"", "\"900 g/Nm3\"", &["dust.load = \"900 g/Nm3\"", "0.00155 to 309.8 g/Nm3 (0.001 to 200 g/m3)"]),
    mistake("\"2e10 ohm.cm\"", "\"2×10^10 ohm.cm\"", &["dust.resistivity", "such as 2e10"]),
    mistake("\"2e10 ohm.cm\"", "\"2e10 Ohm.cm\"", &["dust.resistivity", "did you mean \"ohm.cm\""]),
    mistake("\"0 ppm\"", "\"900 ppm\"", &["gas.so3 = \"900 ppm\"", "0 to 200 ppm"]),
];

#[rustfmt::skip] // one row a line
const OTHERS: &[Mistake] = &[
    mistake(FIELDS, "fields = 4.0", &["collector.fields = 4.0", "decimal point", "such as 4", "(1 to 12)"]),
    mistake(FIELDS, "fields = \"4\"", &["collector.fields = \"4\"", "this is text", "without quotation marks"]),
    mistake(FIELDS, "fields = 0", &["collector.fields = 0", "1 to 12"]),
    mistake(FIELDS, "fields = -3", &["collector.fields = -3", "1 to 12"]),
    mistake(FIELDS, "fields = 13", &["collector.fields = 13", "1 to 12"]),
    mistake(FIELDS, "fields = 0x7fffffffffffffff", &["collector.fields", "1 to 12"]),
    mistake("kind = \"dry\"", "kind = \"Dry\"", &["collector.kind = \"Dry\"", "did you mean \"dry\"", "\"dry\" or \"wet\""]),
    mistake("kind = \"dry\"", "kind = 1", &["collector.kind = 1", "a whole number", "\"dry\" or \"wet\""]),
    mistake("electrode = \"wire\"", "electrode = \"rigid_mast\"", &["appearance.electrode", "did you mean \"rigid mast\"", "\"spiked strip\""]),
    mistake("rapper = \"tumbling hammer\"", "rapper = \"fist\"", &["appearance.rapper", "unknown word;", "\"roof rapper\""]),
    mistake("title = \"Demonstration collector\"", "title = \"\"", &["site.title = \"\"", "1 to 80"]),
    mistake("title = \"Demonstration collector\"", "title = \"a\\nb\"", &["site.title", "all on one line"]),
    mistake("title = \"Demonstration collector\"", "title = 5", &["site.title = 5", "a whole number", "write text"]),
    mistake(VOLTAGE, "voltage = []", &["electrical.voltage = []", "list is empty"]),
    mistake(VOLTAGE, "voltage = [\"1 kV\", \"1 kV\", \"1 kV\", \"1 kV\", \"1 kV\"]", &["electrical.voltage", "5 entries for 4 fields", "at most 4", "repeats its last"]),
    mistake(VOLTAGE, "voltage = [\"46 kV\", \"45 mA\"]", &["electrical.voltage, entry 2 = \"45 mA\"", "is a current and not a voltage"]),
    mistake(VOLTAGE, "voltage = [\"46 kV\", 45]", &["electrical.voltage, entry 2 = 45", "unit is missing"]),
    mistake(VOLTAGE, "voltage = [\"46 kV\", [\"1 kV\"]]", &["electrical.voltage, entry 2 = [\"1 kV\"]", "this is a list"]),
    mistake(VOLTAGE, "voltage = \"200 kV\"", &["electrical.voltage = \"200 kV\"", "0 to 150 kV"]),
];

/// Pieces added below `[teaching]` or `[names]`, which the demonstration does not have.
#[rustfmt::skip] // one row a line
const ADDED: &[(&str, &[&str])] = &[
    ("[teaching]\nmixing = \"ful\"", &["teaching.mixing = \"ful\"", "did you mean \"full\"", "diffusivity"]),
    ("[teaching]\nmixing = { diffusivity = \"2 m\" }", &["teaching.mixing = \"2 m\"", "is a length", "m2/s"]),
    ("[teaching]\nmixing = { diffusivity = \"9 m2/s\" }", &["teaching.mixing = \"9 m2/s\"", "1e-7 to 1 m2/s"]),
    ("[teaching]\nmixing = { speed = \"9 m2/s\" }", &["teaching.mixing", "without the one key diffusivity"]),
    ("[teaching]\nmixing = 3", &["teaching.mixing = 3", "a whole number", "\"none\" or \"full\""]),
    ("[teaching]\nmigration_velocity = \"90 m/s\"", &["teaching.migration_velocity", "1e-6 to 20 m/s (1e-4 to 2000 cm/s)"]),
    ("[teaching]\nprofile = \"round\"", &["teaching.profile = \"round\"", "\"flat\" or \"parabolic\""]),
    ("[names]\nstak = \"chimney\"", &["names.stak", "did you mean \"stack\""]),
    ("[names]\nfield_13 = \"M\"", &["names.field_13", "unknown key"]),
    ("[names]\nstack = \"a name that is much too long for the drawing of it\"", &["names.stack", "1 to 40"]),
];

/// The first line must stand alone: file, line, key, and what is wrong.
#[track_caller]
pub(super) fn check(text: &str, line: usize, says: &[&str]) {
    let errors = refused(text);
    let message = errors.to_string();
    let first = message.lines().next().unwrap_or_default();
    assert!(
        first.starts_with(&format!("{NAME}:{line}: ")),
        "wrong place: {message}"
    );
    for piece in says {
        assert!(first.contains(piece), "{piece:?} is not said: {message}");
    }
    assert_eq!(
        errors.problems.len(),
        1,
        "one mistake, one message: {message}"
    );
}

#[test]
fn wrong_quantities() {
    for Mistake { from, to, says } in QUANTITIES {
        let (text, line) = demonstration_with(from, to);
        check(&text, line, says);
    }
}

#[test]
fn wrong_words_counts_texts_and_lists() {
    for Mistake { from, to, says } in OTHERS {
        let (text, line) = demonstration_with(from, to);
        check(&text, line, says);
    }
}

#[test]
fn wrong_additions() {
    let (text, _) = demonstration_with("[site]", "[site]");
    let line = text.lines().count() + 2;
    for (added, says) in ADDED {
        check(&format!("{text}{added}\n"), line, says);
    }
}

#[test]
fn the_line_of_an_entry_is_its_own() {
    let (text, line) = demonstration_with(VOLTAGE, "voltage = [\n  \"46 kV\",\n  \"45 m\",\n]");
    check(&text, line + 2, &["electrical.voltage, entry 2 = \"45 m\""]);
}
