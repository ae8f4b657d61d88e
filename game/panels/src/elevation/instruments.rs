//! Instruments where they sit: temperature, oxygen and draught in both ducts, the opacity monitor across the stack.

use ashlane_shared::{
    physics::gas_path::pressure::Station,
    simulation::GasStation,
    units::{Dimension, number_text},
};

use super::{ElevationPlaces, ElevationView, Measures, measures::DUCT_M, parts::AreaM};
use crate::{
    drawing::{Anchor, Drawing, Item, Point, label_where_free, text_width},
    theme::{Ink, SMALL},
};

/// Radius of the sign of an instrument, from one to the next, and from the wall to the first, points.
const SIGN: f32 = 4.5;
const STEP: f32 = 17.0;
const OFF: f32 = 12.0;
/// From a sign to its words, points.
const BESIDE: f32 = 9.0;
/// Down to here there may be names, points.
const NAMES: f32 = 68.0;
/// How far the probes reach into the duct, m; drawn so, no source.
const PROBE_M: f64 = 0.7;
/// How high over the roof the opacity monitor looks across the stack, m; drawn so: the cut stack hides its true height.
const MONITOR_M: f64 = 1.2;

/// Where the instruments of the inlet duct stand, m.
pub(super) fn inlet_at_m(measures: &Measures) -> f64 {
    measures.walls_m().0 - measures.nozzle_m - 0.12 * DUCT_M
}

/// Where those of the outlet duct stand, m.
pub(super) fn outlet_at_m(measures: &Measures) -> f64 {
    measures.walls_m().1 + measures.nozzle_m + 0.55 * DUCT_M
}

/// Height of the opacity monitor, m.
pub(super) fn monitor_m(measures: &Measures) -> f64 {
    measures.roof_m + MONITOR_M
}

/// Where the stem of the instruments of a duct stands.
pub(super) fn stem_m(measures: &Measures, x_m: f64) -> AreaM {
    let top_m = measures.axis_m() + 0.5 * measures.duct_m;
    [x_m - 0.4, top_m - PROBE_M, x_m + 0.4, top_m + 2.6]
}

pub(super) fn instruments(
    drawing: &mut Drawing,
    view: &ElevationView<'_>,
    places: &ElevationPlaces,
) {
    let measures = &places.measures;
    // Words stand where the gas comes from, and behind the collector where it goes: there is room on both sides.
    let ends = [
        (Station::InletDuct, inlet_at_m(measures), -places.way()),
        (outlet_station(view), outlet_at_m(measures), places.way()),
    ];
    for (station, x_m, side) in ends {
        if let Some(gas) = view.gas.and_then(|gas| gas.at(station)) {
            stem(drawing, places, (x_m, side), &duct_words(view, gas));
        }
    }
    monitor(drawing, view, places);
}

/// Where the gas of the outlet instruments is.
pub(super) fn outlet_station(view: &ElevationView<'_>) -> Station {
    let has = |station| view.gas.is_some_and(|gas| gas.at(station).is_some());
    if has(Station::OutletDuct) {
        Station::OutletDuct
    } else {
        Station::OutletNozzle
    }
}

/// What the instruments of a duct show, nearest to the duct first.
pub(super) fn duct_words(view: &ElevationView<'_>, gas: &GasStation) -> [String; 3] {
    let oxygen = number_text((1e3 * gas.oxygen_dry).round() / 10.0, 3);
    [
        view.text(gas.static_gauge_pa, view.draught()),
        format!("{oxygen} % O₂"),
        view.text(gas.temperature_k, Dimension::Temperature),
    ]
}

