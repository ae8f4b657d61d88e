//! Every mistake in a lesson file is told with its line, its key and what to write instead.

use super::{NAME, SAMPLE, refused, sample_with};

/// One mistake: text, what replaces it, offset of the line that is blamed, and words of the message.
type Mistake = (&'static str, &'static str, usize, &'static [&'static str]);

// One row a line, so that it reads as the table it is.
#[rustfmt::skip]
const MISTAKES: &[Mistake] = &[
    ("title = \"Every", "titel = \"Every", 0, &["titel: unknown key", "did you mean \"title\"?"]),
    ("minutes = 12", "minutes = 99", 0, &["minutes = 99", "1 to 60"]),
    ("minutes = 12", "minutes = \"12\"", 0, &["this is text", "without quotation marks"]),
    ("id = \"T1\"", "id = \"T 1\"", 0, &["letters, digits and hyphens"]),
    ("\"K7\", \"A6\"", "\"K77\", \"A6\"", 0, &["unknown code", "did you mean \"K7\"?"]),
    ("[\"C1\"]", "[\"C99\"]", 0, &["cautions = \"C99\"", "unknown code"]),
    ("{9.32 cm/s}, full", "{9.32 parsec}, full", 0, &["column.ideal.title", "9.32 parsec"]),
    ("collector.fields = 1,", "collector.fields = 99,", 0, &["collector.fields = 99", "1 to 12"]),
    ("collector.fields = 1,", "collector.feilds = 1,", 0, &["did you mean \"fields\"?"]),
    ("column = \"ideal\"", "column = \"ideel\"", 0, &["segment 1.column", "did you mean \"ideal\"?"]),
    ("\"collector.fields\", \"gas.flow\"", "\"collector.field\", \"gas.flow\"", 0, &["segment 1.free", "did you mean \"collector.fields\"?"]),
    ("view = \"plan\"", "view = \"plam\"", 0, &["segment 1.look.view", "did you mean \"plan\"?"]),
    ("part = \"gas_passage\"", "part = \"gas_pasage\"", 0, &["did you mean \"gas_passage\"?"]),
    ("layers = [\"tracers\"]", "layers = [\"tracer\"]", 0, &["unknown layer", "\"tracers\""]),
    ("kind = \"order\"", "kind = \"odrer\"", 0, &["did you mean \"order\"?"]),
    ("answer = \"right\"", "answer = \"rihgt\"", 0, &["segment 1.predict.answer", "did you mean \"right\"?"]),
    ("[\"three\", \"two\", \"one\"]", "[\"three\", \"two\", \"four\"]", 0, &["predict.option 1.order = \"four\"", "unknown item"]),
    ("[\"three\", \"two\", \"one\"]", "[\"three\", \"two\"]", 0, &["name all 3 items"]),
    ("{ id = \"other\", text = \"any other\", otherwise = true },\n]\n\n[segment.observe]\ntask = \"Set", "]\n\n[segment.observe]\ntask = \"Set", 0, &["fall into no option", "otherwise = true"]),
    ("from = 1, to = 2", "from = 3, to = 2", 0, &["change 1.from = 3", "starts with 1 here"]),
    ("from = 1, to = 2", "from = 1, to = 1", 0, &["change 1.to = 1", "nothing changes"]),
    ("from = 1, to = 2", "from = 1, to = 40", 0, &["change 1.to = 40", "1 to 12"]),
    ("from = 1, to = 2", "from = 1", 0, &["change 1.to: missing", "a value of collector.fields"]),
    ("key = \"collector.fields\"", "key = \"collector.passages\"", 0, &["this control is locked", "add \"collector.passages\" to free"]),
    ("to = \"160.286 m3/s\"", "to = \"160.286 m3\"", 0, &["change 1.to", "m3"]),
    ("to = \"160.286 m3/s\"", "to = \"4000 m3/s\"", 0, &["after the change", "gas.flow"]),
    ("quantity = \"efficiency\"", "quantity = \"efficency\"", 0, &["segment 1.check 2.quantity", "did you mean \"efficiency\"?"]),
    ("relation = \"equals\"", "relation = \"equal\"", 0, &["did you mean \"equals\"?"]),
    ("formula = \"deutsch_anderson_penetration\"", "formula = \"deutsch_andersen_penetration\"", 0, &["unknown formula", "did you mean \"deutsch_anderson_penetration\"?"]),
    ("relation = \"equals\"", "relation = \"between\"", 0, &["check 1.upper: missing"]),
    ("quantity = \"efficiency\"", "quantity = \"grain_charge\"", 1, &["segment 1.check 2.size", "add size = \"1 µm\""]),
    ("quantity = \"efficiency\"", "quantity = \"onset_voltage\"", 2, &["segment 1.check 2.formula", "something else than onset voltage", "\"white_peek_onset\""]),
    ("parcels = 8000", "parcels = 8000\nsize = \"5 µm\"", 1, &["segment 1.check 1.size", "take this away"]),
    ("quantity = \"penetration\"", "size = \"5 mm\"\nquantity = \"size_penetration\"", 0, &["segment 1.check 1.size", "0.01 to 1000 µm"]),
    ("tolerance = \"20 %\"", "tolerance = \"200 %\"", 0, &["check 1.tolerance", "0.1 to 50 %"]),
    ("tolerance = \"20 %\"", "tolerance = 0.2", 0, &["check 1.tolerance", "such as \"5 %\""]),
    ("parcels = 8000", "parcels = 80", 0, &["check 1.parcels = 80", "1000 to 5000000"]),
    ("parcels = 20000", "parcels = 20000\nat = \"before\"", 1, &["check 1.at", "a ratio"]),
    ("misconception = \"backwards\"", "misconception = \"backward\"", 0, &["did you mean \"backwards\"?"]),
    ("option = \"reverse\"", "option = \"right\"", 0, &["this option is right"]),
    ("longest = 100", "longest = 5", 0, &["transfer.predict.longest = 5", "20 to 1000"]),
    ("backwards = \"the more", "unused = \"nobody thinks so\"\nbackwards = \"the more", 0, &["misconceptions.unused", "use it or take it away"]),
    ("id = \"match\"", "id = \"order\"", 0, &["called \"order\" already"]),
    ("[column.ideal]", "[column.\"i d\"]", 0, &["column.i d", "letters, digits and hyphens"]),
    ("change = [{ key = \"collector.fields\", from = 1, to = 2 }]", "change = [{ key = \"collector.fields\", from = 1, to = 3 }, { key = \"collector.fields\", from = 1, to = 2 }]", 0, &["change 1.to = 3", "a later change leaves 2 here", "keep one change of it"]),
    ("guessing = \"any", "\"a\\nb\" = \"any", 0, &["misconceptions.a b", "letters, digits and hyphens"]),
];

