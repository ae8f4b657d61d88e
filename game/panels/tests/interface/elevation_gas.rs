//! The gas on the elevation: which way it runs, where its fan stands, and what its instruments show.

use ashlane_panels::{
    drawing::{Drawing, Item, Point},
    elevation::{ElevationPlaces, ElevationView, Measures, PARTS, drawing, still_drawing},
    plan::PlanPlaces,
    state::PlanWindow,
    theme::Ink,
    zoom::Eye,
};
use ashlane_shared::{
    conditions::{Conditions, GasDirection, demonstration},
    units::UnitSystem,
};

use crate::{
    drawings::{SIZES, plan, texts_are_legible},
    elevation::view,
    support::{Backdrop, demonstration_backdrop},
};

const SIZE: Point = [840.0, 560.0];

/// The demonstration with its gas from right to left.
fn mirrored() -> Conditions {
    let mut conditions = demonstration();
    conditions.appearance.gas_direction = GasDirection::RightToLeft;
    conditions
}

/// Left, top, right, bottom and the middle of the corners of every line of metal, points.
fn metal(drawing: &Drawing, place: impl Fn(Point) -> Point) -> Vec<[f32; 6]> {
    let lines = drawing.items.iter().filter_map(|item| match item {
        Item::Line {
            points,
            ink: Ink::Metal,
            ..
        } => Some(points),
        _ => None,
    });
    lines
        .map(|points| {
            let points: Vec<Point> = points.iter().map(|point| place(*point)).collect();
            let all = |axis: usize| points.iter().map(move |point| point[axis]);
            let mean = |axis: usize| all(axis).sum::<f32>() / points.len() as f32;
            [
                all(0).fold(f32::MAX, f32::min),
                all(1).fold(f32::MAX, f32::min),
                all(0).fold(f32::MIN, f32::max),
                all(1).fold(f32::MIN, f32::max),
                mean(0),
                mean(1),
            ]
        })
        .collect()
}

#[test]
fn gas_from_right_to_left_mirrors_the_machine_and_not_its_words() {
    let backdrop = Backdrop::empty(mirrored());
    let there = view(&backdrop, UnitSystem::Si);
    let here = ElevationView {
        conditions: &demonstration_backdrop().conditions,
        ..there
    };
    let (there, here) = (drawing(&there, SIZE), drawing(&here, SIZE));
    let (there, here) = (
        metal(&there, |[x, y]| [SIZE[0] - x, y]),
        metal(&here, |point| point),
    );
    assert!(here.len() > 40, "{} lines of metal", here.len());
    assert_eq!(there.len(), here.len());
    for (there, here) in there.iter().zip(&here) {
        let off = there
            .iter()
            .zip(here)
            .map(|(there, here)| (there - here).abs());
        // Closed lines begin at another corner, which shifts the middle of their corners by less than their size.
        let size = (here[2] - here[0]).max(here[3] - here[1]);
        for (index, off) in off.enumerate() {
            let allowed = if index < 4 { 0.2 } else { 0.2 + 0.2 * size };
            assert!(off <= allowed, "{there:?} is not {here:?}");
        }
    }
    let words = |of: &Drawing| of.texts().map(|(text, ..)| text.to_owned()).next();
    let there = drawing(&view(&backdrop, UnitSystem::Si), SIZE);
    assert!(words(&there).is_some_and(|text| text.contains("from right to left")));
    for units in [UnitSystem::Si, UnitSystem::Us] {
        for size in SIZES.into_iter().filter(|size| size[1] >= 384.0) {
            let words = drawing(&view(&backdrop, units), size);
            texts_are_legible(&words, &format!("mirrored {units:?} {size:?}"));
        }
    }
}

#[test]
fn a_mirrored_machine_is_seen_moved_and_zoomed_as_the_other() {
    let backdrop = Backdrop::empty(mirrored());
    let view = view(&backdrop, UnitSystem::Si);
    let measures = Measures::new(view.conditions, view.hoppers, view.gas);
    let eye = Eye {
        centre_m: [5.0, 5.0],
        times: 2.5,
    };
    for eye in [Eye::WHOLE, eye] {
        let places = ElevationPlaces::new(measures, SIZE, eye);
        let point = places.at(3.0, 4.0);
        let back = places.metres(point);
        assert!((back[0] - 3.0).abs() < 1e-3 && (back[1] - 4.0).abs() < 1e-3);
        assert!(places.at(4.0, 4.0)[0] < point[0], "it runs to the left");
        for [min, max] in [places.space(), places.whole()] {
            assert!(min[0] < max[0] && min[1] < max[1], "{min:?} {max:?}");
        }
        let [from, to] = places.seen_m();
        assert!(from < to, "{from} {to}");
        for part in &PARTS {
            if let Some([min, max]) = part.area(&view, &places) {
                assert!(min[0] < max[0] && min[1] < max[1], "{part:?}");
            }
        }
    }
}

#[test]
fn the_dust_of_a_mirrored_machine_comes_in_at_the_right() {
    let middle = |conditions: Conditions| {
        let mut backdrop = Backdrop::empty(conditions);
        for _ in 0..40 {
            backdrop.simulation.step();
        }
        let view = view(&backdrop, UnitSystem::Si);
        let still = still_drawing(&view, &backdrop.simulation.frame(), SIZE);
        let dust = still
            .items
            .into_iter()
            .take(backdrop.simulation.frame().airborne());
        let places: Vec<f32> = dust
            .filter_map(|item| match item {
                Item::Dot { centre, .. } => Some(centre[0]),
                _ => None,
            })
            .collect();
        assert!(places.len() > 100, "{} grains", places.len());
        places.iter().sum::<f32>() / places.len() as f32
    };
    let (here, there) = (middle(demonstration()), middle(mirrored()));
    assert!((here + there - SIZE[0]).abs() < 1.0, "{here} and {there}");
    assert!(there > here + 20.0, "{here} and {there}");
}

#[test]
fn a_mirrored_plan_begins_at_its_right_end() {
    let backdrop = Backdrop::empty(mirrored());
    let window = PlanWindow {
        start_m: 3.0,
        length_m: 3.0,
    };
    let view = plan(&backdrop, window, UnitSystem::Si);
    let places = PlanPlaces::new(&view, SIZE);
    assert!((places.point(3.0, 0.0)[0] - places.max[0]).abs() < 1e-3);
    let point = places.point(4.2, 0.05);
    assert!((places.along_m(point[0]) - 4.2).abs() < 1e-3);
    texts_are_legible(&ashlane_panels::plan::plan_drawing(&view, SIZE), "plan");
}
