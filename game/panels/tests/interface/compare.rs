//! A | B as a trainer meets it: pinned and let go by command, one control free, the table's numbers those of the counts.

use std::sync::OnceLock;

use ashlane_panels::{
    command::UiCommand,
    state::{Rung, UiState},
};
use ashlane_shared::{conditions::demonstration, units::UnitSystem};
use egui::{Shape, accesskit::Role};
use egui_kittest::{
    Harness,
    kittest::{NodeT, Queryable},
};

use crate::{
    everywhere::all_within,
    support::{Backdrop, Bench, Pin, demonstration_backdrop, window},
};

const WIDE: [f32; 2] = [1440.0, 900.0];
const RUNGS: [Rung; 7] = [
    Rung::Elevation,
    Rung::CrossSection,
    Rung::Plan,
    Rung::Wire,
    Rung::Grain,
    Rung::Energization,
    Rung::Board,
];

/// A with more gas than the demonstration, counted once for all tests.
fn more_gas() -> &'static Backdrop {
    static BACKDROP: OnceLock<Backdrop> = OnceLock::new();
    BACKDROP.get_or_init(|| {
        let mut conditions = demonstration();
        conditions.gas.flow_m3_s *= 1.5;
        conditions.gas.temperature_k += 10.0;
        Backdrop::counted(conditions)
    })
}

fn pin(backdrop: &'static Backdrop) -> Pin {
    Pin {
        backdrop,
        locked: false,
        only: None,
    }
}

/// The demonstration beside a pinned state.
fn beside(a: Pin, ui: UiState, size: [f32; 2]) -> Harness<'static, Bench> {
    let mut harness = window(demonstration_backdrop(), ui, size);
    harness.state_mut().pinned = Some(a);
    harness.run_steps(2);
    harness.state_mut().out.clear();
    harness
}

fn comparing() -> UiState {
    UiState {
        comparing: true,
        ..UiState::default()
    }
}

fn says(harness: &Harness<'_, Bench>, words: &str) -> bool {
    harness.query_all_by_label_contains(words).count() > 0
}

/// The cells to the right of a name, in the order of the columns.
fn row(harness: &Harness<'_, Bench>, name: &str) -> Vec<String> {
    let labels: Vec<_> = harness
        .query_all_by(|node| node.role() == Role::Label)
        .collect();
    let text = |node: &egui_kittest::Node<'_>| {
        let node = node.accesskit_node();
        node.label().or_else(|| node.value()).unwrap_or_default()
    };
    // A control may have the same name; the table comes after it.
    let start = labels.iter().rposition(|node| text(node) == name);
    let start = start.unwrap_or_else(|| panic!("no row {name}"));
    let top = labels[start].rect().center().y;
    let mut cells: Vec<(f32, String)> = labels
        .iter()
        .filter(|node| (node.rect().center().y - top).abs() < 3.0)
        .filter(|node| node.rect().left() > labels[start].rect().left())
        .map(|node| (node.rect().left(), text(node)))
        .collect();
    cells.sort_by(|a, b| a.0.total_cmp(&b.0));
    cells.into_iter().map(|(_, text)| text).collect()
}

/// The first number of a cell.
fn number(cell: &str) -> f64 {
    let cell = cell.replace('−', "-").replace(['×', '+'], "");
    let end = cell.find(|letter: char| !"-.0123456789".contains(letter));
    let digits = &cell[..end.unwrap_or(cell.len())];
    digits
        .parse()
        .unwrap_or_else(|_| panic!("no number in {cell}"))
}

/// Numbers with the three digits of the table.
#[track_caller]
fn near(cell: &str, expected: f64) {
    let shown = number(cell);
    let allowed = 0.006 * expected.abs().max(1e-3);
    assert!(
        (shown - expected).abs() <= allowed,
        "{cell}, not {expected}"
    );
}

