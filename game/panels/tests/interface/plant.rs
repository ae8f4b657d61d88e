//! The charts of the plant clock: legible, true to their readings, and their checks notice what is off.

use std::sync::OnceLock;

use ashlane_panels::{
    charts::{
        PlantView, hoppers_checks, hoppers_drawing, layers_checks, layers_drawing, stack_checks,
        stack_drawing,
    },
    checks::CheckLine,
    drawing::{Drawing, Item, Point},
    theme::Ink,
};
use ashlane_shared::{
    checks::{LongRun, Verdict},
    conditions::{Conditions, demonstration},
    plant::{Plant, PlantReading, Rates},
    theory,
    units::UnitSystem,
};

use crate::{drawings::texts_are_legible, support::demonstration_backdrop, trends::words};

pub(crate) const HOUR_S: f64 = 3600.0;

pub(crate) struct Days {
    conditions: Conditions,
    rates: Rates,
    pub(crate) readings: Vec<PlantReading>,
    long_run: LongRun,
}

fn run(conditions: Conditions, every_s: f64) -> Days {
    let rates = Rates::count(&conditions, 20_000, 3, |_| true)
        .expect("possible")
        .expect("to its end");
    let theory = theory::solve(&conditions).expect("possible");
    let long_run = LongRun::new(&conditions, &rates, 20_000, &theory);
    let mut plant = Plant::new(&conditions, rates.clone()).expect("possible");
    let readings = plant.readings(48.0 * HOUR_S, every_s).expect("possible");
    Days {
        conditions,
        rates,
        readings,
        long_run,
    }
}

pub(crate) fn days() -> &'static Days {
    static DAYS: OnceLock<Days> = OnceLock::new();
    DAYS.get_or_init(|| run(demonstration(), 1200.0))
}

/// Badly conducting dust, which nobody takes away for half a day.
pub(crate) fn bad_days() -> &'static Days {
    static DAYS: OnceLock<Days> = OnceLock::new();
    DAYS.get_or_init(|| {
        let mut conditions = demonstration();
        conditions.dust.resistivity = ashlane_shared::conditions::Resistivity::Given(5e9);
        conditions.hoppers.evacuation_interval_s = vec![12.0 * HOUR_S; 4];
        run(conditions, 600.0)
    })
}

/// Dust that conducts well, and wires that swing by 3 cm, since the second day as far as the drawing knows.
pub(crate) fn swinging_days() -> &'static Days {
    static DAYS: OnceLock<Days> = OnceLock::new();
    DAYS.get_or_init(|| {
        let mut conditions = demonstration();
        for defect in &mut conditions.defects {
            defect.swing_m = 0.03;
            defect.swing_s = 6.3;
        }
        run(conditions, 600.0)
    })
}

pub(crate) fn of<'a>(
    days: &'a Days,
    readings: &'a [PlantReading],
    units: UnitSystem,
) -> PlantView<'a> {
    PlantView {
        readings,
        conditions: &days.conditions,
        rates: &days.rates,
        steady_since_s: 0.0,
        long_run: days.long_run,
        units,
    }
}

/// Two days of the demonstration.
pub(crate) fn view(units: UnitSystem) -> PlantView<'static> {
    of(days(), &days().readings, units)
}

pub(crate) fn si(readings: &[PlantReading]) -> PlantView<'_> {
    of(days(), readings, UnitSystem::Si)
}

