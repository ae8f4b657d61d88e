//! The way of the gas in the report: pressure lost, power for that, and how even the gas meets the fields.

use ashlane_shared::{
    conditions::Conditions,
    physics::{
        PhysicsError, fan, gas,
        gas_path::{
            pressure::{GasPath, Station, pressure_profile},
            uniformity::uniformity,
        },
    },
    simulation::{face_velocities, readings_m_s},
    units::Dimension,
};

use crate::command_line::numbers::both;

/// Efficiency of the fan. Teaching value, no source.
const FAN_EFFICIENCY: f64 = 0.7;
/// Readings up and across the face, as a traverse with a hand-held probe takes them.
const ROWS: usize = 10;
const COLUMNS: usize = 20;

/// The lines of the report.
pub(super) fn gas_path(conditions: &Conditions, seed: u64) -> Result<String, PhysicsError> {
    let profile = pressure_profile(&path(conditions))?;
    let power_w = fan::fan_power_w(
        conditions.gas.flow_m3_s,
        profile.collector_loss_pa,
        FAN_EFFICIENCY,
    )?;
    let suction =
        profile
            .static_gauge_pa(Station::OutletNozzle)
            .map_or_else(String::new, |gauge_pa| {
                format!(
                    ";\n  {} behind the outlet nozzle",
                    both(gauge_pa, Dimension::PressureDrop)
                )
            });
    let face = face_velocities(seed, conditions.gas.velocity_spread, ROWS, COLUMNS)?;
    let even = uniformity(&readings_m_s(&face, conditions.gas_velocity_m_s())?)?;
    let kept = |kept: bool| if kept { "kept" } else { "NOT kept" };
    Ok(format!(
        "Gas path (ducts invented): the collector takes {}, {} of fan power for it{suction}.\n\
         Face, {} readings: RMS {:.1} % (at most {:.0} %, {}),\n\
         \x20 {:.1} % up to 1.15 of the mean (at least {:.0} %, {}), {:.1} % up to 1.40 (at least {:.0} %, {}).\n",
        both(profile.collector_loss_pa, Dimension::PressureDrop),
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

/// The path round the sheet's collector, its ducts by the teaching values.
fn path(conditions: &Conditions) -> GasPath {
    let (state, collector) = (&conditions.gas, &conditions.collector);
    let face_m2 = collector.passages as f64 * collector.plate_spacing_m * collector.plate_height_m;
    GasPath {
        density_kg_m3: gas::density_kg_m3(
            state.pressure_pa,
            state.temperature_k,
            gas::molar_mass_kg_mol(state.moisture),
        ),
        viscosity_pa_s: gas::viscosity_pa_s(state.temperature_k),
        plate_open_shares: vec![collector.distribution_open_area],
        fields: collector.fields,
        field_length_m: collector.field_length_m,
        gap_m: conditions.gap_m(),
        ..GasPath::teaching(state.flow_m3_s, face_m2)
    }
}
