//! A folder that takes nothing and a disk that is full: one clear error, the lesson goes on, and later all is kept.

use std::{
    env, fs,
    io::Write,
    path::{Path, PathBuf},
    process::{Command, Output},
};

use ashlane_lessons::store::{Store, StoreError};

use super::{day, file, learner, names, sample, saved, silently, store};

/// Where the other process fills the disk; set only for it.
const FOLDER: &str = "ASHLANE_TEST_FULL_IN";
/// Whether it has a disk of its own to fill.
const FILLS: &str = "ASHLANE_TEST_FILLS";
/// What it says at its end.
const HEARD: &str = "heard the full disk";

/// What, where, and what to do.
#[track_caller]
fn is_clear(trouble: &StoreError, place: &Path) {
    let told = trouble.to_string();
    assert_eq!(told.lines().count(), 1, "{told}");
    for part in [
        "is not kept",
        &place.display().to_string(),
        "make room",
        "--data",
        "goes on",
    ] {
        assert!(told.contains(part), "no {part:?} in {told}");
    }
}

#[test]
fn a_folder_that_takes_nothing_is_told_and_the_lesson_goes_on() {
    let (lesson, states, _) = sample();
    // Whoever runs the tests as root may write everywhere, but not below a file.
    let blocked = store();
    fs::write(blocked.folder(), "a file").expect("a file");
    let mut places = vec![blocked.folder().to_owned()];
    if cfg!(target_os = "linux") {
        places.push(PathBuf::from("/proc/ashlane"));
    }
    for place in &places {
        let store = Store::at(place);
        let mut notebook = store.notebook(&learner());
        is_clear(&notebook.trouble().expect("told before the lesson"), place);
        let _begun = notebook.resume(lesson);
        for state in states {
            let trouble = notebook.save(lesson, state, day(0)).expect_err("no folder");
            is_clear(&trouble, place);
            assert_eq!(
                &notebook.resume(lesson).progress,
                state,
                "it goes on in memory"
            );
        }
        assert_eq!(notebook.attempts("T1").count(), 1);
    }
    // As soon as there is a folder, everything is kept at once.
    let mut notebook = blocked.notebook(&learner());
    let last = states.last().expect("a state");
    assert!(notebook.save(lesson, last, day(0)).is_err());
    fs::remove_file(blocked.folder()).expect("a file");
    saved(&mut notebook, lesson, last, day(0));
    drop(notebook);
    assert_eq!(&silently(&blocked, lesson), last);
    assert_eq!(blocked.notebook(&learner()).attempts("T1").count(), 1);
}

/// The other process: saves on a disk that takes no more. Run like any other test it has nothing to do.
#[test]
fn another_process_saves_on_a_full_disk() {
    let Some(folder) = env::var_os(FOLDER) else {
        return;
    };
    let (lesson, states, _) = sample();
    let store = Store::at(&folder);
    let mut notebook = store.notebook(&learner());
    let begun = notebook.resume(lesson).progress;
    let filler = PathBuf::from(folder).join("filler");
    let fills = env::var_os(FILLS).is_some();
    if fills {
        saved(&mut notebook, lesson, &begun, day(0));
        let mut file = fs::File::create(&filler).expect("a file");
        while file.write_all(&[b'x'; 512]).is_ok() {}
    }
    let kept = fs::read(file(&store)).expect("the old file");
    for state in states {
        let trouble = notebook
            .save(lesson, state, day(0))
            .expect_err("a full disk");
        is_clear(&trouble, &file(&store));
        assert!(
            !fills || trouble.to_string().contains("the disk is full"),
            "{trouble}"
        );
        assert_eq!(fs::read(file(&store)).expect("the old file"), kept);
        assert_eq!(
            &notebook.resume(lesson).progress,
            state,
            "it goes on in memory"
        );
    }
    assert_eq!(
        names(&store),
        ["lesson-T1.json"],
        "nothing is left half written"
    );
    if fills {
        // There is room again.
        fs::remove_file(filler).expect("the filler");
        let last = states.last().expect("a state");
        saved(&mut notebook, lesson, last, day(0));
        drop(notebook);
        assert_eq!(&silently(&store, lesson), last);
    }
    let mut out = std::io::stdout();
    out.write_all(HEARD.as_bytes()).expect("an ear");
}

/// Runs the other process below a line of shell that ends by running it.
fn below(shell: &[&str], folder: &Path, fills: bool) -> Output {
    let name = "lessons::storing::full::another_process_saves_on_a_full_disk";
    let mut command = Command::new(shell[0]);
    command
        .args(&shell[1..])
        .arg("sh")
        .arg(env::current_exe().expect("this program"))
        .args([name, "--exact", "--nocapture", "--test-threads", "1"])
        .env(FOLDER, folder);
    if fills {
        command.env(FILLS, "1");
    }
    command.output().expect("a shell")
}

#[track_caller]
fn heard(output: &Output) {
    let told = String::from_utf8_lossy(&output.stdout);
    let wrong = String::from_utf8_lossy(&output.stderr);
    assert!(
        output.status.success() && told.contains(HEARD),
        "{told}\n{wrong}"
    );
}

#[cfg(unix)]
#[test]
fn a_write_that_stops_in_the_middle_leaves_the_old_file() {
    let (lesson, states, _) = sample();
    let store = store();
    let mut notebook = store.notebook(&learner());
    saved(&mut notebook, lesson, &states[0], day(0));
    drop(notebook);
    // No file may grow beyond a block or two, so that the new one is cut off in the middle.
    let shell = ["sh", "-c", "trap '' XFSZ; ulimit -f 1; exec \"$@\""];
    heard(&below(&shell, store.folder(), false));
    assert_eq!(silently(&store, lesson), states[0]);
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_told_and_what_was_done_is_kept_once_there_is_room() {
    let store = store();
    fs::create_dir_all(store.folder()).expect("a folder");
    let folder = store.folder().display().to_string();
    let mount = format!("mount -t tmpfs -o size=64k none '{folder}' || exit 77; exec \"$@\"");
    let shell = [
        "unshare",
        "--user",
        "--map-root-user",
        "--mount",
        "sh",
        "-c",
    ];
    let may = Command::new("unshare")
        .args(&shell[1..4])
        .arg("true")
        .output();
    let small = [&shell[..], &[&mount]].concat();
    if !may.is_ok_and(|output| output.status.success()) {
        // This machine lets nobody mount a disk of their own; the test above cuts the writes off there.
        return;
    }
    let output = below(&small, store.folder(), true);
    if output.status.code() != Some(77) {
        heard(&output);
    }
}
