//! Names with leader lines in rows above and below the machine.
//!
//! The rule: a large part is named at every scale, a small one from its scale on (`small_names`). A name points at its part in
//! the field nearest to the middle of the drawing, unless all of the field that it usually points at is seen; a part that
//! lies out of the drawing has no name, and a name that finds no room within reach of its part is left out.

use ashlane_shared::conditions::{Electrode, Rapper};

use super::{
    ElevationPlaces, ElevationView,
    ducts::{across_nozzle_m, plates_at_m},
    profile,
    rappers::{ARM_M, roof_rapper_m, shaft_m},
    roof::{SET_M, SUPPORTS},
    site_names::site_words,
    small_names::{SMALL_FROM, small_names},
};
use crate::drawing::{Drawing, Name, Point, blanks_in_rows, names_in_rows};

/// Rows of names below the heading, and distance between them.
const FIRST: f32 = 34.0;
const ROW: f32 = 17.0;
/// Distance between rows of boxes to write in.
const BLANK_ROW: f32 = 31.0;
/// Rows at the top and at the foot where much is named.
const MOST_ROWS: usize = 4;

pub(super) fn labels(drawing: &mut Drawing, view: &ElevationView<'_>, places: &ElevationPlaces) {
    let (above, below) = all_names(view, places, drawing.size);
    let rows = if places.scale < SMALL_FROM {
        2
    } else {
        MOST_ROWS
    };
    names_in_rows(drawing, &rows_at(FIRST, ROW, rows), above);
    names_in_rows(drawing, &rows_at(places.foot(), -ROW, rows), below);
}

/// The same with numbered boxes in place of the names; the names by their numbers.
pub(super) fn blanks(
    drawing: &mut Drawing,
    view: &ElevationView<'_>,
    places: &ElevationPlaces,
) -> Vec<String> {
    // A reading is no part.
    let view = &ElevationView {
        face_rows_m_s: &[],
        ..*view
    };
    let (above, below) = all_names(view, places, drawing.size);
    let mut names = Vec::new();
    blanks_in_rows(
        drawing,
        &rows_at(FIRST + 7.0, BLANK_ROW, 2),
        above,
        &mut names,
    );
    blanks_in_rows(
        drawing,
        &rows_at(places.foot(), -BLANK_ROW, 2),
        below,
        &mut names,
    );
    names
}

/// Heights of rows, the first one first.
fn rows_at(from: f32, step: f32, rows: usize) -> Vec<f32> {
    (0..rows).map(|row| from + step * row as f32).collect()
}

/// Names above and below the machine.
fn all_names(
    view: &ElevationView<'_>,
    places: &ElevationPlaces,
    size: Point,
) -> (Vec<Name>, Vec<Name>) {
    let seen = Seen { places, size };
    let mut above = upper_names(view, &seen);
    above.extend(lower_names(view, &seen));
    above.extend(profile::name(view, places));
    let mut below = foot_names(view, &seen);
    small_names(view, &seen, [&mut above, &mut below]);
    if !places.is_whole() {
        // Of what lies below heading and names there is no name.
        for names in [&mut above, &mut below] {
            names.retain(|(target, _)| places.shows(*target));
        }
    }
    (above, below)
}

/// What is seen of the machine: which field a name that every field has belongs to.
pub(super) struct Seen<'a> {
    pub(super) places: &'a ElevationPlaces,
    pub(super) size: Point,
}

impl Seen<'_> {
    /// This field if all of it is on the drawing, else the field nearest to the middle of the drawing.
    pub(super) fn field(&self, wanted: usize) -> usize {
        let measures = &self.places.measures;
        let wanted = wanted.min(measures.fields.saturating_sub(1));
        let ends = |field: usize| {
            let from_m = measures.field_at_m(field);
            [from_m, from_m + measures.field_m].map(|x_m| self.places.x(x_m))
        };
        if ends(wanted)
            .iter()
            .all(|x| (0.0..=self.size[0]).contains(x))
        {
            return wanted;
        }
        let off = |field: &usize| {
            let [from, to] = ends(*field);
            (0.5 * (from + to) - 0.5 * self.size[0]).abs()
        };
        (0..measures.fields)
            .min_by(|one, other| off(one).total_cmp(&off(other)))
            .unwrap_or(wanted)
    }
}

