//! Dust on the plates of the plan: as thick as the layer, and after a blow a sheet that falls and is told.

use ashlane_panels::{
    drawing::{Drawing, Item},
    plan::{FieldScale, PlanPlaces, PlanView, plan_drawing},
    state::PlanWindow,
    theme::{Ink, Theme},
};
use ashlane_shared::{
    machine::{FallenSheet, FieldPlates, Turn},
    simulation::{LAYER_BINS_PER_FIELD, TIME_STEP_S},
    units::UnitSystem,
};

use crate::{
    drawings::{SIZES, texts_are_legible},
    support::demonstration_backdrop,
};

const SIZE: [f32; 2] = [840.0, 560.0];
/// Step of the blows.
const BLOW: u64 = 1000;

/// Four fields whose first has been struck: 4 mm lie on its lower plate, of its upper one half a sheet of 8 mm is left.
fn struck() -> Vec<FieldPlates> {
    let mut plates = vec![
        FieldPlates {
            layer_m: [0.001, 0.001],
            ..FieldPlates::default()
        };
        4
    ];
    plates[0] = FieldPlates {
        layer_m: [0.004, 0.008],
        fallen: [
            Some(FallenSheet {
                step: BLOW,
                kg: 63.07,
                thickness_m: 0.004,
                fall_s: 1.428_09,
            }),
            None,
        ],
        turn: Some(Turn {
            step: BLOW,
            blow: (1, 32),
            fallen_kg: 130.1,
            back_kg: 18.42,
            next_s: 7.5,
        }),
    };
    plates
}

fn view(plates: &[FieldPlates], step: u64, units: UnitSystem) -> PlanView<'_> {
    let backdrop = demonstration_backdrop();
    let frame = backdrop.simulation.frame();
    PlanView {
        conditions: &backdrop.conditions,
        fields: frame.fields(),
        deposits: frame.deposits,
        plates,
        step,
        followed: None,
        window: PlanWindow {
            start_m: 0.0,
            length_m: 6.0,
        },
        field_scale: FieldScale::of(frame.fields(), backdrop.conditions.gap_m()),
        units,
        calm: false,
        labels: true,
        field_map: true,
        theme: Theme::Dark,
    }
}

fn after(seconds: f64) -> u64 {
    BLOW + (seconds / TIME_STEP_S) as u64
}

/// Bands of dust of this opacity: height each.
fn bands(drawing: &Drawing, of: f32) -> Vec<f32> {
    let items = drawing.items.iter();
    items
        .filter_map(|item| match item {
            Item::Rect {
                min,
                max,
                ink: Ink::Dust,
                opacity,
                ..
            } if (opacity - of).abs() < 1e-3 => Some(max[1] - min[1]),
            _ => None,
        })
        .collect()
}

fn says(drawing: &Drawing, words: &str) -> bool {
    drawing.texts().any(|(text, ..)| text.contains(words))
}

#[test]
fn a_layer_is_drawn_as_thick_as_it_is_times_the_factor_on_the_drawing() {
    let mean_m = |layer_m: f64, step: u64| {
        let plates = [FieldPlates {
            layer_m: [layer_m, layer_m],
            ..FieldPlates::default()
        }; 4];
        let view = view(&plates, step, UnitSystem::Si);
        let drawing = plan_drawing(&view, SIZE);
        let factor = drawing.texts().find_map(|(text, ..)| {
            let (_, rest) = text.split_once("layer ×")?;
            rest.split(' ').next()?.parse::<f32>().ok()
        });
        let times = factor.unwrap_or(1.0);
        // Two plates of two fields are in the window.
        let places = 4.0 * LAYER_BINS_PER_FIELD as f32;
        let points = bands(&drawing, 0.9).iter().sum::<f32>() / places;
        f64::from(points / times / PlanPlaces::new(&view, SIZE).across_per_m())
    };
    for layer_m in [0.02, 0.005, 0.0001] {
        // Even at first, later as the drawn dust has settled: on the mean it is the layer.
        for step in [0, 2400] {
            let drawn_m = mean_m(layer_m, step);
            // Bands too thin to be seen are left out.
            assert!(
                (0.98..1.001).contains(&(drawn_m / layer_m)),
                "{drawn_m} m of {layer_m} m at step {step}"
            );
        }
    }
}

#[test]
fn a_sheet_falls_fades_and_is_told_for_a_few_seconds() {
    let plates = struck();
    let at = |seconds: f64| plan_drawing(&view(&plates, after(seconds), UnitSystem::Si), SIZE);
    // Half of √(20 m/9.80665 m/s²): a quarter of the height is below the plate.
    let falling = at(0.714_05);
    let sheet = bands(&falling, 0.9 * 0.75);
    assert!(sheet.len() > 50, "{} bands fall", sheet.len());
    assert!(says(&falling, "sheet of 63.1 kg falls"));
    assert!(says(&falling, "130 kg fell, 18.4 kg back"));
    let dashes = |drawing: &Drawing| {
        let broken = |item: &&Item| {
            matches!(
                item,
                Item::Line {
                    dash: Some(_),
                    ink: Ink::Text,
                    ..
                }
            )
        };
        drawing.items.iter().filter(broken).count()
    };
    assert_eq!(dashes(&falling), 1, "one sheet has a broken edge");
    let down = at(2.0);
    assert_eq!(dashes(&down), 0);
    assert!(says(&down, "sheet of 63.1 kg fell"));
    // The hammers go on to the plates beside for so long.
    let between = at(5.0);
    assert!(!says(&between, "sheet") && says(&between, "blow 1 of 32"));
    let old = at(8.0);
    assert!(!says(&old, " fell") && !says(&old, " falls"));
    let us = plan_drawing(&view(&plates, after(0.5), UnitSystem::Us), SIZE);
    assert!(says(&us, "sheet of 139 lb falls"));
}

#[test]
fn what_is_told_of_a_sheet_is_legible_at_every_size() {
    let mut plates = struck();
    // The worst: both plates of two fields at once.
    plates[0].fallen[1] = plates[0].fallen[0];
    plates[1] = plates[0];
    for size in SIZES {
        for units in [UnitSystem::Si, UnitSystem::Us] {
            let drawing = plan_drawing(&view(&plates, after(0.5), units), size);
            texts_are_legible(&drawing, &format!("sheets in {size:?}, {units:?}"));
            assert!(says(&drawing, " back"), "nothing told in {size:?}");
        }
    }
}
