//! What the sheet says of electrodes and rappers is what is drawn, and hammers are where the last blow put them.

use std::f64::consts::PI;

use ashlane_panels::{
    drawing::{Drawing, Item},
    elevation::{ElevationView, PARTS, ShaftPlace, drawing},
    state::{Rung, UiState},
    theme::Ink,
};
use ashlane_shared::{
    conditions::{Conditions, Electrode, FieldNumbering, Rapper, demonstration},
    machine::{FieldPlates, Turn},
    simulation::TIME_STEP_S,
    units::UnitSystem,
};

use egui_kittest::kittest::Queryable;

use crate::{
    board, elevation,
    support::{Backdrop, window},
};

pub(crate) const SIZE: [f32; 2] = [840.0, 560.0];

/// A machine that looks different.
pub(crate) fn looking(change: impl FnOnce(&mut Conditions)) -> Backdrop {
    let mut conditions = demonstration();
    change(&mut conditions);
    Backdrop::empty(conditions)
}

pub(crate) fn says(drawing: &Drawing, words: &str) -> bool {
    drawing.texts().any(|(text, ..)| text.contains(words))
}

/// After a blow, with a turn of this many groups and this time to the next.
fn struck(blow: usize, groups: usize, next_s: f64) -> FieldPlates {
    FieldPlates {
        turn: Some(Turn {
            step: 1000,
            blow: (blow, groups),
            fallen_kg: 1.0,
            back_kg: 0.1,
            next_s,
        }),
        ..FieldPlates::default()
    }
}

#[test]
fn every_kind_of_electrode_is_drawn_and_named_in_its_own_way() {
    let kinds = [
        (Electrode::Wire, "wires in a frame"),
        (Electrode::WeightedWire, "weighted wires"),
        (Electrode::RigidMast, "rigid masts"),
        (Electrode::SpikedStrip, "spiked strips"),
    ];
    let mut drawings = Vec::new();
    for (kind, words) in kinds {
        let backdrop = looking(|conditions| conditions.appearance.electrode = kind);
        let drawing = drawing(&elevation::view(&backdrop, UnitSystem::Si), SIZE);
        assert!(says(&drawing, words), "no \"{words}\"");
        assert!(
            !drawings.contains(&drawing.items),
            "{kind:?} looks like another"
        );
        let electrodes = 4 * backdrop.conditions.wires_per_field() as usize;
        // Short upright lines at high voltage, thicker than a frame.
        let weights = |item: &&Item| match item {
            Item::Line {
                points, ink, width, ..
            } => {
                *ink == Ink::HighVoltage
                    && *width > 2.3
                    && points.len() == 2
                    && (points[0][0] - points[1][0]).abs() < 1e-3
            }
            _ => false,
        };
        let expected = if kind == Electrode::WeightedWire {
            electrodes
        } else {
            0
        };
        assert_eq!(drawing.items.iter().filter(weights).count(), expected);
        // Points make a line with many corners of every electrode.
        let pointed = drawing.items.iter().filter(
            |item| matches!(item, Item::Line { points, ink, .. } if *ink == Ink::Electrode && points.len() > 40),
        );
        let has_points = matches!(kind, Electrode::RigidMast | Electrode::SpikedStrip);
        assert_eq!(
            pointed.count(),
            if has_points { electrodes } else { 0 },
            "{kind:?}"
        );
        drawings.push(drawing.items);
    }
}

