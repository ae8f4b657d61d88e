//! `simulate` for people, and the run without a display.

use ashlane_lessons::command_line::{Io, Outcome, headless, run};

use std::sync::OnceLock;

use super::{Ran, words};

/// The table of the demonstration, once for all tests.
fn table() -> &'static Ran {
    static TABLE: OnceLock<Ran> = OnceLock::new();
    TABLE.get_or_init(|| words("simulate demonstration --parcels 20000"))
}

#[test]
fn the_table_shows_count_and_theory_with_verdict() {
    let ran = words("simulate demonstration --parcels 20000");
    assert_eq!(ran.code(), 0, "{ran:?}");
    assert!(
        ran.err.is_empty(),
        "no progress bar without a terminal: {}",
        ran.err
    );
    for part in [
        "Demonstration collector",
        "Teaching model. Not a procedure.",
        "118.8 m³/s (251700 acfm)",
        "penetration %",
        "efficiency %",
        "N = 20,000, seed 1",
        "finite mixing",
        "Deutsch–Anderson",
        "laminar",
        "agree.",
        "leaves out: imperfect mixing",
        "rapping loss 12.4 %",
        "By field",
        "setting",
        "nA/cm²",
        "By size",
        "Péclet number Pe",
        "Mass balance: in 3421 kg/h (7543 lb/h)",
    ] {
        assert!(ran.out.contains(part), "no {part:?} in\n{}", ran.out);
    }
    for line in ran.out.lines() {
        assert!(
            line.chars().count() <= 130 && line.trim_end() == line,
            "{line:?}"
        );
    }
}

#[test]
fn penetration_and_efficiency_of_a_row_make_a_hundred() {
    let ran = table();
    for name in ["counted", "finite mixing", "Deutsch–Anderson", "laminar"] {
        let line = ran
            .out
            .lines()
            .find(|line| line.starts_with(&format!("  {name} ")))
            .unwrap_or_else(|| panic!("no row {name}"));
        let numbers: Vec<f64> = line
            .split_whitespace()
            .filter_map(|word| word.parse().ok())
            .collect();
        // The counted row has its uncertainty between the two.
        let (first, last) = if name == "counted" {
            (numbers[0], numbers[2])
        } else {
            (numbers[0], numbers[1])
        };
        assert!((first + last - 100.0).abs() < 1e-3, "{line}");
    }
}

#[test]
fn a_field_that_is_held_back_says_by_what() {
    let sheet = std::fs::read_to_string(super::one_field()).expect("a sheet");
    let sheet = sheet.replace("\"46 kV\"", "\"70 kV\"");
    let path = super::file("held.toml", sheet);
    let ran = super::ashlane([
        "simulate".as_ref(),
        path.as_os_str(),
        "--parcels".as_ref(),
        "5000".as_ref(),
    ]);
    assert!(!ran.out.contains("70  setting"), "{}", ran.out);
    assert!(
        ran.out.contains("current limit") || ran.out.contains("sparking"),
        "{}",
        ran.out
    );
}

#[test]
fn without_a_display_the_demonstration_is_counted() {
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let mut io = Io {
        out: &mut out,
        err: &mut err,
        err_is_terminal: false,
        go_on: &|| true,
    };
    let Outcome::Window(opened) = run(["ashlane".into()], &mut io) else {
        panic!("no words open no window");
    };
    let code = headless(&opened, &mut io);
    let (out, err) = (
        String::from_utf8_lossy(&out).into_owned(),
        String::from_utf8_lossy(&err).into_owned(),
    );
    assert_eq!(code, 0, "{err}");
    assert!(err.contains("no display"), "{err}");
    assert!(
        out.contains("N = 200,000") && out.contains("agree."),
        "{out}"
    );
}
