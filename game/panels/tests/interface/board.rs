//! The operator's panel: legible, true to its meters, and its alarms come, are answered, go and come back.

use ashlane_panels::{
    board::{
        Bar, BoardView, Cell, StackReading, drawing, field_rows, gas_rows, mark_drawing,
        trends_drawing,
    },
    command::UiCommand,
    drawing::{Drawing, Item},
    state::{Rung, UiState},
    theme::{Ink, Theme},
};
use ashlane_shared::{
    alarms::{AlarmCommand, Annunciator, FieldInstruments, Instruments, Priority, Tag},
    plant::ALARM_LEVEL,
    units::{UnitSystem, number_text},
};
use egui_kittest::{
    Harness,
    kittest::{NodeT, Queryable},
};

use crate::{
    drawings::{SIZES, texts_are_legible},
    elevation,
    everywhere::all_within,
    plant,
    support::{Backdrop, Bench, demonstration_backdrop, window},
    trends::words,
};

const LEVEL: Tag = Tag {
    key: "hopper-level",
    field: Some(1),
};
const NAME: &str = "Hopper level high, field 2";

/// The panel of a demonstration that has run for two days.
pub(crate) fn view<'a>(
    backdrop: &'a Backdrop,
    units: UnitSystem,
    alarms: &'a Annunciator,
) -> BoardView<'a> {
    BoardView {
        machine: elevation::view(backdrop, units),
        alarms,
        stack: Some(StackReading {
            dust_kg_m3: 31e-6,
            opacity: 0.066,
            puff: None,
            from: "by the count",
        }),
        readings: &plant::days().readings,
    }
}

/// Four fields in order, but for what is told.
fn shown(time_s: f64, what: impl Fn(&mut Instruments)) -> Instruments {
    let field = FieldInstruments {
        asked_v: 45e3,
        metered_v: 44e3,
        metered_a: 0.5,
        limit_a: 0.99,
        hopper_level: Some(0.3),
    };
    let mut shown = Instruments {
        time_s,
        fields: vec![field; 4],
        opacity: Some(0.05),
        oxygen_in: Some(0.06),
        oxygen_out: Some(0.06),
    };
    what(&mut shown);
    shown
}

fn full(shown: &mut Instruments) {
    shown.fields[1].hopper_level = Some(0.9);
}

/// Alarms of every priority, one of them acknowledged, one shelved, one suppressed by design.
pub(crate) fn many() -> Annunciator {
    let mut alarms = Annunciator::default();
    let ill = |shown: &mut Instruments| {
        full(shown);
        shown.fields[0].hopper_level = Some(0.85);
        shown.fields[2].metered_v = 20.0;
        shown.fields[2].metered_a = 0.99;
        shown.fields[3].asked_v = 0.0;
        shown.opacity = Some(0.31);
        shown.oxygen_out = Some(0.08);
    };
    alarms.look(&shown(3600.0, full));
    alarms.look(&shown(7200.0, ill));
    for command in [
        AlarmCommand::Acknowledge(LEVEL),
        AlarmCommand::Shelve {
            tag: Tag {
                key: "opacity",
                field: None,
            },
            minutes: 30.0,
        },
    ] {
        alarms.apply(command).expect("there");
    }
    alarms
}

fn panel<'a>(size: [f32; 2]) -> Harness<'a, Bench> {
    let ui = UiState {
        rung: Rung::Board,
        ..UiState::default()
    };
    window(demonstration_backdrop(), ui, size)
}

/// The alarm commands that were asked for since the last time.
fn asked(harness: &mut Harness<'_, Bench>) -> Vec<AlarmCommand> {
    let out = std::mem::take(&mut harness.state_mut().out);
    let alarms = out.into_iter().filter_map(|command| match command {
        UiCommand::Alarm(command) => Some(command),
        _ => None,
    });
    alarms.collect()
}

#[test]
fn words_are_legible_at_every_size_in_both_unit_systems() {
    let (quiet, many) = (Annunciator::default(), many());
    for units in [UnitSystem::Si, UnitSystem::Us] {
        for size in SIZES {
            for alarms in [&quiet, &many] {
                let mut view = view(demonstration_backdrop(), units, alarms);
                texts_are_legible(&drawing(&view, size), &format!("{units:?} {size:?}"));
                view.readings = &[];
                texts_are_legible(
                    &drawing(&view, size),
                    &format!("{units:?} {size:?} without trends"),
                );
            }
        }
    }
    let mut twelve = ashlane_shared::conditions::demonstration();
    twelve.set_fields(12);
    let twelve = Backdrop::empty(twelve);
    let view = view(&twelve, UnitSystem::Si, &many);
    texts_are_legible(&drawing(&view, [720.0, 450.0]), "twelve");
}