#[test]
fn pinning_and_all_that_follows_is_asked_for_by_command() {
    let mut harness = window(demonstration_backdrop(), UiState::default(), WIDE);
    assert!(!says(&harness, "Unpin"));
    harness.get_by_label("Pin A").click();
    harness.run_steps(2);
    assert_eq!(harness.state().out, vec![UiCommand::PinA]);
    let mut harness = beside(pin(more_gas()), UiState::default(), WIDE);
    for (label, command) in [
        ("Back to A", UiCommand::BackToA),
        ("Swap", UiCommand::SwapAB),
        ("Unpin", UiCommand::Unpin),
        ("Lock the others", UiCommand::LockOthers(true)),
    ] {
        harness.get_by_label(label).click();
        harness.run_steps(2);
        assert_eq!(harness.state().out, vec![command], "{label}");
        harness.state_mut().out.clear();
    }
    harness.get_by_label("A | B").click();
    harness.run_steps(2);
    assert!(harness.state().ui.comparing);
    assert!(harness.state().out.is_empty());
}

#[test]
fn nothing_is_pinned_before_its_count_has_settled() {
    let mut counting = Backdrop::counted(demonstration());
    counting.settling = Some(0.4);
    let harness = window(&counting, UiState::default(), WIDE);
    let button = harness.get_by_label("Pin A");
    assert!(button.accesskit_node().is_disabled());
}

#[test]
fn the_table_tells_what_differs_with_the_numbers_of_both_counts() {
    // High enough for the whole table.
    let harness = beside(pin(more_gas()), comparing(), [1900.0, 1900.0]);
    let (a, b) = (more_gas(), demonstration_backdrop());
    let count = |side: &Backdrop| side.count.clone().expect("a count");
    let ((then, solved_a), (now, solved_b)) = (count(a), count(b));
    let (pa, pb) = (then.penetration, now.penetration);
    let cells = row(&harness, "Penetration, counted");
    near(&cells[0], 100.0 * pa.share);
    near(&cells[1], 100.0 * pb.share);
    let apart = 100.0 * (pb.share - pa.share);
    assert!(
        (number(&cells[2]) - apart).abs() < 0.05,
        "{cells:?} {apart}"
    );
    near(&cells[3], pb.share / pa.share);
    let (_, error) = cells[2].split_once("± ").expect("an error");
    // Two digits of it are shown.
    let expected = 300.0 * pa.standard_error.hypot(pb.standard_error);
    assert!(
        (number(error) / expected - 1.0).abs() < 0.05,
        "{error}, not {expected}"
    );
    let caught = row(&harness, "Efficiency");
    assert!((number(&caught[0]) - 100.0 * (1.0 - pa.share)).abs() < 0.06);
    assert!((number(&caught[1]) - 100.0 * (1.0 - pb.share)).abs() < 0.06);
    assert!((number(&caught[2]) + apart).abs() < 0.05, "{caught:?}");
    let de = row(&harness, "Deutsch number De");
    near(&de[0], solved_a.deutsch_number);
    near(&de[1], solved_b.deutsch_number);
    near(&de[2], solved_b.deutsch_number - solved_a.deutsch_number);
    let dust = row(&harness, "Dust in the gas that leaves");
    near(&dust[3], pb.share / pa.share);
    // 118.8 m³/s is two thirds of the flow that is pinned, and it is 10 K colder, whatever 0 °C is.
    let flow = row(&harness, "Gas flow");
    near(&flow[0], 178.2);
    near(&flow[2], -59.4);
    near(&flow[3], 2.0 / 3.0);
    let heat = row(&harness, "Temperature");
    assert_eq!(heat[2], "−10 °C");
    // What both have alike is no row of the table: the only one of this name is the control.
    let fields = harness.query_all_by(|node| node.label().as_deref() == Some("Sneakage per field"));
    assert_eq!(fields.count(), 1);
    let moment = a.simulation.frame();
    let kv = row(&harness, "Field 2, voltage");
    near(&kv[0], moment.fields()[1].metered_v() / 1e3);
    assert!(says(&harness, "larger than its statistical uncertainty"));
}

#[test]
fn chance_and_a_count_under_way_are_told_as_such() {
    let mut noisy = Backdrop::counted(demonstration());
    if let Some((result, _)) = &mut noisy.count {
        result.penetration.share += result.penetration.standard_error;
    }
    let noisy: &'static Backdrop = Box::leak(Box::new(noisy));
    let harness = beside(pin(noisy), comparing(), WIDE);
    assert!(says(&harness, "0.7 σ: within its statistical uncertainty"));
    assert!(says(&harness, "no condition differs"));
    let mut counting = Backdrop::counted(demonstration());
    counting.settling = Some(0.4);
    let mut harness = window(&counting, comparing(), WIDE);
    harness.state_mut().pinned = Some(pin(more_gas()));
    harness.run_steps(2);
    assert!(says(&harness, "B is still counting: 40 %."));
    assert!(!says(&harness, "statistical uncertainty of"));
}

