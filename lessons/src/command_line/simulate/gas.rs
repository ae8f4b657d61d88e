//! The way of the gas in the report: pressure lost, power for that, and how even the gas meets the fields.

use ashlane_shared::{
    conditions::Conditions,
    physics::{
        PhysicsError,
        gas_path::{pressure::Station, uniformity::uniformity},
    },
    simulation::{GasAlong, face_velocities, fan_share_w, readings_m_s},
    units::Dimension,
};

use crate::command_line::{
    numbers::both,
    table::{Side, Table},
};

/// Readings up and across the face, as a traverse with a hand-held probe takes them.
const ROWS: usize = 10;
const COLUMNS: usize = 20;

/// The lines of the report.
pub(super) fn gas_path(
    conditions: &Conditions,
    along: &GasAlong,
    seed: u64,
) -> Result<String, PhysicsError> {
    let power_w = fan_share_w(conditions.gas.flow_m3_s, along.collector_loss_pa)?;
    let suction = along
        .at(Station::OutletNozzle)
        .map_or_else(String::new, |one| {
            format!(
                ";\n  {} behind the outlet nozzle",
                both(one.static_gauge_pa, Dimension::PressureDrop)
            )
        });
    let face = face_velocities(seed, conditions.gas.velocity_spread, ROWS, COLUMNS)?;
    let even = uniformity(&readings_m_s(&face, conditions.gas_velocity_m_s())?)?;
    let kept = |kept: bool| if kept { "kept" } else { "NOT kept" };
    Ok(format!(
        "Gas path (ducts invented): the collector takes {}, {} of fan power for it{suction}.\n\
         Face, {} readings: RMS {:.1} % (at most {:.0} %, {}),\n\
         \x20 {:.1} % up to 1.15 of the mean (at least {:.0} %, {}), {:.1} % up to 1.40 (at least {:.0} %, {}).\n",
        both(along.collector_loss_pa, Dimension::PressureDrop),
        both(power_w, Dimension::Power),
        ROWS * COLUMNS,
        100.0 * even.rms_share,
        100.0 * even.rms_verdict().bound,
        kept(even.rms_verdict().kept),
        100.0 * even.share_up_to_near,
        100.0 * even.near_verdict().bound,
        kept(even.near_verdict().kept),
        100.0 * even.share_up_to_far,
        100.0 * even.far_verdict().bound,
        kept(even.far_verdict().kept),
    ))
}

/// The gas at every station.
pub(super) fn stations(along: &GasAlong) -> String {
    let mut table = Table::new(&[
        ("Gas along its way", Side::Left),
        ("static pressure", Side::Right),
        ("temperature", Side::Right),
        ("O2 dry %", Side::Right),
        ("water %", Side::Right),
        ("flow", Side::Right),
    ])
    .indented(0);
    for one in &along.stations {
        table.row([
            format!("  {}", one.place),
            both(one.static_gauge_pa, Dimension::PressureDrop),
            both(one.temperature_k, Dimension::Temperature),
            format!("{:.2}", 100.0 * one.oxygen_dry),
            format!("{:.2}", 100.0 * one.moisture),
            both(one.flow_m3_s, Dimension::Flow),
        ]);
    }
    format!(
        "{}Fan: {} over it, {}. Dry gas by volume and by oxygen differ by {:.0e}.\n",
        table.text(),
        both(along.fan_rise_pa, Dimension::PressureDrop),
        both(along.fan_power_w, Dimension::Power),
        along.oxygen_balance_error,
    )
}