#[test]
fn every_mistake_names_line_key_and_mend() {
    for &(from, to, offset, words) in MISTAKES {
        let (text, line) = sample_with(from, to);
        let message = refused(&text).to_string();
        let blamed: Vec<&str> = message
            .lines()
            .filter(|told| words.iter().all(|word| told.contains(word)))
            .collect();
        let [blamed] = blamed.as_slice() else {
            panic!("{to:?} must be told once with {words:?}:\n{message}")
        };
        let told = blamed
            .strip_prefix(&format!("{NAME}:"))
            .and_then(|rest| rest.split(':').next()?.trim().parse().ok())
            .unwrap_or(0_usize);
        // Tables are blamed at their heading, a few lines above their keys.
        let expected = line + offset;
        assert!(
            told == expected
                || (told < expected && blamed.contains("missing"))
                || heading_blamed(blamed, told, expected),
            "{to:?} stands in line {expected}:\n{blamed}"
        );
    }
}

/// Whether a whole table is meant, which begins at its heading.
fn heading_blamed(blamed: &str, told: usize, expected: usize) -> bool {
    let whole = ["fall into no option", "after the change", "already"];
    told > 0 && told.abs_diff(expected) <= 10 && whole.iter().any(|words| blamed.contains(words))
}

#[test]
fn all_problems_are_told_at_once_in_the_order_of_their_lines() {
    let text = SAMPLE
        .replace("minutes = 12", "minutes = 99")
        .replace("\"K7\"", "\"K77\"")
        .replace("view = \"plan\"", "view = \"plam\"")
        .replace("parcels = 8000", "parcels = 8");
    let errors = refused(&text);
    let keys: Vec<&str> = errors
        .problems
        .iter()
        .map(|problem| problem.key.as_str())
        .collect();
    assert_eq!(
        keys,
        [
            "minutes",
            "competencies",
            "segment 1.look.view",
            "segment 1.check 1.parcels",
            "segment 1.check 2.parcels"
        ]
    );
}

