//! Drawings as data: no text runs over another or out of the figure, and the numbers are those of the model.

use ashlane_panels::{
    charts::{along_drawing, by_size_drawing},
    drawing::{Drawing, Point},
    plan::{FieldScale, PlanPlaces, PlanView, plan_drawing, still_drawing},
    state::PlanWindow,
    strip::{STRIP_HEIGHT, strip_drawing},
    theme::Theme,
    view::CountView,
};
use ashlane_shared::units::UnitSystem;

use crate::support::{Backdrop, demonstration_backdrop};

/// Room of a drawing in a window of 1440 × 900, of 1024 × 768, and of 1440 × 900 with text of 200 %; then others.
pub(crate) const SIZES: [Point; 8] = [
    [840.0, 560.0],
    [720.0, 300.0],
    [360.0, 280.0],
    [1440.0, 900.0],
    [1024.0, 768.0],
    [720.0, 450.0],
    [512.0, 384.0],
    [600.0, 700.0],
];

fn count(backdrop: &Backdrop) -> CountView<'_> {
    CountView {
        result: backdrop.count.as_ref().map(|(result, _)| result),
        theory: backdrop.count.as_ref().map(|(_, theory)| theory),
        settling: None,
    }
}

pub(crate) fn plan(backdrop: &Backdrop, window: PlanWindow, units: UnitSystem) -> PlanView<'_> {
    let frame = backdrop.simulation.frame();
    PlanView {
        conditions: &backdrop.conditions,
        fields: frame.fields(),
        deposits: frame.deposits,
        plates: &[],
        step: frame.step(),
        followed: frame.followed(),
        window,
        field_scale: FieldScale::of(frame.fields(), backdrop.conditions.gap_m()),
        units,
        calm: false,
        labels: true,
        field_map: true,
        theme: Theme::Dark,
    }
}

#[track_caller]
pub(crate) fn texts_are_legible(drawing: &Drawing, what: &str) {
    let texts: Vec<_> = drawing
        .texts()
        .map(|(text, min, max)| (text.to_owned(), min, max))
        .collect();
    assert!(!texts.is_empty(), "{what}: no text");
    for (text, min, max) in &texts {
        let inside = min[0] >= -1.0
            && min[1] >= -2.0
            && max[0] <= drawing.size[0] + 1.0
            && max[1] <= drawing.size[1] + 2.0;
        assert!(
            inside,
            "{what}: \"{text}\" at {min:?}–{max:?} leaves {:?}",
            drawing.size
        );
    }
    for (index, (text, min, max)) in texts.iter().enumerate() {
        for (other, other_min, other_max) in &texts[index + 1..] {
            // Line heights hold some air: letters of neighbouring lines may share a fifth of it.
            let wide = max[0].min(other_max[0]) - min[0].max(other_min[0]);
            let high = max[1].min(other_max[1]) - min[1].max(other_min[1]);
            assert!(
                wide < 1.0 || high < 4.0,
                "{what}: \"{text}\" runs over \"{other}\""
            );
        }
    }
}

#[test]
fn the_plan_is_legible_at_every_zoom_and_size() {
    let backdrop = demonstration_backdrop();
    for size in [
        [840.0, 560.0],
        [1080.0, 470.0],
        [720.0, 300.0],
        [360.0, 280.0],
    ] {
        for (start_m, length_m) in [(0.0, 3.0), (0.0, 12.0), (2.5, 1.0), (5.9, 0.2)] {
            for units in [UnitSystem::Si, UnitSystem::Us] {
                let view = plan(backdrop, PlanWindow { start_m, length_m }, units);
                texts_are_legible(
                    &plan_drawing(&view, size),
                    &format!("{size:?} {start_m} {length_m} {units:?}"),
                );
            }
        }
    }
}

#[test]
fn charts_and_strip_are_legible() {
    let backdrop = demonstration_backdrop();
    let count = count(backdrop);
    for units in [UnitSystem::Si, UnitSystem::Us] {
        for size in [[310.0, 205.0], [520.0, 280.0]] {
            let along = along_drawing(&count, units, size).expect("a chart");
            texts_are_legible(&along, &format!("along {size:?} {units:?}"));
            let by_size = by_size_drawing(&count, units, size).expect("a chart");
            texts_are_legible(&by_size, &format!("by size {size:?}"));
        }
    }
    for width in [1150.0, 840.0, 720.0, 560.0, 394.0] {
        let strip = strip_drawing(&count, &backdrop.conditions, [width, STRIP_HEIGHT]);
        texts_are_legible(&strip, &format!("strip {width}"));
    }
}

#[test]
fn places_go_there_and_back_and_the_exaggeration_is_told() {
    let backdrop = demonstration_backdrop();
    let view = plan(
        backdrop,
        PlanWindow {
            start_m: 3.0,
            length_m: 3.0,
        },
        UnitSystem::Si,
    );
    let size = [840.0, 560.0];
    let places = PlanPlaces::new(&view, size);
    let point = places.point(4.2, 0.05);
    assert!((places.along_m(point[0]) - 4.2).abs() < 1e-3);
    let factor = format!("drawn ×{:.1}", places.exaggeration());
    let drawing = plan_drawing(&view, size);
    assert!(
        drawing.texts().any(|(text, ..)| text.contains(&factor)),
        "no \"{factor}\""
    );
}

#[test]
fn a_still_shows_every_grain_of_the_window() {
    let backdrop = demonstration_backdrop();
    let view = plan(
        backdrop,
        PlanWindow {
            start_m: 0.0,
            length_m: 12.0,
        },
        UnitSystem::Si,
    );
    let frame = backdrop.simulation.frame();
    let still = still_drawing(&view, &frame, [1100.0, 600.0]);
    let bare = plan_drawing(&view, [1100.0, 500.0]);
    let spots = still.items.len() - bare.items.len();
    assert!(
        spots > frame.airborne(),
        "{spots} items for {} grains",
        frame.airborne()
    );
}
