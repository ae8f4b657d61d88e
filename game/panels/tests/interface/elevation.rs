//! The machine from the side: to scale, legible, and its level of ash is that of the books.

use std::sync::OnceLock;

use ashlane_lessons::engine::find_caution;
use ashlane_panels::elevation::{
    ElevationPlaces, ElevationView, Measures, PARTS, checks, drawing, grain_height_m, still_drawing,
};
use ashlane_shared::{
    checks::Verdict,
    conditions::{Conditions, demonstration},
    physics::gas_path::pressure::Station,
    plant::{HopperState, Plant, Rates},
    simulation::{GasAlong, Grain, gas_along},
    units::UnitSystem,
};

use ashlane_panels::{
    board::StackReading,
    state::{Rung, UiState},
    zoom::Eye,
};
use egui::accesskit::Role;
use egui_kittest::{Harness, kittest::Queryable};

use crate::{
    drawings::{SIZES, texts_are_legible},
    face,
    support::{Backdrop, Bench, demonstration_backdrop, window},
};

/// The demonstration's hoppers after its first raps, and its gas.
pub(crate) fn stand() -> &'static (Vec<HopperState>, GasAlong) {
    static STAND: OnceLock<(Vec<HopperState>, GasAlong)> = OnceLock::new();
    STAND.get_or_init(|| {
        let conditions = demonstration();
        let rates = Rates::count(&conditions, 4000, 3, |_| true);
        let rates = rates.expect("possible").expect("to its end");
        let mut plant = Plant::new(&conditions, rates).expect("possible");
        plant.run(4.5 * 3600.0).expect("possible");
        (
            plant.hoppers().expect("possible"),
            gas_along(&conditions).expect("possible"),
        )
    })
}

pub(crate) fn view(backdrop: &Backdrop, units: UnitSystem) -> ElevationView<'_> {
    let frame = backdrop.simulation.frame();
    ElevationView {
        conditions: &backdrop.conditions,
        fields: frame.fields(),
        plates: &[],
        hoppers: &stand().0,
        gas: Some(&stand().1),
        stack: Some(StackReading {
            dust_kg_m3: 31e-6,
            opacity: 0.066,
            puff: None,
            from: "by the count",
        }),
        face_rows_m_s: face::rows_m_s(),
        step: frame.step(),
        units,
        labels: true,
        calm: false,
        eye: Eye::WHOLE,
    }
}

#[test]
fn words_are_legible_at_every_size_in_both_unit_systems() {
    for units in [UnitSystem::Si, UnitSystem::Us] {
        for size in SIZES.into_iter().filter(|size| size[1] >= 384.0) {
            let view = view(demonstration_backdrop(), units);
            texts_are_legible(&drawing(&view, size), &format!("{units:?} {size:?}"));
        }
    }
    let mut many = demonstration();
    many.set_fields(8);
    let backdrop = Backdrop::empty(many);
    let bare = ElevationView {
        hoppers: &[],
        gas: None,
        ..view(&backdrop, UnitSystem::Si)
    };
    texts_are_legible(&drawing(&bare, [840.0, 560.0]), "eight fields without gas");
}

#[test]
fn one_scale_holds_for_both_directions_and_comes_from_the_sheet() {
    let measures = |conditions: &Conditions| Measures::new(conditions, &stand().0, None);
    let mut taller = demonstration();
    taller.collector.plate_height_m *= 1.5;
    for conditions in [demonstration(), taller] {
        let places = ElevationPlaces::new(measures(&conditions), [840.0, 560.0], Eye::WHOLE);
        let (foot, top) = (
            places.at(0.0, 0.0),
            places.at(0.0, conditions.collector.plate_height_m),
        );
        let end = places.at(conditions.collector.field_length_m, 0.0);
        let (up, along) = (foot[1] - top[1], end[0] - foot[0]);
        let expected = conditions.collector.plate_height_m / conditions.collector.field_length_m;
        assert!(
            (f64::from(up / along) / expected - 1.0).abs() < 1e-4,
            "{up} {along}"
        );
    }
}

#[test]
fn the_ash_that_is_drawn_is_that_of_the_books() {
    let right = view(demonstration_backdrop(), UnitSystem::Si);
    let lines = checks(&right);
    assert_eq!(lines.len(), 2, "a hopper holds ash after the first raps");
    assert_eq!(lines[1].verdict, Verdict::Agree, "{lines:?}");
    let mut wrong = stand().0.clone();
    for row in &mut wrong {
        row.level *= 1.01;
    }
    let wrong = ElevationView {
        hoppers: &wrong,
        ..right
    };
    assert_eq!(checks(&wrong)[1].verdict, Verdict::Disagree);
    let empty = ElevationView {
        hoppers: &[],
        ..right
    };
    assert_eq!(checks(&empty).len(), 1, "the gas alone");
}

