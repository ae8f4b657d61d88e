//! Text that is no TOML, and TOML written in other ways than the demonstration.

use super::{clashes::check, demonstration_with, good, refused, site};

#[test]
fn text_that_is_not_toml() {
    for (from, to, says) in [
        (
            "flow = \"118.8 m3/s\"",
            "flow = 118.8 m3/s",
            &["flow = 118.8 m3/s", "not valid TOML", "name = \"value\""][..],
        ),
        (
            "flow = \"118.8 m3/s\"",
            "flow \"118.8 m3/s\"",
            &["not valid TOML"],
        ),
        (
            "flow = \"118.8 m3/s\"",
            "flow = \"118.8 m3/s",
            &["not valid TOML"],
        ),
        ("[gas]", "[gas", &["[gas: not valid TOML"]),
        (
            "fields = 4",
            "fields = 99999999999999999999",
            &["fields = 99999999999999999999", "not valid TOML"],
        ),
    ] {
        let (text, line) = demonstration_with(from, to);
        check(&text, line, says);
    }
    let (text, line) = demonstration_with("fields = 4", "fields = 4\nfields = 4");
    check(&text, line + 1, &["collector.fields: written twice"]);
    let again = format!("{}[gas]\nflow = \"1 m3/s\"\n", site("demonstration"));
    check(
        &again,
        site("demonstration").lines().count() + 1,
        &["gas: written twice"],
    );
}

#[test]
fn a_broken_line_does_not_hide_the_others() {
    let (text, line) = demonstration_with("flow = \"118.8 m3/s\"", "flow = 118.8 m3/s");
    let text = text.replace("\"30 m3\"", "\"30 m2\"");
    let message = refused(&text).to_string();
    let lines: Vec<&str> = message.lines().collect();
    assert_eq!(lines.len(), 2, "{message}");
    assert!(
        lines[0].starts_with(&format!("site.toml:{line}: flow = 118.8")),
        "{message}"
    );
    assert!(
        lines[1].contains("hoppers.volume = \"30 m2\"") && lines[1].contains("is an area"),
        "{message}"
    );
}

#[test]
fn other_ways_to_write_toml_are_read_too() {
    let expected = good(site("demonstration")).conditions;
    let dotted = "gas.flow = \"118.8 m3/s\"\ngas.temperature = \"150 °C\"\n\
        collector = { fields = 4, passages = 33, plate_spacing = '300 mm', plate_height = \"10 m\", field_length = \"3 m\" }\n\
        site.title = \"Demonstration collector\"\n\"dust\".load = \"\"\"8 g/m3\"\"\"\n\
        electrical.voltage = [\"46 kV\", \"45 kV\", \"44 kV\", \"43 kV\"]";
    assert_eq!(good(dotted).conditions, expected);
    assert_eq!(
        good(&format!("\u{feff}{}", site("demonstration"))).conditions,
        expected
    );
    assert_eq!(
        good(&site("demonstration").replace('\n', "\r\n")).conditions,
        expected
    );
}
