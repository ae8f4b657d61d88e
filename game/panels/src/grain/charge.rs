//! Charge against time: as flown, by the four charging laws, and where the field would bring no more.

use ashlane_shared::{checks::CHARGING_LAWS, conditions::Charging};

use super::{
    GrainView,
    chart::{Chart, Name, Stroke, time_axis_s},
    places::Part,
};
use crate::{
    drawing::{Drawing, text_width},
    theme::{Ink, SMALL},
};

/// The line of saturation.
const SATURATION: Stroke = Stroke {
    ink: Ink::Faint,
    width: 1.0,
    dash: Some((2.0, 3.0)),
};

/// Draws the chart.
pub(super) fn charge(drawing: &mut Drawing, view: &GrainView<'_>, part: Part, numbers: f32) {
    let points = &view.grain.points;
    let law = view.conditions.teaching.charging;
    let key = [(None, "flown"), (Some(SATURATION), "saturation here")];
    let (part, shown) = Chart::title(drawing, part, "Charge, e", &key);
    let ends = CHARGING_LAWS.map(|law| view.curves.charge_e(law).last().copied().unwrap_or(0.0));
    let last = points.last().map_or(0.0, |point| point.charge_e);
    let last_s = points.last().map_or(0.0, |point| point.time_s);
    let full = 1.12 * ends.into_iter().fold(last, f64::max).max(10.0);
    let chart = Chart::new(
        drawing,
        part,
        (time_axis_s(last_s), full),
        (numbers, names_room()),
    );
    let over = |values: &[f64]| -> Vec<(f64, f64)> {
        let times = points.iter().map(|point| point.time_s);
        times.zip(values.iter().copied()).collect()
    };
    // Nothing is drawn that has no name.
    if shown == key.len() {
        let line = over(&view.curves.saturation_e);
        chart.line(drawing, line.into_iter(), SATURATION);
    }
    for one in CHARGING_LAWS {
        let stroke = stroke(one, one == law);
        chart.line(drawing, over(view.curves.charge_e(one)).into_iter(), stroke);
    }
    let flown: Vec<(f64, f64)> = points
        .iter()
        .map(|point| (point.time_s, point.charge_e))
        .collect();
    chart.dots(drawing, &flown, Ink::Dust);
    let mut names: Vec<(f64, Name<'_>)> = CHARGING_LAWS
        .into_iter()
        .zip(ends)
        .map(|(one, end)| {
            let name = Name {
                text: name(one),
                ink: stroke(one, false).ink,
                bold: one == law,
            };
            (end, name)
        })
        .collect();
    chart.names(drawing, last_s, &mut names);
}

/// Room for the names to the right.
pub(super) fn names_room() -> f32 {
    let widths = CHARGING_LAWS.map(|law| text_width(name(law), SMALL, true));
    widths
        .into_iter()
        .fold(14.0, |room, wide| room.max(wide + 14.0))
}

fn name(law: Charging) -> &'static str {
    match law {
        Charging::Lawless => "Lawless",
        Charging::Field => "field only",
        Charging::Cochet => "Cochet",
        Charging::White => "White",
    }
}

/// Every law has its own dashes; the law in use is whole and thick.
fn stroke(law: Charging, in_use: bool) -> Stroke {
    let (ink, dash) = match law {
        Charging::Lawless => (Ink::FiniteMixing, (12.0, 4.0)),
        Charging::Field => (Ink::Gas, (6.0, 4.0)),
        Charging::Cochet => (Ink::Laminar, (9.0, 5.0)),
        Charging::White => (Ink::Deutsch, (3.0, 3.0)),
    };
    if in_use {
        Stroke {
            ink,
            width: 2.4,
            dash: None,
        }
    } else {
        Stroke {
            ink,
            width: 1.5,
            dash: Some(dash),
        }
    }
}