#[test]
fn the_hammer_that_struck_last_lies_on_its_anvil_and_the_next_is_about_to_fall() {
    let conditions = demonstration();
    for blow in [1, 2, 17, 32] {
        let plates = struck(blow, 32, if blow < 32 { 8.0 } else { 0.0 });
        let shaft = ShaftPlace::new(&conditions, Some(&plates), 1000);
        assert_eq!(shaft.last(), blow - 1);
        assert!(shaft.hammer(blow - 1).abs() < 1e-6, "hammer of blow {blow}");
        // Hammers are staggered by one part of the turn; the last half of a turn lifts by half a circle.
        let next = shaft.hammer(blow % 32);
        assert!((next - (PI - 2.0 * PI / 32.0)).abs() < 1e-6, "{next}");
        assert!(shaft.weight(blow % 32).abs() < 1e-6 && shaft.weight(blow - 1) < 1e-6);
    }
    // Half of the way to the next blow.
    let half = 1000 + (4.0 / TIME_STEP_S) as u64;
    let shaft = ShaftPlace::new(&conditions, Some(&struck(5, 32, 8.0)), half);
    assert!((shaft.weight(5) - 0.5).abs() < 1e-6, "{}", shaft.weight(5));
    assert!((shaft.hammer(5) - (PI - PI / 32.0)).abs() < 1e-6);
    // Long after it: still waiting, not fallen.
    let shaft = ShaftPlace::new(&conditions, Some(&struck(5, 32, 8.0)), 1_000_000);
    assert!(shaft.weight(5) > 0.99 && shaft.last() == 4);
    // Nothing struck yet: as after a last blow.
    let shaft = ShaftPlace::new(&conditions, None, 0);
    assert_eq!((shaft.groups, shaft.last()), (32, 31));
}

#[test]
fn both_kinds_of_rapper_are_drawn_where_the_blow_puts_them() {
    for (rapper, words) in [
        (Rapper::TumblingHammer, "tumbling hammer on its anvil"),
        (Rapper::RoofRapper, "roof rapper"),
    ] {
        let backdrop = looking(|conditions| conditions.appearance.rapper = rapper);
        let at = |plates: &[FieldPlates], step| {
            let view = ElevationView {
                plates,
                step,
                ..elevation::view(&backdrop, UnitSystem::Si)
            };
            drawing(&view, SIZE)
        };
        let plates = vec![struck(3, 32, 8.0); 4];
        let (one, later) = (at(&plates, 1000), at(&plates, 1900));
        assert!(says(&one, words), "no \"{words}\"");
        assert_ne!(one.items, later.items, "{rapper:?} does not move");
        assert_eq!(one.items, at(&plates, 1000).items);
    }
}

#[test]
fn fields_have_the_sites_numbers_and_names_wherever_they_are_named() {
    let backdrop = looking(|conditions| {
        let looks = &mut conditions.appearance;
        looks.first_field_number = 11;
        looks.field_numbering = FieldNumbering::AgainstGas;
        let mut name = |key: &str, name: &str| {
            looks.part_names.insert(key.to_owned(), name.to_owned());
        };
        name("field", "zone");
        name("fan", "fan 7");
        name("field_2", "middle one");
    });
    let conditions = &backdrop.conditions;
    assert_eq!(
        (conditions.field_number(0), conditions.field_number(3)),
        (14, 11)
    );
    let view = elevation::view(&backdrop, UnitSystem::Si);
    let side = drawing(&view, [1440.0, 820.0]);
    for words in ["zone 14: ", "13: ", "zone 12: ", "zone 11: "] {
        assert!(says(&side, words), "no \"{words}\" on the elevation");
    }
    let alarms = board::many();
    let view = board::view(&backdrop, UnitSystem::Si, &alarms);
    let board = ashlane_panels::board::drawing(&view, [1400.0, 700.0]);
    for words in [
        "Zone 14",
        "Middle one",
        "Zone 11",
        "Hopper level high, zone 14",
        "Hopper level high, middle one",
    ] {
        assert!(says(&board, words), "no \"{words}\" on the board");
    }
    for (part, shown) in [("ID fan", "Fan 7"), ("Stack", "Stack")] {
        let part = PARTS.iter().find(|row| row.name == part).expect("a part");
        assert_eq!(part.shown(conditions), shown);
    }
    assert!(says(&side, "fan 7"));
    for rung in [Rung::Plan, Rung::Elevation] {
        let ui = UiState {
            rung,
            ..UiState::default()
        };
        let harness = window(&backdrop, ui, [1440.0, 900.0]);
        // The steps of the ladder.
        assert!(
            harness.query_all_by_label("14").next().is_some(),
            "{rung:?}"
        );
        assert!(harness.query_by_label("1").is_none(), "{rung:?}");
        assert!(harness.query_by_label("Zone").is_some(), "{rung:?}");
    }
}
