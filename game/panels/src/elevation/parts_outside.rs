//! The parts outside of the casing, one row each: what the gas comes through, what moves it, what measures it.
//!
//! Names and other names are those of the trade (common practice, no source).

use ashlane_shared::units::{Dimension, number_text};

use super::{
    ElevationView, Part,
    fan::fan_m,
    fittings::{dampers, joints},
    instruments::{
        duct_words, inlet_at_m, monitor_m, outlet_at_m, outlet_station, stack_words, stem_m,
    },
    profile,
};
use ashlane_shared::physics::gas_path::pressure::Station;

/// What the other tables lack.
pub(super) const OUTSIDE: [Part; 10] = [
    Part {
        name: "Air heater or gas cooler",
        also: "air preheater, conditioning tower",
        purpose: "Cools the gas of the boiler or kiln; what leaves it comes into the inlet duct.",
        cautions: &["C13"],
        area_m: |_, of| Some(of.heater_m()),
        value: |view| {
            let gas = view.gas?.at(Station::Start)?;
            let heat = view.text(gas.temperature_k, Dimension::Temperature);
            Some(format!("gas behind it {heat}"))
        },
    },
    Part {
        name: "Pushing fan",
        also: "forced draught fan, booster fan",
        purpose: "Pushes the gas through; everything behind it is above the pressure of the air and leaks outwards.",
        cautions: &["C10", "C13"],
        area_m: |_, of| of.pushes.then(|| fan_m(of)),
        value: |view| {
            let power = view.text(view.gas?.fan_power_w, Dimension::Power);
            Some(format!("power {power}"))
        },
    },
    Part {
        name: "Expansion joint",
        also: "compensator, bellows",
        purpose: "Lets the hot duct grow without pushing the casing; torn, it lets air in.",
        cautions: &["C13"],
        area_m: |_, of| Some(joints(of)[0].area_m()),
        value: |view| {
            let percent = 100.0 * view.conditions.gas.in_leakage.inlet;
            let percent = number_text(percent, 3);
            Some(format!(
                "air that leaks in before the fields: {percent} % of the gas"
            ))
        },
    },
    Part {
        name: "Inlet damper",
        also: "louvre damper",
        purpose: "Shuts the duct, or shares the gas between collectors side by side.",
        cautions: &["C6", "C10"],
        area_m: |_, of| Some(dampers(of)[0].area_m()),
        value: |_| None,
    },
    Part {
        name: "Fan damper",
        also: "inlet vanes, louvre damper",
        purpose: "Trims how much gas the fan moves.",
        cautions: &["C10"],
        area_m: |_, of| Some(dampers(of)[1].area_m()),
        value: |_| None,
    },
    Part {
        name: "Inlet instruments",
        also: "gas analyser, thermocouple, draught tap",
        purpose: "Temperature, oxygen, draught and carbon monoxide of the gas that comes in; the model has no carbon monoxide.",
        cautions: &["C4"],
        area_m: |_, of| Some(stem_m(of, inlet_at_m(of))),
        value: |view| {
            let gas = view.gas?.at(Station::InletDuct)?;
            Some(duct_words(view, gas).join(", "))
        },
    },
    Part {
        name: "Outlet instruments",
        also: "thermocouple, oxygen probe, draught tap",
        purpose: "Temperature, oxygen and draught behind the collector: colder and with more oxygen, air leaks in; hotter, it burns.",
        cautions: &["C4", "C5"],
        area_m: |_, of| Some(stem_m(of, outlet_at_m(of))),
        value: |view| {
            let gas = view.gas?.at(outlet_station(view))?;
            Some(duct_words(view, gas).join(", "))
        },
    },
    Part {
        name: "Opacity monitor",
        also: "transmissometer, smoke density meter",
        purpose: "Looks across the stack: the share of its light that the dust keeps back.",
        cautions: &["C9"],
        area_m: |_, of| {
            let (half_m, height_m) = (0.5 * of.stack_m + 0.5, monitor_m(of));
            let x_m = of.stack_at_m();
            Some([x_m - half_m, height_m - 0.4, x_m + half_m, height_m + 0.4])
        },
        value: |view| {
            Some(format!(
                "{}, {}",
                stack_words(view)?.join(", "),
                view.stack?.from
            ))
        },
    },
    Part {
        name: "Gas behind the plates",
        also: "velocity profile",
        purpose: "How fast the gas meets each height of the first field; every row is the mean over the width.",
        cautions: &["C6"],
        area_m: profile::area_m,
        value: rows,
    },
    Part {
        name: "Insulation and cladding",
        also: "lagging",
        purpose: "Keeps the walls above the temperature at which water and acid condense.",
        cautions: &["C13"],
        area_m: |_, of| {
            let left_m = of.walls_m().1 + 0.35 * of.nozzle_m;
            let top_m = of.roof_m - 0.3 * of.nozzle_m;
            Some([left_m, top_m - 0.8, left_m + 1.2, top_m + 0.4])
        },
        value: |_| None,
    },
];

fn rows(view: &ElevationView<'_>) -> Option<String> {
    let (low, high) = profile::range_m_s(view)?;
    let text = |m_s| view.text(m_s, Dimension::Velocity);
    Some(format!("{} to {} from row to row", text(low), text(high)))
}
