//! The table of all checks in the tree is that of the lessons as they are today.

use std::{fs, path::Path};

use ashlane_lessons::{catalog::lessons, check_table::named};

use super::SAMPLE;
use crate::command_line::{ashlane, file, words};

/// Where the table lies, from the crate of the tests.
const TABLE: &str = "../lessons/CHECKS.md";
const RENEW: &str = "ASHLANE_RENEW=1 cargo test -p ashlane_tests --test properties check_table";

/// Rows of a table without its heading.
fn rows(table: &str) -> Vec<&str> {
    let rows = table.lines().filter(|line| line.starts_with("| "));
    rows.skip(1).collect()
}

#[test]
fn the_table_in_the_tree_names_every_check_with_its_present_tolerance() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(TABLE);
    if std::env::var_os("ASHLANE_RENEW").is_some_and(|value| value == "1") {
        let ran = words(&format!("lesson run --all --table {}", path.display()));
        assert_eq!(ran.code(), 0, "{ran:?}");
    }
    let text = fs::read_to_string(&path).unwrap_or_default();
    let mut found = rows(&text).into_iter();
    for lesson in lessons().expect("sound lessons") {
        for segment in &lesson.segments {
            for check in &segment.checks {
                let cells = named(&lesson, segment, check);
                let row = found.next().unwrap_or_default();
                assert!(
                    row.starts_with(&cells) && row.ends_with("| agree |"),
                    "lessons/CHECKS.md has\n{row}\nwhere it should begin with\n{cells}\nrenew it with\n    {RENEW}"
                );
            }
        }
    }
    assert_eq!(
        found.next(),
        None,
        "no such check any more; renew with\n    {RENEW}"
    );
}

#[test]
fn a_played_lesson_writes_a_row_for_each_of_its_checks() {
    let lesson = file("table.toml", SAMPLE);
    let table = lesson.with_file_name("table.md");
    let ran = ashlane([
        "lesson".into(),
        "run".into(),
        lesson.clone().into_os_string(),
        "--table".into(),
        table.clone().into_os_string(),
    ]);
    assert_eq!(ran.code(), 0, "{ran:?}");
    let text = fs::read_to_string(&table).expect("a table");
    let checks: usize = super::good(SAMPLE)
        .segments
        .iter()
        .map(|segment| segment.checks.len())
        .sum();
    assert_eq!(rows(&text).len(), checks, "{text}");
    let columns = |row: &str| row.matches(" |").count();
    let head = text
        .lines()
        .find(|line| line.starts_with("| "))
        .expect("a heading");
    for row in rows(&text) {
        assert_eq!(columns(row), columns(head), "{row}");
        assert!(row.ends_with("| agree |"), "{row}");
    }
}

#[test]
fn a_table_that_can_stand_nowhere_is_refused_before_anything_is_counted() {
    let folder = file("nowhere.toml", SAMPLE).with_file_name("missing");
    let path = folder.join("table.md");
    let ran = words(&format!("lesson run --all --table {}", path.display()));
    assert_eq!(ran.code(), 2);
    assert!(ran.err.contains("there is no such folder"), "{}", ran.err);
    assert!(!path.exists());
}
