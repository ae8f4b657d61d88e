//! The help of every word: for people who teach, and only about what works.

use super::words;

const PAGES: [&str; 13] = [
    "--help",
    "-h",
    "simulate --help",
    "corona --help",
    "picture --help",
    "fault --help",
    "fault list --help",
    "lesson --help",
    "lesson list --help",
    "lesson check --help",
    "lesson run --help",
    "lesson new --help",
    "handout --help",
];

#[test]
fn every_page_goes_to_standard_output_and_fits_a_terminal() {
    for page in PAGES {
        let ran = words(page);
        assert_eq!(ran.code(), 0, "{page}");
        assert!(ran.err.is_empty(), "{page}: {}", ran.err);
        assert!(ran.out.contains("Usage: ashlane"), "{page}: {}", ran.out);
        for line in ran.out.lines() {
            assert!(line.chars().count() <= 100, "{page}: {line}");
        }
    }
}

#[test]
fn the_first_page_says_what_it_is_and_shows_examples() {
    let page = words("--help").out;
    for part in [
        "electrostatic precipitator",
        "simulate",
        "picture",
        "lesson",
        "ashlane simulate site.toml",
        "Exit codes: 0 fine, 1 a check failed, 2 wrong input.",
        "Teaching model. Not a procedure.",
    ] {
        assert!(page.contains(part), "no {part:?} in\n{page}");
    }
}

#[test]
fn defaults_stand_in_the_help() {
    let page = words("simulate --help").out.replace("\n ", " ");
    let page: Vec<&str> = page.split_whitespace().collect();
    let page = page.join(" ");
    assert!(page.contains("[default: 200000]"), "{page}");
    assert!(page.contains("[default: 1]"), "{page}");
    assert!(page.contains("RAYON_NUM_THREADS"), "{page}");
}

#[test]
fn the_version_is_that_of_the_workspace() {
    let ran = words("--version");
    assert_eq!(ran.code(), 0);
    assert_eq!(ran.out, format!("ashlane {}\n", env!("CARGO_PKG_VERSION")));
}

#[test]
fn every_view_stands_in_the_help_of_pictures() {
    let page = words("picture --help").out;
    for (name, meaning) in ashlane_lessons::command_line::VIEWS {
        let line = page
            .lines()
            .find(|line| line.trim_start().starts_with(&format!("{name} ")))
            .unwrap_or_else(|| panic!("{name} is not explained"));
        assert!(line.ends_with(meaning), "{line}");
    }
}
