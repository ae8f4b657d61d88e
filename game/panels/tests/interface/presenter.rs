//! A presentation as a trainer with a clicker and a class five metres away meet it.

use ashlane_lessons::engine::Command;
use ashlane_panels::{
    command::UiCommand,
    lesson::LessonCommand,
    presenter::{Tool, present, zoom_factor},
    state::{Dialog, Purpose, Rung, UiState},
    theme::Theme,
};
use ashlane_shared::checks::agreement;
use egui::{Key, Shape, accesskit::Role};
use egui_kittest::{
    Harness,
    kittest::{NodeT, Queryable},
};

use crate::{
    everywhere::all_within,
    lesson::{explained, opened},
    support::{Bench, demonstration_backdrop, window, window_in},
};

/// Projectors and a laptop, pixels.
const PICTURES: [[f32; 2]; 4] = [
    [1920.0, 1080.0],
    [1440.0, 900.0],
    [1024.0, 768.0],
    [3840.0, 2160.0],
];
/// What can be read from five metres on a picture of two metres: training specification 1, week-one list, item 3.
const LABEL_PX: f32 = 24.0;
const READING_PX: f32 = 32.0;
const LINE_PX: f32 = 2.5;
/// A picture of 1920 by 1080 pixels that is being presented.
pub(crate) const POINTS: [f32; 2] = [1000.0, 562.5];

const RUNGS: [Rung; 7] = [
    Rung::Elevation,
    Rung::CrossSection,
    Rung::Plan,
    Rung::Wire,
    Rung::Grain,
    Rung::Energization,
    Rung::Board,
];

fn presented(rung: Rung) -> UiState {
    let mut ui = UiState {
        rung,
        ..UiState::default()
    };
    present(&mut ui);
    ui
}

pub(crate) fn stage(rung: Rung) -> Harness<'static, Bench> {
    window(demonstration_backdrop(), presented(rung), POINTS)
}

pub(crate) fn press(harness: &mut Harness<'_, Bench>, key: Key) {
    harness.key_press(key);
    harness.run_steps(2);
}

pub(crate) fn tool(harness: &Harness<'_, Bench>) -> Tool {
    let presenting = harness.state().ui.presenting.as_ref();
    presenting.expect("a presentation").tool.clone()
}

pub(crate) fn says(harness: &Harness<'_, Bench>, words: &str) -> bool {
    harness.query_by_label_contains(words).is_some()
}

/// Every simple shape of the picture.
pub(crate) fn shapes<'h>(harness: &'h Harness<'_, Bench>) -> Vec<&'h Shape> {
    fn open<'s>(shape: &'s Shape, all: &mut Vec<&'s Shape>) {
        match shape {
            Shape::Vec(shapes) => shapes.iter().for_each(|shape| open(shape, all)),
            _ => all.push(shape),
        }
    }
    let mut all = Vec::new();
    for clipped in &harness.output().shapes {
        open(&clipped.shape, &mut all);
    }
    all
}

/// Width of a line that is drawn, points.
fn line(shape: &Shape) -> Option<f32> {
    let width = match shape {
        Shape::LineSegment { stroke, .. } => stroke.width,
        Shape::Path(path) => path.stroke.width,
        Shape::Circle(circle) => circle.stroke.width,
        _ => 0.0,
    };
    (width > 0.0).then_some(width)
}

#[test]
fn the_button_and_the_key_begin_and_the_theme_comes_back() {
    let mut harness = window(
        demonstration_backdrop(),
        UiState::default(),
        [1440.0, 900.0],
    );
    harness.get_by_label("Present").click();
    harness.run_steps(2);
    let ui = &harness.state().ui;
    assert!(ui.presenting.is_some());
    assert_eq!(ui.theme, Theme::Light);
    assert!(!says(&harness, "Gas flow"), "controls while presenting");
    press(&mut harness, Key::Escape);
    assert!(harness.state().ui.presenting.is_none());
    assert_eq!(harness.state().ui.theme, Theme::Dark);
    for begun in [true, false] {
        press(&mut harness, Key::F5);
        assert_eq!(harness.state().ui.presenting.is_some(), begun);
    }
    assert!(harness.state().out.is_empty(), "{:?}", harness.state().out);
}

#[test]
fn every_rung_shows_reading_sentence_check_cautions_and_notice_and_nothing_else() {
    for rung in RUNGS {
        let harness = stage(rung);
        for words in ["caught", "Agreement: ", "agree", "Not a procedure."] {
            assert!(
                harness.query_all_by_label_contains(words).count() > 0,
                "no \"{words}\" at {rung:?}"
            );
        }
        let hazard = match rung {
            Rung::Plan | Rung::Board => None,
            _ => Some("⚠ stored charge"),
        };
        assert_eq!(says(&harness, "⚠ stored charge"), hazard.is_some());
        for other in ["File", "Undo", "Charts", "Restart", "Explore", "Collector"] {
            assert!(
                harness.query_by_label(other).is_none(),
                "\"{other}\" at {rung:?}"
            );
        }
    }
}

