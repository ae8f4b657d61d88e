//! What is drawn: the drawing shows the dust, two runs give the same picture, and without storage buffers it is the
//! same drawing.

use std::{
    path::Path,
    process::{Command, Output},
};

use ashlane_panels::theme::{Ink, Theme};

use crate::support::{Folder, can_render, demonstration_stage};

/// Width, height and RGBA bytes of a PNG file.
fn pixels(path: &Path) -> (u32, u32, Vec<u8>) {
    let file = std::io::BufReader::new(std::fs::File::open(path).expect("a picture"));
    let mut reader = png::Decoder::new(file).read_info().expect("a PNG");
    let mut bytes = vec![0; reader.output_buffer_size().expect("a size")];
    let info = reader.next_frame(&mut bytes).expect("pixels");
    bytes.truncate(info.buffer_size());
    (info.width, info.height, bytes)
}

fn picture(view: &str, out: &Path, environment: &[(&str, &str)]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_ashlane"))
        .args(["picture", "demonstration", "--size", "960x600", "--view"])
        .arg(view)
        .arg("--out")
        .arg(out)
        .envs(environment.iter().copied())
        .output()
        .expect("a process")
}

#[track_caller]
fn made(output: &Output) {
    let words = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{words}");
}

/// Side of a block of pixels: larger than a grain, smaller than what one looks at.
const BLOCK: usize = 12;

/// Largest and mean difference of the mean shades of blocks, 0 to 255: what is left when one steps back.
fn blocks_differ(one: &(u32, u32, Vec<u8>), other: &(u32, u32, Vec<u8>)) -> (f64, f64) {
    assert_eq!(
        (one.0, one.1),
        (other.0, other.1),
        "pictures of different sizes"
    );
    let (width, height) = (one.0 as usize, one.1 as usize);
    let mean = |bytes: &[u8], x: usize, y: usize, channel: usize| {
        let rows = (y..y + BLOCK).map(|y| &bytes[4 * (y * width + x)..][..4 * BLOCK]);
        let sum: u32 = rows
            .flat_map(|row| row.iter().skip(channel).step_by(4))
            .map(|byte| u32::from(*byte))
            .sum();
        f64::from(sum) / (BLOCK * BLOCK) as f64
    };
    let (mut largest, mut sum, mut blocks) = (0.0_f64, 0.0, 0.0);
    for y in (0..=height - BLOCK).step_by(BLOCK) {
        for x in (0..=width - BLOCK).step_by(BLOCK) {
            for channel in 0..3 {
                let apart = mean(&one.2, x, y, channel) - mean(&other.2, x, y, channel);
                largest = largest.max(apart.abs());
                sum += apart.abs();
                blocks += 1.0;
            }
        }
    }
    (largest, sum / blocks)
}

/// Share of pixels that differ.
fn share_that_differs(one: &[u8], other: &[u8]) -> f64 {
    assert_eq!(one.len(), other.len(), "pictures of different sizes");
    let pairs = one.as_chunks::<4>().0.iter().zip(other.as_chunks::<4>().0);
    let differ = pairs.filter(|(one, other)| one != other).count();
    differ as f64 / (one.len() / 4) as f64
}

#[test]
fn dust_appears_on_the_drawing_as_it_flies_in() {
    let Some(mut stage) = demonstration_stage("dust appears", (1024, 768)) else {
        return;
    };
    stage.ui().tracers = false;
    stage.count().expect("a count");
    let empty = stage.picture().expect("a picture").data.expect("pixels");
    let again = stage.picture().expect("a picture").data.expect("pixels");
    assert_eq!(share_that_differs(&empty, &again), 0.0, "paused, and moves");
    stage.fly(1200);
    let full = stage.picture().expect("a picture").data.expect("pixels");
    let share = share_that_differs(&empty, &full);
    assert!(share > 0.01, "the dust changes only {share} of the picture");
}

