//! Files that cannot be read or written, and that nothing is ever half written.

use std::{fs, path::PathBuf};

use ashlane_shared::conditions::sheet::{read_file, write_atomically};

use super::site;

/// A folder of its own for one test.
fn folder(test: &str) -> PathBuf {
    let path = std::env::temp_dir().join(format!("ashlane_sheet_{}_{test}", std::process::id()));
    fs::create_dir_all(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    path
}

#[track_caller]
fn refused(path: &std::path::Path, says: &[&str]) {
    let Err(errors) = read_file(path) else {
        panic!("{} was accepted", path.display())
    };
    let message = errors.to_string();
    assert!(
        message.starts_with(&path.display().to_string()),
        "the file is not named: {message}"
    );
    assert_eq!(message.lines().count(), 1, "{message}");
    for piece in says {
        assert!(message.contains(piece), "{piece:?} is not said: {message}");
    }
}

#[test]
fn files_that_are_no_sheets() {
    let folder = folder("unreadable");
    refused(
        &folder.join("missing.toml"),
        &["no such file", "check the path"],
    );
    refused(&folder, &["this is a folder", "site.toml"]);
    let file = folder.join("site.toml");
    for (bytes, says) in [
        (
            &b"[site]\ntitle = \"caf\xe9\"\n"[..],
            &[":2: ", "not UTF-8", "save the file as UTF-8"][..],
        ),
        (
            b"\xff\xfe[\0s\0",
            &[":1: ", "UTF-16", "save the file as UTF-8"],
        ),
        (
            &vec![b'#'; (1 << 20) + 1],
            &["too large: 1048577 bytes", "at most 1048576"],
        ),
    ] {
        fs::write(&file, bytes).unwrap();
        refused(&file, says);
    }
    fs::remove_dir_all(folder).unwrap();
}

#[cfg(unix)]
#[test]
fn an_endless_device_is_refused_and_not_read_to_its_end() {
    refused(std::path::Path::new("/dev/zero"), &["too large"]);
}

#[test]
fn a_sheet_of_exactly_the_limit_is_read() {
    let folder = folder("limit");
    let file = folder.join("site.toml");
    let text = site("demonstration");
    let padding = (1 << 20) - text.len() - 1;
    fs::write(&file, format!("{text}#{}", "x".repeat(padding))).unwrap();
    assert!(read_file(&file).is_ok());
    fs::remove_dir_all(folder).unwrap();
}

#[test]
fn writing_replaces_the_file_and_leaves_nothing_else() {
    let folder = folder("write");
    let file = folder.join("site.toml");
    for text in ["first", site("demonstration")] {
        write_atomically(&file, text).unwrap();
        assert_eq!(fs::read_to_string(&file).unwrap(), text);
    }
    let names: Vec<_> = fs::read_dir(&folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name())
        .collect();
    assert_eq!(names, ["site.toml"], "only the sheet is left");
    fs::remove_dir_all(folder).unwrap();
}

#[cfg(unix)]
#[test]
fn writing_keeps_permissions_and_goes_through_links() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let folder = folder("link");
    let (file, link) = (folder.join("site.toml"), folder.join("link.toml"));
    fs::write(&file, "old").unwrap();
    fs::set_permissions(&file, fs::Permissions::from_mode(0o640)).unwrap();
    symlink(&file, &link).unwrap();
    write_atomically(&link, "new").unwrap();
    assert_eq!(fs::read_to_string(&file).unwrap(), "new");
    assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
    assert_eq!(
        fs::metadata(&file).unwrap().permissions().mode() & 0o777,
        0o640
    );
    fs::remove_dir_all(folder).unwrap();
}

#[test]
fn a_place_that_cannot_be_written_is_named() {
    let folder = folder("nowhere");
    let file = folder.join("no/such/site.toml");
    let message = write_atomically(&file, "text").unwrap_err().to_string();
    assert!(
        message.contains("no/such/site.toml: cannot be written: there is no such file"),
        "{message}"
    );
    let message = write_atomically(&folder, "text").unwrap_err().to_string();
    assert!(message.contains("this is a folder"), "{message}");
    fs::remove_dir_all(folder).unwrap();
}