/// Oxygen of 6 % and 8 % in dry gas: a leak of 2/12.9 = 15.5 % (balance of oxygen, air of 20.9 %).
#[test]
fn the_gas_that_leaks_in_is_the_same_by_flow_and_by_the_oxygen_that_is_shown() {
    let mut leaky = demonstration();
    leaky.gas.in_leakage.casing = 2.0 / 12.9;
    let gas = gas_along(&leaky).expect("possible");
    let shown = gas.at(Station::OutletDuct).expect("a station").oxygen_dry;
    assert!((shown - 0.08).abs() < 1e-9, "{shown}");
    let right = ElevationView {
        gas: Some(&gas),
        hoppers: &[],
        ..view(demonstration_backdrop(), UnitSystem::Si)
    };
    let lines = checks(&right);
    assert_eq!(lines[0].verdict, Verdict::Agree, "{lines:?}");
    assert!(lines[0].text.contains("115.5"), "{lines:?}");
    for wrong_by in [-0.05, 1e-4] {
        let mut wrong = gas.clone();
        for station in &mut wrong.stations {
            if station.station == Station::OutletDuct {
                station.oxygen_dry += wrong_by;
            }
        }
        let wrong = ElevationView {
            gas: Some(&wrong),
            ..right
        };
        assert_eq!(checks(&wrong)[0].verdict, Verdict::Disagree);
    }
}

#[test]
fn dust_that_goes_around_the_plates_is_drawn_above_and_below_them() {
    let grain = |bypassing, through_hopper| Grain {
        along_m: 1.0,
        across_m: 0.0,
        height_m: 4.0,
        diameter_m: 5e-6,
        charge_share: 1.0,
        bypassing,
        through_hopper,
    };
    assert_eq!(grain_height_m(10.0, &grain(false, false)), 4.0);
    assert!(grain_height_m(10.0, &grain(true, false)) > 10.0);
    assert!(grain_height_m(10.0, &grain(true, true)) < 0.0);
}

#[test]
fn every_grain_of_the_flight_is_in_the_still_figure() {
    let backdrop = demonstration_backdrop();
    let frame = backdrop.simulation.frame();
    let view = view(backdrop, UnitSystem::Si);
    let (whole, lines) = (
        still_drawing(&view, &frame, [840.0, 560.0]),
        drawing(&view, [840.0, 560.0]),
    );
    assert_eq!(
        whole.items.len(),
        lines.items.len() + frame.grains().count()
    );
}

#[test]
fn every_part_lies_on_the_drawing_and_tells_what_it_is_for() {
    let view = view(demonstration_backdrop(), UnitSystem::Us);
    let size = [840.0, 560.0];
    let places = ElevationPlaces::new(
        Measures::new(view.conditions, view.hoppers, view.gas),
        size,
        Eye::WHOLE,
    );
    let mut told = 0;
    for part in &PARTS {
        assert!(
            part.purpose.len() > 15 && part.purpose.ends_with('.'),
            "{part:?}"
        );
        let Some([min, max]) = part.area(&view, &places) else {
            assert_eq!(part.name, "Pushing fan", "this machine has all others");
            continue;
        };
        assert!(
            max[0] - min[0] > 3.0 && max[1] - min[1] > 3.0,
            "{part:?} {min:?} {max:?}"
        );
        assert!(
            min[0] >= 0.0 && max[0] <= size[0] && min[1] >= 0.0 && max[1] <= size[1],
            "{part:?}"
        );
        assert!(!part.cautions.is_empty(), "{part:?}");
        for code in part.cautions {
            assert!(find_caution(code).is_some(), "no caution {code}");
        }
        told += usize::from(part.value(&view).is_some());
    }
    assert!(told >= 9, "{told} parts tell a value");
}

#[test]
fn a_part_is_chosen_by_pointer_by_list_and_by_key_and_told_below() {
    let ui = UiState {
        rung: Rung::Elevation,
        ..UiState::default()
    };
    let mut harness = window(demonstration_backdrop(), ui, [1440.0, 900.0]);
    let part = |harness: &Harness<'_, Bench>| harness.state().ui.part;
    harness
        .get_by(|node| node.label().as_deref() == Some("ID fan") && node.role() == Role::Button)
        .click();
    // The words below find their height.
    harness.run_steps(4);
    assert_eq!(part(&harness), Some("ID fan"));
    for words in [
        "Pulls the gas through",
        "power",
        "induced draught fan",
        "start by themselves",
    ] {
        assert!(
            harness.query_by_label_contains(words).is_some(),
            "no \"{words}\""
        );
    }
    harness.get_by_label("Close").click();
    harness.run_steps(4);
    assert_eq!(part(&harness), None);
    harness
        .get_by(|node| node.label().as_deref() == Some("Hopper") && node.role() == Role::Button)
        .focus();
    harness.run_steps(2);
    harness.key_press(egui::Key::Enter);
    harness.run_steps(2);
    assert_eq!(part(&harness), Some("Hopper"));
}
