//! The ladder of scales as one zoom: wheel, keys and parts lead from the machine to a grain and back, and nothing jumps.

use ashlane_panels::{
    Room,
    elevation::PARTS,
    state::{PlanWindow, Rung, UiState},
    zoom::Eye,
};
use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, MouseWheelUnit, Pos2, TouchPhase, vec2};
use egui_kittest::{
    Harness,
    kittest::{NodeT, Queryable},
};

use crate::support::{Bench, demonstration_backdrop, window};

const SIZE: [f32; 2] = [1440.0, 900.0];

fn at(rung: Rung) -> Harness<'static, Bench> {
    let ui = UiState {
        rung,
        ..UiState::default()
    };
    window(demonstration_backdrop(), ui, SIZE)
}

/// Turns the wheel over a place until the rung is another one; returns the new rung.
fn turned(harness: &mut Harness<'_, Bench>, place: Pos2, by: f32) -> Rung {
    let before = harness.state().ui.rung;
    harness.hover_at(place);
    for _ in 0..60 {
        harness.event(Event::MouseWheel {
            unit: MouseWheelUnit::Point,
            delta: vec2(0.0, by),
            phase: TouchPhase::Move,
            modifiers: Modifiers::NONE,
        });
        harness.run_steps(6);
        let rung = harness.state().ui.rung;
        if rung != before {
            // What is left of the turn must not lead on.
            harness.run_steps(60);
            return harness.state().ui.rung;
        }
    }
    before
}

/// The middle of the first field on the whole elevation.
fn over_plates(harness: &Harness<'_, Bench>) -> Pos2 {
    let passage = harness.state().room.passage.expect("dust is drawn");
    passage.min + vec2(0.1, 0.5) * passage.size()
}

#[test]
fn the_wheel_leads_from_the_machine_to_a_grain_and_back() {
    let mut harness = at(Rung::Elevation);
    let place = over_plates(&harness);
    for rung in [Rung::Plan, Rung::Wire, Rung::Grain] {
        assert_eq!(turned(&mut harness, place, 40.0), rung);
        if rung == Rung::Plan {
            let window = harness.state().ui.window;
            assert!(window.length_m < 7.5, "some fields: {window:?}");
            assert!(window.start_m < 1.5, "where the pointer is: {window:?}");
        }
    }
    assert_eq!(harness.state().ui.field, 0);
    assert_eq!(turned(&mut harness, place, 40.0), Rung::Grain, "no farther");
    for rung in [Rung::Wire, Rung::Plan, Rung::Elevation] {
        assert_eq!(turned(&mut harness, place, -40.0), rung);
    }
    assert_eq!(harness.state().ui.eye, Eye::WHOLE);
}

#[test]
fn keys_lead_the_same_way_and_the_keyboard_stays_at_the_drawing() {
    let mut harness = at(Rung::Plan);
    harness.state_mut().ui.reduced_motion = false;
    harness
        .get_by_label_contains("Plan of one gas passage")
        .focus();
    harness.run_steps(2);
    let mut rungs = vec![Rung::Plan];
    for _ in 0..40 {
        harness.key_press(Key::Plus);
        harness.run_steps(60);
        let rung = harness.state().ui.rung;
        if rungs.last() != Some(&rung) {
            rungs.push(rung);
        }
    }
    assert_eq!(rungs, [Rung::Plan, Rung::Wire, Rung::Grain]);
    for _ in 0..40 {
        harness.key_press(Key::Minus);
        harness.run_steps(60);
        let rung = harness.state().ui.rung;
        if rungs.last() != Some(&rung) {
            rungs.push(rung);
        }
    }
    assert_eq!(rungs[3..], [Rung::Wire, Rung::Plan, Rung::Elevation]);
}

/// Where on the screen the dust at this distance from the inlet is drawn, and the heights of both ends of the space.
fn dust(room: &Room, along_m: f32) -> [f32; 3] {
    let (passage, seen) = (room.passage.expect("dust"), room.seen);
    let share = (along_m - seen.window.start_m) / seen.window.length_m;
    [
        passage.min.x + share * passage.width(),
        passage.min.y,
        passage.max.y,
    ]
}

/// Sets off to another stand and takes down where dust at a place is drawn in every frame.
fn travel(
    harness: &mut Harness<'_, Bench>,
    along_m: f32,
    set: impl FnOnce(&mut UiState),
) -> Vec<([f32; 3], f32)> {
    let mut way = vec![(
        dust(&harness.state().room, along_m),
        harness.state().room.seen.turned,
    )];
    set(&mut harness.state_mut().ui);
    for _ in 0..80 {
        harness.run_steps(1);
        let room = harness.state().room;
        way.push((dust(&room, along_m), room.seen.turned));
        if !harness.state().ui.zoom.is_travelling() {
            return way;
        }
    }
    panic!("it never arrives");
}