#[test]
fn words_and_lines_can_be_read_from_the_last_row() {
    for picture in PICTURES {
        // Sizes are stated for a picture of 1920 by 1080 pixels, however many pixels show it.
        let share = (picture[0] / 1920.0).min(picture[1] / 1080.0);
        for rung in RUNGS {
            let ui = presented(rung);
            let zoom = zoom_factor(&ui, picture, 1.0);
            let harness = window(
                demonstration_backdrop(),
                ui,
                picture.map(|side| side / zoom),
            );
            let (mut texts, mut lines, mut largest) = (0, 0, 0.0_f32);
            for shape in shapes(&harness) {
                if let Shape::Text(text) = shape {
                    for section in &text.galley.job.sections {
                        let px = section.format.font_id.size * zoom / share;
                        assert!(
                            px > LABEL_PX - 0.01,
                            "{px} px at {rung:?}: {}",
                            text.galley.text()
                        );
                        largest = largest.max(px);
                        texts += 1;
                    }
                }
                if let Some(width) = line(shape) {
                    let px = width * zoom / share;
                    assert!(px > LINE_PX - 0.01, "{px} px at {rung:?}: {shape:?}");
                    lines += 1;
                }
            }
            assert!(largest > READING_PX, "reading of {largest} px");
            assert!(texts > 20 && lines > 0, "{texts} texts, {lines} lines");
        }
    }
}

#[test]
fn outside_a_presentation_lines_are_as_thin_as_drawn_and_text_as_asked_for() {
    let mut harness = stage(Rung::Wire);
    press(&mut harness, Key::F5);
    let thin = shapes(&harness).into_iter().filter_map(line);
    assert!(thin.fold(9.0, f32::min) <= 1.01);
    let ui = UiState {
        text_percent: 150,
        ..UiState::default()
    };
    assert_eq!(zoom_factor(&ui, [1920.0, 1080.0], 1.0), 1.5);
    // On a screen with two pixels in a point the same picture needs half the factor; more can be asked for.
    assert!((zoom_factor(&presented(Rung::Plan), [1920.0, 1080.0], 2.0) - 1.0).abs() < 1e-6);
    let mut large = presented(Rung::Plan);
    large.text_percent = 250;
    assert_eq!(zoom_factor(&large, [1920.0, 1080.0], 1.0), 2.5);
}

#[test]
fn nothing_is_cut_off_on_any_picture_at_any_text_size() {
    for picture in PICTURES {
        for percent in [100, 200, 250] {
            for rung in RUNGS {
                let mut ui = presented(rung);
                ui.text_percent = percent;
                let zoom = zoom_factor(&ui, picture, 1.0);
                let size = picture.map(|side| side / zoom);
                let harness = window(demonstration_backdrop(), ui, size);
                let what = format!("{picture:?} at {percent} %, {rung:?}");
                all_within(&harness, size, &what);
                let room = harness.state().room.drawing.expect("a drawing");
                // The panel scrolls.
                let least = if rung == Rung::Board { 48.0 } else { 60.0 };
                assert!(room.height() > least, "{what}: {room:?}");
            }
        }
    }
}

#[test]
fn a_clicker_walks_down_the_ladder_and_back() {
    let mut harness = stage(Rung::Elevation);
    let mut met = vec![Rung::Elevation];
    let mut windows = Vec::new();
    for _ in 0..8 {
        press(&mut harness, Key::PageDown);
        let ui = &harness.state().ui;
        met.push(ui.rung);
        if ui.rung == Rung::Plan {
            windows.push(ui.window.length_m);
        }
    }
    let expected = [
        Rung::Elevation,
        Rung::CrossSection,
        Rung::Plan,
        Rung::Plan,
        Rung::Plan,
        Rung::Wire,
        Rung::Grain,
        Rung::Energization,
        Rung::Board,
    ];
    assert_eq!(met, expected);
    // All four fields, one, and four wire spacings of 250 mm.
    assert_eq!(windows, [12.0, 3.0, 1.0]);
    for _ in 0..8 {
        press(&mut harness, Key::PageUp);
    }
    assert_eq!(harness.state().ui.rung, Rung::Elevation);
    // At the grain one is followed, where none is, and nothing else is asked for.
    let follows = |command: &UiCommand| matches!(command, UiCommand::Follow(_));
    assert!(
        harness.state().out.iter().all(follows),
        "{:?}",
        harness.state().out
    );
}

/// The state, but for the time that has passed at its rung.
fn but_for_time(harness: &Harness<'_, Bench>, before: &UiState) -> UiState {
    UiState {
        zoom: before.zoom,
        ..harness.state().ui.clone()
    }
}

