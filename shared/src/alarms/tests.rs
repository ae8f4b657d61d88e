//! The states of alarms, whatever is read and whatever the operator does: no chatter, nothing lost, the same again.

use std::collections::BTreeSet;

use super::*;

const HOUR_S: f64 = 3600.0;

/// Four fields in order.
fn sound(time_s: f64) -> Instruments {
    let field = FieldInstruments {
        asked_v: 45e3,
        metered_v: 44e3,
        metered_a: 0.5,
        limit_a: 1.0,
        hopper_level: Some(0.3),
    };
    Instruments {
        time_s,
        fields: vec![field; 4],
        opacity: Some(0.05),
        oxygen_in: Some(0.06),
        oxygen_out: Some(0.062),
    }
}

fn with_level(time_s: f64, level: f64) -> Instruments {
    let mut shown = sound(time_s);
    shown.fields[1].hopper_level = Some(level);
    shown
}

const LEVEL: Tag = Tag {
    key: "hopper-level",
    field: Some(1),
};

fn state(alarms: &Annunciator, tag: Tag) -> AlarmState {
    let mut points = alarms.points();
    points.find(|point| point.tag == tag).expect("there").state
}

/// Numbers from 0 to 1 that look like chance and are the same every time (Lehmer 1951, with the factor of Park and Miller).
struct Chance(u64);

impl Chance {
    fn next(&mut self) -> f64 {
        self.0 = self.0 * 48_271 % 2_147_483_647;
        self.0 as f64 / 2_147_483_647.0
    }
}

#[test]
fn every_row_says_what_is_asked_and_has_its_own_name() {
    let mut keys = BTreeSet::new();
    for alarm in ALARMS {
        assert!(
            keys.insert(alarm.key) && keys.insert(alarm.name),
            "{alarm:?}"
        );
        assert!(!alarm.signs.is_empty());
        for text in [alarm.consequence, alarm.response] {
            assert!(text.len() > 20 && text.ends_with('.'), "{text:?}");
        }
        // Where the program and the site differ the site is right.
        assert!(
            alarm.response.contains("your site’s procedure"),
            "{}",
            alarm.key
        );
        for sign in alarm.signs {
            assert!(
                sign.dead_band > 0.0 && sign.dead_band < 1.0,
                "{}",
                alarm.key
            );
        }
        for other in alarm.said_by {
            let place = |key: &str| ALARMS.iter().position(|alarm| alarm.key == key);
            assert!(place(other).expect("a key") < place(alarm.key).expect("itself"));
        }
        assert_eq!(
            find_alarm(alarm.key).map(|found| found.name),
            Some(alarm.name)
        );
    }
    assert!(ALARMS.iter().any(|alarm| alarm.priority == Priority::High));
}

/// Seen to fail with the dead band left out.
#[test]
fn a_reading_that_trembles_at_its_set_point_calls_once() {
    let mut chance = Chance(7);
    for alarm in ALARMS {
        let sign = alarm.signs[0];
        let set_point = (sign.set_point)(&sound(0.0), 1).expect("a set-point");
        let clears_at = sign.clears_at(set_point);
        assert!((clears_at - set_point).abs() > 1e-6, "{}", alarm.key);
        let mut memory = state::Memory::default();
        let mut calls = 0;
        for _ in 0..2000 {
            // Over the set-point and back, by no more than nine tenths of the dead band.
            let part = 0.9 * (2.0 * chance.next() - 1.0);
            let reading = set_point + part * (clears_at - set_point);
            let beyond = sign.is_beyond(reading, set_point, memory.beyond);
            calls += usize::from(memory.read(beyond));
        }
        assert_eq!(calls, 1, "{}", alarm.key);
    }
    // The same through the instruments.
    let mut alarms = Annunciator::default();
    for step in 0..1000 {
        let level = 0.8 + 0.039 * (2.0 * chance.next() - 1.0);
        alarms.look(&with_level(f64::from(step), level));
    }
    assert_eq!(alarms.changes().len(), 1, "{:?}", alarms.changes());
}

#[test]
fn acknowledged_stays_until_normal_and_what_comes_again_calls_again() {
    let mut alarms = Annunciator::default();
    alarms.look(&with_level(0.0, 0.3));
    assert_eq!(state(&alarms, LEVEL), AlarmState::Normal);
    alarms.look(&with_level(1.0, 0.8));
    assert_eq!(state(&alarms, LEVEL), AlarmState::Unacknowledged);
    assert!(alarms.horn());
    alarms.apply(AlarmCommand::Silence).expect("always");
    assert!(!alarms.horn());
    assert_eq!(
        state(&alarms, LEVEL),
        AlarmState::Unacknowledged,
        "silent is not known"
    );
    alarms
        .apply(AlarmCommand::Acknowledge(LEVEL))
        .expect("there");
    for step in 2..50 {
        alarms.look(&with_level(f64::from(step), 0.77 + 0.004 * f64::from(step)));
        assert_eq!(state(&alarms, LEVEL), AlarmState::Acknowledged);
    }
    alarms.look(&with_level(60.0, 0.5));
    assert_eq!(state(&alarms, LEVEL), AlarmState::Normal);
    // Nobody is there the second time.
    alarms.look(&with_level(61.0, 0.9));
    assert!(alarms.horn());
    alarms.look(&with_level(62.0, 0.5));
    assert_eq!(state(&alarms, LEVEL), AlarmState::ReturnedUnacknowledged);
    alarms.look(&with_level(63.0, 0.9));
    assert_eq!(state(&alarms, LEVEL), AlarmState::Unacknowledged);
    alarms.look(&with_level(64.0, 0.5));
    alarms.apply(AlarmCommand::AcknowledgeAll).expect("always");
    assert_eq!(state(&alarms, LEVEL), AlarmState::Normal);
    assert!(!alarms.horn());
}

