//! For everybody: names for a screen reader, contrast of every word on screen, focus that is seen, nothing that flashes.

use std::collections::BTreeSet;

use ashlane_panels::{
    drawing::{Drawing, Item},
    elevation::{self as side, ElevationView, PARTS},
    plan::{PlanView, plan_drawing},
    state::{Rung, Tab, UiState},
    theme::{Ink, Theme, contrast},
};
use ashlane_shared::{simulation::FieldState, units::UnitSystem};
use egui::{
    Color32, Rect, Shape,
    accesskit::{Action, Role},
};
use egui_kittest::{
    Harness,
    kittest::{NodeT, Queryable},
};

use crate::{
    drawings, elevation,
    support::{Bench, demonstration_backdrop, window},
};

const RUNGS: [Rung; 7] = [
    Rung::Elevation,
    Rung::CrossSection,
    Rung::Board,
    Rung::Plan,
    Rung::Wire,
    Rung::Grain,
    Rung::Energization,
];

/// What can be shown, with sizes of a window in points.
const SHOWN: [(Tab, [f32; 2]); 4] = [
    (Tab::Section, [1440.0, 900.0]),
    (Tab::Section, [720.0, 450.0]),
    (Tab::Conditions, [720.0, 450.0]),
    (Tab::Charts, [720.0, 450.0]),
];

fn shown(rung: Rung, tab: Tab, theme: Theme, size: [f32; 2]) -> Harness<'static, Bench> {
    let ui = UiState {
        rung,
        tab,
        theme,
        ..UiState::default()
    };
    window(demonstration_backdrop(), ui, size)
}

#[test]
fn everything_that_can_be_reached_or_clicked_has_a_name() {
    let mut names = BTreeSet::new();
    for rung in RUNGS {
        for (tab, size) in SHOWN {
            let harness = shown(rung, tab, Theme::Dark, size);
            let reachable = harness.query_all_by(|node| {
                let data = node.data();
                // A scroll bar is egui's own, and the wheel and the keys of its area do the same.
                !matches!(node.role(), Role::Window | Role::ScrollBar)
                    && (data.supports_action(Action::Focus) || data.supports_action(Action::Click))
            });
            for node in reachable {
                let node = node.accesskit_node();
                let named = node.label().is_some_and(|label| !label.trim().is_empty())
                    || node.value().is_some_and(|value| !value.trim().is_empty())
                    || node.labelled_by().next().is_some();
                assert!(
                    named,
                    "{rung:?}, {tab:?}: a {:?} without a name",
                    node.role()
                );
                names.extend(node.label());
            }
        }
    }
    assert!(names.len() > 60, "only {} names: {names:?}", names.len());
}

#[test]
fn every_part_of_the_drawing_is_in_the_list_of_parts_and_a_node_of_its_own() {
    let mut harness = shown(Rung::Elevation, Tab::Section, Theme::Dark, [1440.0, 900.0]);
    let drawn: Vec<&str> = PARTS
        .iter()
        .map(|part| part.name)
        .filter(|name| harness.query_by_label(name).is_some())
        .collect();
    assert!(drawn.len() > 12, "{drawn:?}");
    harness
        .get_by(|node| node.role() == Role::ComboBox && node.value().as_deref() == Some("Parts"))
        .click();
    harness.run_steps(4);
    for part in &PARTS {
        let listed = harness.query_all_by_label(part.name).count();
        let wanted = 1 + usize::from(drawn.contains(&part.name));
        assert!(listed >= wanted, "{}: {listed} of {wanted}", part.name);
    }
}

/// What lies over another colour.
fn over(ground: [f32; 3], colour: Color32) -> [f32; 3] {
    let [red, green, blue, alpha] = colour.to_array();
    let left = 1.0 - f32::from(alpha) / 255.0;
    // egui's colours are multiplied by their opacity.
    let add = [red, green, blue].map(f32::from);
    [0, 1, 2].map(|channel| add[channel] + left * ground[channel])
}

/// Every text of a frame: its words, its contrast and where it stands.
fn texts(harness: &Harness<'_, Bench>, theme: Theme) -> Vec<(String, f64, Rect)> {
    let shapes = &harness.output().shapes;
    let mut texts = Vec::new();
    for (index, shape) in shapes.iter().enumerate() {
        let Shape::Text(text) = &shape.shape else {
            continue;
        };
        let rect = text.visual_bounding_rect();
        if !shape.clip_rect.contains_rect(rect) || text.galley.text().trim().is_empty() {
            continue;
        }
        let mut ground = Ink::Ground.rgb(theme).map(f32::from);
        for below in &shapes[..index] {
            let (area, fill) = match &below.shape {
                Shape::Rect(fill) => (fill.rect, fill.fill),
                Shape::Circle(fill) => (fill.visual_bounding_rect(), fill.fill),
                Shape::Path(fill) if fill.closed => (fill.visual_bounding_rect(), fill.fill),
                _ => continue,
            };
            if area.intersect(below.clip_rect).contains(rect.center()) {
                ground = over(ground, fill);
            }
        }
        let section = text.galley.job.sections.first();
        let colour = text
            .override_text_color
            .or_else(|| section.map(|section| section.format.color))
            .filter(|colour| *colour != Color32::PLACEHOLDER)
            .unwrap_or(text.fallback_color);
        let rounded = |rgb: [f32; 3]| rgb.map(|channel| channel.round().clamp(0.0, 255.0) as u8);
        let ratio = contrast(rounded(over(ground, colour)), rounded(ground));
        texts.push((text.galley.text().to_owned(), ratio, rect));
    }
    texts
}