#[test]
fn the_same_words_make_the_same_picture() {
    if !can_render("same picture") {
        return;
    }
    let folder = Folder::new("twice");
    let (one, other) = (folder.file("one.png"), folder.file("other.png"));
    made(&picture("window", &one, &[]));
    made(&picture("window", &other, &[]));
    assert_eq!(pixels(&one), pixels(&other));
}

/// A browser has no storage buffers; the grains are then a mesh that is rebuilt, and must look alike.
#[test]
fn without_storage_buffers_it_is_the_same_drawing() {
    if !can_render("without storage buffers") {
        return;
    }
    let folder = Folder::new("webgl2");
    let (with, without) = (folder.file("with.png"), folder.file("without.png"));
    made(&picture("plan", &with, &[]));
    made(&picture(
        "plan",
        &without,
        &[("WGPU_SETTINGS_PRIO", "webgl2")],
    ));
    // Edges of grains are softened in another way; seen from a step back nothing may differ. Fine dust is nearly all
    // edge: 1.1 of 255 on average with a median of 10 µm.
    let (largest, mean) = blocks_differ(&pixels(&with), &pixels(&without));
    assert!(
        largest < 24.0 && mean < 1.5,
        "blocks differ by {mean} on average and by up to {largest} of 255"
    );
}

#[test]
fn where_nothing_renders_a_picture_is_refused_and_a_line_drawing_made() {
    let folder = Folder::new("no_renderer");
    let nothing = [
        ("VK_ICD_FILENAMES", "/nowhere.json"),
        ("WGPU_BACKEND", "vulkan"),
    ];
    let out = folder.file("plan.png");
    let output = picture("plan", &out, &nothing);
    assert_eq!(output.status.code(), Some(2));
    let words = String::from_utf8_lossy(&output.stderr);
    assert!(words.contains("--svg"), "{words}");
    assert!(!out.exists(), "a picture from nowhere");
    let output = Command::new(env!("CARGO_BIN_EXE_ashlane"))
        .args([
            "picture",
            "demonstration",
            "--view",
            "plan",
            "--svg",
            "--out",
        ])
        .arg(folder.file("plan.svg"))
        .envs(nothing)
        .output()
        .expect("a process");
    made(&output);
    let text = std::fs::read_to_string(folder.file("plan.svg")).expect("a drawing");
    assert!(text.contains("Not a procedure"), "no notice");
    assert!(
        text.starts_with("<svg") || text.starts_with("<?xml"),
        "{}",
        &text[..80]
    );
}

/// Each closer look as a figure: its checks agree, its cautions and the notice stand below it.
#[test]
fn every_closer_look_is_a_figure_with_its_checks_and_cautions() {
    let folder = Folder::new("closer looks");
    for (view, check) in [
        ("wire", "onset: computed V0 against Peek"),
        ("grain", "flown against w = q E Cc/(3π"),
        ("energization", "mean mA: trace against the solved field"),
        ("cross-section", "continuity: readings times face"),
        ("elevation", "dry gas, outlet over inlet duct"),
    ] {
        let file = folder.file(&format!("{view}.svg"));
        let output = Command::new(env!("CARGO_BIN_EXE_ashlane"))
            .args(["picture", "demonstration", "--svg", "--view", view, "--out"])
            .arg(&file)
            .output()
            .expect("a process");
        made(&output);
        let text = std::fs::read_to_string(&file).expect("a drawing");
        let caution = if ["cross-section", "elevation"].contains(&view) {
            "onfined space"
        } else {
            "ozone"
        };
        for words in [check, "agree", "tored charge", caution, "Not a procedure"] {
            assert!(text.contains(words), "{view}: no \"{words}\"");
        }
        assert!(!text.contains("disagree"), "{view} disagrees");
        // For print: the ground is the light one.
        let [red, green, blue] = Ink::Ground.rgb(Theme::Light);
        let ground = format!("#{red:02x}{green:02x}{blue:02x}");
        assert!(text.contains(&ground), "{view} is not on {ground}");
    }
}

