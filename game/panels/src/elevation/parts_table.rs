//! Every part of the machine, one row each: along the gas, then from the roof down.
//!
//! Names and other names are those of the trade (common practice, no source).

use ashlane_shared::{
    conditions::Rapper, physics::gas_path::pressure::Station, plant::ROOM_M,
    simulation::GasStation, units::Dimension,
};

use super::{
    ElevationView, Measures, Part,
    ducts::{across_nozzle_m, plates_at_m},
    fan::fan_m,
    hopper_details::Hopper,
    hoppers::level_words,
    measures::LOWER_FRAME_M,
    parts::AreaM,
    rappers::{ROOF_RAPPER_M, roof_rapper_m, shaft_m},
    roof::{SET_M, SUPPORTS},
};

/// Every part.
pub(super) const PARTS: [Part; 17] = [
    Part {
        name: "Turning vanes",
        also: "guide vanes",
        purpose: "Turn the gas round the bend without swirl.",
        cautions: &["C6"],
        area_m: |_, of| Some(around(of.riser_at_m(), of.axis_m(), 0.5 * of.duct_m)),
        value: |view| {
            Some(format!(
                "gas {}",
                view.text(
                    at(view, Station::InletDuct)?.velocity_m_s,
                    Dimension::Velocity
                )
            ))
        },
    },
    Part {
        name: "Inlet nozzle",
        also: "inlet plenum, diffuser",
        purpose: "Spreads the gas from the duct over the whole face and slows it down.",
        cautions: &["C6"],
        area_m: |_, of| {
            let left_m = of.walls_m().0;
            Some([
                left_m - of.nozzle_m,
                of.axis_m() - 0.5 * of.duct_m,
                left_m - 1.6,
                of.axis_m() + 0.5 * of.duct_m,
            ])
        },
        value: |view| draught(view, Station::InletNozzle),
    },
    Part {
        name: "Perforated distribution plate",
        also: "distribution screen, gas screen",
        purpose: "Evens the gas over the face: every passage gets its share.",
        cautions: &["C6"],
        area_m: |view, of| {
            let x_m = *plates_at_m(view, of).first()?;
            let (low_m, high_m) = across_nozzle_m(of, x_m);
            Some([x_m - 0.3, low_m, x_m + 0.3, high_m])
        },
        value: |view| draught(view, Station::Plate(1)),
    },
    Part {
        name: "Collecting plate",
        also: "collecting electrode, curtain",
        purpose: "Grounded; catches the charged dust and holds it until it is rapped.",
        cautions: &["C6", "C18"],
        area_m: |_, of| Some(plates_of(of, of.fields.saturating_sub(1), [0.2, 0.56])),
        value: |view| {
            Some(format!(
                "last field: {} of dust",
                view.text(view.plates.last()?.layer_m[1], Dimension::PartSize)
            ))
        },
    },
    Part {
        name: "Discharge electrode",
        also: "emitting electrode, wire",
        purpose: "At high voltage; its corona charges the dust.",
        cautions: &["C1", "C6"],
        area_m: |_, of| Some(plates_of(of, 0, [0.6, 0.95])),
        value: |view| {
            Some(format!(
                "first field: −{}",
                view.text(view.fields.first()?.metered_v(), Dimension::Voltage)
            ))
        },
    },
    Part {
        name: "High-voltage frame",
        also: "suspension frame",
        purpose: "Carries the discharge electrodes; hangs on the support insulators.",
        cautions: &["C1"],
        area_m: |_, of| Some([0.0, -LOWER_FRAME_M - 0.2, of.field_m, -LOWER_FRAME_M + 0.2]),
        value: |view| {
            Some(format!(
                "lower edge {} above the brims of the hoppers",
                view.text(ROOM_M, Dimension::Length)
            ))
        },
    },
    Part {
        name: "Plate rapper",
        also: "tumbling hammer, roof rapper",
        purpose: "Strikes its plate, at the anvil below or through a rod from the roof, and knocks the layer off as a sheet.",
        cautions: &["C10", "C18"],
        area_m: |view, of| Some(plate_rapper_m(view.conditions.appearance.rapper, of)),
        value: |view| {
            let turn = view.plates.first()?.turn?;
            Some(format!("blow {} of {}", turn.blow.0, turn.blow.1))
        },
    },
    Part {
        name: "Walkway",
        also: "",
        purpose: "Space between two fields; entered only under the site’s written procedures.",
        cautions: &["C6", "C18"],
        area_m: |_, of| {
            Some([
                of.field_m,
                0.25 * of.plate_m,
                of.field_m + of.walkway_m,
                0.9 * of.plate_m,
            ])
        },
        value: |_| None,
    },
    Part {
        name: "Outlet nozzle",
        also: "outlet plenum",
        purpose: "Gathers the cleaned gas into the outlet duct.",
        cautions: &["C6"],
        area_m: |_, of| {
            let right_m = of.walls_m().1;
            Some([
                right_m + 0.4,
                of.axis_m() - 0.5 * of.duct_m,
                right_m + of.nozzle_m,
                of.axis_m() + 0.5 * of.duct_m,
            ])
        },
        value: |view| draught(view, Station::OutletNozzle),
    },
    Part {
        name: "ID fan",
        also: "induced draught fan",
        purpose: "Pulls the gas through; everything before it is below the pressure of the air.",
        cautions: &["C10"],
        area_m: |_, of| (!of.pushes).then(|| fan_m(of)),
        value: |view| {
            Some(format!(
                "power {}",
                view.text(view.gas?.fan_power_w, Dimension::Power)
            ))
        },
    },
    Part {
        name: "Stack",
        also: "chimney",
        purpose: "Leads the gas away; the opacity monitor looks across it.",
        cautions: &["C9"],
        area_m: |_, of| {
            Some([
                of.stack_at_m() - 0.5 * of.stack_m,
                of.ground_m() + 1.0,
                of.stack_at_m() + 0.5 * of.stack_m,
                of.roof_m,
            ])
        },
        value: |view| {
            Some(format!(
                "gas {}",
                view.text(
                    at(view, Station::Stack)?.temperature_k,
                    Dimension::Temperature
                )
            ))
        },
    },
    Part {
        name: "Transformer-rectifier",
        also: "T/R set, high-voltage set",
        purpose: "Makes the direct high voltage of one field.",
        cautions: &["C1", "C14"],
        area_m: |_, of| {
            let middle_m = of.end_m() - 0.5 * of.field_m;
            Some([
                middle_m - 0.5 * SET_M.0,
                of.roof_m + 0.2,
                middle_m + 0.5 * SET_M.0,
                of.roof_m + 0.3 + SET_M.1,
            ])
        },
        value: |view| {
            let state = view.fields.last()?;
            Some(format!(
                "last field: {}, {}",
                view.text(state.metered_v(), Dimension::Voltage),
                view.text(state.metered_a_m2(), Dimension::CurrentDensity)
            ))
        },
    },
    Part {
        name: "Support insulator",
        also: "post or cone insulator",
        purpose: "Stands on the hot roof in a heated, purged box and keeps the frame off ground.",
        cautions: &["C1"],
        area_m: |_, of| {
            let x_m = SUPPORTS[1] * of.field_m;
            Some([x_m - 0.45, of.roof_m, x_m + 0.45, of.roof_m + 1.5])
        },
        value: |_| None,
    },
    Part {
        name: "Hot roof",
        also: "",
        purpose: "Gas-tight roof on which the insulators stand.",
        cautions: &["C9", "C13"],
        area_m: |_, of| {
            let right_m = of.walls_m().1;
            Some([
                right_m - of.walkway_m,
                of.roof_m - 0.3,
                right_m,
                of.roof_m + 0.3,
            ])
        },
        value: |_| None,
    },
    Part {
        name: "Hopper",
        also: "pyramid, ash hopper",
        purpose: "Funnel below a field that guides the ash to its removal.",
        cautions: &["C7", "C8"],
        area_m: |_, of| {
            Some([
                0.15 * of.field_m,
                of.brim_m - of.hopper_m + 0.2,
                0.85 * of.field_m,
                of.brim_m,
            ])
        },
        value: |view| {
            let row = view.hoppers.first()?;
            let words = level_words(view, row);
            let first: Vec<&str> = words
                .iter()
                .filter_map(|texts| texts.first().map(String::as_str))
                .collect();
            Some(format!("first row: {}", first.join("; ")))
        },
    },
    Part {
        name: "Airlock",
        also: "rotary valve",
        purpose: "Lets ash out and keeps air from being drawn in.",
        cautions: &["C10"],
        area_m: |_, of| {
            let last = of.fields.saturating_sub(1);
            Some(Hopper::new(of, last).airlock_m())
        },
        value: |_| None,
    },
    Part {
        name: "Ash conveyor",
        also: "ash handling",
        purpose: "Carries the ash to the silo.",
        cautions: &["C10"],
        area_m: |_, of| {
            let (left_m, right_m) = of.walls_m();
            let foot_m = of.brim_m - of.hopper_m;
            Some([left_m, foot_m - 1.3, right_m, foot_m - 0.88])
        },
        value: |_| None,
    },
];