#[test]
fn the_shelf_ends_at_its_time_of_the_plant_and_what_is_still_wrong_calls_anew() {
    let mut alarms = Annunciator::default();
    alarms.look(&with_level(0.0, 0.9));
    let shelve = |minutes| AlarmCommand::Shelve {
        tag: LEVEL,
        minutes,
    };
    alarms.apply(shelve(60.0)).expect("possible");
    assert_eq!(
        state(&alarms, LEVEL),
        AlarmState::Shelved { until_s: HOUR_S }
    );
    assert!(alarms.announced().is_empty() && !alarms.horn());
    alarms.look(&with_level(HOUR_S - 1.0, 0.9));
    assert!(state(&alarms, LEVEL).is_hidden());
    alarms.look(&with_level(HOUR_S, 0.9));
    assert_eq!(state(&alarms, LEVEL), AlarmState::Unacknowledged);
    assert!(alarms.horn());
    // What is right again by then comes back without a word.
    alarms.apply(shelve(60.0)).expect("possible");
    alarms.look(&with_level(1.5 * HOUR_S, 0.2));
    alarms.look(&with_level(2.0 * HOUR_S, 0.2));
    assert_eq!(state(&alarms, LEVEL), AlarmState::Normal);
    alarms.apply(shelve(60.0)).expect("possible");
    alarms.apply(AlarmCommand::Unshelve(LEVEL)).expect("there");
    assert_eq!(state(&alarms, LEVEL), AlarmState::Normal);
    for minutes in [0.0, -5.0, 1e6, f64::NAN] {
        let told = alarms.apply(shelve(minutes)).expect_err("not possible");
        assert!(told.to_string().contains("1 to 720"), "{told}");
    }
    let nowhere = Tag {
        key: "hopper-level",
        field: Some(9),
    };
    let told = alarms
        .apply(AlarmCommand::Acknowledge(nowhere))
        .expect_err("no field 10");
    assert!(
        told.to_string().contains("Hopper level high, field 10"),
        "{told}"
    );
}

#[test]
fn out_of_service_is_silent_until_it_is_put_back() {
    let mut alarms = Annunciator::default();
    alarms.look(&with_level(0.0, 0.3));
    alarms.apply(AlarmCommand::TakeOut(LEVEL)).expect("there");
    alarms.look(&with_level(1.0, 0.9));
    assert_eq!(state(&alarms, LEVEL), AlarmState::OutOfService);
    assert!(!alarms.horn() && alarms.hidden().len() == 1);
    alarms.apply(AlarmCommand::PutBack(LEVEL)).expect("there");
    assert_eq!(state(&alarms, LEVEL), AlarmState::Unacknowledged);
}

#[test]
fn a_set_that_was_switched_off_on_purpose_calls_nobody_and_one_that_trips_does() {
    let dead = Tag {
        key: "set-dead",
        field: Some(2),
    };
    let low = Tag {
        key: "voltage-low",
        field: Some(2),
    };
    let mut alarms = Annunciator::default();
    let mut shown = sound(0.0);
    shown.fields[2] = FieldInstruments {
        asked_v: 0.0,
        metered_v: 0.0,
        metered_a: 0.0,
        ..shown.fields[2]
    };
    alarms.look(&shown);
    assert_eq!(state(&alarms, dead), AlarmState::SuppressedByDesign);
    assert!(alarms.announced().is_empty() && !alarms.horn());
    shown.fields[2].asked_v = 45e3;
    alarms.look(&shown);
    // One alarm for one cause: that its kilovolts are low is said by the first.
    assert_eq!(state(&alarms, dead), AlarmState::Unacknowledged);
    assert_eq!(state(&alarms, low), AlarmState::SuppressedByDesign);
    shown.fields[2].metered_a = 1.0;
    alarms.look(&shown);
    assert_eq!(state(&alarms, dead), AlarmState::ReturnedUnacknowledged);
    let short = Tag {
        key: "field-short",
        field: Some(2),
    };
    assert_eq!(state(&alarms, short), AlarmState::Unacknowledged);
    assert_eq!(alarms.announced()[0].tag, short, "the highest stands first");
    assert_eq!(alarms.count(Priority::High), 1);
}