/// Signs on a stem over the duct, with their probes in it; words that would run into the stack are left to the part.
fn stem(
    drawing: &mut Drawing,
    places: &ElevationPlaces,
    (x_m, side): (f64, f32),
    words: &[String],
) {
    let measures = &places.measures;
    let wall_m = measures.axis_m() + 0.5 * measures.duct_m;
    let [x, wall] = places.at(x_m, wall_m);
    let sign = |index: usize| wall - OFF - STEP * index as f32;
    let last = words.len().saturating_sub(1);
    let room = before_the_stack(places, x, side);
    drawing.line(
        [places.at(x_m, wall_m - PROBE_M), [x, sign(last)]],
        Ink::Text,
        1.0,
    );
    for (index, words) in words.iter().enumerate() {
        let centre = [x, sign(index)];
        drawing.dot(centre, SIGN, Ink::Ground);
        drawing.items.push(Item::Ring {
            centre,
            radius: SIGN,
            ink: Ink::Text,
            width: 1.3,
        });
        if text_width(words, SMALL, false) + BESIDE <= room {
            beside(drawing, centre, side, words);
        }
    }
}

/// From here to the near wall of the stack, where it stands on this side; there is no end to the room on the other.
fn before_the_stack(places: &ElevationPlaces, x: f32, side: f32) -> f32 {
    let measures = &places.measures;
    let [stack, _] = places.at(measures.stack_at_m(), 0.0);
    let [wall, _] = places.at(measures.stack_at_m() - 0.5 * measures.stack_m, 0.0);
    if side * (stack - x) > 0.0 {
        (wall - x).abs()
    } else {
        f32::INFINITY
    }
}

/// Words on one side of a place, on the other where the drawing ends before them.
fn beside(drawing: &mut Drawing, [x, y]: Point, side: f32, words: &str) {
    let end = x + side * (BESIDE + text_width(words, SMALL, false));
    let side = if (2.0..drawing.size[0] - 2.0).contains(&end) {
        side
    } else {
        -side
    };
    let anchor = if side < 0.0 {
        Anchor::Right
    } else {
        Anchor::Left
    };
    let at = [x + side * BESIDE, y];
    label_where_free(drawing, at, anchor, words, Ink::Text);
}

/// Lamp and eye on both sides of the stack, the light between them, and what it tells.
fn monitor(drawing: &mut Drawing, view: &ElevationView<'_>, places: &ElevationPlaces) {
    let measures = &places.measures;
    let half_m = 0.5 * measures.stack_m;
    let at = |side: f64, off_m: f64, up_m: f64| {
        let x_m = measures.stack_at_m() + side * (half_m + off_m);
        places.at(x_m, monitor_m(measures) + up_m)
    };
    for side in [-1.0, 1.0] {
        drawing.rect(at(side, 0.0, 0.3), at(side, 0.5, -0.3), Ink::Panel, 1.0);
        let corners = vec![
            at(side, 0.0, 0.3),
            at(side, 0.5, 0.3),
            at(side, 0.5, -0.3),
            at(side, 0.0, -0.3),
        ];
        drawing.line(corners, Ink::Text, 1.2);
    }
    drawing.dashed([at(-1.0, 0.0, 0.0), at(1.0, 0.0, 0.0)], Ink::Text, 1.0);
    let Some(lines) = stack_words(view) else {
        return;
    };
    let corner = at(-1.0, 0.5, 0.0);
    let room = if places.way() > 0.0 {
        corner[0] - places.x(measures.walls_m().1)
    } else {
        places.x(measures.walls_m().1) - corner[0]
    };
    // The first at the monitor, the next above it as far as the rows of names.
    let fitting = lines
        .iter()
        .filter(|line| text_width(line, SMALL, false) < room);
    for (index, line) in fitting.enumerate() {
        let y = corner[1] - 15.0 * index as f32;
        if index == 0 || y > NAMES {
            beside(drawing, [corner[0], y], -places.way(), line);
        }
    }
}

/// What leaves by the stack, in lines.
pub(super) fn stack_words(view: &ElevationView<'_>) -> Option<Vec<String>> {
    let stack = view.stack?;
    let percent = |share: f64| number_text(100.0 * share, 2);
    let mut lines = vec![
        format!("opacity {} %", percent(stack.opacity)),
        view.text(stack.dust_kg_m3, Dimension::Emission),
    ];
    lines.extend(
        stack
            .puff
            .map(|puff| format!("darkest puff {} %", percent(puff))),
    );
    Some(lines)
}
