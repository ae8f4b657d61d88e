//! Names of small parts, each from the scale on at which it can be told from its neighbours.

use ashlane_shared::conditions::Rapper;

use super::{
    ElevationView, Measures,
    access::{door_m, fixed_leg, legs_m},
    baffles::hopper_baffle_m,
    hopper_details::Hopper,
    labels::Seen,
    measures::LOWER_FRAME_M,
    panels::{STABILISER_M, STABILISERS},
    parts::AreaM,
    rappers::{ANVIL_M, electrode_rapper_m},
    roof_details::{keys_m, switch_m},
    site_names::site_words,
};
use crate::drawing::Name;

/// Scale from which small parts are named, points per metre: a field fills a good part of the drawing.
pub(super) const SMALL_FROM: f32 = 45.0;
/// The same for the smallest.
const SMALLEST_FROM: f32 = 80.0;

/// A name: from which scale on, key of the site's own name, our words, where it points in a field.
type Row = (
    f32,
    &'static str,
    &'static str,
    fn(&Measures, usize) -> (f64, f64),
);

/// Named above the machine.
const ABOVE: [Row; 9] = [
    (
        SMALL_FROM,
        "ground_switch",
        "ground switch: drawn open",
        |of, field| middle(switch_m(of, field)),
    ),
    (SMALL_FROM, "key_interlock", "key box", |of, field| {
        middle(keys_m(of, field))
    }),
    (
        SMALL_FROM,
        "wire_rapper",
        "electrode rapper: on an insulated shaft",
        |of, field| {
            let (x_m, _) = electrode_rapper_m(of, field);
            (x_m, of.roof_m - 0.3)
        },
    ),
    (SMALL_FROM, "", "hanger beam", |of, field| {
        (of.field_at_m(field) + 0.7 * of.field_m, of.beam_m())
    }),
    (SMALL_FROM, "", "baffle below the roof", |of, field| {
        (of.field_at_m(field) + 0.12, of.roof_m - 0.3)
    }),
    (
        SMALLEST_FROM,
        "insulator_compartment",
        "heater and purge air: they keep the insulator dry",
        |of, field| {
            (
                of.field_at_m(field) + 0.16 * of.field_m - 0.4,
                of.roof_m + 1.2,
            )
        },
    ),
    (SMALLEST_FROM, "bus_duct", "bus duct", |of, field| {
        (of.field_at_m(field) + 0.25 * of.field_m, of.roof_m + 1.0)
    }),
    (
        SMALL_FROM,
        "",
        "access door: shut, with its key lock",
        |of, field| {
            let [left, _, right, top] = door_m(of, field);
            (0.5 * (left + right), top)
        },
    ),
    (
        SMALLEST_FROM,
        "",
        "stiffening edges of the panels",
        |of, field| (of.field_at_m(field) + 0.5 * of.field_m, 0.3 * of.plate_m),
    ),
];

/// Named below it.
const BELOW: [Row; 13] = [
    (SMALL_FROM, "hopper_heater", "hopper heater", |of, field| {
        middle(Hopper::new(of, field).heaters_m())
    }),
    (SMALL_FROM, "level_probe", "level probe", |of, field| {
        middle(Hopper::new(of, field).probe_m())
    }),
    (SMALL_FROM, "", "poke holes", |of, field| {
        middle(Hopper::new(of, field).poke_holes_m())
    }),
    (SMALL_FROM, "", "strike plate", |of, field| {
        middle(Hopper::new(of, field).strike_plate_m())
    }),
    (SMALL_FROM, "", "vibrator", |of, field| {
        middle(Hopper::new(of, field).vibrator_m())
    }),
    (SMALL_FROM, "", "hopper door: shut", |of, field| {
        middle(Hopper::new(of, field).door_m())
    }),
    (SMALL_FROM, "", "knife gate", |of, field| {
        middle(Hopper::new(of, field).knife_gate_m())
    }),
    (SMALL_FROM, "stabiliser", "stabiliser", |of, field| {
        (
            of.field_at_m(field) + STABILISERS[0] * of.field_m,
            -LOWER_FRAME_M - 0.5 * STABILISER_M,
        )
    }),
    (SMALL_FROM, "baffle", "hopper baffle", |of, field| {
        let [left, bottom, right, _] = hopper_baffle_m(of, field);
        (0.5 * (left + right), bottom + 0.1)
    }),
    (SMALL_FROM, "", "grating", |of, field| {
        (of.field_at_m(field) + of.field_m + 0.6, -0.5)
    }),
    (SMALL_FROM, "anvil", "anvil", |of, field| {
        (of.field_at_m(field) + of.field_m + 0.15, ANVIL_M)
    }),
    (SMALL_FROM, "", "slide bearing", |of, field| {
        bearing(of, field, false)
    }),
    (SMALL_FROM, "", "fixed leg", |of, field| {
        bearing(of, field, true)
    }),
];

pub(super) fn small_names(view: &ElevationView<'_>, seen: &Seen<'_>, sides: [&mut Vec<Name>; 2]) {
    let has_anvils = view.conditions.appearance.rapper == Rapper::TumblingHammer;
    for (names, rows) in sides.into_iter().zip([&ABOVE[..], &BELOW[..]]) {
        for (from, key, ours, place) in rows {
            if seen.places.scale < *from || (*key == "anvil" && !has_anvils) {
                continue;
            }
            let (x_m, z_m) = place(&seen.places.measures, seen.field(1));
            let words = site_words(view.conditions, key, ours);
            names.push((seen.places.at(x_m, z_m), words));
        }
    }
}

fn middle([left, bottom, right, top]: AreaM) -> (f64, f64) {
    (0.5 * (left + right), 0.5 * (bottom + top))
}

/// The leg before or behind a field that is fixed, or one that is not.
fn bearing(of: &Measures, field: usize, is_fixed: bool) -> (f64, f64) {
    let legs = [field, field + 1];
    let leg = legs
        .into_iter()
        .find(|leg| (*leg == fixed_leg(of)) == is_fixed);
    let x_m = leg.and_then(|leg| legs_m(of).get(leg).copied());
    // Where this field has none, nowhere.
    (x_m.unwrap_or(f64::INFINITY), of.brim_m - 0.2)
}
