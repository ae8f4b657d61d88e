//! The corona for people: when it starts, what current it gives, how that lies on the plate, and the checks.

use ashlane_shared::units::{Dimension, UnitSystem, display, number_text};

use super::Computed;
use crate::{
    command_line::{
        numbers::both,
        table::{Side, Table},
    },
    engine::NOTICE,
};

/// Points of the profile that are printed.
const PROFILE_POINTS: usize = 9;
/// Digits of a printed value.
const DIGITS: usize = 4;

pub(super) fn report(computed: &Computed) -> String {
    [
        heading(computed),
        curve(computed),
        profile(computed),
        checks(computed),
    ]
    .join("\n")
}

fn heading(computed: &Computed) -> String {
    let gas = if computed.dusty {
        "with the charge of its dust"
    } else {
        "in clean gas (air load)"
    };
    format!(
        "{} ({}), field {} {gas}\n{NOTICE}\n\n\
         Onset   {} at the wire, {} on the wires\n\
         Sparks  at a peak of {} by the sheet\n\
         Wires   as in a tube of radius {}\n",
        computed.title,
        computed.name,
        computed.field,
        both(computed.onset_field_v_m, Dimension::Field),
        both(computed.onset_v, Dimension::Voltage),
        both(computed.spark_v, Dimension::Voltage),
        both(computed.row.effective_radius_m(), Dimension::Length),
    )
}

fn shown(value: f64, dimension: Dimension) -> String {
    number_text(display(value, dimension, UnitSystem::Si).0, DIGITS)
}

fn curve(computed: &Computed) -> String {
    let mut table = Table::new(&[
        ("Curve", Side::Left),
        ("µA/m of wire", Side::Right),
        ("nA/cm²", Side::Right),
        ("mean kV", Side::Right),
        ("quadratic law kV", Side::Right),
    ])
    .indented(0);
    for point in &computed.curve {
        table.row([
            String::new(),
            number_text(1e6 * point.current_a_m, DIGITS),
            shown(point.current_density_a_m2, Dimension::CurrentDensity),
            shown(point.voltage_v, Dimension::Voltage),
            shown(point.quadratic_law_voltage_v, Dimension::Voltage),
        ]);
    }
    table.text()
}

fn profile(computed: &Computed) -> String {
    let points = computed.working.plate_profile();
    let mut table = Table::new(&[
        ("On the plate", Side::Left),
        ("mm from the wire", Side::Right),
        ("nA/cm²", Side::Right),
        ("kV/cm", Side::Right),
    ])
    .indented(0);
    for index in 0..PROFILE_POINTS {
        // The last point lies midway between the wires, where the grid says nothing about the current.
        let point = points[index * (points.len() - 2) / (PROFILE_POINTS - 1)];
        table.row([
            String::new(),
            number_text((1e6 * point.x_m).round() / 1e3, DIGITS),
            shown(point.current_density_a_m2, Dimension::CurrentDensity),
            shown(point.field_v_m, Dimension::Field),
        ]);
    }
    let voltage_v = computed.working.solution().voltage_v;
    let held = if computed.wanted_v > computed.spark_v {
        format!(
            " (the sheet wants {}, the gap sparks first)",
            both(computed.wanted_v, Dimension::Voltage)
        )
    } else {
        String::new()
    };
    format!(
        "At a steady {}{held}, without the ripple of a set, {} nA/cm² mean\n{}",
        both(voltage_v, Dimension::Voltage),
        shown(
            computed.working.plate_current_a_m2(),
            Dimension::CurrentDensity
        ),
        table.text()
    )
}

fn checks(computed: &Computed) -> String {
    let collected = if computed.working.plate_current_a_m2() > 0.0 {
        let percent = 100.0 * computed.collected_share;
        format!("the plates collect {percent:.2} % of what the wires give")
    } else {
        "no current at this voltage, so none to compare".to_owned()
    };
    let slope = computed.onset_slope_share.map_or_else(String::new, |share| {
        let percent = 100.0 * share;
        format!("        just above onset the current rises at {percent:.2} % of 4πε₀bV₀/(s² ln(d_eff/r_w))\n")
    });
    format!("Checks  {collected}\n{slope}")
}