#[test]
fn every_field_has_its_cell_and_power_is_voltage_times_current() {
    let alarms = Annunciator::default();
    let view = view(demonstration_backdrop(), UnitSystem::Si, &alarms);
    let rows = field_rows(&view);
    assert!(rows.iter().all(|row| row.cells.len() == 4), "{rows:?}");
    assert!(gas_rows(&view).iter().all(|row| row.cells.len() == 3));
    let cell = |name: &str, field: usize| {
        let row = rows.iter().find(|row| row.name == name).expect("a row");
        &row.cells[field]
    };
    let number = |name: &str, field: usize| {
        let mut words = cell(name, field).text.split_whitespace();
        let number = words.next().expect("a number").parse::<f64>();
        number.expect("a number")
    };
    let electrical = &view.machine.conditions.electrical;
    for field in 0..4 {
        // kV times mA are W, and the board tells kW: four digits each.
        let by_hand = number("kV, mean", field) * number("current", field) / 1e3;
        let ratio = number("power", field) / by_hand;
        assert!(
            (ratio - 1.0).abs() < 2e-3,
            "field {field}: {ratio} {rows:?}"
        );
        // A bar is as long beside its tick as the value beside what it is held against.
        let beside = |cell: &Cell| {
            cell.bar
                .map(|Bar { share, mark }| share / mark)
                .expect("a bar")
        };
        let state = &view.machine.fields[field];
        let asked = state.metered_v() / electrical.voltage_v[field];
        assert!((beside(cell("kV, mean", field)) / asked - 1.0).abs() < 1e-9);
        let limit = state.metered_a_m2() / electrical.current_limit_a_m2;
        assert!((beside(cell("current", field)) / limit - 1.0).abs() < 1e-9);
        let level = view.machine.hoppers[field].level / ALARM_LEVEL;
        assert!((beside(cell("hopper, to probe", field)) - level).abs() < 1e-9);
    }
    // What is asked is what the operator asks: of the last set nothing, whatever the machine has.
    let off = many();
    let asked = field_rows(&self::view(demonstration_backdrop(), UnitSystem::Si, &off));
    let marks = asked[0]
        .cells
        .iter()
        .map(|cell| cell.bar.map(|bar| bar.mark));
    let marks: Vec<f64> = marks.map(|mark| mark.expect("a bar")).collect();
    assert!(
        marks[3] == 0.0 && marks[..3].iter().all(|mark| *mark > 0.5),
        "{marks:?}"
    );
    // The hours are those of the plant, and the opacity stands at two thirds of its alarm.
    let until_s = view.machine.hoppers[1].until_alarm_s.expect("rates");
    let hours = format!(", {} h", number_text(until_s / 3600.0, 2));
    let hopper = &cell("hopper, to probe", 1).text;
    assert!(hopper.ends_with(&hours), "{hopper} and {hours}");
    // The first row is over its probe after the first raps.
    assert!(cell("hopper, to probe", 0).text.ends_with("HIGH"));
    let rows = gas_rows(&view);
    let opacity = rows.last().expect("a row").cells[2].bar.expect("a bar");
    assert!(
        (opacity.share / opacity.mark - 0.66).abs() < 1e-9,
        "{opacity:?}"
    );
}

#[test]
fn an_alarm_rises_is_acknowledged_by_key_and_asks_once() {
    let mut harness = panel([1440.0, 900.0]);
    assert!(harness.query_by_label("No alarm.").is_some());
    harness.state_mut().alarms.look(&shown(0.0, |_| {}));
    harness.state_mut().alarms.look(&shown(3600.0, full));
    harness.run_steps(3);
    assert!(harness.query_by_label("No alarm.").is_none());
    for label in ["1 medium", "0 high", "0 low", "horn: on"] {
        assert!(harness.query_by_label(label).is_some(), "no \"{label}\"");
    }
    let row = format!("{NAME}: medium, unacknowledged");
    assert!(harness.query_by_label(&row).is_some());
    assert!(asked(&mut harness).is_empty());
    harness
        .get_by_label(&format!("Acknowledge: {NAME}"))
        .focus();
    harness.run_steps(2);
    harness.key_press(egui::Key::Enter);
    harness.run_steps(3);
    let commands = asked(&mut harness);
    assert_eq!(commands, [AlarmCommand::Acknowledge(LEVEL)]);
    harness
        .state_mut()
        .alarms
        .apply(commands[0])
        .expect("there");
    harness.run_steps(3);
    assert!(harness.query_by_label(&row).is_none());
    let row = format!("{NAME}: medium, acknowledged");
    assert!(harness.query_by_label(&row).is_some());
    assert!(harness.query_by_label("horn: quiet").is_some());
    // Once is enough.
    let name = format!("Acknowledge: {NAME}");
    let button = harness.get_by_label(&name);
    assert!(button.accesskit_node().is_disabled());
    // What it asks of whoever is called opens below it.
    harness.get_by_label(&row).click();
    harness.run_steps(3);
    assert!(
        harness
            .query_by_label_contains("Response: Look at the emptying log")
            .is_some()
    );
}