#[test]
fn every_word_on_screen_stands_out_from_what_lies_behind_it() {
    let (mut seen, mut faint) = (0, Vec::new());
    for theme in [Theme::Dark, Theme::Light] {
        for rung in RUNGS {
            for (tab, size) in SHOWN {
                let harness = shown(rung, tab, theme, size);
                let disabled: Vec<Rect> = harness
                    .query_all_by(|node| node.is_disabled())
                    .map(|node| node.rect())
                    .collect();
                for (words, ratio, rect) in texts(&harness, theme) {
                    // What cannot be used now is exempt (WCAG 2.2, 1.4.3).
                    if disabled
                        .iter()
                        .any(|node| node.expand(2.0).contains_rect(rect))
                    {
                        continue;
                    }
                    seen += 1;
                    if ratio < 4.5 {
                        faint.push(format!(
                            "\"{words}\" in {theme:?}, {rung:?}, {tab:?}: {ratio:.2} at {rect:?}"
                        ));
                    }
                }
            }
        }
    }
    assert!(faint.is_empty(), "{}", faint.join("\n"));
    assert!(seen > 2000, "only {seen} texts");
}

#[test]
fn a_focused_drawing_has_a_ring_that_is_seen() {
    for theme in [Theme::Dark, Theme::Light] {
        let ring = Ink::Control.colour(theme);
        assert!(contrast(Ink::Control.rgb(theme), Ink::Ground.rgb(theme)) >= 3.0);
        // The panel is made of widgets, which have rings of their own.
        for rung in RUNGS.into_iter().filter(|rung| *rung != Rung::Board) {
            let mut harness = shown(rung, Tab::Section, theme, [1440.0, 900.0]);
            let drawing = harness.state().room.drawing.expect("a drawing");
            let rings = |harness: &Harness<'_, Bench>| {
                let shapes = harness.output().shapes.iter();
                let is_ring = |shape: &&egui::epaint::ClippedShape| match &shape.shape {
                    Shape::Rect(rect) => {
                        rect.stroke.color == ring
                            && rect.stroke.width >= 2.0
                            && drawing.expand(4.0).contains_rect(rect.rect)
                            && rect.rect.width() > 0.9 * drawing.width()
                    }
                    _ => false,
                };
                shapes.filter(is_ring).count()
            };
            assert_eq!(rings(&harness), 0, "{rung:?}");
            let image = harness.query_all_by(|node| {
                let inside = drawing.expand(1.0).contains_rect(node_rect(node));
                node.role() == Role::Image && inside
            });
            let largest =
                image.max_by(|one, other| one.rect().area().total_cmp(&other.rect().area()));
            largest.expect("a drawing with a name").focus();
            harness.run_steps(3);
            assert_eq!(rings(&harness), 1, "{rung:?} in {theme:?}");
        }
    }
}

fn node_rect(node: &egui_kittest::kittest::AccessKitNode<'_>) -> Rect {
    let bounds = node.raw_bounds().unwrap_or_default();
    Rect::from_min_max(
        egui::pos2(bounds.x0 as f32, bounds.y0 as f32),
        egui::pos2(bounds.x1 as f32, bounds.y1 as f32),
    )
}

/// Points² of all marks of sparks in a drawing.
fn sparks_area(drawing: &Drawing) -> f32 {
    let marks = drawing.items.iter().filter_map(|item| match item {
        Item::Area {
            points,
            ink: Ink::Electrode,
            ..
        } => Some(points),
        _ => None,
    });
    let area = |points: &Vec<[f32; 2]>| {
        let next = points.iter().cycle().skip(1);
        let crossed = points
            .iter()
            .zip(next)
            .map(|(a, b)| a[0] * b[1] - a[1] * b[0]);
        0.5 * crossed.sum::<f32>().abs()
    };
    marks.map(area).sum()
}

#[test]
fn sparks_never_flash_however_many_there_are() {
    // 25 % of a field of 10°, a block of 341 × 256 points of a 1024 × 768 screen (WCAG 2.2, 2.3.1).
    const FLASH: f32 = 0.25 * 341.0 * 256.0;
    let mut many = ashlane_shared::conditions::demonstration();
    many.set_fields(12);
    let backdrop = crate::support::Backdrop::empty(many);
    let storm: Vec<FieldState> = backdrop
        .simulation
        .frame()
        .fields()
        .iter()
        .map(|field| FieldState {
            sparks_per_min: 600.0,
            ..field.clone()
        })
        .collect();
    let window = ashlane_panels::state::PlanWindow {
        start_m: 0.0,
        length_m: 36.0,
    };
    let plan = drawings::plan(&backdrop, window, UnitSystem::Si);
    let machine = elevation::view(&backdrop, UnitSystem::Si);
    let mut most = 0.0_f32;
    for step in (2400..3400).step_by(4) {
        for calm in [false, true] {
            let plan = plan_drawing(
                &PlanView {
                    fields: &storm,
                    step,
                    calm,
                    ..plan
                },
                [1000.0, 500.0],
            );
            let machine = side::drawing(
                &ElevationView {
                    fields: &storm,
                    step,
                    calm,
                    ..machine
                },
                [1000.0, 600.0],
            );
            for area in [sparks_area(&plan), sparks_area(&machine)] {
                if calm {
                    assert_eq!(area, 0.0, "reduced motion: a counter, and no marks");
                }
                most = most.max(area);
            }
        }
    }
    assert!(most > 0.0, "no spark is marked");
    assert!(most < 0.25 * FLASH, "{most} points² of marks at a time");
}