#[test]
fn units_follow_the_window() {
    let mut ui = comparing();
    ui.units = UnitSystem::Us;
    let harness = beside(pin(more_gas()), ui, [1900.0, 1900.0]);
    assert!(row(&harness, "Gas flow")[0].ends_with("acfm"));
    // 10 K are 18 °F.
    assert_eq!(row(&harness, "Temperature")[2], "−18 °F");
}

#[test]
fn only_the_one_control_moves_while_the_others_are_locked() {
    let free = |harness: &Harness<'_, Bench>, name: &str| {
        let found = harness.get_by(|node| {
            node.role() == Role::Slider && node.label().is_some_and(|label| label.starts_with(name))
        });
        !found.accesskit_node().is_disabled()
    };
    let tall = [1440.0, 1800.0];
    let mut locked = pin(more_gas());
    locked.locked = true;
    // Nothing has been changed yet: any control may be the one.
    let harness = beside(locked, UiState::default(), tall);
    assert!(free(&harness, "Gas flow") && free(&harness, "Temperature"));
    locked.only = Some("gas.temperature");
    let mut harness = beside(locked, UiState::default(), tall);
    assert!(free(&harness, "Temperature"));
    for name in ["Gas flow", "Fields", "Sneakage"] {
        assert!(!free(&harness, name), "{name} moves");
    }
    let slider = harness.get_by(|node| {
        node.role() == Role::Slider
            && node
                .label()
                .is_some_and(|label| label.starts_with("Gas flow"))
    });
    slider.click();
    harness.run_steps(2);
    let moved = |command: &UiCommand| matches!(command, UiCommand::Set { .. });
    assert!(!harness.state().out.iter().any(moved));
    // A choice among words can be the one too.
    locked.only = Some("teaching.charging");
    let harness = beside(locked, UiState::default(), tall);
    let boxes = harness.query_all_by(|node| node.role() == Role::ComboBox && !node.is_disabled());
    assert_eq!(boxes.count(), 2, "the clock and the charging model");
}

#[test]
fn both_pictures_stand_side_by_side_at_the_same_scale_and_everything_fits() {
    for (screen, percent) in [(WIDE, 100), ([1024.0, 768.0], 100), ([1024.0, 768.0], 200)] {
        let size = screen.map(|side| side * 100.0 / percent as f32);
        for rung in RUNGS {
            let mut ui = comparing();
            ui.rung = rung;
            let harness = beside(pin(more_gas()), ui, size);
            let what = format!("{screen:?} at {percent} %, {rung:?}");
            all_within(&harness, size, &what);
            let [a, b] = ["A, pinned: ", "B, now: "].map(|name| {
                harness
                    .get_by(|node| node.label().is_some_and(|label| label.starts_with(name)))
                    .rect()
            });
            assert!((a.size() - b.size()).length() < 0.5, "{what}: {a:?} {b:?}");
            let beside = (a.top() - b.top()).abs() < 0.5 && a.right() <= b.left();
            assert!(beside || percent == 200, "{what}: {a:?} {b:?}");
            assert!(harness.state().room.drawing.is_none(), "{what}");
        }
    }
}

#[test]
fn the_dust_of_both_moments_is_drawn() {
    let harness = beside(pin(more_gas()), comparing(), WIDE);
    let node = |name: &str| {
        let found =
            harness.get_by(|node| node.label().is_some_and(|label| label.starts_with(name)));
        found.rect()
    };
    for (name, backdrop) in [
        ("A, pinned: ", more_gas()),
        ("B, now: ", demonstration_backdrop()),
    ] {
        let place = node(name);
        let drawn = harness
            .output()
            .shapes
            .iter()
            .filter(|shape| matches!(&shape.shape, Shape::Circle(circle) if place.contains(circle.center)))
            .count();
        let window = harness.state().ui.window;
        let shown = |along_m: f32| (along_m - window.start_m) <= window.length_m;
        let frame = backdrop.simulation.frame();
        let flying = frame.grains().filter(|grain| shown(grain.along_m)).count();
        assert!(
            flying > 50 && drawn >= flying,
            "{drawn} of {flying} in {name}"
        );
    }
}
