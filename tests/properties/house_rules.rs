//! The rules of the tree that no compiler enforces: who may depend on whom, what lies where, what a file opens with.

use std::{
    collections::{BTreeMap, BTreeSet},
    fs,
    path::{Path, PathBuf},
    process::Command,
};

use cargo_metadata::{DependencyKind, Metadata, MetadataCommand, PackageId};

/// All that may lie at the top; build output and what git ignores apart.
const TOP: [&str; 18] = [
    ".cargo",
    ".ci",
    ".git",
    ".gitignore",
    "CHANGELOG.md",
    "Cargo.lock",
    "Cargo.toml",
    "DEVELOPERS.md",
    "LICENSE-APACHE",
    "LICENSE-MIT",
    "README.md",
    "assets",
    "clippy.toml",
    "deny.toml",
    "game",
    "lessons",
    "shared",
    "tests",
];
const LINT_FILES: [&str; 2] = ["rustfmt.toml", "typos.toml"];
/// Longest file, lines.
const LONGEST_FILE: usize = 500;

fn root() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.parent().expect("a workspace").to_path_buf()
}

/// Every Rust file of the workspace: path from the top, and text.
fn sources() -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    let mut folders: Vec<PathBuf> = ["game", "lessons", "shared", "tests"]
        .iter()
        .map(|folder| root().join(folder))
        .collect();
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).expect("a folder") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|extension| extension == "rs") {
                let name = path.strip_prefix(root()).expect("inside");
                let text = fs::read_to_string(&path).expect("a text");
                found.insert(name.to_string_lossy().replace('\\', "/"), text);
            }
        }
    }
    assert!(found.len() > 100, "only {} files found", found.len());
    found
}

/// What the tree is built from on this machine; a machine that has built it needs no network to say so.
fn metadata() -> Metadata {
    let told = Command::new(std::env::var_os("RUSTC").unwrap_or_else(|| "rustc".into()))
        .arg("-vV")
        .output()
        .expect("a compiler");
    let told = String::from_utf8(told.stdout).expect("a text");
    let mut lines = told.lines();
    let host = lines.find_map(|line| line.strip_prefix("host: "));
    let options = [
        "--offline",
        "--locked",
        "--filter-platform",
        host.expect("a host"),
    ];
    MetadataCommand::new()
        .manifest_path(root().join("Cargo.toml"))
        .other_options(options.map(str::to_owned))
        .exec()
        .expect("the metadata of the workspace")
}

/// Names of all crates that a crate of the workspace is built from, itself apart.
fn built_from(metadata: &Metadata, name: &str) -> BTreeSet<String> {
    let resolve = metadata.resolve.as_ref().expect("a resolved graph");
    let nodes: BTreeMap<&PackageId, _> =
        resolve.nodes.iter().map(|node| (&node.id, node)).collect();
    let package = metadata
        .workspace_packages()
        .into_iter()
        .find(|package| package.name.as_str() == name)
        .unwrap_or_else(|| panic!("no crate {name}"));
    let (mut reached, mut todo) = (BTreeSet::new(), vec![&package.id]);
    while let Some(id) = todo.pop() {
        for dependency in &nodes[id].deps {
            let normal = |kind: &cargo_metadata::DepKindInfo| kind.kind == DependencyKind::Normal;
            if dependency.dep_kinds.iter().any(normal) && reached.insert(&dependency.pkg) {
                todo.push(&dependency.pkg);
            }
        }
    }
    reached
        .into_iter()
        .map(|id| metadata[id].name.to_string())
        .collect()
}

#[test]
fn the_library_knows_no_interface_and_the_panels_know_no_engine() {
    let metadata = metadata();
    let is_of =
        |family: &str, name: &String| name == family || name.starts_with(&format!("{family}_"));
    for (name, forbidden) in [
        (
            "ashlane_shared",
            &["egui", "epaint", "bevy", "wgpu", "winit", "ashlane"][..],
        ),
        (
            "ashlane_lessons",
            &["egui", "epaint", "bevy", "wgpu", "winit", "ashlane_panels"],
        ),
        ("ashlane_panels", &["bevy", "wgpu", "winit"]),
    ] {
        let built_from = built_from(&metadata, name);
        assert!(built_from.len() > 5, "{name} is built from {built_from:?}");
        for family in forbidden {
            let found: Vec<_> = built_from.iter().filter(|one| is_of(family, one)).collect();
            assert!(found.is_empty(), "{name} must not be built from {found:?}");
        }
    }
    // The walk does see such things where they are.
    let program = built_from(&metadata, "ashlane");
    assert!(program.contains("bevy_ecs") && program.contains("egui"));
}

