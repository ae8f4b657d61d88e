//! The smaller parts, one row each: inside the casing, on the roof, at the hoppers, ways for people.
//!
//! Names and other names are those of the trade (common practice, no source).

use ashlane_shared::{
    conditions::Rapper,
    plant::ALARM_LEVEL,
    units::{Dimension, number_text},
};

use super::{
    Part,
    access::{door_m, fixed_leg, legs_m, stairs_m},
    baffles::hopper_baffle_m,
    hopper_details::Hopper,
    measures::{LOWER_FRAME_M, Measures},
    panels::{STABILISER_M, STABILISERS},
    parts::AreaM,
    rappers::{ANVIL_M, distribution_rapper_m, electrode_rapper_m},
    roof_details::{keys_m, switch_m},
};

/// What the other tables lack.
pub(super) const INSIDE: [Part; 21] = [
    Part {
        name: "Hanger beam",
        also: "plate support beam",
        purpose: "Carries the plates, which hang from it and stretch down when they get hot.",
        cautions: &["C6", "C18"],
        area_m: |_, of| {
            let from_m = of.field_at_m(last(of));
            Some([
                from_m,
                of.beam_m() - 0.14,
                from_m + of.field_m,
                of.beam_m() + 0.14,
            ])
        },
        value: |view| {
            let plates = view.conditions.collector.passages + 1;
            Some(format!("{plates} plates side by side"))
        },
    },
    Part {
        name: "Anvil",
        also: "strike block, shock bar",
        purpose: "Piece on the edge of the plate that takes the blow of its hammer.",
        cautions: &["C10", "C18"],
        area_m: |view, of| {
            let end_m = of.field_at_m(last(of)) + of.field_m;
            (view.conditions.appearance.rapper == Rapper::TumblingHammer).then_some([
                end_m - 0.35,
                ANVIL_M - 0.14,
                end_m + 0.28,
                ANVIL_M + 0.14,
            ])
        },
        value: |_| None,
    },
    Part {
        name: "Discharge-electrode rapper",
        also: "wire rapper, emitter rapper",
        purpose: "Raps the electrodes through their frame; a shaft of insulating material turns it, for it is at high voltage.",
        cautions: &["C1", "C10"],
        area_m: |_, of| {
            let (x_m, height_m) = electrode_rapper_m(of, 0);
            Some([x_m - 0.25, height_m - 0.35, x_m + 0.25, of.roof_m + 0.5])
        },
        value: |view| {
            let every_s = *view.conditions.rapping.wire_interval_s.first()?;
            Some(format!(
                "first field: every {}",
                view.text(every_s, Dimension::Interval)
            ))
        },
    },
    Part {
        name: "Distribution-plate rapper",
        also: "gas screen rapper",
        purpose: "Keeps the holes of the distribution plate open; ash grows on the side that the gas meets.",
        cautions: &["C10"],
        area_m: |view, of| {
            let (x_m, z_m) = distribution_rapper_m(view, of)?;
            Some([x_m - 0.2, z_m - 0.2, x_m + 0.2, z_m + 0.5])
        },
        value: |view| {
            let count = view.conditions.collector.distribution_plates;
            Some(format!("{count} plates one behind the other"))
        },
    },
    Part {
        name: "Stabiliser",
        also: "lower frame insulator",
        purpose: "Insulated guide that keeps the lower frame of the electrodes from swinging.",
        cautions: &["C1", "C6"],
        area_m: |_, of| {
            let x_m = of.field_at_m(last(of)) + STABILISERS[1] * of.field_m;
            Some([
                x_m - 0.25,
                -LOWER_FRAME_M - STABILISER_M,
                x_m + 0.25,
                -LOWER_FRAME_M - 0.05,
            ])
        },
        value: |_| None,
    },
    Part {
        name: "Baffle",
        also: "anti-sneakage baffle, hopper baffle",
        purpose: "Sheet that keeps the gas from going around the field, over the plates or through the hopper.",
        cautions: &["C6", "C18"],
        area_m: |_, of| Some(hopper_baffle_m(of, 1.min(last(of)))),
        value: |view| {
            let share = 100.0 * view.conditions.collector.sneakage;
            Some(format!(
                "{} % of the gas still goes around each field",
                number_text(share, 3)
            ))
        },
    },
    Part {
        name: "Ground switch",
        also: "earthing switch",
        purpose: "Ties the high-voltage side of a field to ground. Drawn open; the model never moves it.",
        cautions: &["C1", "C3"],
        area_m: |_, of| Some(switch_m(of, 1.min(last(of)))),
        value: |_| None,
    },
    Part {
        name: "Key interlock",
        also: "captive key, trapped key",
        purpose: "Keys that can be taken and used only in a set order. Drawn, never worked, by the model.",
        cautions: &["C2", "C3"],
        area_m: |_, of| Some(keys_m(of, 2.min(last(of)))),
        value: |_| None,
    },
    Part {
        name: "Hopper heater",
        also: "",
        purpose: "Keeps the lower wall warm, so that moisture does not bind the ash.",
        cautions: &["C7", "C14"],
        area_m: |_, of| Some(hopper(of).heaters_m()),
        value: |_| None,
    },
    Part {
        name: "Level probe",
        also: "level detector",
        purpose: "Tells when the ash stands as high as the alarm.",
        cautions: &["C7", "C15"],
        area_m: |_, of| Some(hopper(of).probe_m()),
        value: |view| {
            let row = view
                .hoppers
                .get(1.min(view.hoppers.len().checked_sub(1)?))?;
            let state = if row.alarm { "level alarm" } else { "no alarm" };
            Some(format!(
                "{state}; it stands at {:.0} % of the depth",
                100.0 * ALARM_LEVEL
            ))
        },
    },
    Part {
        name: "Poke hole",
        also: "rodding port",
        purpose: "Capped tube for a rod; for trained people under the site’s own rules.",
        cautions: &["C7", "C8", "C20"],
        area_m: |_, of| Some(hopper(of).poke_holes_m()),
        value: |_| None,
    },
    Part {
        name: "Strike plate",
        also: "pounding plate",
        purpose: "Thick piece of wall that may be hit without harm to the hopper.",
        cautions: &["C7", "C8"],
        area_m: |_, of| Some(hopper(of).strike_plate_m()),
        value: |_| None,
    },
    Part {
        name: "Hopper vibrator",
        also: "",
        purpose: "Shakes ash loose while the hopper is being emptied; at rest ash it only packs it.",
        cautions: &["C7", "C10"],
        area_m: |_, of| Some(hopper(of).vibrator_m()),
        value: |_| None,
    },
    Part {
        name: "Hopper door",
        also: "access door",
        purpose: "Way into the hopper, shut and locked by a key. The model never opens it.",
        cautions: &["C2", "C7", "C13", "C19"],
        area_m: |_, of| Some(hopper(of).door_m()),
        value: |_| None,
    },
    Part {
        name: "Knife gate",
        also: "slide gate, isolation gate",
        purpose: "Shuts the hopper’s outlet above the airlock.",
        cautions: &["C7", "C10"],
        area_m: |_, of| Some(hopper(of).knife_gate_m()),
        value: |_| None,
    },
    Part {
        name: "Access door",
        also: "manhole, quick-opening door",
        purpose: "Way to the walkway between two fields, shut and locked by a key. The model never opens it.",
        cautions: &["C2", "C3", "C6", "C13"],
        area_m: |_, of| Some(door_m(of, last(of))),
        value: |_| None,
    },
    Part {
        name: "Grating",
        also: "walkway floor",
        purpose: "Floor between two fields above open hoppers.",
        cautions: &["C6", "C9", "C18"],
        area_m: |_, of| {
            let end_m = of.field_at_m(last(of)) + of.field_m;
            Some([end_m, -0.66, end_m + of.walkway_m, -0.34])
        },
        value: |_| None,
    },
    Part {
        name: "Stairs",
        also: "stair tower",
        purpose: "Way to the hoppers, the doors and the roof.",
        cautions: &["C9"],
        area_m: |_, of| Some(stairs_m(of)),
        value: |view| {
            let of = Measures::new(view.conditions, view.hoppers, view.gas);
            let height_m = of.roof_m - of.ground_m();
            Some(format!(
                "roof {} above the ground",
                view.text(height_m, Dimension::Length)
            ))
        },
    },
    Part {
        name: "Slide bearing",
        also: "expansion bearing",
        purpose: "Lets the casing grow when it gets hot, away from the one leg that is fixed.",
        cautions: &["C9"],
        area_m: |_, of| bearing(of, 0),
        value: |_| None,
    },
    Part {
        name: "Fixed leg",
        also: "fixed bearing",
        purpose: "The one place where the casing cannot slide on its legs.",
        cautions: &["C9"],
        area_m: |_, of| bearing(of, fixed_leg(of)),
        value: |_| None,
    },
    Part {
        name: "Bus duct",
        also: "bus bar duct",
        purpose: "Guarded conductor from the set to the support insulator.",
        cautions: &["C1"],
        area_m: |_, of| {
            let from_m = of.field_at_m(last(of)) + super::roof::SUPPORTS[0] * of.field_m;
            let to_m = of.field_at_m(last(of)) + 0.5 * (of.field_m - super::roof::SET_M.0);
            let z_m = of.roof_m + super::roof::DECK_M + 0.75;
            Some([from_m - 0.1, z_m - 0.15, to_m.max(from_m + 0.3), z_m + 0.15])
        },
        value: |_| None,
    },
];

const fn last(of: &Measures) -> usize {
    of.fields.saturating_sub(1)
}

/// The hopper at which small parts are pointed out: the second, for the first one is a part as a whole.
fn hopper(of: &Measures) -> Hopper {
    Hopper::new(of, 1.min(last(of)))
}

fn bearing(of: &Measures, leg: usize) -> Option<AreaM> {
    let x_m = *legs_m(of).get(leg)?;
    Some([x_m - 0.35, of.brim_m - 0.5, x_m + 0.35, of.brim_m])
}
