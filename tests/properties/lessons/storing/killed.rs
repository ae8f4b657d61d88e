//! A program that is killed while it saves leaves the old file or the new one, never a broken one.

use std::{
    env, fs,
    path::Path,
    process::{Child, Command, Stdio},
    thread::sleep,
    time::Duration,
};

use ashlane_lessons::store::Store;

use super::{
    Progress, SAMPLE, day, file, good, learner, length, names, sample, saved, silently, store,
};

/// Where the other process saves; set only for it.
const FOLDER: &str = "ASHLANE_TEST_SAVES_IN";
/// File with what it saves, in its folder.
const STATES: &str = "states.json";
/// How often it is killed.
const KILLS: u32 = 60;
/// How often a kill has to fall into the middle of a save, so that something was tested at all.
const LEAST_HALF_WRITTEN: u32 = 3;

/// The other process: saves without an end. Run like any other test it has nothing to do.
#[test]
fn another_process_saves_until_it_is_killed() {
    let Some(folder) = env::var_os(FOLDER) else {
        return;
    };
    let store = Store::at(folder);
    // The states come from the process that kills: flying for them takes longer than it waits.
    let lesson = good(SAMPLE);
    let text = fs::read(store.folder().join(STATES)).expect("the states");
    let states: Vec<Progress> = serde_json::from_slice(&text).expect("what was written");
    let mut notebook = store.notebook(&learner());
    for state in states.iter().cycle() {
        saved(&mut notebook, &lesson, state, day(0));
    }
}

fn saver(folder: &Path) -> Child {
    let name = "lessons::storing::killed::another_process_saves_until_it_is_killed";
    Command::new(env::current_exe().expect("this program"))
        .args([name, "--exact", "--test-threads", "1"])
        .env(FOLDER, folder)
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .expect("another process")
}

#[test]
fn a_kill_at_any_moment_leaves_the_old_state_or_the_new_one() {
    let (lesson, states, _) = sample();
    let store = store();
    fs::create_dir_all(store.folder()).expect("a folder");
    let text = serde_json::to_vec(states).expect("plain data");
    fs::write(store.folder().join(STATES), text).expect("the states");
    let (path, mut half_written, mut attempts) = (file(&store), 0, 0);
    for kill in 0..KILLS {
        drop(fs::remove_file(&path));
        let mut child = saver(store.folder());
        while length(&path) == 0 {
            assert!(
                child.try_wait().expect("a state").is_none(),
                "it ended by itself"
            );
            sleep(Duration::from_micros(200));
        }
        // Moments spread over some saves, by a step that shares nothing with their rhythm.
        sleep(Duration::from_micros(u64::from(kill * 7919 % 20_011)));
        child.kill().expect("a kill");
        child.wait().expect("the end");
        if names(&store).iter().any(|name| name.ends_with(".new")) {
            half_written += 1;
        }
        let found = silently(&store, lesson);
        assert!(states.contains(&found), "kill {kill}: {found:?}");
        // What was left half written is gone after that.
        assert_eq!(names(&store), ["lesson-T1.json"], "kill {kill}");
        attempts += store.notebook(&learner()).attempts("T1").count();
    }
    assert!(
        half_written >= LEAST_HALF_WRITTEN,
        "{half_written} of {KILLS} kills hit a save"
    );
    assert!(attempts > 0, "it never got to the end of the lesson");
}
