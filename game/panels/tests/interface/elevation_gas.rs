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
    conditions::{Conditions, FanPosition, GasDirection, demonstration},
    physics::gas_path::pressure::Station,
    simulation::{GasAlong, gas_along},
    units::{Dimension, UnitSystem, format, number_text},
};

use crate::{
    drawings::{SIZES, plan, texts_are_legible},
    elevation::{stand, view},
    face,
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

/// The demonstration with its fan before the collector, and the gas along it.
fn pushed() -> (Conditions, GasAlong) {
    let mut conditions = demonstration();
    conditions.appearance.fan = FanPosition::Upstream;
    let gas = gas_along(&conditions).expect("possible");
    (conditions, gas)
}

#[test]
fn a_fan_that_pushes_stands_before_the_collector_and_one_that_pulls_behind_it() {
    let (conditions, gas) = pushed();
    let backdrop = Backdrop::empty(conditions);
    let pushes = ElevationView {
        gas: Some(&gas),
        ..view(&backdrop, UnitSystem::Si)
    };
    let pulls = view(demonstration_backdrop(), UnitSystem::Si);
    let middle = |view: &ElevationView<'_>, name: &str| {
        let measures = Measures::new(view.conditions, view.hoppers, view.gas);
        let places = ElevationPlaces::new(measures, SIZE, Eye::WHOLE);
        let part = PARTS.iter().find(|part| part.name == name).expect("a part");
        let [min, max] = part.area(view, &places)?;
        let inlet = places.at(0.0, 0.0)[0];
        Some((0.5 * (min[0] + max[0]), inlet, part.value(view)))
    };
    assert_eq!(middle(&pushes, "ID fan"), None);
    assert_eq!(middle(&pulls, "Pushing fan"), None);
    let (fan, inlet, power) = middle(&pushes, "Pushing fan").expect("a fan");
    assert!(fan < inlet, "{fan} is not before {inlet}");
    let shown = format(gas.fan_power_w, Dimension::Power, UnitSystem::Si);
    assert!(power.is_some_and(|text| text.contains(&shown)));
    let (fan, inlet, _) = middle(&pulls, "ID fan").expect("a fan");
    assert!(fan > inlet, "{fan} is not behind {inlet}");
    for units in [UnitSystem::Si, UnitSystem::Us] {
        for size in SIZES.into_iter().filter(|size| size[1] >= 384.0) {
            let words = drawing(&ElevationView { units, ..pushes }, size);
            texts_are_legible(&words, &format!("pushed {units:?} {size:?}"));
        }
    }
}

/// The curve of this ink with so many corners.
fn curve(drawing: &Drawing, of: Ink, corners: usize) -> Vec<Point> {
    let curves = drawing.items.iter().filter_map(|item| match item {
        Item::Line { points, ink, .. } if *ink == of && points.len() == corners => Some(points),
        _ => None,
    });
    let curves: Vec<_> = curves.collect();
    assert_eq!(curves.len(), 1, "curves with {corners} corners");
    curves[0].clone()
}

#[test]
fn pressures_below_the_machine_are_those_of_the_simulation_over_their_stations() {
    let (conditions, pushed_gas) = pushed();
    let pushed = Backdrop::empty(conditions);
    for (backdrop, gas) in [
        (demonstration_backdrop(), &stand().1),
        (&pushed, &pushed_gas),
    ] {
        let view = ElevationView {
            gas: Some(gas),
            ..view(backdrop, UnitSystem::Si)
        };
        let drawing = drawing(&view, SIZE);
        let way = curve(&drawing, Ink::Gas, gas.stations.len());
        assert!(
            way.windows(2).all(|pair| pair[1][0] >= pair[0][0]),
            "{way:?}"
        );
        let (first, last) = (&gas.stations[0], gas.stations.len() - 1);
        let per_pa = f64::from(way[last][1] - way[0][1])
            / (gas.stations[last].static_gauge_pa - first.static_gauge_pa);
        assert!(per_pa < 0.0, "more pressure stands higher");
        for (point, station) in way.iter().zip(&gas.stations) {
            let wanted = per_pa * (station.static_gauge_pa - first.static_gauge_pa);
            let found = f64::from(point[1] - way[0][1]);
            assert!(
                (found - wanted).abs() < 0.05,
                "{station:?}: {found}, {wanted}"
            );
        }
        let says = |text: &str| drawing.texts().any(|(words, ..)| words.starts_with(text));
        for station in [Station::Start, Station::OutletDuct] {
            let pa = gas.at(station).expect("a station").static_gauge_pa;
            let text = format(pa, Dimension::Pressure, UnitSystem::Si);
            assert!(says(&text), "no {text} at {station:?}");
        }
        // The whole loss by Bernoulli between both ends of the collector, worked out here from the stations.
        let total_pa = |station| {
            let one = gas.at(station).expect("a station");
            one.static_gauge_pa + 0.5 * one.density_kg_m3 * one.velocity_m_s.powi(2)
        };
        let lost_pa = total_pa(Station::InletDuct) - total_pa(Station::OutletNozzle);
        let text = format(lost_pa, Dimension::PressureDrop, UnitSystem::Si);
        assert!(says(&format!("{text} lost")), "no {text}");
    }
}

