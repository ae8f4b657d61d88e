//! A run that is stopped: nothing half written, one line that says so, the exit code of the contract.

use std::{
    fs,
    path::Path,
    sync::atomic::{AtomicU32, Ordering},
};

use ashlane_lessons::command_line::{Io, Outcome, run};

use super::file;

/// Runs words that are stopped when they ask for the `allowed`-th time whether to go on.
fn stopped_after(allowed: u32, line: &str) -> (u8, String, String) {
    let asked = AtomicU32::new(0);
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let mut io = Io {
        out: &mut out,
        err: &mut err,
        err_is_terminal: false,
        go_on: &|| asked.fetch_add(1, Ordering::Relaxed) < allowed,
    };
    let words = std::iter::once("ashlane").chain(line.split_whitespace());
    let Outcome::Done(code) = run(words.map(Into::into), &mut io) else {
        panic!("{line} is not at its end");
    };
    let text = |bytes| String::from_utf8(bytes).expect("text");
    (code, text(out), text(err))
}

fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).expect("a folder");
    entries
        .map(|entry| {
            entry
                .expect("an entry")
                .file_name()
                .to_string_lossy()
                .into_owned()
        })
        .collect()
}

#[test]
fn a_cancelled_run_leaves_the_file_as_it_was_and_nothing_beside_it() {
    let path = file("day.csv", "what was there before");
    let folder = path.parent().expect("a folder");
    let line = format!(
        "simulate demonstration --hours 6 --every 1h --parcels 5000 --csv {}",
        path.display()
    );
    // Stopped while counting, and stopped on the clock: the fresh dust and that of four raps ask five times or more.
    let mut seen = 0;
    for allowed in [0, 3, 7, 9] {
        let (code, out, err) = stopped_after(allowed, &line);
        assert_eq!(code, 2, "{allowed}: {err}");
        assert_eq!(err, "cancelled; nothing was written\n");
        assert!(out.is_empty(), "{out}");
        assert_eq!(names(folder), ["day.csv"]);
        let text = fs::read_to_string(&path).expect("a file");
        assert_eq!(text, "what was there before");
        seen += 1;
    }
    assert_eq!(seen, 4);
    // Let be, it replaces the whole file in one step.
    let (code, _, err) = stopped_after(u32::MAX, &line);
    assert_eq!(code, 0, "{err}");
    assert_eq!(names(folder), ["day.csv"]);
    let text = fs::read_to_string(&path).expect("a file");
    assert_eq!(text.lines().count(), 8, "{text}");
    assert!(text.starts_with("time_s,") && text.ends_with('\n'));
}

#[test]
fn a_plain_count_can_be_stopped_too() {
    let line = "simulate demonstration --parcels 20000 --threads 1";
    let (code, out, err) = stopped_after(0, line);
    assert_eq!((code, out.as_str()), (2, ""), "{err}");
    assert!(err.contains("cancelled"), "{err}");
}
