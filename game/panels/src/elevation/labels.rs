//! Names with leader lines in rows above and below the machine.

use ashlane_shared::conditions::{Electrode, Rapper};

use super::{
    ElevationPlaces, ElevationView,
    ducts::{across_nozzle_m, plates_at_m},
    profile,
    rappers::{ARM_M, roof_rapper_m, shaft_m},
    roof::{SET_M, SUPPORTS},
    site_names::site_words,
};
use crate::drawing::{Drawing, Name, rows_of_names};

/// Rows of names below the heading, and distance between them.
const FIRST: f32 = 34.0;
const ROW: f32 = 17.0;

pub(super) fn labels(drawing: &mut Drawing, view: &ElevationView<'_>, places: &ElevationPlaces) {
    let foot = places.foot();
    let mut rows = vec![
        (FIRST, upper_names(view, places)),
        (FIRST + ROW, lower_names(view, places)),
        (foot, foot_names(view, places)),
    ];
    rows[1].1.extend(profile::name(view, places));
    // Of what is not shown there is no name.
    for (_, names) in &mut rows {
        names.retain(|(target, _)| places.shows(*target));
        names.sort_by(|one, other| one.0[0].total_cmp(&other.0[0]));
    }
    rows_of_names(drawing, rows);
}

fn upper_names(view: &ElevationView<'_>, places: &ElevationPlaces) -> Vec<Name> {
    let measures = &places.measures;
    let last = measures.fields.saturating_sub(1);
    let support_m = measures.field_at_m(0) + SUPPORTS[1] * measures.field_m;
    let set_m = measures.field_at_m(1.min(last)) + 0.5 * (measures.field_m + SET_M.0);
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

fn lower_names(view: &ElevationView<'_>, places: &ElevationPlaces) -> Vec<Name> {
    let measures = &places.measures;
    let last = measures.fields.saturating_sub(1);
    let frame_m = measures.field_at_m(2.min(last)) + 0.5 * measures.field_m;
    let plate_m = measures.field_at_m(last) + 0.85 * measures.field_m;
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
                measures.field_at_m(0) + 0.4 * measures.field_m,
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

fn foot_names(view: &ElevationView<'_>, places: &ElevationPlaces) -> Vec<Name> {
    let measures = &places.measures;
    let last = measures.fields.saturating_sub(1);
    let outlet_m = measures.brim_m - measures.hopper_m;
    let middle_m = measures.field_at_m(1.min(last)) + 0.5 * measures.field_m;
    vec![
        rapper_name(view, places),
        (
            places.at(middle_m, outlet_m - 0.5),
            named(view, "airlock", "knife gate, airlock"),
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
fn rapper_name(view: &ElevationView<'_>, places: &ElevationPlaces) -> Name {
    let measures = &places.measures;
    match view.conditions.appearance.rapper {
        Rapper::TumblingHammer => {
            let (x_m, shaft_m) = shaft_m(measures, 0);
            let strikes = places.at(x_m, shaft_m - ARM_M);
            (
                strikes,
                named(view, "plate_rapper", "tumbling hammer on its anvil"),
            )
        }
        Rapper::RoofRapper => {
            let strikes = places.at(roof_rapper_m(measures, 0), measures.beam_m());
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
