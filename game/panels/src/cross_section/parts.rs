//! What stands across the gas: walls, plates and wires, the shaft of the hammers, roof, hoppers side by side, names.

use ashlane_shared::{conditions::Rapper, units::number_text};

use super::{
    CrossSectionView, SUPPORTS,
    around::{over_m, through_m},
    drawing::{Places, WALL_M},
};
use crate::{
    drawing::{Drawing, Name, names_in_rows},
    elevation::{ANVIL_M, LOWER_FRAME_M, UPPER_FRAME_M, electrode, site_words},
    theme::Ink,
};

/// Width of a wall on the drawing, points.
const WALL: f32 = 2.5;

pub(super) fn casing(drawing: &mut Drawing, view: &CrossSectionView<'_>, places: &Places) {
    let measures = view.measures();
    let half_m = 0.5 * view.width_m() + WALL_M;
    let ground_m = measures.ground_m();
    drawing.rect(
        places.at(-half_m - 0.5, ground_m),
        places.at(half_m + 0.5, ground_m - 0.3),
        Ink::Rule,
        0.5,
    );
    drawing.line(
        [
            places.at(-half_m, measures.brim_m),
            places.at(-half_m, measures.roof_m),
            places.at(half_m, measures.roof_m),
            places.at(half_m, measures.brim_m),
        ],
        Ink::Metal,
        WALL,
    );
    for side in [-1.0, 1.0] {
        drawing.line(
            [
                places.at(side * half_m, measures.brim_m),
                places.at(side * half_m, ground_m),
            ],
            Ink::Metal,
            2.0,
        );
    }
}

/// Plates on edge, and the electrodes in the middle of every passage with their frames.
pub(super) fn passages(drawing: &mut Drawing, view: &CrossSectionView<'_>, places: &Places) {
    let conditions = view.machine.conditions;
    let collector = &conditions.collector;
    let (width_m, plate_m) = (view.width_m(), collector.plate_height_m);
    let x_m = |spacings: f64| spacings * collector.plate_spacing_m - 0.5 * width_m;
    for plate in 0..=collector.passages {
        let x_m = x_m(plate as f64);
        drawing.line(
            [places.at(x_m, plate_m), places.at(x_m, 0.0)],
            Ink::Metal,
            1.2,
        );
    }
    let (upper_m, lower_m) = (plate_m + UPPER_FRAME_M, -LOWER_FRAME_M);
    let at = |x_m: f64, height_m: f64| places.at(x_m, height_m);
    for passage in 0..collector.passages {
        let place = (x_m(passage as f64 + 0.5), upper_m, lower_m);
        let kind = conditions.appearance.electrode;
        electrode(drawing, kind, place, places.scale, &at);
    }
    let ends_m = (x_m(0.5), x_m(collector.passages as f64 - 0.5));
    for height_m in [upper_m, lower_m] {
        drawing.line(
            [places.at(ends_m.0, height_m), places.at(ends_m.1, height_m)],
            Ink::HighVoltage,
            1.8,
        );
    }
    let beam_m = view.measures().beam_m();
    drawing.line(
        [places.at(x_m(0.0), beam_m), places.at(-x_m(0.0), beam_m)],
        Ink::Metal,
        3.0,
    );
}

/// Insulators in their boxes and the transformer-rectifier of the first field.
pub(super) fn roof(drawing: &mut Drawing, view: &CrossSectionView<'_>, places: &Places) {
    let measures = view.measures();
    let (width_m, roof_m) = (view.width_m(), measures.roof_m);
    for share in SUPPORTS {
        let x_m = share * width_m;
        let corners = vec![
            places.at(x_m - 0.5, roof_m),
            places.at(x_m - 0.5, roof_m + 1.5),
            places.at(x_m + 0.5, roof_m + 1.5),
            places.at(x_m + 0.5, roof_m),
        ];
        drawing.line(corners, Ink::Metal, 1.2);
        for shed in 0..4 {
            let z_m = roof_m + 0.12 + 0.26 * f64::from(shed);
            drawing.line(
                [places.at(x_m - 0.2, z_m), places.at(x_m + 0.2, z_m)],
                Ink::Text,
                1.6,
            );
        }
        drawing.line(
            [
                places.at(x_m, roof_m + 0.95),
                places.at(x_m, measures.plate_m + 0.2),
            ],
            Ink::HighVoltage,
            1.8,
        );
    }
    let (min, max) = (places.at(-0.7, roof_m + 1.7), places.at(0.7, roof_m + 0.25));
    drawing.line(
        [
            places.at(0.0, roof_m + 1.0),
            places.at(SUPPORTS[0] * width_m, roof_m + 1.0),
        ],
        Ink::HighVoltage,
        2.0,
    );
    drawing.rect(min, max, Ink::Panel, 1.0);
    drawing.line(
        vec![min, [max[0], min[1]], max, [min[0], max[1]], min],
        Ink::Metal,
        1.4,
    );
}

/// Names and the ways around the fields, each with its share of the gas.
pub(super) fn labels(drawing: &mut Drawing, view: &CrossSectionView<'_>, places: &Places) {
    let measures = view.measures();
    let collector = &view.machine.conditions.collector;
    let width_m = view.width_m();
    let percent = |share: f64| number_text((1e4 * share).round() / 100.0, 3);
    let through = collector.sneakage * collector.hopper_share;
    let over = collector.sneakage - through;
    let at = |(x_m, z_m): (f64, f64)| places.at(x_m, z_m);
    // In the hopper that is right of the middle.
    let marks = through_m(view);
    let swept = marks.get(marks.len() / 2).copied().unwrap_or_default();
    let named = |key, ours| site_words(view.machine.conditions, key, ours);
    let mut upper = vec![
        (
            places.at(SUPPORTS[0] * width_m, measures.roof_m + 0.5),
            named("support_insulator", "support insulator in its heated box"),
        ),
        (
            places.at(0.3, measures.roof_m + 1.2),
            named("tr_set", "transformer-rectifier"),
        ),
    ];
    let lower = vec![(
        at(over_m(view)[2]),
        format!("over the top: {} % of the gas a field", percent(over)),
    )];
    let foot = vec![
        rapper_name(view, places),
        (
            places.at(0.5 * (width_m + WALL_M), 0.35 * measures.plate_m),
            "wall baffle: no gas between plate and wall".to_owned(),
        ),
        (
            at(swept),
            format!(
                "through the hoppers: {} % of the gas a field",
                percent(through)
            ),
        ),
    ];
    let foot_y = drawing.size[1] - 32.0;
    upper.extend(lower);
    names_in_rows(drawing, &[34.0, 50.0], upper);
    names_in_rows(drawing, &[foot_y], foot);
}

/// What raps the plates, at one of its hammers or at the rod nearest to the wall.
fn rapper_name(view: &CrossSectionView<'_>, places: &Places) -> Name {
    let (measures, width_m) = (view.measures(), view.width_m());
    match view.machine.conditions.appearance.rapper {
        Rapper::TumblingHammer => (
            places.at(-0.42 * width_m, ANVIL_M),
            "shaft with a tumbling hammer a plate: staggered".to_owned(),
        ),
        Rapper::RoofRapper => (
            places.at(-0.5 * width_m, measures.beam_m()),
            "beam that roof rappers strike through rods".to_owned(),
        ),
    }
}
