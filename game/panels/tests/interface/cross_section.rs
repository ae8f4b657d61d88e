//! The section across the gas: legible, its map is that of the readings, its check notices a leak.

use ashlane_panels::{
    cross_section::{CrossSectionView, checks, drawing},
    drawing::Item,
    theme::Theme,
};
use ashlane_shared::{checks::Verdict, units::UnitSystem};

use crate::{
    drawings::{SIZES, texts_are_legible},
    elevation, face,
    support::demonstration_backdrop,
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
