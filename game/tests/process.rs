//! The program as a user starts it: exit codes, closed pipes, odd arguments, no display.

use std::{
    ffi::OsStr,
    io::Read,
    process::{Command, Stdio},
};

use crate::support::Folder;

fn ashlane() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_ashlane"));
    command
        .env_remove("DISPLAY")
        .env_remove("WAYLAND_DISPLAY")
        .stdin(Stdio::null());
    command
}

#[test]
fn without_a_display_it_says_so_counts_and_draws_a_figure() {
    let folder = Folder::new("headless");
    let output = ashlane()
        .current_dir(folder.path())
        .output()
        .expect("a process");
    let (out, told) = (
        String::from_utf8_lossy(&output.stdout),
        String::from_utf8_lossy(&output.stderr),
    );
    assert_eq!(output.status.code(), Some(0), "{told}");
    assert!(told.contains("display"), "{told}");
    assert!(
        out.contains("finite mixing") && out.contains("agree"),
        "{out}"
    );
    let figure = std::fs::read_to_string(folder.file("ashlane-plan.svg")).expect("a figure");
    assert!(figure.contains("</svg>"), "cut short");
    assert!(!told.contains("panicked"), "{told}");
}

#[test]
fn a_reader_who_closes_the_pipe_is_no_trouble() {
    let mut child = ashlane()
        .args(["simulate", "demonstration", "--parcels", "5000", "--json"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("a process");
    drop(child.stdout.take());
    let mut told = String::new();
    child
        .stderr
        .take()
        .expect("a stream")
        .read_to_string(&mut told)
        .expect("words");
    let status = child.wait().expect("an end");
    assert!(!told.contains("panicked"), "{told}");
    assert!(
        status.code().is_some_and(|code| code <= 1),
        "{status}: {told}"
    );
}

#[test]
fn wrong_input_ends_with_code_2_and_one_clear_line() {
    let folder = Folder::new("wrong");
    std::fs::write(folder.file("bad.toml"), "[gas]\nflow = \"-4 m3/s\"\n").expect("a file");
    for (arguments, says) in [
        (&["simulate", "bad.toml"][..], "bad.toml:2"),
        (&["simulate", "missing.toml"], "missing.toml"),
        (&["simulate", "."], "folder"),
        (&["bad.toml"], "bad.toml:2"),
        (
            &[
                "picture",
                "demonstration",
                "--view",
                "plann",
                "--out",
                "x.png",
            ],
            "\"plan\"",
        ),
    ] {
        let output = ashlane()
            .args(arguments)
            .current_dir(folder.path())
            .output()
            .expect("a process");
        let told = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}: {told}");
        assert!(told.contains(says), "{arguments:?}: {told}");
        assert!(output.stdout.is_empty(), "{arguments:?} printed a result");
    }
}

#[cfg(unix)]
#[test]
fn an_argument_that_is_no_text_is_told_and_not_choked_on() {
    use std::os::unix::ffi::OsStrExt;

    let output = ashlane()
        .arg("simulate")
        .arg(OsStr::from_bytes(b"caf\xe9.toml"))
        .output()
        .expect("a process");
    let told = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{told}");
    assert!(told.contains("caf") && !told.contains("panicked"), "{told}");
}
