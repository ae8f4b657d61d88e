//! What the trends of the plant clock mark: swinging wires, a change of the conditions, the meters, the long run.

use ashlane_panels::{
    charts::{
        PlantView, hoppers_drawing, layers_checks, layers_drawing, stack_checks, stack_drawing,
    },
    drawing::{Drawing, Item, svg},
    theme::{Ink, Theme},
};
use ashlane_shared::{checks::Verdict, units::UnitSystem};

use crate::plant::{CHARTS, Chart, HOUR_S, bad_days, days, lines, of, si, swinging_days, view};

/// All words of a drawing.
pub(crate) fn words(drawing: &Drawing) -> String {
    let texts: Vec<&str> = drawing.texts().map(|(text, ..)| text).collect();
    texts.join(" | ")
}

/// Places of the upright lines of this colour that are as long as half a plot.
fn upright(drawing: &Drawing, wanted: Ink) -> Vec<f32> {
    let lines = lines(drawing, wanted).into_iter();
    let upright = lines.filter(|points| {
        let [from, to] = points[..] else {
            return false;
        };
        from[0] == to[0] && (from[1] - to[1]).abs() > 20.0
    });
    upright.map(|points| points[0][0]).collect()
}

#[test]
fn swinging_wires_take_the_kilovolts_between_two_ends() {
    let days = swinging_days();
    let drawing = layers_drawing(&of(days, &days.readings, UnitSystem::Si), 420.0);
    let bands: Vec<_> = drawing
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Band { ends, ink, .. } => Some((ends, *ink)),
            _ => None,
        })
        .collect();
    assert_eq!(bands.len(), 4, "one a field");
    for (ends, ink) in bands {
        assert!(
            ends.iter()
                .all(|[low, high]| low[0] == high[0] && low[1] > high[1])
        );
        // The mean of the same field runs through it: at its start the line of the voltage lies between the ends.
        let [low, high] = ends[ends.len() / 2];
        let through = lines(&drawing, ink)
            .into_iter()
            .flatten()
            .any(|point| (point[0] - low[0]).abs() < 1.5 && (high[1]..=low[1]).contains(&point[1]));
        assert!(through, "no mean within {low:?}–{high:?}");
    }
    assert!(
        words(&drawing).contains("band: wire swings, 6.3 s"),
        "{}",
        words(&drawing)
    );
    let text = svg(&drawing, "meters", Theme::Light);
    assert!(text.contains("<polygon"), "the file has no band");
    let still = layers_drawing(&view(UnitSystem::Si), 420.0);
    assert!(!words(&still).contains("swings"), "{}", words(&still));
    assert!(
        !still
            .items
            .iter()
            .any(|item| matches!(item, Item::Band { .. }))
    );
}

#[test]
fn a_change_of_the_conditions_is_marked_in_every_trend_at_its_hour() {
    for (name, chart) in CHARTS {
        let plots = match name {
            "layers" => 4,
            "stack" => 2,
            _ => 1,
        };
        let mut view = view(UnitSystem::Si);
        let said = |view: &PlantView<'_>| {
            words(&chart(view, 420.0))
                .matches("conditions changed")
                .count()
        };
        assert_eq!(said(&view), 0, "{name}");
        assert!(
            upright(&chart(&view, 420.0), Ink::Text).is_empty(),
            "{name}"
        );
        view.steady_since_s = 24.0 * HOUR_S;
        assert_eq!(said(&view), 1, "{name}");
        let drawing = chart(&view, 420.0);
        let marks = upright(&drawing, Ink::Text);
        assert_eq!(marks.len(), plots, "{name}: {marks:?}");
        // The rules of the hours are at 6, 12, … 48 h and 0: a mark stands on the one in the middle.
        let hours = upright(&drawing, Ink::Rule);
        let (least, most) = hours.iter().fold((f32::MAX, 0.0_f32), |(least, most), x| {
            (least.min(*x), most.max(*x))
        });
        for mark in marks {
            assert!(
                (mark - 0.5 * (least + most)).abs() < 0.1,
                "{name}: {mark} of {least}–{most}"
            );
        }
    }
}

#[test]
fn all_trends_share_one_axis_of_time() {
    for days in [days(), bad_days(), swinging_days()] {
        let view = of(days, &days.readings, UnitSystem::Si);
        let hours = |chart: Chart| {
            let mut hours = upright(&chart(&view, 420.0), Ink::Rule);
            hours.sort_by(f32::total_cmp);
            hours.dedup();
            hours
        };
        let first = hours(layers_drawing);
        assert!(first.len() > 3, "{first:?}");
        assert_eq!(first, hours(stack_drawing));
        assert_eq!(first, hours(hoppers_drawing));
    }
}

#[test]
fn the_meters_are_trends_and_sparks_are_told_where_there_are_some() {
    let sparks = words(&layers_drawing(&view(UnitSystem::Si), 420.0));
    for name in [
        "layer, mm",
        "kV, mean of the set",
        "current of the set over its plates, nA/cm²",
        "sparks a minute",
    ] {
        assert!(sparks.contains(name), "no \"{name}\" in {sparks}");
    }
    assert!(!sparks.contains("none"), "{sparks}");
    let mut readings = days().readings.clone();
    for field in readings.iter_mut().flat_map(|reading| &mut reading.fields) {
        field.sparks_per_min = 0.0;
    }
    let none = words(&layers_drawing(&si(&readings), 420.0));
    assert!(none.contains("sparks a minute: none"), "{none}");
    // A current that goes past the gas is read, too.
    for field in readings.iter_mut().flat_map(|reading| &mut reading.fields) {
        field.metered_a_m2 = 12.3e-5;
    }
    let past = words(&layers_drawing(&si(&readings), 420.0));
    assert!(past.contains("field 4: 12.3"), "{past}");
}

#[test]
fn the_long_run_of_the_present_rates_is_a_line_with_its_efficiency() {
    let mut readings = days().readings.clone();
    for reading in &mut readings {
        reading.long_run = 0.004_56;
    }
    let drawing = stack_drawing(&si(&readings), 420.0);
    let words = words(&drawing);
    let key = "long run by the present rates: 0.456 %, efficiency 99.544 %";
    assert!(words.contains(key), "{words}");
    // 0.456 % of 8 g/m³ is 36.5 mg/m³, at any time.
    assert!(words.contains("long run 36"), "{words}");
    let line = lines(&drawing, Ink::Text)[0];
    assert!(line.len() > 50, "{line:?}");
    assert!(
        line.iter()
            .all(|point| (point[1] - line[0][1]).abs() < 0.01),
        "{line:?}"
    );
}

#[test]
fn the_checks_hold_at_every_hour_and_allow_for_rates_that_move() {
    for (days, moves) in [
        (days(), false),
        (bad_days(), true),
        (swinging_days(), false),
    ] {
        for last in (6..days.readings.len()).step_by(5) {
            let view = of(days, &days.readings[..=last], UnitSystem::Si);
            for line in layers_checks(&view).iter().chain(&stack_checks(&view)) {
                assert_eq!(line.verdict, Verdict::Agree, "{last}: {line:?}");
            }
        }
        let all = stack_checks(&of(days, &days.readings, UnitSystem::Si));
        assert_eq!(all[0].tolerance > 0.05, moves, "{all:?}");
    }
}