fn upper_names(view: &ElevationView<'_>, seen: &Seen<'_>) -> Vec<Name> {
    let (places, measures) = (seen.places, &seen.places.measures);
    let support_m = measures.field_at_m(seen.field(0)) + SUPPORTS[1] * measures.field_m;
    let set_m = measures.field_at_m(seen.field(1)) + 0.5 * (measures.field_m + SET_M.0);
    vec![
        (
            places.at(measures.riser_at_m(), measures.axis_m()),
            named(view, "turning_vanes", "turning vanes"),
        ),
        (
            places.at(support_m, measures.roof_m + 0.6),
            named(
                view,
                "support_insulator",
                "support insulator in its heated box",
            ),
        ),
        (
            places.at(set_m, measures.roof_m + 0.9),
            named(view, "tr_set", "transformer-rectifier"),
        ),
        (
            places.at(measures.stack_at_m(), measures.roof_m),
            named(view, "stack", "stack"),
        ),
    ]
}

fn lower_names(view: &ElevationView<'_>, seen: &Seen<'_>) -> Vec<Name> {
    let (places, measures) = (seen.places, &seen.places.measures);
    let last = measures.fields.saturating_sub(1);
    let frame_m = measures.field_at_m(seen.field(2)) + 0.5 * measures.field_m;
    let plate_m = measures.field_at_m(seen.field(last)) + 0.85 * measures.field_m;
    let mut names = Vec::new();
    if let Some(x_m) = plates_at_m(view, measures).first() {
        let (_, high_m) = across_nozzle_m(measures, *x_m);
        let target = places.at(*x_m, high_m - 0.6);
        names.push((
            target,
            named(view, "distribution_plate", "perforated distribution plate"),
        ));
    }
    names.extend([
        (
            places.at(
                measures.field_at_m(seen.field(0)) + 0.4 * measures.field_m,
                0.9 * measures.plate_m,
            ),
            named(
                view,
                "discharge_electrode",
                electrode_words(view.conditions.appearance.electrode),
            ),
        ),
        (
            places.at(frame_m, measures.plate_m + 0.2),
            named(view, "high_voltage_frame", "high-voltage frame"),
        ),
        (
            places.at(plate_m, 0.75 * measures.plate_m),
            named(view, "collecting_electrode", "collecting plate, grounded"),
        ),
    ]);
    names
}

fn foot_names(view: &ElevationView<'_>, seen: &Seen<'_>) -> Vec<Name> {
    let small_too = seen.places.scale >= SMALL_FROM;
    let airlock = if small_too {
        "airlock"
    } else {
        "knife gate, airlock"
    };
    let (places, measures) = (seen.places, &seen.places.measures);
    let outlet_m = measures.brim_m - measures.hopper_m;
    let middle_m = measures.field_at_m(seen.field(1)) + 0.5 * measures.field_m;
    let [left_m, bottom_m, right_m, _] = measures.heater_m();
    vec![
        (
            places.at(0.5 * (left_m + right_m), bottom_m + 0.2),
            "air heater or gas cooler".to_owned(),
        ),
        rapper_name(view, seen),
        (
            places.at(middle_m, outlet_m - 0.5),
            named(view, "airlock", airlock),
        ),
        (
            places.at(measures.walls_m().1 - 0.3, outlet_m - 1.05),
            named(view, "ash_conveyor", "ash conveyor"),
        ),
        (
            places.at(
                measures.fan_at_m(),
                measures.fan_height_m() - measures.wheel_m(),
            ),
            named(view, "fan", fan_words(measures.pushes)),
        ),
    ]
}

/// What the site calls a part, else these words.
fn named(view: &ElevationView<'_>, key: &str, ours: &str) -> String {
    site_words(view.conditions, key, ours)
}

/// What raps the plates of the first field, where it strikes.
fn rapper_name(view: &ElevationView<'_>, seen: &Seen<'_>) -> Name {
    let (places, measures) = (seen.places, &seen.places.measures);
    let field = seen.field(0);
    match view.conditions.appearance.rapper {
        Rapper::TumblingHammer => {
            let (x_m, shaft_m) = shaft_m(measures, field);
            let strikes = places.at(x_m, shaft_m - ARM_M);
            (
                strikes,
                named(view, "plate_rapper", "tumbling hammer on its anvil"),
            )
        }
        Rapper::RoofRapper => {
            let strikes = places.at(roof_rapper_m(measures, field), measures.beam_m());
            (
                strikes,
                named(view, "plate_rapper", "rod of a roof rapper on its beam"),
            )
        }
    }
}

/// The fan by its place.
fn fan_words(pushes: bool) -> &'static str {
    if pushes { "fan that pushes" } else { "ID fan" }
}

/// The electrodes by their kind.
fn electrode_words(kind: Electrode) -> &'static str {
    match kind {
        Electrode::Wire => "discharge electrodes: wires in a frame",
        Electrode::WeightedWire => "discharge electrodes: weighted wires",
        Electrode::RigidMast => "discharge electrodes: rigid masts",
        Electrode::SpikedStrip => "discharge electrodes: spiked strips",
    }
}
