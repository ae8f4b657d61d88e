//! Checks that run the plant clock: what they must name, that they run alike every time, and that they can disagree.

use ashlane_lessons::engine::{Quantity, Reading, examine, play};
use ashlane_shared::checks::Verdict;

use super::{NAME, fly, good, refused, sample_with};

/// The second check of the sample, which is replaced.
const SECOND: &str = "quantity = \"efficiency\"
relation = \"equals\"
formula = \"finite_mixing_penetration\"
tolerance = \"20 %\"
parcels = 8000";

/// The sample with this for its second check.
fn sample_of(check: &str) -> String {
    sample_with(SECOND, check).0
}

/// A check of ash that falls into a row, with these lines more.
fn row_ash(more: &str) -> String {
    sample_of(&format!(
        "quantity = \"row_ash\"\nrelation = \"equals\"\nformula = \"row_ash\"\ntolerance = \"5 %\"\nparcels = 8000\n{more}"
    ))
}

#[test]
fn a_check_on_the_plant_clock_names_its_time_and_its_field() {
    for (text, words) in [
        (row_ash("field = 1"), ["check 2.time: missing", ""]),
        (row_ash("time = \"2 h\""), ["check 2.field: missing", ""]),
        (
            row_ash("time = \"2 h\"\nfield = 0"),
            ["check 2.field", "1 to 12"],
        ),
        (
            row_ash("time = \"2 m\"\nfield = 1"),
            ["check 2.time", "such as \"24 h\""],
        ),
        (
            row_ash("time = \"9700 h\"\nfield = 1"),
            ["check 2.time", "400 days"],
        ),
        (
            sample_of(&format!("{SECOND}\ntime = \"2 h\"")),
            [
                "check 2.time",
                "not read on the plant clock; take this away",
            ],
        ),
        (
            sample_of(
                "quantity = \"mean_penetration\"\nrelation = \"equals\"\nformula = \"loss_floor\"\ntolerance = \"5 %\"\nparcels = 8000\ntime = \"2 h\"\nfield = 1",
            ),
            ["check 2.field", "not that of a field"],
        ),
        (
            sample_of(
                "quantity = \"penetration\"\nrelation = \"equals\"\nformula = \"mixed_ash\"\ntolerance = \"5 %\"\nparcels = 8000",
            ),
            [
                "check 2.formula",
                "not read on the plant clock; take another",
            ],
        ),
    ] {
        let told = refused(&text).to_string();
        for word in words {
            assert!(told.contains(word), "{word:?} is not in {told}");
        }
    }
}

#[test]
fn a_field_that_is_not_there_is_told_at_its_line() {
    let lesson = good(&row_ash("time = \"2 h\"\nfield = 7"));
    let told = examine(NAME, &lesson)
        .expect_err("there are two fields")
        .to_string();
    assert!(
        told.contains("segment 1.check 2") && told.contains("field"),
        "{told}"
    );
}

/// The reading of the first segment.
fn first_reading(text: &str) -> Reading {
    let outcome = play(&good(text), &mut fly).unwrap_or_else(|error| panic!("{error}"));
    outcome.steps[0].reading.clone().expect("measured")
}

#[test]
fn a_plant_runs_alike_every_time_and_its_check_can_disagree() {
    // Mass balance: dust found against dust that came; between start and target nothing but a field differs.
    let dust = |formula: &str| {
        sample_of(&format!(
            "quantity = \"dust_found\"\nrelation = \"equals\"\nformula = \"{formula}\"\ntolerance = \"0.1 %\"\nparcels = 8000\nsettle = \"1 h\"\ntime = \"2 h\""
        ))
    };
    // A plant cannot get a second field while it runs: that is told and nothing is made up.
    let refused = play(&good(&dust("dust_that_came")), &mut fly).expect_err("another machine");
    assert!(refused.to_string().contains("fields"), "{refused}");
    let fresh = |formula: &str| dust(formula).replace("settle = \"1 h\"\n", "");
    let (one, other) = (
        first_reading(&fresh("dust_that_came")),
        first_reading(&fresh("dust_that_came")),
    );
    assert_eq!(one, other);
    let check = &one.checks[1];
    assert_eq!(
        (check.quantity, check.verdict),
        (Quantity::DustFound, Verdict::Agree)
    );
    assert_eq!(check.parcels, 8000);
    // By hand: 8 g/m³ of 80.143 m³/s.
    assert!((check.measured / 0.641_144 - 1.0).abs() < 1e-6, "{check:?}");
    let wrong = first_reading(&fresh("row_ash"));
    assert_eq!(
        wrong.checks[1].verdict,
        Verdict::Disagree,
        "a part is not the whole"
    );
}