/// The shaft of the hammers behind the first field, or a rapper on its roof.
fn plate_rapper_m(rapper: Rapper, of: &Measures) -> AreaM {
    match rapper {
        Rapper::TumblingHammer => {
            let (x_m, height_m) = shaft_m(of, 0);
            around(x_m, height_m, 0.42)
        }
        Rapper::RoofRapper => {
            let (x_m, (height_m, width_m)) = (roof_rapper_m(of, 0), ROOF_RAPPER_M);
            [
                x_m - width_m,
                of.roof_m,
                x_m + width_m,
                of.roof_m + height_m,
            ]
        }
    }
}

fn around(x_m: f64, height_m: f64, reach_m: f64) -> AreaM {
    [
        x_m - reach_m,
        height_m - reach_m,
        x_m + reach_m,
        height_m + reach_m,
    ]
}

/// The plates of a field between two shares of their height.
fn plates_of(of: &Measures, field: usize, [low, high]: [f64; 2]) -> AreaM {
    let from_m = of.field_at_m(field);
    [
        from_m,
        low * of.plate_m,
        from_m + of.field_m,
        high * of.plate_m,
    ]
}

/// The gas at a station.
fn at<'a>(view: &ElevationView<'a>, station: Station) -> Option<&'a GasStation> {
    view.gas.and_then(|gas| gas.at(station))
}

fn draught(view: &ElevationView<'_>, station: Station) -> Option<String> {
    let gauge_pa = at(view, station)?.static_gauge_pa;
    Some(format!(
        "draught behind it {}",
        view.text(gauge_pa, view.draught())
    ))
}
