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