#[test]
fn a_wrong_option_without_a_branch_is_told() {
    let branch = "    { option = \"reverse\", misconception = \"backwards\", text = \"The other way round.\" },\n";
    let (text, _) = sample_with(branch, "");
    let message = refused(&text).to_string();
    assert!(
        message.contains("option \"reverse\" is wrong and has no branch"),
        "{message}"
    );
    let twice = SAMPLE.replacen(branch, &format!("{branch}{branch}"), 1);
    let message = refused(&twice).to_string();
    assert!(message.contains("has a branch already"), "{message}");
}

#[test]
fn what_is_missing_is_asked_for() {
    for (key, path) in [
        ("revision", "revision"),
        ("goal", "goal"),
        ("seed", "seed"),
        ("prose", "segment 1.prose"),
        ("free", "segment 1.free"),
        ("look", "segment 1.look"),
        ("task", "segment 1.observe.task"),
        ("tolerance", "segment 1.check 1.tolerance"),
    ] {
        let line = SAMPLE
            .lines()
            .find(|line| line.starts_with(&format!("{key} = ")))
            .unwrap_or_else(|| panic!("the sample has no {key}"));
        let (text, _) = sample_with(&format!("{line}\n"), "");
        let message = refused(&text).to_string();
        assert!(
            message.contains(&format!("{path}: missing; add {key}")),
            "{key}:\n{message}"
        );
    }
}

#[test]
fn ranges_of_a_number_leave_no_gap() {
    let lessons = ashlane_lessons::catalog::LESSONS.iter();
    let mut fifth = lessons.filter(|(name, _)| name.starts_with("005"));
    let catalog = fifth.next().expect("lesson 5").1;
    for (from, to, says) in [
        (
            "from = \"98.5 %\"\nto = \"99.5 %\"",
            "from = \"98.6 %\"\nto = \"99.5 %\"",
            "98.6 % where 98.5 % is due",
        ),
        (
            "from = \"99.5 %\"\nto = \"100 %\"",
            "from = \"99.5 %\"\nto = \"99.9 %\"",
            "end at 99.9 % and not at 100 %",
        ),
        (
            "from = \"99.5 %\"\nto = \"100 %\"",
            "from = \"100 %\"\nto = \"99.5 %\"",
            "write more here than in from",
        ),
        (
            "answer = \"99 %\"",
            "answer = \"9 %\"",
            "outside of what may be entered",
        ),
        (
            "answer = \"99 %\"",
            "answer = \"99 m\"",
            "this is a share and the answer a length",
        ),
    ] {
        assert!(catalog.contains(from), "{from}");
        let message = refused(&catalog.replacen(from, to, 1)).to_string();
        assert!(message.contains(says), "{to}:\n{message}");
    }
}

#[test]
fn a_file_that_is_no_lesson_is_refused_in_few_words() {
    for text in ["", "id", "[[[", "segment = 3", "\u{feff}x = 1"] {
        let message = refused(text).to_string();
        assert!(message.lines().count() <= 20, "{text:?}:\n{message}");
        assert!(message.starts_with(NAME), "{message}");
    }
    let large = refused(&"# nothing\n".repeat(100_000)).to_string();
    assert!(large.contains("too large"), "{large}");
}
