//! The section across the gas: legible, its map is that of the readings, its check notices a leak.

use ashlane_panels::{
    cross_section::{CrossSectionView, checks, drawing},
    drawing::Item,
    elevation::PARTS,
    state::{Rung, UiState},
    theme::{Ink, Theme},
};
use ashlane_shared::{
    checks::Verdict,
    conditions::{Electrode, Rapper},
    units::UnitSystem,
};

use egui::accesskit::Role;
use egui_kittest::kittest::Queryable;

use crate::{
    drawings::{SIZES, texts_are_legible},
    elevation, face,
    inside::looking,
    support::{demonstration_backdrop, window},
};

fn view(units: UnitSystem) -> CrossSectionView<'static> {
    CrossSectionView {
        machine: elevation::view(demonstration_backdrop(), units),
        face: Some(face::view(units)),
        grid: face::GRID,
        theme: Theme::Dark,
    }
}

#[test]
fn words_are_legible_at_every_size_in_both_unit_systems() {
    for units in [UnitSystem::Si, UnitSystem::Us] {
        for size in SIZES.into_iter().filter(|size| size[1] >= 384.0) {
            texts_are_legible(&drawing(&view(units), size), &format!("{units:?} {size:?}"));
        }
    }
}

#[test]
fn every_reading_has_its_cell_and_the_same_width_as_its_neighbour() {
    let drawing = drawing(&view(UnitSystem::Si), [840.0, 560.0]);
    let cells: Vec<f32> = drawing
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Cell { min, max, .. } => Some(max[0] - min[0]),
            _ => None,
        })
        .collect();
    // And those of the scale beside it.
    assert_eq!(cells.len(), face::GRID.0 * face::GRID.1 + 24);
    let (first, last) = (cells[0], cells[face::GRID.0 * face::GRID.1 - 1]);
    assert!((first - last).abs() < 1e-2 && first > 1.0, "{first} {last}");
}

#[test]
fn readings_that_lose_gas_are_noticed() {
    let right = view(UnitSystem::Si);
    assert_eq!(checks(&right)[0].verdict, Verdict::Agree);
    let mut face = face::view(UnitSystem::Si);
    face.flow_m3_s *= 1.01;
    let wrong = CrossSectionView {
        face: Some(face),
        ..right
    };
    assert_eq!(checks(&wrong)[0].verdict, Verdict::Disagree);
}

#[test]
fn as_many_hoppers_and_hammers_are_drawn_as_the_sheet_says() {
    let rings = |hoppers: usize, sneakage: f64| {
        let backdrop = looking(|conditions| {
            conditions.appearance.hoppers_per_row = hoppers;
            conditions.collector.sneakage = sneakage;
        });
        let view = CrossSectionView {
            machine: elevation::view(&backdrop, UnitSystem::Si),
            face: None,
            ..view(UnitSystem::Si)
        };
        let drawing = drawing(&view, [840.0, 560.0]);
        texts_are_legible(&drawing, &format!("{hoppers} hoppers"));
        let of = |wanted: Ink| {
            let rings = drawing.items.iter();
            rings
                .filter(|item| matches!(item, Item::Ring { ink, .. } if *ink == wanted))
                .count()
        };
        let heads = drawing
            .items
            .iter()
            .filter(|item| matches!(item, Item::Dot { ink: Ink::Text, .. }));
        assert_eq!(heads.count(), backdrop.conditions.collector.passages + 1);
        (of(Ink::Metal), of(Ink::Gas))
    };
    // An airlock a hopper; gas is marked over the top and in every hopper where some goes around.
    assert_eq!(rings(3, 0.05), (3, 6));
    assert_eq!(rings(7, 0.05), (7, 10));
    assert_eq!(rings(1, 0.0), (1, 0));
}

#[test]
fn every_look_of_the_machine_is_legible_at_every_size() {
    for (electrode, rapper, passages) in [
        (Electrode::RigidMast, Rapper::RoofRapper, 12),
        (Electrode::SpikedStrip, Rapper::TumblingHammer, 60),
        (Electrode::WeightedWire, Rapper::RoofRapper, 33),
    ] {
        let backdrop = looking(|conditions| {
            conditions.appearance.electrode = electrode;
            conditions.appearance.rapper = rapper;
            conditions.collector.passages = passages;
        });
        for size in SIZES.into_iter().filter(|size| size[1] >= 384.0) {
            let view = CrossSectionView {
                machine: elevation::view(&backdrop, UnitSystem::Us),
                face: None,
                ..view(UnitSystem::Us)
            };
            texts_are_legible(&drawing(&view, size), &format!("{electrode:?} {size:?}"));
        }
    }
}

#[test]
fn its_parts_can_be_pointed_at_and_are_parts_of_the_machine() {
    for rung in [Rung::CrossSection, Rung::Plan] {
        let ui = UiState {
            rung,
            ..UiState::default()
        };
        let mut harness = window(demonstration_backdrop(), ui, [1440.0, 900.0]);
        let drawing = harness.state().room.drawing.expect("a drawing");
        let least = if rung == Rung::Plan { 2 } else { 12 };
        let mut met = 0;
        for part in &PARTS {
            let nodes = harness.query_all_by_role_and_label(Role::Button, part.name);
            let Some(area) = nodes.map(|node| node.rect()).next() else {
                continue;
            };
            assert!(
                drawing.expand(1.0).contains_rect(area),
                "{}: {area:?}",
                part.name
            );
            harness
                .get_by_role_and_label(Role::Button, part.name)
                .click();
            harness.run_steps(3);
            assert_eq!(harness.state().ui.part, Some(part.name));
            assert!(
                harness.query_by_label(part.purpose).is_some(),
                "{}",
                part.name
            );
            harness.get_by_label("Close").click();
            harness.run_steps(3);
            assert_eq!(harness.state().ui.part, None);
            met += 1;
        }
        assert_eq!(met, least, "{rung:?}");
    }
}
