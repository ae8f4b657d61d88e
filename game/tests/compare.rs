//! A | B in the window: what is pinned stays, one control moves while the others are locked, and A comes back.

use ashlane::Stage;
use ashlane_panels::command::UiCommand;
use ashlane_shared::conditions::{Value, demonstration};

use crate::support::demonstration_stage;

const SIZE: (u32, u32) = (1280, 800);

fn set(path: &'static str, value: f64) -> UiCommand {
    UiCommand::Set {
        path,
        value: Some(Value::Number(value)),
    }
}

fn tell(stage: &mut Stage, commands: impl IntoIterator<Item = UiCommand>) {
    for command in commands {
        stage.send(command);
    }
    stage.frames(2).expect("frames");
}

#[test]
fn one_control_moves_while_a_is_pinned_and_a_comes_back() {
    let Some(mut stage) = demonstration_stage("compare", SIZE) else {
        return;
    };
    // Nothing is counted yet.
    tell(&mut stage, [UiCommand::PinA]);
    assert!(stage.pinned().is_none());
    let refusal = stage.message().expect("a refusal");
    assert!(refusal.contains("not settled"), "{refusal}");
    stage.send(UiCommand::Dismiss);
    stage.settle().expect("a count");
    let a = demonstration();
    tell(&mut stage, [UiCommand::PinA, UiCommand::LockOthers(true)]);
    assert_eq!((stage.pinned(), stage.message()), (Some(&a), None));
    // The first control is the one; another one stays shut.
    let mut b = a.clone();
    b.gas.flow_m3_s = 150.0;
    tell(
        &mut stage,
        [set("gas.flow", 140.0), set("gas.temperature", 400.0)],
    );
    assert_eq!(stage.controls().gas.temperature_k, a.gas.temperature_k);
    tell(&mut stage, [set("gas.flow", 150.0)]);
    assert_eq!((stage.controls(), stage.pinned()), (&b, Some(&a)));
    // B becomes A by a swap, and A is flown.
    stage.settle().expect("a count");
    tell(&mut stage, [UiCommand::SwapAB]);
    assert_eq!((stage.controls(), stage.pinned()), (&a, Some(&b)));
    // Back at what is pinned any control may be the one.
    tell(&mut stage, [UiCommand::BackToA]);
    assert_eq!(stage.controls(), &b);
    tell(
        &mut stage,
        [set("gas.temperature", 400.0), set("gas.flow", 100.0)],
    );
    let now = stage.controls();
    assert_eq!((now.gas.temperature_k, now.gas.flow_m3_s), (400.0, 150.0));
    // The sheet differs from what is pinned now by two controls, and undo by one.
    stage.settle().expect("a count");
    tell(&mut stage, [UiCommand::PinA, UiCommand::ResetToSheet]);
    let refusal = stage.message().expect("a refusal");
    assert!(refusal.contains("more than one control"), "{refusal}");
    tell(&mut stage, [UiCommand::Undo]);
    assert_eq!(stage.controls(), &b);
    tell(&mut stage, [UiCommand::Unpin, UiCommand::ResetToSheet]);
    assert_eq!((stage.controls(), stage.pinned()), (&a, None));
}