#[test]
fn an_alarm_is_told_in_every_view_and_leads_to_the_panel() {
    let mut harness = window(
        demonstration_backdrop(),
        UiState::default(),
        [1440.0, 900.0],
    );
    assert!(harness.query_by_label("Panel").is_some());
    harness.state_mut().alarms = many();
    harness.run_steps(3);
    harness.get_by_label("Panel: 4 alarms").click();
    harness.run_steps(3);
    assert_eq!(harness.state().ui.rung, Rung::Board);
    assert!(
        harness
            .query_by_label_contains("Field shorted, field 3: high")
            .is_some()
    );
}

#[test]
fn a_shelved_alarm_goes_away_and_comes_back() {
    let mut harness = panel([1440.0, 900.0]);
    harness.state_mut().alarms.look(&shown(0.0, full));
    harness.run_steps(3);
    harness
        .get_by_label("Shelve for 2 h of the plant clock")
        .click();
    harness.run_steps(2);
    harness.get_by_label(&format!("Shelve: {NAME}")).click();
    harness.run_steps(2);
    let commands = asked(&mut harness);
    let shelve = AlarmCommand::Shelve {
        tag: LEVEL,
        minutes: 120.0,
    };
    assert_eq!(commands, [shelve]);
    harness.state_mut().alarms.apply(shelve).expect("there");
    harness.run_steps(3);
    assert!(harness.query_by_label("No alarm.").is_some());
    let words = format!("{NAME}: shelved until 2.00 h of the plant clock");
    assert!(harness.query_by_label(&words).is_some());
    harness.get_by_label(&format!("Unshelve: {NAME}")).click();
    harness.run_steps(2);
    assert_eq!(asked(&mut harness), [AlarmCommand::Unshelve(LEVEL)]);
    // Its time is over before anybody fetched it.
    harness.state_mut().alarms.look(&shown(7200.0, full));
    harness.run_steps(3);
    let row = format!("{NAME}: medium, unacknowledged");
    assert!(harness.query_by_label(&row).is_some());
}

#[test]
fn the_highest_stands_first_and_all_are_acknowledged_by_one_button() {
    let mut harness = panel([1024.0, 1400.0]);
    harness.state_mut().alarms = many();
    harness.run_steps(3);
    let top = |label: &str| harness.get_by_label_contains(label).rect().top();
    assert!(top("Field shorted, field 3: high") < top("Hopper level high, field 1: medium"));
    assert!(top("Hopper level high, field 1: medium") < top("Hopper level high, field 2: medium"));
    assert!(
        top("Hopper level high, field 2: medium") < top("Oxygen rises through the collector: low")
    );
    assert!(
        harness
            .query_by_label_contains("Suppressed by design: Set gives nothing, field 4")
            .is_none()
    );
    assert!(
        harness
            .query_by_label_contains("Set gives nothing, field 4")
            .is_some()
    );
    harness.get_by_label("Acknowledge all").click();
    harness.run_steps(2);
    harness.get_by_label("Silence").click();
    harness.run_steps(2);
    let expected = [AlarmCommand::AcknowledgeAll, AlarmCommand::Silence];
    assert_eq!(asked(&mut harness), expected);
}

#[test]
fn a_long_list_of_alarms_sticks_out_nowhere_and_leaves_the_values_in_reach() {
    for screen in [[1440.0, 900.0], [1024.0, 768.0]] {
        for percent in [75.0, 100.0, 200.0, 250.0] {
            let size: [f32; 2] = screen.map(|side: f32| side * 100.0 / percent);
            for theme in [Theme::Dark, Theme::Light] {
                let ui = UiState {
                    rung: Rung::Board,
                    theme,
                    alarm: Some(LEVEL),
                    ..UiState::default()
                };
                let mut harness = window(demonstration_backdrop(), ui, size);
                harness.state_mut().alarms = many();
                harness.run_steps(3);
                let what = format!("{screen:?} at {percent} %, {theme:?}");
                all_within(&harness, size, &what);
                let values = harness.get_by_label_contains("Readings board: Readings");
                assert!(values.rect().height() > 400.0, "{what}");
            }
        }
    }
}

