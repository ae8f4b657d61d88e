//! The presenter's tools: black and white, pen, spotlight, and the key back to the start.

use ashlane_panels::{
    command::UiCommand,
    faults::FaultSwitch,
    presenter::{Blank, Tool},
    state::{PlanWindow, Rung, UiState},
    theme::{Ink, Theme},
};
use egui::{Color32, Key, Shape, pos2};
use egui_kittest::Harness;

use crate::{
    presenter::{POINTS, press, says, shapes, stage, tool},
    support::{Bench, demonstration_backdrop, window},
};

/// Room that the bench leaves round the window.
const MARGIN: f32 = 8.0;

fn lit(harness: &Harness<'_, Bench>) -> [f32; 2] {
    match tool(harness) {
        Tool::Spotlight(at) => at,
        other => panic!("{other:?} instead of a light"),
    }
}

/// A place as shares of the window, which the bench gives a margin.
fn share(at: [f32; 2]) -> [f32; 2] {
    [0, 1].map(|side| (at[side] - MARGIN) / (POINTS[side] - 2.0 * MARGIN))
}

fn near(a: [f32; 2], b: [f32; 2]) -> bool {
    (a[0] - b[0]).abs() < 1e-3 && (a[1] - b[1]).abs() < 1e-3
}

#[test]
fn the_full_stop_steps_outside_and_blanks_inside() {
    let mut harness = window(
        demonstration_backdrop(),
        UiState::default(),
        [1440.0, 900.0],
    );
    harness.state_mut().running = false;
    press(&mut harness, Key::Period);
    assert_eq!(harness.state().out, vec![UiCommand::SingleStep]);
    harness.state_mut().out.clear();
    press(&mut harness, Key::F5);
    for (key, blank) in [
        (Key::Period, Some(Blank::Black)),
        (Key::B, None),
        (Key::W, Some(Blank::White)),
        (Key::B, Some(Blank::Black)),
        (Key::Escape, None),
    ] {
        press(&mut harness, key);
        let now = harness.state().ui.presenting.as_ref();
        assert_eq!(now.expect("a presentation").blank, blank, "{key:?}");
        assert_eq!(says(&harness, "caught"), blank.is_none());
        // The engine has no room to draw in, and the notice stays.
        assert_eq!(harness.state().room.drawing.is_none(), blank.is_some());
        assert!(says(&harness, "Not a procedure."));
    }
    assert!(harness.state().out.is_empty(), "{:?}", harness.state().out);
}

#[test]
fn the_pen_stops_the_flight_draws_and_leaves_nothing_behind() {
    let mut harness = stage(Rung::Plan);
    press(&mut harness, Key::P);
    assert_eq!(harness.state().out, vec![UiCommand::Run(false)]);
    harness.state_mut().running = false;
    let before = harness.state().ui.window;
    harness.drag_at(pos2(300.0, 200.0));
    harness.run_steps(1);
    for at in [[330.0, 230.0], [360.0, 240.0], [420.0, 220.0]] {
        harness.hover_at(pos2(at[0], at[1]));
        harness.run_steps(1);
    }
    harness.drop_at(pos2(420.0, 220.0));
    harness.run_steps(2);
    let Tool::Pen { strokes, .. } = tool(&harness) else {
        panic!("no pen");
    };
    assert_eq!(strokes.len(), 1, "{strokes:?}");
    assert!(strokes[0].len() >= 3, "{strokes:?}");
    let (start, end) = (strokes[0][0], strokes[0][strokes[0].len() - 1]);
    assert!(near(start, share([300.0, 200.0])), "{start:?}");
    assert!(near(end, share([420.0, 220.0])), "{end:?}");
    let ink = Ink::Pen.colour(Theme::Light);
    let drawn = |harness: &Harness<'_, Bench>| {
        let of_pen = |shape: &&Shape| matches!(shape, Shape::Path(path) if path.stroke.color == egui::epaint::ColorMode::Solid(ink));
        shapes(harness).into_iter().filter(of_pen).count()
    };
    assert_eq!(drawn(&harness), 1);
    // The picture below stays where it is.
    assert_eq!(harness.state().ui.window, before);
    press(&mut harness, Key::Space);
    press(&mut harness, Key::C);
    assert_eq!(drawn(&harness), 0);
    assert!(matches!(tool(&harness), Tool::Pen { .. }));
    press(&mut harness, Key::PageDown);
    assert_eq!(tool(&harness), Tool::Pointer);
    let told = [UiCommand::Run(false), UiCommand::Run(true)];
    assert_eq!(harness.state().out, told);
    // A flight that stood before stands afterwards, and Esc puts the pen away before it leaves.
    harness.state_mut().out.clear();
    press(&mut harness, Key::P);
    press(&mut harness, Key::Escape);
    assert_eq!(tool(&harness), Tool::Pointer);
    assert!(harness.state().out.is_empty(), "{:?}", harness.state().out);
}