/// No frame moves anything by more than a share of the whole way or some points.
fn nothing_jumps(way: &[([f32; 3], f32)]) {
    assert!(way.len() > 20, "{} frames", way.len());
    let (first, last) = (way[0], way[way.len() - 1]);
    for pair in way.windows(2) {
        for axis in 0..3 {
            let whole = (last.0[axis] - first.0[axis]).abs();
            let step = (pair[1].0[axis] - pair[0].0[axis]).abs();
            assert!(
                step <= 0.12 * whole + 3.0,
                "{step} points of {whole} in one frame: {pair:?}"
            );
        }
        let tipped = (pair[1].1 - pair[0].1).abs();
        assert!(tipped < 0.12, "tipped by {tipped} in one frame");
    }
}

#[test]
fn on_the_way_from_the_side_to_above_nothing_jumps() {
    let mut harness = at(Rung::Elevation);
    harness.state_mut().ui.reduced_motion = false;
    harness.run_steps(2);
    let field = PlanWindow {
        start_m: 3.0,
        length_m: 3.0,
    };
    let way = travel(&mut harness, 4.0, |ui| {
        ui.rung = Rung::Plan;
        ui.window = field;
    });
    nothing_jumps(&way);
    let seen = harness.state().room.seen;
    assert_eq!((seen.window, seen.turned), (field, 1.0));
    let back = travel(&mut harness, 4.0, |ui| ui.rung = Rung::Elevation);
    nothing_jumps(&back);
    assert_eq!(back[back.len() - 1].1, 0.0);
    let near = Eye {
        centre_m: [5.0, 5.0],
        times: 4.0,
    };
    let way = travel(&mut harness, 4.0, |ui| ui.eye = near);
    nothing_jumps(&way);
}

#[test]
fn reduced_motion_cuts() {
    let mut harness = at(Rung::Elevation);
    harness.state_mut().ui.rung = Rung::Plan;
    harness.run_steps(1);
    assert!(!harness.state().ui.zoom.is_travelling());
    assert_eq!(harness.state().room.seen.turned, 1.0);
}

#[test]
fn a_part_that_is_clicked_is_looked_at_from_near_and_the_second_click_leads_back() {
    let mut nearer = 0;
    for part in &PARTS {
        let mut harness = at(Rung::Elevation);
        let area = |harness: &Harness<'_, Bench>| {
            let parts = harness.query_all_by_role_and_label(Role::Button, part.name);
            parts.map(|node| node.rect()).next()
        };
        if area(&harness).is_none() {
            continue;
        }
        harness
            .get_by_role_and_label(Role::Button, part.name)
            .click();
        harness.run_steps(3);
        assert_eq!(harness.state().ui.part, Some(part.name));
        let eye = harness.state().ui.eye;
        nearer += usize::from(eye.times > 1.5);
        // The part itself can still be seen, and is in the middle of the drawing.
        let (node, drawing) = (
            area(&harness).expect("still there"),
            harness.state().room.drawing.expect("a drawing"),
        );
        assert!(drawing.contains(node.center()), "{}: {node:?}", part.name);
        harness
            .get_by_role_and_label(Role::Button, part.name)
            .click();
        harness.run_steps(3);
        assert_eq!(harness.state().ui.part, None);
        assert_eq!(harness.state().ui.eye, Eye::WHOLE);
    }
    // Few parts are as large as the machine.
    assert!(2 * nearer > PARTS.len(), "{nearer} of {}", PARTS.len());
}

#[test]
fn the_small_section_is_there_where_there_is_room_and_says_where() {
    for (rung, words) in [
        (Rung::Elevation, "you are here"),
        (Rung::CrossSection, "you are here"),
        (Rung::Plan, "you are here"),
        (Rung::Wire, "you are here"),
        (Rung::Energization, "you are here"),
    ] {
        let harness = at(rung);
        let label = "Where the drawing looks";
        let node = harness.get_by_label_contains(label);
        assert!(
            node.accesskit_node()
                .label()
                .is_some_and(|text| text.contains(words)),
            "{rung:?}"
        );
    }
    assert!(
        at(Rung::Board)
            .query_by_label_contains("Where the drawing looks")
            .is_none()
    );
}
