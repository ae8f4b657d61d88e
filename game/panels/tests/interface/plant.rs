//! The chart of the plant clock: legible, true to its readings, and its check notices what is off.

use std::sync::OnceLock;

use ashlane_panels::{
    charts::{PlantView, plant_check, plant_drawing},
    drawing::Item,
    theme::Ink,
};
use ashlane_shared::{
    checks::{LongRun, Verdict},
    conditions::demonstration,
    plant::{Plant, PlantReading, Rates},
    theory,
    units::UnitSystem,
};

use crate::drawings::texts_are_legible;

fn days() -> &'static (Vec<PlantReading>, LongRun) {
    static DAYS: OnceLock<(Vec<PlantReading>, LongRun)> = OnceLock::new();
    DAYS.get_or_init(|| {
        let conditions = demonstration();
        let rates = Rates::count(&conditions, 20_000, 3, |_| true)
            .expect("possible")
            .expect("to its end");
        let theory = theory::solve(&conditions).expect("possible");
        let long_run = LongRun::new(&conditions, &rates, 20_000, &theory);
        let mut plant = Plant::new(&conditions, rates).expect("possible");
        let readings = plant.readings(48.0 * 3600.0, 1200.0).expect("possible");
        (readings, long_run)
    })
}

/// Two days of the demonstration.
pub(crate) fn view(units: UnitSystem) -> PlantView<'static> {
    let (readings, long_run) = days();
    PlantView {
        readings,
        long_run: Some(*long_run),
        units,
    }
}

#[test]
fn the_plant_chart_is_legible_at_every_width() {
    for units in [UnitSystem::Si, UnitSystem::Us] {
        for width in [260.0, 310.0, 420.0, 560.0] {
            let size = [width, (0.66_f32 * width).clamp(190.0, 280.0) + 60.0];
            let drawing = plant_drawing(&view(units), size);
            texts_are_legible(&drawing, &format!("{units:?} {size:?}"));
        }
    }
}

#[test]
fn every_rap_of_the_first_field_is_a_fall_of_its_line() {
    let drawing = plant_drawing(&view(UnitSystem::Si), [420.0, 300.0]);
    let first = drawing.items.iter().find_map(|item| match item {
        Item::Line {
            points,
            ink: Ink::Dust,
            ..
        } => Some(points),
        _ => None,
    });
    let falls = first
        .expect("the layer of the first field")
        .windows(2)
        .filter(|pair| pair[1][1] > pair[0][1] + 10.0)
        .count();
    // Every 4 h in 48 h.
    assert_eq!(falls, 12);
}

#[test]
fn the_check_of_the_plant_clock_agrees_and_notices_what_is_off() {
    let mut view = view(UnitSystem::Si);
    let verdict = |view: &PlantView<'_>| plant_check(view).map(|check| check.verdict);
    assert_eq!(verdict(&view), Some(Verdict::Agree));
    let mut long_run = view.long_run.expect("worked out");
    assert!(long_run.agrees);
    long_run.by_rates += 1.1 * long_run.tolerance;
    long_run.finite_mixing -= long_run.tolerance;
    view.long_run = Some(long_run);
    assert_eq!(verdict(&view), Some(Verdict::Disagree));
    view.long_run = None;
    assert_eq!(verdict(&view), None);
}

/// A plant clock that has run for longer than it remembers shows what it remembers, and says so.
#[test]
fn a_trend_that_does_not_start_clean_says_what_it_shows() {
    let mut view = view(UnitSystem::Si);
    let all = view.readings;
    view.readings = &all[60..];
    let size = [420.0, 300.0];
    let drawing = plant_drawing(&view, size);
    texts_are_legible(&drawing, "trend");
    let says = |words: &str| {
        let texts = drawing.items.iter();
        let mut texts = texts.filter_map(|item| match item {
            Item::Text { text, .. } => Some(text),
            _ => None,
        });
        texts.any(|text| text.contains(words))
    };
    // 144 intervals of 20 min are 48 h, 60 of them 20 h.
    assert!(says("the last 28 h"), "{:?}", drawing.items);
    for item in &drawing.items {
        if let Item::Line { points, .. } = item {
            let inside = |point: &[f32; 2]| (0.0..=size[0]).contains(&point[0]);
            assert!(points.iter().all(inside), "a line leaves the chart");
        }
    }
}
