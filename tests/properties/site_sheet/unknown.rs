//! Keys and sections that nobody knows, keys that are missing, and several mistakes at once.

use super::{demonstration_with, mistakes::check, refused, site};

const FLOW: &str = "flow = \"118.8 m3/s\"";
const FIELDS: &str = "fields = 4";
const VOLTAGE: &str = "voltage = [\"46 kV\", \"45 kV\", \"44 kV\", \"43 kV\"]";

#[test]
fn unknown_keys() {
    for (added, says) in [
        (
            "velocity_sprad = \"1 %\"",
            &[
                "gas.velocity_sprad",
                "did you mean \"velocity_spread\"",
                "[gas] takes flow",
            ][..],
        ),
        (
            "voltage = \"45 kV\"",
            &["gas.voltage", "belongs below [electrical]"],
        ),
        (
            "colour = \"red\"",
            &["gas.colour", "unknown key; [gas] takes"],
        ),
    ] {
        let (text, line) = demonstration_with(FLOW, &format!("{FLOW}\n{added}"));
        check(&text, line + 1, says);
    }
    for (first, says) in [
        ("flow = \"1 m3/s\"", &["flow", "belongs below [gas]"][..]),
        (
            "titel = \"A\"",
            &["titel", "did you mean \"title\"", "below [site]"],
        ),
        ("zzz = 1", &["zzz", "every key stands below its section"]),
    ] {
        check(&format!("{first}\n{}", site("demonstration")), 1, says);
    }
}

#[test]
fn unknown_sections() {
    for (from, to, says) in [
        (
            "[rapping]",
            "[raping]",
            &[
                "raping",
                "unknown section",
                "did you mean \"rapping\"",
                "[hoppers]",
            ][..],
        ),
        (
            "[rapping]",
            "[economics]",
            &["economics", "unknown section; the sections are [site]"],
        ),
        (
            "[site]\n",
            "[[site]]\n",
            &[
                "site",
                "a list of sections written with [[ ]]",
                "write [site]",
            ],
        ),
    ] {
        let (text, line) = demonstration_with(from, to);
        check(&text, line, says);
    }
    let (text, line) = demonstration_with("[site]\ntitle", "[site.title]\nname");
    check(
        &text,
        line,
        &["site.title", "this is a section", "write text"],
    );
}

#[test]
fn misspelt_sections_and_keys_are_not_called_missing_as_well() {
    let (text, line) = demonstration_with("[gas]", "[gass]");
    check(&text, line, &["gass", "did you mean \"gas\""]);
    let (text, line) = demonstration_with("flow =", "flwo =");
    check(&text, line, &["gas.flwo", "did you mean \"flow\""]);
}

#[test]
fn missing_keys() {
    for (from, key, example) in [
        (FLOW, "gas.flow", "\"118.8 m3/s\""),
        (
            "temperature = \"150 °C\"",
            "gas.temperature",
            "\"150 °C\" or \"302 °F\"",
        ),
        (FIELDS, "collector.fields", "such as 4"),
        ("passages = 33", "collector.passages", "such as 33"),
        (
            "plate_spacing = \"300 mm\"",
            "collector.plate_spacing",
            "\"300 mm\" or \"11.81 in\"",
        ),
        (
            "plate_height = \"10 m\"",
            "collector.plate_height",
            "\"10 m\"",
        ),
        (
            "field_length = \"3 m\"",
            "collector.field_length",
            "\"3 m\"",
        ),
        ("load = \"8 g/m3\"", "dust.load", "\"8 g/m3\""),
        (VOLTAGE, "electrical.voltage", "\"46 kV\""),
    ] {
        let (text, _) = demonstration_with(from, "");
        let section = key.split('.').next().unwrap_or_default();
        let heading = text
            .lines()
            .position(|line| line == format!("[{section}]"))
            .map_or(0, |index| index + 1);
        check(
            &text,
            heading,
            &[
                &format!("{key}: missing; add"),
                &format!("below [{section}]"),
                example,
            ],
        );
    }
    let all = refused("").to_string();
    assert!(all.starts_with("site.toml: gas.flow: missing"), "{all}");
    assert_eq!(all.lines().count(), 9, "nine keys are required: {all}");
}

#[test]
fn all_mistakes_are_told_at_once_in_the_order_of_their_lines() {
    let (text, first) = demonstration_with(FLOW, "flow = \"5 m\"");
    let text = text
        .replace("kind = \"dry\"", "kind = \"damp\"")
        .replace("\"30 m3\"", "\"30 m2\"");
    let message = refused(&text).to_string();
    let lines: Vec<&str> = message.lines().collect();
    assert_eq!(lines.len(), 3, "{message}");
    assert!(
        lines[0].starts_with(&format!("site.toml:{first}: gas.flow"))
            && lines[0].ends_with("(1 of 3 problems)"),
        "{message}"
    );
    assert!(
        lines[1].contains("collector.kind") && lines[2].contains("hoppers.volume"),
        "{message}"
    );
}
