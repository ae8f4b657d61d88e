//! Where the dust ends and which grains get through: legible, bars as long as their shares, checks that notice.

use ashlane_panels::{
    charts::{by_size_checks, by_size_drawing, by_size_note, caught_checks, caught_drawing},
    drawing::Item,
    theme::Ink,
    view::CountView,
};
use ashlane_shared::{
    checks::Verdict,
    conditions::{Conditions, demonstration},
    units::UnitSystem,
};

use crate::{
    drawings::texts_are_legible,
    plant,
    support::{Backdrop, demonstration_backdrop},
};

fn counted(backdrop: &Backdrop) -> CountView<'_> {
    CountView {
        result: backdrop.count.as_ref().map(|(result, _)| result),
        theory: backdrop.count.as_ref().map(|(_, theory)| theory),
        settling: None,
    }
}

#[test]
fn both_charts_are_legible_at_every_width_and_with_many_fields() {
    let mut many: Conditions = demonstration();
    many.set_fields(12);
    let many = Backdrop::counted(many);
    for backdrop in [demonstration_backdrop(), &many] {
        let count = counted(backdrop);
        for units in [UnitSystem::Si, UnitSystem::Us] {
            for width in [260.0, 300.0, 420.0, 560.0] {
                let caught = caught_drawing(&count, &backdrop.conditions, units, width);
                texts_are_legible(&caught.expect("a count"), &format!("caught {width}"));
                let sizes = by_size_drawing(&count, units, [width, 0.66 * width + 60.0]);
                texts_are_legible(&sizes.expect("a count"), &format!("sizes {width}"));
            }
        }
    }
    let nothing = CountView::default();
    assert!(caught_drawing(&nothing, &many.conditions, UnitSystem::Si, 300.0).is_none());
    assert!(caught_checks(&nothing, &many.conditions, None, UnitSystem::Si).is_empty());
    assert!(by_size_checks(&nothing).is_empty());
}

#[test]
fn the_bars_are_as_long_as_the_shares_and_the_flows_add_up_to_the_inlet() {
    let backdrop = demonstration_backdrop();
    let count = counted(backdrop);
    let drawing = caught_drawing(&count, &backdrop.conditions, UnitSystem::Si, 420.0);
    let drawing = drawing.expect("a count");
    let bars: Vec<f32> = drawing
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Rect {
                min,
                max,
                ink: Ink::Dust,
                ..
            } => Some(max[0] - min[0]),
            _ => None,
        })
        .collect();
    let result = count.result.expect("a count");
    let shares: Vec<f64> = result
        .by_field
        .iter()
        .map(|field| field.collected)
        .collect();
    assert_eq!(bars.len(), shares.len());
    let ratio = f64::from(bars[1] / bars[0]) / (shares[1] / shares[0]);
    assert!((ratio - 1.0).abs() < 0.02, "{ratio}");
    // 3421 kg/h come in (training.md, reference collector R1).
    let flows = drawing
        .texts()
        .filter_map(|(text, ..)| text.strip_suffix(" kg/h"));
    let sum: f64 = flows
        .filter_map(|text| text.replace(' ', "").parse::<f64>().ok())
        .sum();
    assert!((sum / 3421.0 - 1.0).abs() < 0.005, "{sum}");
}

#[test]
fn the_mass_balances_agree_and_a_missing_kilogram_does_not() {
    let backdrop = demonstration_backdrop();
    let plant = plant::view(UnitSystem::Si);
    let lines = |count: &CountView<'_>, plant: &_| {
        let lines = caught_checks(count, &backdrop.conditions, Some(plant), UnitSystem::Si);
        lines.iter().map(|line| line.verdict).collect::<Vec<_>>()
    };
    let count = counted(backdrop);
    assert_eq!(lines(&count, &plant), [Verdict::Agree; 2]);
    let mut result = count.result.expect("a count").clone();
    result.by_field[2].collected += 1e-3;
    let wrong = CountView {
        result: Some(&result),
        ..count
    };
    assert_eq!(lines(&wrong, &plant), [Verdict::Disagree, Verdict::Agree]);
    let mut readings = plant.readings.to_vec();
    readings.last_mut().expect("readings").fields[1].hopper_kg += 1.0;
    let mut wrong = plant;
    wrong.readings = &readings;
    assert_eq!(lines(&count, &wrong), [Verdict::Agree, Verdict::Disagree]);
}

#[test]
fn fine_and_coarse_grains_agree_with_the_solver_and_false_ones_do_not() {
    let count = counted(demonstration_backdrop());
    let verdicts = |count: &CountView<'_>| {
        let lines = by_size_checks(count);
        lines.iter().map(|line| line.verdict).collect::<Vec<_>>()
    };
    assert_eq!(verdicts(&count), [Verdict::Agree; 2]);
    let mut theory = count.theory.expect("a solver").clone();
    theory
        .by_size
        .iter_mut()
        .for_each(|penetration| *penetration *= 4.0);
    let wrong = CountView {
        theory: Some(&theory),
        ..count
    };
    assert_eq!(verdicts(&wrong), [Verdict::Disagree; 2]);
}

#[test]
fn efficiency_stands_beside_penetration_and_the_published_shape_falls_from_fine_to_coarse() {
    let count = counted(demonstration_backdrop());
    let drawing = by_size_drawing(&count, UnitSystem::Si, [420.0, 280.0]).expect("a count");
    let words: Vec<&str> = drawing.texts().map(|(text, ..)| text).collect();
    for word in ["penetration", "efficiency", "10 %", "90 %", "99 %"] {
        assert!(words.contains(&word), "no {word} in {words:?}");
    }
    let published: Vec<f32> = drawing
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Line {
                points,
                ink: Ink::Laminar,
                dash: Some(_),
                ..
            } => Some(points[0][1]),
            _ => None,
        })
        .collect();
    // Classes of the table and the entry of the key.
    assert!(published.len() >= 4, "{published:?}");
    assert!(
        published[0] < published[published.len() - 2],
        "{published:?}"
    );
    assert!(
        by_size_note().contains("2.4 %") && by_size_note().contains("0.247 %"),
        "{}",
        by_size_note()
    );
}