#[test]
fn instruments_and_arrows_show_the_numbers_of_the_simulation() {
    for units in [UnitSystem::Si, UnitSystem::Us] {
        let view = view(demonstration_backdrop(), units);
        let drawing = drawing(&view, SIZE);
        let draught = match units {
            UnitSystem::Us => Dimension::PressureDrop,
            _ => Dimension::Pressure,
        };
        let says = |text: &str| drawing.texts().any(|(words, ..)| words == text);
        for station in [Station::InletDuct, Station::OutletDuct] {
            let gas = stand().1.at(station).expect("a station");
            for text in [
                format(gas.temperature_k, Dimension::Temperature, units),
                format(gas.static_gauge_pa, draught, units),
                format!("{} % O₂", number_text(100.0 * gas.oxygen_dry, 3)),
            ] {
                assert!(says(&text), "no {text} at {station:?}");
            }
        }
        let stack = view.stack.expect("known");
        assert!(says(&format!(
            "opacity {} %",
            number_text(100.0 * stack.opacity, 2)
        )));
        assert!(says(&format(stack.dust_kg_m3, Dimension::Emission, units)));
        let unknown = ElevationView {
            stack: None,
            ..view
        };
        let drawing = ashlane_panels::elevation::drawing(&unknown, SIZE);
        assert!(!drawing.texts().any(|(words, ..)| words.contains("opacity")));
    }
}

#[test]
fn the_arrows_behind_the_plates_are_as_long_as_the_gas_is_fast() {
    let view = view(demonstration_backdrop(), UnitSystem::Si);
    let rows = face::rows_m_s();
    // Each row is the mean of its readings, the roof first.
    let readings = face::view(UnitSystem::Si).readings_m_s;
    let first = readings[..face::GRID.1].iter().sum::<f64>() / face::GRID.1 as f64;
    assert_eq!(rows.len(), face::GRID.0);
    assert!((rows[0] - first).abs() < 1e-12);
    let drawing = drawing(&view, SIZE);
    let arrows: Vec<f32> = drawing
        .items
        .windows(2)
        .filter_map(|pair| match pair {
            [
                Item::Line {
                    points,
                    ink: Ink::Gas,
                    ..
                },
                Item::Line {
                    points: head,
                    ink: Ink::Gas,
                    ..
                },
            ] if points.len() == 2 && head.len() == 3 => Some(points[1][0] - points[0][0]),
            _ => None,
        })
        .take(rows.len())
        .collect();
    assert_eq!(arrows.len(), rows.len());
    for (arrow, m_s) in arrows.iter().zip(rows) {
        let per_m_s = arrows[0] / rows[0] as f32;
        assert!(
            (arrow - per_m_s * *m_s as f32).abs() < 0.01,
            "{arrow} for {m_s}"
        );
    }
    let even = [1.2; 10];
    let unknown = ElevationView {
        face_rows_m_s: &even,
        ..view
    };
    let even = ashlane_panels::elevation::drawing(&unknown, SIZE);
    assert!(
        even.texts().any(|(text, ..)| text == "gas 1.2 to 1.2 m/s"),
        "their name"
    );
}

#[test]
fn the_legend_is_there_wherever_there_is_room_for_it() {
    let view = view(demonstration_backdrop(), UnitSystem::Si);
    for size in [[840.0, 560.0], [1024.0, 768.0], [720.0, 450.0]] {
        let drawing = drawing(&view, size);
        for entry in ["10 µm", "not charged", "around the plates", "falling sheet"] {
            assert!(
                drawing.texts().any(|(text, ..)| text == entry),
                "no {entry} in {size:?}"
            );
        }
    }
}