#[test]
fn nothing_else_lies_at_the_top() {
    let ignored = fs::read_to_string(root().join(".gitignore")).expect("a list");
    for entry in fs::read_dir(root()).expect("a folder") {
        let name = entry.expect("an entry").file_name();
        let name = name.to_string_lossy();
        let generated = ignored.lines().any(|line| line == format!("/{name}"))
            || (name.starts_with("ashlane-plan") && name.ends_with(".svg"));
        assert!(
            generated || TOP.contains(&&*name) || LINT_FILES.contains(&&*name),
            "{name} does not belong at the top"
        );
    }
    for name in TOP.iter().filter(|name| **name != ".git") {
        assert!(root().join(name).exists(), "{name} is missing");
    }
}

#[test]
fn every_file_says_first_what_it_is_for_and_stays_short() {
    for (name, text) in sources() {
        assert!(text.starts_with("//! "), "{name} does not open with //!");
        let lines = text.lines().count();
        assert!(lines <= LONGEST_FILE, "{name} has {lines} lines");
    }
}

#[test]
fn every_public_formula_names_its_source() {
    let mut formulas = 0;
    for (name, text) in sources() {
        if !name.starts_with("shared/src/physics/") || !text.contains("\npub fn ") {
            continue;
        }
        formulas += 1;
        assert!(text.contains("# Source"), "{name} names no source");
    }
    assert!(formulas > 15, "only {formulas} files with formulas");
}

#[test]
fn colours_are_made_in_the_theme_and_the_colour_map_only() {
    for (name, text) in sources() {
        let own = ["/theme.rs", "/cividis.rs"]
            .iter()
            .any(|end| name.ends_with(end));
        if name.starts_with("game/") && !own && !name.contains("/tests/") {
            for maker in ["from_rgb(", "srgb(", "srgb_u8(", "from_gray("] {
                for (_, rest) in text
                    .match_indices(maker)
                    .map(|(at, _)| text.split_at(at + maker.len()))
                {
                    let number = rest
                        .trim_start()
                        .starts_with(|letter: char| letter.is_ascii_digit());
                    assert!(!number, "{name} makes a colour of its own with {maker}");
                }
            }
        }
    }
}

#[test]
fn the_library_has_no_clock_no_thread_and_no_file_outside_its_adaptors() {
    const ADAPTORS: [&str; 2] = ["shared/src/parallel.rs", "shared/src/conditions/sheet/"];
    for (name, text) in sources() {
        let mine = name.starts_with("shared/src/") || name.starts_with("game/panels/src/");
        if !mine || ADAPTORS.iter().any(|adaptor| name.starts_with(adaptor)) {
            continue;
        }
        for word in [
            "std::fs",
            "std::thread",
            "Instant",
            "SystemTime",
            "std::env",
            "rayon::spawn",
        ] {
            let used = text
                .lines()
                .any(|line| !line.trim_start().starts_with("//") && line.contains(word));
            assert!(!used, "{name} uses {word}");
        }
    }
}

#[test]
fn every_published_value_and_every_lesson_is_in_its_list() {
    let listed = |list: &str, folder: &str, extension: &str, row: &dyn Fn(&str) -> String| {
        let list = fs::read_to_string(root().join(list)).expect("a list");
        let mut files = 0;
        for entry in fs::read_dir(root().join(folder)).expect("a folder") {
            let path = entry.expect("an entry").path();
            let stem = path
                .file_stem()
                .expect("a name")
                .to_string_lossy()
                .into_owned();
            if path.extension().is_some_and(|found| found == extension) && stem != "main" {
                files += 1;
                assert!(
                    list.contains(&row(&stem)),
                    "{} is in no list",
                    path.display()
                );
            }
        }
        files
    };
    let published = listed(
        "tests/published/main.rs",
        "tests/published",
        "rs",
        &|stem| format!("mod {stem};"),
    );
    assert!(published > 20, "{published} files of published values");
    let lessons = listed(
        "lessons/src/catalog.rs",
        "lessons/catalog",
        "toml",
        &|stem| format!("{stem}.toml"),
    );
    assert!(lessons > 0, "no lesson");
}
