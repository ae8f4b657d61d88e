//! The rows of hoppers with their ash, airlocks and the conveyor below.

use super::{ElevationPlaces, ElevationView, casing::WALL};
use ashlane_shared::plant::{ALARM_LEVEL, HopperState, OUTLET_SHARE};

use crate::{
    drawing::{Anchor, Drawing, text_width},
    theme::{Ink, SMALL},
};

pub(super) fn hoppers(drawing: &mut Drawing, view: &ElevationView<'_>, places: &ElevationPlaces) {
    let measures = &places.measures;
    for field in 0..measures.fields {
        hopper(drawing, view, places, field);
    }
    let outlets_m = measures.brim_m - measures.hopper_m - 0.9;
    let (left_m, right_m) = measures.walls_m();
    for height_m in [outlets_m, outlets_m - 0.35] {
        drawing.line(
            [places.at(left_m, height_m), places.at(right_m, height_m)],
            Ink::Metal,
            1.4,
        );
    }
}

fn hopper(drawing: &mut Drawing, view: &ElevationView<'_>, places: &ElevationPlaces, field: usize) {
    let measures = &places.measures;
    let half_m = 0.5 * (measures.field_m + measures.walkway_m);
    let middle_m = measures.field_at_m(field) + 0.5 * measures.field_m;
    let outlet_m = 0.5 * OUTLET_SHARE * measures.field_m;
    let half_at = |share: f64| outlet_m + share * (0.5 * measures.field_m - outlet_m);
    let height_at = |share: f64| measures.brim_m - (1.0 - share) * measures.hopper_m;
    let at = |side: f64, share: f64| places.at(middle_m + side * half_at(share), height_at(share));
    if let Some(state) = view.hoppers.get(field).filter(|state| state.level > 0.0) {
        let level = state.level;
        let corners = vec![at(-1.0, 0.0), at(-1.0, level), at(1.0, level), at(1.0, 0.0)];
        drawing.items.push(crate::drawing::Item::Area {
            points: corners,
            ink: Ink::Dust,
            opacity: 0.75,
        });
    }
    // The brim reaches over the walkway on both sides.
    for side in [-1.0, 1.0] {
        let brim = places.at(middle_m + side * half_m, measures.brim_m);
        drawing.line([brim, at(side, 1.0), at(side, 0.0)], Ink::Metal, WALL);
    }
    // Knife gate and airlock.
    let foot_m = measures.brim_m - measures.hopper_m;
    for side in [-1.0, 1.0] {
        drawing.line(
            [
                places.at(middle_m + side * outlet_m, foot_m),
                places.at(middle_m + side * outlet_m, foot_m - 0.9),
            ],
            Ink::Metal,
            1.4,
        );
    }
    drawing.line(
        [
            places.at(middle_m - 1.9 * outlet_m, foot_m - 0.15),
            places.at(middle_m + 1.9 * outlet_m, foot_m - 0.15),
        ],
        Ink::Metal,
        1.8,
    );
    // The probe of the level alarm.
    let probe = at(1.0, ALARM_LEVEL);
    drawing.line(
        [[probe[0] + 5.0, probe[1]], [probe[0] - 7.0, probe[1]]],
        Ink::Text,
        1.6,
    );
}

/// Levels, and ash by mass; the word of the alarm.
pub(super) fn levels(drawing: &mut Drawing, view: &ElevationView<'_>, places: &ElevationPlaces) {
    for (field, state) in view.hoppers.iter().enumerate().take(places.measures.fields) {
        level(drawing, view, places, (field, state));
    }
}

fn level(
    drawing: &mut Drawing,
    view: &ElevationView<'_>,
    places: &ElevationPlaces,
    (field, state): (usize, &HopperState),
) {
    let measures = &places.measures;
    let middle_m = measures.field_at_m(field) + 0.5 * measures.field_m;
    let room = places.scale * (measures.field_m + measures.walkway_m) as f32 - 8.0;
    let kg = view.text(state.ash_kg, ashlane_shared::units::Dimension::Mass);
    let percent = format!("{:.0} % high", 100.0 * state.level);
    let full = format!("{:.0} % full", 100.0 * state.filled);
    let mut lines = vec![format!("{percent}, {full}"), percent];
    lines.retain(|line| text_width(line, SMALL, false) < room);
    let y = places.y(measures.brim_m - measures.hopper_m - 1.5);
    if !places.shows([places.x(middle_m), y + 15.0]) {
        return;
    }
    if let Some(line) = lines.first() {
        drawing.label(
            [places.x(middle_m), y],
            Anchor::Top,
            line.as_str(),
            SMALL,
            Ink::Text,
        );
    }
    if text_width(&kg, SMALL, false) < room {
        let below = if state.alarm {
            format!("{kg} · level alarm")
        } else {
            kg.clone()
        };
        let text = if text_width(&below, SMALL, false) < room {
            below
        } else {
            kg
        };
        drawing.label(
            [places.x(middle_m), y + 15.0],
            Anchor::Top,
            text,
            SMALL,
            Ink::Text,
        );
    }
}
