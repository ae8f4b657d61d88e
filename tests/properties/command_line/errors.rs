//! Wrong input: exit code 2, nothing on standard output, and what to do on standard error.

use std::ffi::OsString;

use ashlane_lessons::command_line::Outcome;

use super::{Ran, ashlane, file, words};

#[track_caller]
fn refused(ran: &Ran, says: &[&str]) {
    assert_eq!(ran.code(), 2, "{ran:?}");
    assert!(ran.out.is_empty(), "{ran:?}");
    for part in says {
        assert!(ran.err.contains(part), "no {part:?} in\n{}", ran.err);
    }
}

/// Words, and what is said about them.
// One row a line, so that it reads as the table it is.
#[rustfmt::skip]
const WRONG_WORDS: &[(&str, &[&str])] = &[
    ("simulat site.toml", &["there is no word \"simulat\"", "\"simulate\""]),
    ("lessons", &["did you mean \"lesson\"", "there is no such file"]),
    ("one.toml two.toml", &["only one sheet"]),
    ("simulate", &["<SHEET>"]),
    ("simulate demonstration --parcel 5", &["--parcels"]),
    ("simulate demonstration --parcels 0", &["1 to 100000000"]),
    ("simulate demonstration --parcels 100000001", &["1 to 100000000"]),
    ("simulate demonstration --parcels many", &["'many'", "1 to 100000000"]),
    ("simulate demonstration --threads 0", &["1 to 256"]),
    ("simulate demonstration --threads 257", &["1 to 256"]),
    ("simulate demonstration --seed -1", &["-1"]),
    ("lesson run", &["<ID | --all>"]),
    ("lesson run L5 --all", &["cannot be used with"]),
    ("lesson run L6000", &["there is no lesson \"L6000\"", "lesson list"]),
    ("lesson run L55", &["did you mean \"L5\"?"]),
    ("lesson sing", &["sing"]),
    ("lesson new", &["<NAME>"]),
    ("lesson new a_b", &["letters, digits and hyphens"]),
    ("lesson new ../up", &["letters, digits and hyphens"]),
    ("lesson new night --out /no/folder/night.toml", &["no such folder"]),
    ("lesson list --learner BCDF-GHJC", &["mistyped"]),
    ("lesson list --learner me", &["eight letters"]),
    ("lesson list --data here", &["--learner"]),
    ("lesson list --learner BCDF-GHJB --data /no/folder", &["nothing is kept of learner BCDF-GHJB in /no/folder"]),
    ("lesson list --learner BCDF-GHJB --on today", &["such as 2026-03-02"]),
    ("picture demonstration --view plan", &["--out"]),
    ("picture demonstration --view plam --out a.png", &["did you mean \"plan\"?"]),
    ("picture demonstration --view plan --out a.jpg", &["a.jpg", ".png"]),
    ("picture demonstration --view plan --out a.svg", &["add --svg"]),
    ("picture demonstration --view plan --out a.png --svg", &["ends in .svg"]),
    ("picture demonstration --view window --out a.svg --svg", &["\"window\" is no line drawing"]),
    ("picture demonstration --view wire --field 5 --out a.png", &["--field 5", "fields 1 to 4"]),
    ("picture demonstration --view wire --field 0 --out a.png", &["fields 1 to 4"]),
    ("corona demonstration --points 5 --currents 1e-4", &["cannot be used with"]),
    ("corona demonstration --currents 1e-4,-1", &["A per metre of wire"]),
    ("picture demonstration --view plan --out /no/folder/a.png", &["no such folder"]),
    ("picture demonstration --view plan --out a.png --size big", &["320x240 to 8192x8192"]),
    ("picture demonstration --view plan --out a.png --size 10x10", &["320x240"]),
    ("handout", &["<ID | --all>"]),
    ("handout L5", &["--out"]),
    ("handout L5 --all --out h", &["cannot be used with"]),
    ("handout L55 --out h", &["did you mean \"L5\"?"]),
    ("handout L5 --sheet demonstration --out h", &["--sheet goes with the elevation"]),
    ("handout elevation --sheet missing.toml --out h", &["missing.toml"]),
    ("handout L5 --out /no/folder/h", &["no folder to make it in"]),
    ("handout L5 --out Cargo.toml", &["this is a file"]),
    ("handouts --all --out h", &["did you mean \"handout\"?"]),
];