/// Side of the blocks by which a picture is held against the one that was looked at.
const HALF: usize = 2;
/// A block has changed when a colour differs by more than this, of 255: software renderers round apart by one or two.
const CHANGED: u8 = 16;
/// So many blocks may change, of 144 000: on the machine where the pictures were made there is none, and a name that is
/// missing has some hundreds.
const MOST_CHANGED: usize = 100;

/// Means of blocks of pixels, red, green and blue: width, height, bytes.
fn in_blocks((width, height, bytes): &(u32, u32, Vec<u8>)) -> (u32, u32, Vec<u8>) {
    let (across, down) = (*width as usize / HALF, *height as usize / HALF);
    let mut means = Vec::with_capacity(3 * across * down);
    for y in 0..down {
        for x in 0..across {
            for channel in 0..3 {
                let at = |row: usize, column: usize| {
                    let pixel = (HALF * y + row) * *width as usize + HALF * x + column;
                    u32::from(bytes[4 * pixel + channel])
                };
                let places = (0..HALF).flat_map(|row| (0..HALF).map(move |column| (row, column)));
                let sum: u32 = places.map(|(row, column)| at(row, column)).sum();
                means.push((sum / (HALF * HALF) as u32) as u8);
            }
        }
    }
    (across as u32, down as u32, means)
}

/// How many blocks of a view differ from the picture that was looked at; renews that one where it is asked for.
fn blocks_that_changed(view: &str, drawn: &(u32, u32, Vec<u8>)) -> usize {
    let known = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/looked_at")
        .join(format!("{view}.png"));
    let (width, height, means) = in_blocks(drawn);
    if std::env::var_os("ASHLANE_RENEW").is_some() {
        let file = std::fs::File::create(&known).expect("a file");
        let mut encoder = png::Encoder::new(std::io::BufWriter::new(file), width, height);
        encoder.set_color(png::ColorType::Rgb);
        encoder.set_depth(png::BitDepth::Eight);
        encoder.set_compression(png::Compression::High);
        let mut writer = encoder.write_header().expect("a head");
        writer.write_image_data(&means).expect("pixels");
        return 0;
    }
    let (known_width, known_height, looked_at) = pixels(&known);
    assert_eq!((known_width, known_height), (width, height), "{view}");
    let blocks = means.as_chunks::<3>().0.iter();
    let pairs = blocks.zip(looked_at.as_chunks::<3>().0);
    let differs = |(one, other): &(&[u8; 3], &[u8; 3])| {
        let mut channels = one.iter().zip(*other);
        channels.any(|(one, other)| one.abs_diff(*other) > CHANGED)
    };
    pairs.filter(differs).count()
}

/// Keeps a picture where somebody can look at it.
fn keep(file: &Path, view: &str) {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("../changed");
    std::fs::create_dir_all(&folder).expect("a folder");
    std::fs::copy(file, folder.join(format!("{view}.png"))).expect("a copy");
}

/// The same in pixels: every view is what somebody looked at, and no two look alike.
#[test]
fn every_view_is_the_picture_that_was_looked_at_and_one_of_its_own() {
    if !can_render("closer looks") {
        return;
    }
    let folder = Folder::new("closer pictures");
    let (mut seen, mut changed) = (Vec::new(), Vec::new());
    let views = ashlane_lessons::command_line::VIEWS.map(|(view, _)| view);
    for view in views {
        let file = folder.file(&format!("{view}.png"));
        made(&picture(view, &file, &[]));
        let drawn = pixels(&file);
        let blocks = blocks_that_changed(view, &drawn);
        if blocks > MOST_CHANGED {
            changed.push(format!("{view}: {blocks} blocks"));
            keep(&file, view);
        }
        if view != "window" {
            seen.push(drawn);
        }
    }
    assert!(
        changed.is_empty(),
        "other than the pictures that were looked at in game/tests/looked_at: {}. The new ones lie in target/changed; if \
         they are right, ASHLANE_RENEW=1 takes them over",
        changed.join("; ")
    );
    for (index, one) in seen.iter().enumerate() {
        for other in &seen[index + 1..] {
            let (largest, _) = blocks_differ(one, other);
            assert!(largest > 60.0, "two views look alike: {largest}");
        }
    }
}