#[test]
fn what_cannot_be_read_leaves_its_alarm_as_it_was() {
    let opacity = Tag {
        key: "opacity",
        field: None,
    };
    let mut alarms = Annunciator::default();
    let mut dark = sound(0.0);
    dark.opacity = Some(0.4);
    alarms.look(&dark);
    alarms
        .apply(AlarmCommand::Acknowledge(opacity))
        .expect("there");
    dark.opacity = None;
    dark.time_s = 9.0;
    alarms.look(&dark);
    assert_eq!(state(&alarms, opacity), AlarmState::Acknowledged);
}

#[test]
fn the_newest_of_a_priority_stands_first() {
    let mut alarms = Annunciator::default();
    let mut shown = sound(0.0);
    shown.fields[3].hopper_level = Some(0.9);
    shown.oxygen_out = Some(0.09);
    alarms.look(&shown);
    shown.time_s = 5.0;
    shown.fields[0].hopper_level = Some(0.9);
    alarms.look(&shown);
    let list: Vec<_> = alarms.announced().iter().map(|point| point.tag).collect();
    let level = |field| Tag {
        key: "hopper-level",
        field: Some(field),
    };
    assert_eq!(
        list,
        [
            level(0),
            level(3),
            Tag {
                key: "oxygen-rise",
                field: None
            }
        ]
    );
}

#[test]
fn a_fresh_start_has_no_alarm_and_neither_has_another_collector() {
    let mut alarms = Annunciator::default();
    alarms.look(&with_level(100.0, 0.9));
    assert_eq!(alarms.announced().len(), 1);
    alarms.look(&with_level(0.0, 0.1));
    assert!(alarms.announced().is_empty() && alarms.changes().is_empty());
    alarms.look(&with_level(1.0, 0.9));
    let mut longer = sound(2.0);
    longer.fields.push(longer.fields[0]);
    alarms.look(&longer);
    assert!(alarms.announced().is_empty());
    assert_eq!(
        alarms
            .points()
            .filter(|point| point.tag.key == "hopper-level")
            .count(),
        5
    );
}

/// One run of anything: readings and commands by chance.
fn anything(seed: u64) -> Annunciator {
    let mut chance = Chance(seed);
    let mut alarms = Annunciator::default();
    for step in 0..1500 {
        let mut shown = sound(60.0 * f64::from(step));
        for field in &mut shown.fields {
            field.metered_v = 50e3 * chance.next();
            field.metered_a = chance.next();
            field.hopper_level = (chance.next() > 0.1).then(|| chance.next());
            field.asked_v *= f64::from(u8::from(chance.next() > 0.1));
        }
        shown.opacity = (chance.next() > 0.2).then(|| 0.2 * chance.next());
        alarms.look(&shown);
        let points: Vec<Point> = alarms.points().collect();
        let tag = points[(chance.next() * points.len() as f64) as usize].tag;
        let command = match (chance.next() * 9.0) as usize {
            0 => AlarmCommand::Acknowledge(tag),
            1 => AlarmCommand::AcknowledgeAll,
            2 => AlarmCommand::Silence,
            3 => AlarmCommand::Shelve {
                tag,
                minutes: 1.0 + 100.0 * chance.next(),
            },
            4 => AlarmCommand::Unshelve(tag),
            5 => AlarmCommand::TakeOut(tag),
            6 => AlarmCommand::PutBack(tag),
            _ => continue,
        };
        let before = alarms.clone();
        alarms.apply(command).expect("possible");
        if command == AlarmCommand::AcknowledgeAll {
            assert!(
                alarms
                    .points()
                    .all(|point| !point.state.is_unacknowledged())
            );
        }
        // No command of the operator's makes a reading right or wrong.
        let beyond = |alarms: &Annunciator| {
            alarms
                .points()
                .map(|point| point.beyond)
                .collect::<Vec<_>>()
        };
        assert_eq!(beyond(&before), beyond(&alarms));
    }
    alarms
}

#[test]
fn the_same_readings_and_commands_give_the_same_states_and_changes() {
    for seed in [1, 77, 4711] {
        let one = anything(seed);
        assert_eq!(one, anything(seed));
        assert_ne!(one, anything(seed + 1));
        assert_eq!(one.changes().len(), 500, "the oldest are forgotten");
        for pair in one.changes().windows(2) {
            assert!(pair[0].time_s <= pair[1].time_s);
        }
        // Every change of an alarm starts from where the one before ended.
        for point in one.points() {
            let changes = one
                .changes()
                .iter()
                .filter(|change| change.tag == point.tag);
            let changes: Vec<_> = changes.collect();
            assert!(changes.windows(2).all(|pair| pair[0].to == pair[1].from));
            assert!(changes.last().is_none_or(|last| last.to == point.state));
        }
    }
}