#[test]
fn the_spotlight_follows_the_pointer_and_the_arrow_keys() {
    let mut harness = stage(Rung::Plan);
    let window = harness.state().ui.window;
    press(&mut harness, Key::S);
    assert_eq!(tool(&harness), Tool::Spotlight([0.5, 0.5]));
    for _ in 0..3 {
        press(&mut harness, Key::ArrowRight);
    }
    press(&mut harness, Key::ArrowUp);
    // Three hundredths of the height at a press.
    let side = 0.03 * (POINTS[1] - 2.0 * MARGIN) / (POINTS[0] - 2.0 * MARGIN);
    let light = lit(&harness);
    assert!(near(light, [0.5 + 3.0 * side, 0.47]), "{light:?}");
    assert_eq!(harness.state().ui.window, window, "the plan moved too");
    harness.hover_at(pos2(250.0, 225.0));
    harness.run_steps(2);
    let light = lit(&harness);
    assert!(near(light, share([250.0, 225.0])), "{light:?}");
    // Clear at its middle, dark away from it.
    let dark = |at: egui::Pos2| {
        shapes(&harness).into_iter().any(|shape| {
            let Shape::Mesh(mesh) = shape else {
                return false;
            };
            mesh.indices.as_chunks::<3>().0.iter().any(|corners| {
                let corner = |index: u32| &mesh.vertices[index as usize];
                let places = corners.map(|index| corner(index).pos);
                let dim = |index: u32| corner(index).color != Color32::TRANSPARENT;
                corners.iter().all(|index| dim(*index)) && inside(places, at)
            })
        })
    };
    assert!(dark(pos2(700.0, 120.0)), "nothing is dimmed");
    assert!(!dark(pos2(250.0, 225.0)), "the light is dimmed");
    press(&mut harness, Key::L);
    assert_eq!(tool(&harness), Tool::Pointer);
}

/// Whether a place lies in a triangle.
fn inside(corners: [egui::Pos2; 3], at: egui::Pos2) -> bool {
    let side = |a: egui::Pos2, b: egui::Pos2| (b - a).rot90().dot(at - a) > 0.0;
    let [a, b, c] = corners;
    let sides = [side(a, b), side(b, c), side(c, a)];
    sides.iter().all(|side| *side) || sides.iter().all(|side| !side)
}

#[test]
fn home_goes_back_to_the_start_by_commands_that_say_so() {
    let mut harness = stage(Rung::Elevation);
    let fault = ashlane_lessons::faults::FAULTS.first().expect("a fault");
    harness.state_mut().faults = vec![FaultSwitch {
        name: fault.name,
        severity: 0.5,
        from_s: 0.0,
        field: 0,
    }];
    for _ in 0..3 {
        press(&mut harness, Key::PageDown);
    }
    harness.state_mut().ui.part = Some("Stack");
    press(&mut harness, Key::Home);
    let told = [
        UiCommand::Faults(Vec::new()),
        UiCommand::ResetToSheet,
        UiCommand::Restart,
    ];
    assert_eq!(harness.state().out, told);
    let ui = &harness.state().ui;
    assert_eq!((ui.rung, ui.part), (Rung::Elevation, None));
    assert_eq!(
        ui.window,
        PlanWindow {
            start_m: 0.0,
            length_m: 3.0
        }
    );
}
