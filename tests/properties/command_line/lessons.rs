//! `lesson list`, `lesson check` and `lesson run`.

use super::{ashlane, file, whole_catalog, words};

/// Every kind of question, few parcels.
const SAMPLE: &str = include_str!("../lessons/sample.toml");

#[test]
fn the_list_names_every_lesson() {
    let ran = words("lesson list");
    assert_eq!(ran.code(), 0);
    for part in [
        "minutes",
        "competencies",
        "L5",
        "Twice the plate area",
        "K7",
        "Not a procedure.",
    ] {
        assert!(ran.out.contains(part), "no {part:?} in\n{}", ran.out);
    }
}

#[test]
fn the_catalog_passes_its_own_check() {
    let ran = words("lesson check");
    assert_eq!(ran.code(), 0, "{ran:?}");
    assert_eq!(
        ran.out.lines().count(),
        ashlane_lessons::catalog::LESSONS.len()
    );
}

#[test]
fn a_malformed_file_is_told_with_its_line_and_the_others_are_still_checked() {
    let good = file("good.toml", SAMPLE);
    let bad = file("bad.toml", SAMPLE.replace("minutes = 12", "minutes = 99"));
    let already = file(
        "already.toml",
        SAMPLE.replacen(
            "formula = \"deutsch_anderson_penetration\"",
            "formula = \"finite_mixing_penetration\"\nat = \"before\"",
            1,
        ),
    );
    let missing = good.with_file_name("missing.toml");
    let paths = [&bad, &good, &already, &missing].map(|path| path.clone().into_os_string());
    let ran = ashlane(["lesson".into(), "check".into()].into_iter().chain(paths));
    assert_eq!(ran.code(), 2);
    assert!(ran.err.contains("bad.toml:7: minutes = 99"), "{}", ran.err);
    assert!(
        ran.err.contains("already.toml:43: segment 1.check 1"),
        "{}",
        ran.err
    );
    assert!(
        ran.err.contains("missing.toml: cannot be read"),
        "{}",
        ran.err
    );
    assert!(ran.out.contains("good.toml: fine: T1"), "{}", ran.out);
    assert_eq!(ran.out.lines().count(), 1, "{}", ran.out);
}

#[test]
fn a_run_prints_prediction_measurement_formula_tolerance_and_verdict() {
    let path = file("sample.toml", SAMPLE);
    let ran = ashlane(["lesson".as_ref(), "run".as_ref(), path.as_os_str()]);
    assert_eq!(ran.code(), 0, "{ran:?}");
    for part in [
        "Teaching model. Not a procedure.",
        "T1 Every kind of question (revision 3, 12 minutes)",
        "Ideal: 9.32 cm/s (0.306 ft/s), full mixing, no losses",
        "collector.fields from 1 to 2",
        "from 80.14 m³/s (169800 acfm) to 160.3 m³/s (339600 acfm)",
        "before  penetration",
        "after   penetration",
        "efficiency",
        "tolerance",
        "equals Deutsch–Anderson",
        "right   three, two, one",
        "wrong   one, two, three: explained as \"the more plate, the more gets through\"",
        "3 of 3 checks agree",
    ] {
        assert!(ran.out.contains(part), "no {part:?} in\n{}", ran.out);
    }
}

#[test]
fn a_formula_that_disagrees_ends_with_exit_code_one() {
    let wrong = SAMPLE.replacen("deutsch_anderson_penetration", "laminar_penetration", 1);
    let path = file("wrong.toml", wrong);
    for json in [false, true] {
        let mut args = vec!["lesson".into(), "run".into(), path.clone().into_os_string()];
        args.extend(json.then(|| "--json".into()));
        let ran = ashlane(args);
        assert_eq!(ran.code(), 1, "{ran:?}");
        let word = if json { "\"disagree\"" } else { "DISAGREE" };
        assert!(ran.out.contains(word), "{}", ran.out);
    }
}

#[test]
fn the_whole_catalog_agrees_and_explains_every_wrong_answer() {
    let result = whole_catalog();
    assert_eq!(result["verdict"], "agree");
    let lessons = result["lessons"].as_array().expect("lessons");
    assert_eq!(lessons.len(), ashlane_lessons::catalog::LESSONS.len());
    for lesson in lessons {
        let steps = lesson["steps"].as_array().expect("steps");
        assert_eq!(
            steps.last().map(|step| &step["id"]),
            Some(&"transfer".into())
        );
        for step in steps {
            let answers = step["answers"].as_array().expect("answers");
            let [model, wrong @ ..] = answers.as_slice() else {
                panic!("no answer: {step}")
            };
            assert_ne!(model["right"], false, "{step}");
            for answer in wrong {
                assert_eq!(answer["right"], false, "{answer}");
                assert!(answer["misconception"].is_string(), "{answer}");
            }
        }
    }
}
