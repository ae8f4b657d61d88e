//! The rows of hoppers with their ash, airlocks and the conveyor below.

use super::{
    ElevationPlaces, ElevationView,
    casing::WALL,
    hopper_details::{details, screw},
};
use ashlane_shared::{
    plant::{HopperState, OUTLET_SHARE},
    units::{Dimension, number_text},
};

use crate::{
    drawing::{Anchor, Drawing, label_where_free, text_width},
    theme::{Ink, SMALL},
};

/// Height of a line of words, points.
const LINE: f32 = 15.0;
/// Longer times to the alarm are not told exactly, h.
const MOST_H: f64 = 100.0;

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
    screw(drawing, places, (left_m, right_m), outlets_m - 0.175);
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
    details(drawing, places, field);
}

/// Levels by height and by volume, and when the alarm comes.
pub(super) fn levels(drawing: &mut Drawing, view: &ElevationView<'_>, places: &ElevationPlaces) {
    for (field, state) in view.hoppers.iter().enumerate().take(places.measures.fields) {
        level(drawing, view, places, (field, state));
    }
}

/// What is told of a row of hoppers: height, volume and mass, time to the alarm; the long forms first.
pub(crate) fn level_words(view: &ElevationView<'_>, state: &HopperState) -> [Vec<String>; 3] {
    // To the centimetre: a hopper that was emptied is empty.
    let height_m = (100.0 * state.level * state.height_m).round() / 100.0;
    let height = view.text(height_m, Dimension::Length);
    let (high, full) = (100.0 * state.level, 100.0 * state.filled);
    let volume_m3 = state.filled * view.conditions.hoppers.volume_m3;
    let volume = view.text(volume_m3, Dimension::Volume);
    let kg = view.text(state.ash_kg, Dimension::Mass);
    [
        vec![
            format!("{height}, {high:.0} % high"),
            format!("{high:.0} % high"),
        ],
        vec![
            format!("{volume}, {full:.0} % full, {kg}"),
            format!("{volume}, {full:.0} % full"),
            format!("{full:.0} % full"),
        ],
        alarm_words(state),
    ]
}

/// When the level alarm comes if nobody empties the row.
fn alarm_words(state: &HopperState) -> Vec<String> {
    if state.alarm {
        return vec!["LEVEL ALARM".to_owned(), "ALARM".to_owned()];
    }
    let Some(hours) = state.until_alarm_s.map(|until_s| until_s / 3600.0) else {
        return vec![
            "time to the alarm: not counted yet".to_owned(),
            "alarm: not counted yet".to_owned(),
        ];
    };
    if hours > MOST_H {
        return vec![format!("alarm in over {MOST_H:.0} h")];
    }
    let hours = number_text(hours, 2);
    vec![
        format!("alarm in {hours} h if not emptied"),
        format!("alarm in {hours} h"),
        format!("{hours} h to alarm"),
        format!("{hours} h"),
    ]
}

fn level(
    drawing: &mut Drawing,
    view: &ElevationView<'_>,
    places: &ElevationPlaces,
    (field, state): (usize, &HopperState),
) {
    let measures = &places.measures;
    let middle = places.x(measures.field_at_m(field) + 0.5 * measures.field_m);
    let room = places.scale * (measures.field_m + measures.walkway_m) as f32 - 8.0;
    if !places.shows([middle, places.y(measures.brim_m - measures.hopper_m - 1.35)]) {
        return;
    }
    let top = places.y(measures.brim_m - measures.hopper_m - 1.35);
    // Down to the ground and a little below it, where there is no room above.
    let lines = ((places.y(measures.ground_m()) - top) / LINE)
        .floor()
        .max(2.0) as usize;
    let mut words = level_words(view, state);
    if state.alarm {
        // What there may be no room for is not the alarm.
        words.rotate_right(1);
    }
    for (line, texts) in words.iter().take(lines).enumerate() {
        let fits = |text: &&String| text_width(text, SMALL, false) < room;
        if let Some(text) = texts.iter().find(fits) {
            let at = [middle, top + LINE * line as f32];
            label_where_free(drawing, at, Anchor::Top, text, Ink::Text);
        }
    }
}