#[test]
fn nothing_on_the_panel_moves_by_itself() {
    // No blinking: an alarm that nobody acknowledges is drawn the same at every frame.
    let mut harness = panel([1440.0, 900.0]);
    harness.state_mut().alarms = many();
    harness.run_steps(6);
    let shapes = |harness: &Harness<'_, Bench>| format!("{:?}", harness.output().shapes);
    let before = shapes(&harness);
    for _ in 0..40 {
        harness.run_steps(1);
        assert_eq!(before, shapes(&harness));
    }
}

const MARKS: [Ink; 3] = [Ink::AlarmHigh, Ink::AlarmMedium, Ink::AlarmLow];

fn inks(drawing: &Drawing) -> Vec<Ink> {
    let ink = |item: &Item| match item {
        Item::Line { ink, .. }
        | Item::Rect { ink, .. }
        | Item::Dot { ink, .. }
        | Item::Ring { ink, .. }
        | Item::Area { ink, .. }
        | Item::Band { ink, .. }
        | Item::Text { ink, .. } => Some(*ink),
        Item::Cell { .. } => None,
    };
    drawing.items.iter().filter_map(ink).collect()
}

#[test]
fn every_priority_has_its_own_shape_digit_and_colour() {
    for (priority, ink) in Priority::ALL.into_iter().zip(MARKS) {
        let mark = mark_drawing(priority, false);
        let filled = mark.items.first().expect("a shape");
        match (priority, filled) {
            (Priority::High, Item::Rect { .. })
            | (Priority::Medium, Item::Area { .. })
            | (Priority::Low, Item::Dot { .. }) => {}
            other => panic!("{other:?}"),
        }
        assert_eq!(inks(&mark)[..2], [ink, Ink::AlarmEdge]);
        assert_eq!(words(&mark), priority.number().to_string());
        // The bracket of one that nobody has acknowledged is a line more.
        assert_eq!(
            mark_drawing(priority, true).items.len(),
            mark.items.len() + 1
        );
    }
}

/// Alarm colours stand on the panel and nowhere else; on the panel nothing else is coloured, and there is no map.
#[test]
fn the_panel_is_grey_but_for_its_alarms_and_no_section_has_their_colours() {
    let greys = [
        Ink::Ground,
        Ink::Panel,
        Ink::Text,
        Ink::Faint,
        Ink::Rule,
        Ink::Metal,
    ];
    let (quiet, many) = (Annunciator::default(), many());
    for alarms in [&quiet, &many] {
        let view = view(demonstration_backdrop(), UnitSystem::Si, alarms);
        let whole = drawing(&view, [1100.0, 800.0]);
        assert!(
            whole
                .items
                .iter()
                .all(|item| !matches!(item, Item::Cell { .. }))
        );
        for ink in inks(&whole) {
            let alarm = MARKS.contains(&ink) || ink == Ink::AlarmEdge;
            assert!(alarm || greys.contains(&ink), "{ink:?}");
        }
        // Grey is grey: no channel far from the others.
        for theme in [Theme::Dark, Theme::Light] {
            for ink in greys {
                let [red, green, blue] = ink.rgb(theme).map(i32::from);
                let spread = red.max(green).max(blue) - red.min(green).min(blue);
                assert!(spread <= 16, "{ink:?} in {theme:?}");
            }
        }
    }
    let ui = UiState::default();
    let machine = elevation::view(demonstration_backdrop(), ui.units);
    let elevation = ashlane_panels::elevation::drawing(&machine, [840.0, 560.0]);
    let marks = |drawing: &Drawing| inks(drawing).into_iter().any(|ink| MARKS.contains(&ink));
    assert!(!marks(&elevation));
    assert!(marks(&drawing(
        &view(demonstration_backdrop(), ui.units, &many),
        [1100.0, 800.0]
    )));
}

#[test]
fn the_trends_share_one_axis_and_say_when_there_are_none() {
    let alarms = Annunciator::default();
    let mut view = view(demonstration_backdrop(), UnitSystem::Si, &alarms);
    let trends = trends_drawing(&view, [320.0, 460.0]);
    let said = words(&trends);
    for name in [
        "kV, mean",
        "current, mA",
        "sparks a minute",
        "hopper level, %",
        "opacity, %",
    ] {
        assert!(said.contains(name), "no \"{name}\" in {said}");
    }
    assert!(said.ends_with("48 | h"), "{said}");
    assert_eq!(said.matches("12").count(), 1, "{said}");
    for readings in [&[][..], &plant::days().readings[..1]] {
        view.readings = readings;
        let said = words(&trends_drawing(&view, [320.0, 460.0]));
        assert!(said.contains("none yet: run the plant clock"), "{said}");
    }
}
