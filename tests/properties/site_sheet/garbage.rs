//! Nothing that a file may contain makes the reader panic, hang or stay silent.

use std::time::Instant;

use ashlane_shared::conditions::{SITES, sheet::read_str};
use proptest::prelude::*;

use crate::clear_errors::are_clear;

use super::{NAME, difference, site};

/// Either a sheet that can be saved and read again, or errors that name the file.
fn survives(text: &str) -> Result<(), TestCaseError> {
    match read_str(NAME, text) {
        Ok(sheet) => {
            let again = read_str(NAME, &sheet.save_text(&sheet.conditions))
                .map_err(|errors| TestCaseError::fail(format!("saved and refused: {errors}")))?;
            prop_assert_eq!(
                difference(&again.conditions, &sheet.conditions, 1e-12),
                None
            );
        }
        Err(errors) => are_clear(&errors, NAME)?,
    }
    Ok(())
}

/// One change that an author, an editor or a bad disk may make.
#[derive(Clone, Debug)]
enum Change {
    Delete(prop::sample::Index, usize),
    Insert(prop::sample::Index, String),
    RepeatLine(prop::sample::Index),
    SwapLines(prop::sample::Index, prop::sample::Index),
    Cut(prop::sample::Index),
}

fn any_change() -> impl Strategy<Value = Change> {
    use any as a;
    type At = prop::sample::Index;
    prop_oneof![
        (a::<At>(), 1..20usize).prop_map(|(at, length)| Change::Delete(at, length)),
        (a::<At>(), "[\\[\\]{}=\"'#.,\n0-9a-z%µ -]{1,6}")
            .prop_map(|(at, text)| Change::Insert(at, text)),
        a::<At>().prop_map(Change::RepeatLine),
        (a::<At>(), a::<At>()).prop_map(|(one, other)| Change::SwapLines(one, other)),
        a::<At>().prop_map(Change::Cut),
    ]
}

fn apply(text: &str, change: &Change) -> String {
    let signs: Vec<char> = text.chars().collect();
    let mut lines: Vec<&str> = text.split_inclusive('\n').collect();
    if signs.is_empty() {
        return String::new();
    }
    match change {
        Change::Delete(at, length) => {
            let at = at.index(signs.len());
            signs[..at]
                .iter()
                .chain(&signs[(at + length).min(signs.len())..])
                .collect()
        }
        Change::Insert(at, piece) => {
            let at = at.index(signs.len());
            signs[..at]
                .iter()
                .copied()
                .chain(piece.chars())
                .chain(signs[at..].iter().copied())
                .collect()
        }
        Change::RepeatLine(at) => {
            let at = at.index(lines.len());
            lines.insert(at, lines[at]);
            lines.concat()
        }
        Change::SwapLines(one, other) => {
            let count = lines.len();
            lines.swap(one.index(count), other.index(count));
            lines.concat()
        }
        Change::Cut(at) => signs[..at.index(signs.len())].iter().collect(),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn any_text(text in "(?s).{0,200}") {
        survives(&text)?;
    }

    #[test]
    fn any_bytes(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        survives(&String::from_utf8_lossy(&bytes))?;
    }

    #[test]
    fn almost_toml(lines in prop::collection::vec("(\\[[a-z.]{1,12}\\]|[a-z_]{1,12} = (\"[0-9.e-]{1,6} ?[a-zµ°%³/]{0,6}\"|[0-9.]{1,4}|\\[[\"0-9 kV,]{0,20}\\]|nan|\\{ a = 1 \\}))", 0..12)) {
        survives(&lines.join("\n"))?;
    }

    #[test]
    fn sheets_after_an_accident(which: prop::sample::Index, changes in prop::collection::vec(any_change(), 1..6)) {
        let (_, text) = which.get(SITES);
        let changed = changes.iter().fold((*text).to_owned(), |text, change| apply(&text, change));
        survives(&changed)?;
    }
}

/// A megabyte of each kind of rubbish.
fn rubbish() -> Vec<(&'static str, String)> {
    let size = 1 << 20;
    let repeat = |piece: &str| piece.repeat(size / piece.len());
    let counted = |line: fn(usize) -> String| (0..size / 20).map(line).collect::<String>();
    vec![
        ("one letter", repeat("x")),
        ("brackets", repeat("[")),
        ("open lists", format!("a = {}", repeat("["))),
        ("open tables", format!("a = {}", repeat("{a="))),
        ("dots", format!("a{} = 1", repeat(".a"))),
        ("an open string", format!("a = \"{}", repeat("b"))),
        ("quotes", repeat("\"")),
        ("broken lines", repeat("a = b\n")),
        ("repeated keys", repeat("flow = 1\n")),
        ("unknown keys", counted(|n| format!("k{n:08} = 1\n"))),
        ("unknown sections", counted(|n| format!("[s{n:08}]\n"))),
        (
            "a long list",
            format!(
                "{}\n[rapping]\ninterval = [{}]",
                site("demonstration"),
                repeat("\"1 h\", ")
            ),
        ),
        (
            "unknown names",
            format!(
                "{}\n[names]\n{}",
                site("demonstration"),
                counted(|n| format!("n{n:08} = \"a\"\n"))
            ),
        ),
        (
            "a long unit",
            format!("[gas]\nflow = \"1 {}\"", repeat("m")),
        ),
        (
            "a long number",
            format!("[gas]\nflow = \"{} m3/s\"", repeat("1")),
        ),
        ("a comment", format!("#{}", repeat("y"))),
        (
            "noise",
            (0..size)
                .map(|n| char::from((n * n / 7 % 95) as u8 + b' '))
                .collect(),
        ),
    ]
}

#[test]
fn a_megabyte_of_rubbish_is_refused_within_a_second() {
    for (name, text) in rubbish() {
        let text: String = text.chars().take(1 << 20).collect();
        #[expect(clippy::disallowed_methods, reason = "this test is about time")]
        let start = Instant::now();
        let errors = read_str(NAME, &text).err();
        let seconds = start.elapsed().as_secs_f64();
        assert!(errors.is_some(), "{name} was accepted");
        assert!(seconds < 1.0, "{name} took {seconds:.2} s");
    }
}