pub(crate) type Chart = fn(&PlantView<'_>, f32) -> Drawing;

/// The three charts by name.
pub(crate) const CHARTS: [(&str, Chart); 3] = [
    ("layers", layers_drawing),
    ("stack", stack_drawing),
    ("hoppers", hoppers_drawing),
];

#[test]
fn the_charts_are_legible_at_every_width() {
    for (days, steady_since_s) in [
        (days(), 0.0),
        (bad_days(), 24.0 * HOUR_S),
        (swinging_days(), 47.9 * HOUR_S),
        (swinging_days(), 1.0),
    ] {
        for units in [UnitSystem::Si, UnitSystem::Us] {
            for width in [260.0, 300.0, 420.0, 560.0] {
                for (name, chart) in CHARTS {
                    let mut view = of(days, &days.readings, units);
                    view.steady_since_s = steady_since_s;
                    let drawing = chart(&view, width);
                    texts_are_legible(&drawing, &format!("{name} {units:?} {width}"));
                }
            }
        }
    }
}

#[test]
fn none_one_and_uneven_readings_make_a_chart() {
    let all = &days().readings;
    let uneven: Vec<PlantReading> = [0, 1, 2, 50, 53, 140]
        .map(|index| all[index].clone())
        .into();
    for readings in [&[], &all[..1], &all[3..4], &uneven[..]] {
        let view = si(readings);
        for (name, chart) in CHARTS {
            let drawing = chart(&view, 300.0);
            texts_are_legible(&drawing, &format!("{name} of {}", readings.len()));
            for item in &drawing.items {
                if let Item::Line { points, .. } = item {
                    let finite = points.iter().flatten().all(|place| place.is_finite());
                    assert!(finite, "{name} of {}: {points:?}", readings.len());
                }
            }
        }
        // What was struck between two readings shows only where there are two.
        assert_eq!(readings.len() < 2, layers_checks(&view).is_empty());
    }
}

#[test]
fn weeks_of_readings_are_drawn_with_a_few_hundred_points_a_line() {
    let all = &days().readings;
    let weeks: Vec<PlantReading> = (0..5000)
        .map(|index| {
            let mut reading = all[1 + index % (all.len() - 1)].clone();
            let at_s = 600.0 * index as f64;
            reading.time_s = at_s;
            reading.peak_at_s = reading.peak_at_s.map(|_| at_s);
            reading
        })
        .collect();
    for (name, chart) in CHARTS {
        let drawing = chart(&si(&weeks), 300.0);
        texts_are_legible(&drawing, name);
        for item in &drawing.items {
            if let Item::Line { points, .. } = item {
                assert!(points.len() < 1300, "{name}: {} points", points.len());
            }
        }
        assert!(
            drawing.items.len() < 1000,
            "{name}: {}",
            drawing.items.len()
        );
    }
}

/// Lines in the colour of the first field, the longest first.
pub(crate) fn lines(drawing: &Drawing, wanted: Ink) -> Vec<&Vec<Point>> {
    let mut lines: Vec<_> = drawing
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Line { points, ink, .. } if *ink == wanted => Some(points),
            _ => None,
        })
        .collect();
    lines.sort_by_key(|points| std::cmp::Reverse(points.len()));
    lines
}

#[test]
fn every_rap_of_the_first_field_is_a_fall_of_its_line() {
    let drawing = layers_drawing(&view(UnitSystem::Si), 420.0);
    let falls = lines(&drawing, Ink::Dust)[0]
        .windows(2)
        .filter(|pair| pair[1][1] > pair[0][1] + 10.0)
        .count();
    // Every 4 h in 48 h; the last turn of the shaft begins as they end.
    assert_eq!(falls, 11);
}

#[test]
fn what_a_bad_layer_takes_of_the_voltage_is_drawn_below_it() {
    let dashed = |days: &Days| {
        let drawing = layers_drawing(&of(days, &days.readings, UnitSystem::Si), 420.0);
        let dashed = |item: &&Item| matches!(item, Item::Line { dash: Some(_), .. });
        drawing.items.iter().filter(dashed).count()
    };
    assert_eq!(dashed(bad_days()), 4, "one a field");
    assert_eq!(dashed(days()), 0, "a hundredth of a kilovolt is not seen");
}

#[test]
fn puffs_stand_where_their_blow_was() {
    let drawing = stack_drawing(&view(UnitSystem::Si), 420.0);
    let needles = drawing
        .items
        .iter()
        .filter(|item| matches!(item, Item::Dot { ink: Ink::Dust, .. }))
        .count();
    let blows = days()
        .readings
        .iter()
        .filter(|reading| reading.peak_at_s.is_some());
    let blows = blows.count();
    assert!(needles > 10 && needles <= blows, "{needles} of {blows}");
}