#[test]
fn single_keys_do_nothing_outside_and_while_something_is_typed() {
    let keys = [
        Key::PageDown,
        Key::S,
        Key::L,
        Key::P,
        Key::B,
        Key::W,
        Key::R,
        Key::H,
        Key::Home,
    ];
    let mut outside = window(
        demonstration_backdrop(),
        UiState::default(),
        [1440.0, 900.0],
    );
    let before = outside.state().ui.clone();
    for key in keys {
        press(&mut outside, key);
    }
    assert_eq!(but_for_time(&outside, &before), before);
    assert!(outside.state().out.is_empty(), "{:?}", outside.state().out);
    let mut ui = presented(Rung::Plan);
    ui.dialog = Some(Dialog {
        purpose: Purpose::Picture,
        path: "s".to_owned(),
    });
    let mut typing = window(demonstration_backdrop(), ui, POINTS);
    let before = typing.state().ui.clone();
    for key in keys.into_iter().chain([Key::Escape, Key::F5, Key::Period]) {
        press(&mut typing, key);
    }
    assert_eq!(but_for_time(&typing, &before), before);
    assert!(typing.state().out.is_empty(), "{:?}", typing.state().out);
}

#[test]
fn the_reading_is_the_count_and_the_meters() {
    let backdrop = demonstration_backdrop();
    let mut harness = stage(Rung::Wire);
    let (result, theory) = backdrop.count.as_ref().expect("a count");
    let counted = agreement(result, theory).counted;
    let shown = harness.get_by(|node| {
        node.role() == Role::Button && node.label().is_some_and(|label| label.contains("caught"))
    });
    let label = shown.accesskit_node().label().expect("words");
    let numbers: Vec<f64> = label
        .split(|letter: char| !letter.is_ascii_digit() && letter != '.')
        .filter_map(|number| number.parse().ok())
        .collect();
    // Three digits and more are shown.
    let near = |a: f64, b: f64| (a / b - 1.0).abs() < 0.05;
    assert!(near(numbers[0], 100.0 * counted.share), "{label}");
    assert!(near(numbers[1], 300.0 * counted.standard_error), "{label}");
    assert!(
        (numbers[2] - 100.0 * (1.0 - counted.share)).abs() < 0.05,
        "{label}"
    );
    harness.state_mut().ui.field = 2;
    press(&mut harness, Key::R);
    let moment = backdrop.simulation.frame();
    let kv = moment.fields()[2].metered_v() / 1e3;
    assert!(says(&harness, &format!("{kv:.0} kV · ")), "{kv} kV");
    assert!(says(&harness, "Field 3 · mean voltage and current"));
    press(&mut harness, Key::R);
    assert!(says(&harness, "Dust in the gas that leaves"));
    press(&mut harness, Key::R);
    assert!(says(&harness, "Penetration (3σ"));
}

#[test]
fn the_sentence_is_about_the_part_that_is_looked_at() {
    let mut harness = stage(Rung::Elevation);
    assert!(says(&harness, "The whole machine from the side: dusty gas"));
    harness.state_mut().ui.part = Some("Collecting plate");
    harness.run_steps(2);
    assert!(says(&harness, "Collecting plate. "));
    assert!(says(&harness, "⚠ falling ash"));
}

#[test]
fn everything_has_a_name_tab_goes_round_and_the_keys_can_be_hidden() {
    let mut harness = stage(Rung::Elevation);
    let buttons = harness.query_all_by(|node| node.role() == Role::Button);
    let mut named = 0;
    for node in buttons {
        let label = node.accesskit_node().label().unwrap_or_default();
        assert!(!label.is_empty());
        named += 1;
    }
    assert!(named > 10, "{named} buttons");
    let mut reached = std::collections::BTreeSet::new();
    for _ in 0..60 {
        harness.key_press(Key::Tab);
        harness.run_steps(1);
        for node in harness.query_all_by(|node| node.is_focused()) {
            reached.insert(node.accesskit_node().label().unwrap_or_default());
        }
    }
    for wanted in ["caught", "Stack", "stored charge", "P pen", "Esc leave"] {
        assert!(
            reached.iter().any(|name| name.contains(wanted)),
            "Tab never reaches {wanted}: {reached:?}"
        );
    }
    press(&mut harness, Key::H);
    assert!(!says(&harness, "Esc leave"));
    harness.get_by_label("H keys").click();
    harness.run_steps(2);
    assert!(says(&harness, "Esc leave"));
    harness.get_by_label("S spotlight").click();
    harness.run_steps(2);
    assert!(matches!(tool(&harness), Tool::Spotlight(_)));
}

#[test]
fn in_a_lesson_a_clicker_goes_from_step_to_step_as_far_as_they_are_open() {
    let ui = presented(Rung::Plan);
    let mut harness = window_in(demonstration_backdrop(), ui, POINTS, Some(opened()));
    assert!(says(&harness, "Step 1 of "));
    // The first step is not answered: the next is closed, and there is none before.
    for key in [Key::PageDown, Key::PageUp] {
        press(&mut harness, key);
    }
    assert!(harness.state().out.is_empty(), "{:?}", harness.state().out);
    press(&mut harness, Key::Home);
    assert_eq!(harness.state().out, vec![UiCommand::Restart]);
    harness.state_mut().classroom = Some(explained());
    harness.state_mut().out.clear();
    press(&mut harness, Key::PageDown);
    let next = UiCommand::from(LessonCommand::Do(Command::Next));
    assert_eq!(harness.state().out, vec![next]);
    assert_eq!(harness.state().ui.rung, Rung::Plan);
}
