//! The reference in the tree is what the key table says today.

use std::{fs, path::Path};

use ashlane_shared::conditions::{PARTS, keys, site_sheet_guide};

#[test]
fn the_reference_in_the_tree_is_up_to_date() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../assets/sites/README.md");
    let expected = site_sheet_guide();
    if std::env::var_os("ASHLANE_RENEW").is_some_and(|value| value == "1") {
        fs::write(&file, &expected).unwrap();
    }
    let found = fs::read_to_string(&file).unwrap_or_default();
    let differs = found
        .lines()
        .zip(expected.lines())
        .position(|(found, expected)| found != expected);
    assert!(
        found == expected,
        "assets/sites/README.md differs from the key table at line {}; renew it with\n    \
         ASHLANE_RENEW=1 cargo test -p ashlane_tests --test properties site_sheet::guide",
        differs.unwrap_or_else(|| found.lines().count()) + 1
    );
}

#[test]
fn the_reference_names_every_key_and_part() {
    let guide = site_sheet_guide();
    for key in keys() {
        let (section, name) = key.split();
        let table = guide
            .split(&format!("## `[{section}]`"))
            .nth(1)
            .unwrap_or_default();
        let row = table
            .lines()
            .find(|line| line.starts_with(&format!("| `{name}` |")));
        assert!(
            row.is_some_and(|row| row.contains(key.meaning)),
            "{} is not explained",
            key.path
        );
    }
    for part in PARTS {
        assert!(
            guide.contains(&format!("| `{}` | {} |", part.key, part.name)),
            "{}",
            part.key
        );
    }
}