#[test]
fn the_level_alarm_is_a_line_and_a_row_above_it_says_so() {
    let words = |readings: &[PlantReading]| {
        let view = of(bad_days(), readings, UnitSystem::Si);
        words(&hoppers_drawing(&view, 420.0))
    };
    let full = bad_days()
        .readings
        .iter()
        .position(|reading| reading.fields[0].hopper_alarm);
    let full = full.expect("nobody takes the ash away");
    assert!(words(&bad_days().readings[..=full]).contains("field 1: ALARM"));
    let before = words(&bad_days().readings[..full]);
    assert!(
        before.contains("level alarm") && !before.contains("ALARM"),
        "{before}"
    );
}

#[track_caller]
fn verdicts(lines: &[CheckLine], expected: &[Verdict]) {
    let found: Vec<Verdict> = lines.iter().map(|line| line.verdict).collect();
    assert_eq!(found, expected, "{lines:#?}");
}

#[test]
fn the_field_in_the_layer_agrees_and_a_false_drop_does_not() {
    verdicts(&layers_checks(&view(UnitSystem::Si)), &[Verdict::Agree]);
    verdicts(
        &layers_checks(&of(bad_days(), &bad_days().readings, UnitSystem::Us)),
        &[Verdict::Agree],
    );
    let mut wrong = days().readings.clone();
    for field in &mut wrong.last_mut().expect("readings").fields {
        field.layer_drop_v *= 1.05;
    }
    verdicts(&layers_checks(&si(&wrong)), &[Verdict::Disagree]);
}

#[test]
fn the_stack_agrees_and_false_emission_opacity_and_long_run_do_not() {
    use Verdict::{Agree, Disagree};
    verdicts(&stack_checks(&view(UnitSystem::Si)), &[Agree, Agree, Agree]);
    let changed = |change: fn(&mut PlantReading)| {
        let mut readings = days().readings.clone();
        readings.iter_mut().for_each(change);
        readings
    };
    let lost = changed(|reading| reading.emission_kg_m3 *= 0.5);
    verdicts(&stack_checks(&si(&lost)), &[Disagree, Agree, Agree]);
    let clear = changed(|reading| reading.opacity *= 0.5);
    verdicts(&stack_checks(&si(&clear)), &[Agree, Disagree, Agree]);
    let mut view = view(UnitSystem::Si);
    assert!(view.long_run.agrees);
    view.long_run.finite_mixing += 2.1 * view.long_run.tolerance;
    verdicts(&stack_checks(&view), &[Agree, Agree, Disagree]);
    // What was read under other conditions is drawn, and no check looks at it.
    let mut changed = lost.clone();
    changed.extend(days().readings.iter().cloned().map(|mut reading| {
        reading.time_s += 50.0 * HOUR_S;
        reading
    }));
    let mut view = si(&changed);
    view.steady_since_s = 50.0 * HOUR_S;
    verdicts(&stack_checks(&view), &[Agree, Agree, Agree]);
}

#[test]
fn the_hours_to_the_alarm_agree_and_false_ones_do_not() {
    let count = demonstration_backdrop()
        .count
        .as_ref()
        .map(|(count, _)| count);
    // Its first rap fills the first row over the alarm.
    verdicts(
        &hoppers_checks(&view(UnitSystem::Si), count),
        &[Verdict::Agree; 2],
    );
    assert!(
        hoppers_checks(&view(UnitSystem::Si), None).is_empty(),
        "no count, no catch"
    );
    let mut wrong = days().readings.clone();
    for field in &mut wrong.last_mut().expect("readings").fields {
        field.hopper_alarm_s *= 0.8;
    }
    verdicts(
        &hoppers_checks(&si(&wrong), count),
        &[Verdict::Disagree, Verdict::Agree],
    );
    // The count is that of the good ones: dust of another resistivity is caught alike on clean plates, and the hand
    // calculation has the catch change as the layers change the rates.
    let full = of(bad_days(), &bad_days().readings[..70], UnitSystem::Si);
    verdicts(
        &hoppers_checks(&full, count),
        &[Verdict::Agree, Verdict::Agree],
    );
    let mut late = bad_days().readings[..70].to_vec();
    for reading in &mut late {
        reading.time_s *= 1.2;
    }
    let late = of(bad_days(), &late, UnitSystem::Si);
    verdicts(
        &hoppers_checks(&late, count),
        &[Verdict::Agree, Verdict::Disagree],
    );
}
