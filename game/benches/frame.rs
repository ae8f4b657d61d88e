//! One frame of the whole window with the passage full of dust, and how long a change takes to settle, on whatever
//! renders here.
//!
//! `cargo bench -p ashlane`; with `VK_ICD_FILENAMES` of a software renderer it tells how that fares.
#![expect(
    clippy::expect_used,
    reason = "a benchmark stops where it cannot measure"
)]

use ashlane::{Arrangement, Stage};
use ashlane_panels::{
    command::UiCommand,
    state::{Rung, UiState},
};
use ashlane_shared::conditions::{Value, demonstration_sheet};
use divan::{Bencher, counter::ItemsCount};

/// Steps until the passage is as full as it gets.
const STEPS: u64 = 2400;

fn main() {
    divan::main();
}

fn stage(size: (u32, u32)) -> Stage {
    let sheet = demonstration_sheet().expect("the embedded sheet");
    let mut stage =
        Stage::new(&sheet, UiState::default(), size, Arrangement::Window).expect("a renderer");
    stage.fly(STEPS);
    stage.count().expect("a count");
    stage.frames(10).expect("frames");
    stage
}

/// The elevation in a window of a common size, its passage full; drawn and worked out at the same time, as in a window.
fn whole_machine(grains: usize) -> Stage {
    let sheet = demonstration_sheet().expect("the embedded sheet");
    let ui = UiState {
        rung: Rung::Elevation,
        ..UiState::default()
    };
    let stage = Stage::flowing(&sheet, ui, (1920, 1080), Arrangement::Window);
    let mut stage = stage.expect("a renderer");
    stage.draw_grains(grains).expect("possible");
    stage.fly(STEPS);
    stage.count().expect("a count");
    stage.frames(10).expect("frames");
    stage
}

/// Dust flying: four steps, panels, upload, drawing.
#[divan::bench(args = [(1280, 800), (1440, 900)])]
fn running(bencher: Bencher<'_, '_>, size: (u32, u32)) {
    let mut stage = stage(size);
    stage.send(UiCommand::Run(true));
    bencher
        .counter(ItemsCount::new(stage.airborne()))
        .bench_local(|| stage.frames(1).expect("a frame"));
}

/// Paused: panels and drawing alone.
#[divan::bench(args = [(1280, 800)])]
fn paused(bencher: Bencher<'_, '_>, size: (u32, u32)) {
    let mut stage = stage(size);
    bencher
        .counter(ItemsCount::new(stage.airborne()))
        .bench_local(|| stage.frames(1).expect("a frame"));
}

/// The machine from the side while it flies, with so many grains in the gas.
#[divan::bench(args = [10_000, 50_000], sample_count = 60)]
fn elevation(bencher: Bencher<'_, '_>, grains: usize) {
    let mut stage = whole_machine(grains);
    stage.send(UiCommand::Run(true));
    stage.frames(5).expect("frames");
    bencher
        .counter(ItemsCount::new(stage.airborne()))
        .bench_local(|| stage.frames(1).expect("a frame"));
}

/// The same while a control is dragged: every frame another voltage. The slowest is what a hand feels.
#[divan::bench(args = [10_000, 50_000], sample_count = 120)]
fn dragged(bencher: Bencher<'_, '_>, grains: usize) {
    let mut stage = whole_machine(grains);
    stage.send(UiCommand::Run(true));
    stage.frames(5).expect("frames");
    let mut voltage_v = 45e3;
    bencher.bench_local(|| {
        voltage_v = if voltage_v > 46e3 {
            44e3
        } else {
            voltage_v + 50.0
        };
        stage.send(UiCommand::Set {
            path: "electrical.voltage",
            value: Some(Value::PerField(vec![voltage_v; 4])),
        });
        stage.frames(1).expect("a frame");
    });
}

/// From nothing to the first picture of the demonstration.
#[divan::bench(sample_count = 5)]
fn first_picture() {
    let sheet = demonstration_sheet().expect("the embedded sheet");
    let stage = Stage::new(&sheet, UiState::default(), (1440, 900), Arrangement::Window);
    stage.expect("a renderer").picture().expect("a picture");
}

/// On the way from the machine to its plan.
#[divan::bench(sample_count = 60)]
fn travelling(bencher: Bencher<'_, '_>) {
    let mut stage = whole_machine(10_000);
    stage.send(UiCommand::Run(true));
    let mut frame = 0;
    bencher.bench_local(|| {
        // A travel takes 42 frames.
        if frame % 40 == 0 {
            let rung = stage.ui().rung;
            stage.ui().rung = match rung {
                Rung::Plan => Rung::Elevation,
                _ => Rung::Plan,
            };
        }
        frame += 1;
        stage.frames(1).expect("a frame");
    });
}

/// The same at the closer looks; the grain's drawing is made anew at every frame, the others are kept.
#[divan::bench(args = [Rung::Wire, Rung::Grain, Rung::Energization], sample_count = 30)]
fn close_look(bencher: Bencher<'_, '_>, rung: Rung) {
    let mut stage = stage((1440, 900));
    stage.ui().rung = rung;
    stage.follow(5e-6).expect("a wish");
    stage.send(UiCommand::Run(true));
    stage.frames(40).expect("frames");
    bencher.bench_local(|| stage.frames(1).expect("a frame"));
}

/// Another field is chosen: its wire is worked out and drawn within the frame.
#[divan::bench(sample_count = 30)]
fn another_wire(bencher: Bencher<'_, '_>) {
    let mut stage = stage((1440, 900));
    stage.ui().rung = Rung::Wire;
    let mut field = 0;
    bencher.bench_local(|| {
        field = 1 - field;
        stage.ui().field = field;
        stage.frames(1).expect("a frame");
    });
}

/// A control is moved: frames until count and theory of the new conditions stand in the strip.
#[divan::bench(args = [(1280, 800)], sample_count = 12)]
fn settling(bencher: Bencher<'_, '_>, size: (u32, u32)) {
    let mut stage = stage(size);
    stage.send(UiCommand::Run(true));
    let mut flow_m3_s = 118.8;
    bencher.bench_local(|| {
        flow_m3_s += 0.1;
        stage.send(UiCommand::Set {
            path: "gas.flow",
            value: Some(Value::Number(flow_m3_s)),
        });
        // The command is applied with the next frame.
        stage.frames(2).expect("frames");
        stage.settle().expect("a settled count")
    });
}