#[test]
fn wrong_words_are_told_with_what_was_meant() {
    for (line, says) in WRONG_WORDS {
        refused(&words(line), says);
    }
}

#[test]
fn files_that_are_no_sheets_are_told_by_every_word_that_takes_one() {
    let empty = file("empty.toml", "");
    let binary = file("binary.toml", [0xff, 0xfe, 0x00, 0x41]);
    let latin = file("latin.toml", b"[site]\ntitle = \"S\xfcd\"\n");
    let wrong = file(
        "wrong.toml",
        ashlane_shared::conditions::SITES[0]
            .1
            .replace("fields = 4", "fields = 400"),
    );
    let folder = empty.parent().expect("a folder").to_owned();
    let missing = folder.join("missing.toml");
    for (path, says) in [
        (&empty, "empty.toml: gas.flow: missing"),
        (&binary, "UTF-16"),
        (&latin, "latin.toml:2: this is not UTF-8 text"),
        (
            &wrong,
            "collector.fields = 400: outside the allowed range 1 to 12",
        ),
        (&folder, "this is a folder"),
        (&missing, "there is no such file"),
    ] {
        let path = path.as_os_str();
        let out = folder.join("a.png");
        let words: [Vec<OsString>; 3] = [
            vec![path.to_owned()],
            vec!["simulate".into(), path.to_owned()],
            vec![
                "picture".into(),
                path.to_owned(),
                "--view".into(),
                "plan".into(),
                "--out".into(),
                out.into(),
            ],
        ];
        for words in words {
            refused(&ashlane(words), &[says]);
        }
    }
    // All problems of a sheet are printed, not only the first.
    let all = ashlane(["simulate".as_ref(), empty.as_os_str()]);
    assert_eq!(all.err.lines().count(), 9, "{}", all.err);
}

#[cfg(unix)]
#[test]
fn names_that_are_not_text_are_no_panic() {
    use std::os::unix::ffi::OsStringExt;
    let name = || OsString::from_vec(vec![b'a', 0xff, 0xfe, b'.', b't']);
    refused(&ashlane([name()]), &["there is no such file"]);
    refused(
        &ashlane(["simulate".into(), name()]),
        &["there is no such file"],
    );
    refused(
        &ashlane(["lesson".into(), "check".into(), name()]),
        &["there is no such file"],
    );
    for flag in ["--parcels", "--seed", "--threads"] {
        let ran = ashlane([
            "simulate".into(),
            "demonstration".into(),
            flag.into(),
            name(),
        ]);
        refused(&ran, &["UTF-8"]);
    }
    refused(
        &ashlane(["lesson".into(), "run".into(), name()]),
        &["UTF-8"],
    );
}

#[cfg(unix)]
#[test]
fn a_file_that_may_not_be_read_is_told() {
    use std::os::unix::fs::PermissionsExt;
    let path = file("secret.toml", "x = 1");
    std::fs::set_permissions(&path, PermissionsExt::from_mode(0o000)).expect("permissions");
    if std::fs::read(&path).is_ok() {
        // Whoever runs the tests as root may read everything; then the sheet itself is wrong.
        refused(
            &ashlane(["simulate".as_ref(), path.as_os_str()]),
            &["secret.toml"],
        );
        return;
    }
    refused(
        &ashlane(["simulate".as_ref(), path.as_os_str()]),
        &["permission denied"],
    );
}

#[test]
fn what_is_left_to_the_window_is_handed_over() {
    let Outcome::Window(opened) = words("").outcome else {
        panic!("the window is not opened")
    };
    assert_eq!(opened.sheet.conditions.title, "Demonstration collector");
    assert_eq!(opened.path, None);
    let own = file("own.toml", ashlane_shared::conditions::SITES[2].1);
    let Outcome::Window(opened) = ashlane([own.as_os_str()]).outcome else {
        panic!("the window is not opened")
    };
    assert_eq!(opened.path.as_deref(), Some(own.as_path()));
    let line = "picture cement-kiln --view window --out a.png --size 640x480";
    let Outcome::Picture(wish) = words(line).outcome else {
        panic!("no picture is made")
    };
    assert_eq!(
        (wish.view, wish.size, wish.svg),
        ("window", (640, 480), false)
    );
    assert_eq!(wish.opened.name, "cement-kiln");
}
