//! The pages as a printer gets them: by Chromium, on A4 and on Letter, no leaf blank, no step on more than its own leaf.

use std::{
    fs,
    io::{Write, stderr},
    path::{Path, PathBuf},
    process::Command,
};

use ashlane_panels::handout::{blank_page, names_page};

use crate::handout::{all, blank};

/// Set where a missing Chromium is a failure.
const REQUIRED: &str = "ASHLANE_REQUIRE_CHROMIUM";
/// Papers of the two ends of the world.
const PAPERS: [&str; 2] = ["A4", "Letter"];
/// Fewest letters of a leaf that is worth its paper.
const LEAST: usize = 150;

/// A program of one of these names.
fn found(names: &[&str]) -> Option<PathBuf> {
    let paths = std::env::var_os("PATH")?;
    let mut files = std::env::split_paths(&paths).flat_map(|folder| {
        names
            .iter()
            .map(move |name| folder.join(name))
            .collect::<Vec<_>>()
    });
    files.find(|file| file.is_file())
}

/// Chromium and the program that reads its PDF; says SKIPPED where one is missing.
fn printer(test: &str) -> Option<(PathBuf, PathBuf)> {
    let chromium = found(&["chromium", "chromium-browser", "google-chrome"]);
    let both = chromium.zip(found(&["pdftotext"]));
    if both.is_none() {
        assert!(
            std::env::var_os(REQUIRED).is_none_or(|value| value != "1"),
            "no Chromium or no pdftotext (poppler-utils), and {REQUIRED} is set"
        );
        // Around the test harness, which keeps the words of tests that pass.
        writeln!(stderr(), "SKIPPED {test}: no Chromium or no pdftotext").expect("a stream");
    }
    both
}

/// The leaves of a page on this paper, as the words on them.
fn leaves(
    (chromium, reader): &(PathBuf, PathBuf),
    folder: &Path,
    page: &str,
    paper: &str,
) -> Vec<String> {
    let upright = page.replacen("@page {", &format!("@page {{ size: {paper};"), 1);
    let page = upright.replace("size: landscape", &format!("size: {paper} landscape"));
    let [html, pdf, text] = ["page.html", "page.pdf", "page.txt"].map(|name| folder.join(name));
    fs::write(&html, page).expect("a file");
    let printed = Command::new(chromium)
        .args([
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--no-pdf-header-footer",
        ])
        .arg(format!(
            "--user-data-dir={}",
            folder.join("profile").display()
        ))
        .arg(format!("--print-to-pdf={}", pdf.display()))
        .arg(format!("file://{}", html.display()))
        .output()
        .expect("Chromium");
    assert!(
        printed.status.success(),
        "{}",
        String::from_utf8_lossy(&printed.stderr)
    );
    let read = Command::new(reader)
        .arg(&pdf)
        .arg(&text)
        .status()
        .expect("pdftotext");
    assert!(read.success());
    let words = fs::read_to_string(&text).expect("its words");
    words
        .trim_end_matches('\u{c}')
        .split('\u{c}')
        .map(str::to_owned)
        .collect()
}

/// Which step each leaf of a handout belongs to, in their order.
fn places(page: &str) -> Vec<String> {
    let leaves = page.split("<section class=\"step").skip(1);
    let place = |leaf: &str| {
        let (_, line) = leaf.split_once("<p class=\"faint\">")?;
        let line = line.split("</p>").next()?;
        Some(line.split(" · ").take(2).collect::<Vec<_>>().join(" · "))
    };
    leaves.filter_map(place).collect()
}

/// A folder of its own, empty.
fn folder(test: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("ashlane_{}_{test}", std::process::id()));
    fs::create_dir_all(&folder).expect("a folder");
    folder
}

#[test]
fn every_step_is_printed_on_a_leaf_of_its_own_and_no_leaf_is_blank() {
    let test = "every_step_is_printed_on_a_leaf_of_its_own_and_no_leaf_is_blank";
    let Some(printer) = printer(test) else {
        return;
    };
    let folder = folder("leaves");
    for made in all() {
        let (id, places) = (&made.lesson.id, places(&made.handout));
        assert!(places.len() >= made.lesson.steps(), "{id}: {places:?}");
        for paper in PAPERS {
            let leaves = leaves(&printer, &folder, &made.handout, paper);
            // Goal and example, the steps with the leaves of their work, and what is looked up, which may run on.
            assert!(
                (places.len() + 2..=places.len() + 3).contains(&leaves.len()),
                "{id}, {paper}: {} leaves for {places:?}",
                leaves.len()
            );
            for (index, (place, leaf)) in places.iter().zip(&leaves[1..]).enumerate() {
                assert!(
                    leaf.contains(place),
                    "{id}, {paper}: leaf {} is not {place}",
                    index + 2
                );
            }
            for (index, leaf) in leaves.iter().enumerate() {
                let letters = leaf.chars().filter(|sign| sign.is_alphanumeric()).count();
                assert!(
                    letters >= LEAST,
                    "{id}, {paper}: leaf {} has {letters} letters",
                    index + 1
                );
                assert!(
                    leaf.contains("Not a procedure"),
                    "{id}, {paper}: no notice on leaf {}",
                    index + 1
                );
            }
        }
    }
    let made = &all()[0];
    let key = leaves(&printer, &folder, &made.key, PAPERS[0]);
    let steps = made.lesson.steps();
    assert!(
        (2..=steps + 4).contains(&key.len()),
        "{} leaves of the key",
        key.len()
    );
    fs::remove_dir_all(&folder).expect("our own folder");
}

#[test]
fn the_machine_to_fill_in_is_one_leaf_and_its_names_are_two() {
    let Some(printer) = printer("the_machine_to_fill_in_is_one_leaf_and_its_names_are_two") else {
        return;
    };
    let folder = folder("machine");
    let blank = blank();
    for paper in PAPERS {
        let sheet = leaves(&printer, &folder, &blank_page(&blank), paper);
        assert_eq!(sheet.len(), 1, "{paper}");
        let names = leaves(&printer, &folder, &names_page(&blank), paper);
        assert_eq!(names.len(), 2, "{paper}");
    }
    fs::remove_dir_all(&folder).expect("our own folder");
}
