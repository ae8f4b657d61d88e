//! The instruments along the way of the gas: timed tracers, and the probes of pressure, flow and oxygen at its stations.

use ashlane_shared::{
    conditions::Conditions,
    count::Counted,
    physics::{PhysicsError, gas_path::pressure::Station},
    simulation::{GasAlong, GasStation, gas_along, tracer_transit_s},
};

use super::instruments::impossible;

/// Seed of the tracers.
const SEED: u64 = 1;

/// Mean time of tracers through the fields, s.
pub(super) fn transit_s(conditions: &Conditions) -> Result<Counted, PhysicsError> {
    let (share, standard_error) = tracer_transit_s(conditions, SEED)?;
    Ok(Counted {
        share,
        standard_error,
    })
}

/// Length of the fields over that time, m/s.
pub(super) fn velocity_m_s(conditions: &Conditions) -> Result<Counted, PhysicsError> {
    let time = transit_s(conditions)?;
    let share = conditions.length_m() / time.share;
    Ok(Counted {
        share,
        standard_error: share * time.standard_error / time.share,
    })
}

fn ends(along: &GasAlong) -> Result<(&GasStation, &GasStation), PhysicsError> {
    let ends = along.stations.first().zip(along.stations.last());
    ends.ok_or_else(|| impossible("the way of the gas has no stations"))
}

fn at(along: &GasAlong, station: Station) -> Result<&GasStation, PhysicsError> {
    let found = along.at(station);
    found.ok_or_else(|| impossible("the way of the gas has no such station"))
}

/// Dry air that leaked in over the dry gas that came in: flow, thermometer and water at both ends.
pub(super) fn leak_by_flow(conditions: &Conditions) -> Result<f64, PhysicsError> {
    let along = gas_along(conditions)?;
    let (first, last) = ends(&along)?;
    let dry = |one: &GasStation| one.flow_m3_s * (1.0 - one.moisture) / one.temperature_k;
    Ok(dry(last) / dry(first) - 1.0)
}

/// Oxygen in the stack, dry.
pub(super) fn outlet_oxygen(conditions: &Conditions) -> Result<f64, PhysicsError> {
    let along = gas_along(conditions)?;
    Ok(ends(&along)?.1.oxygen_dry)
}

/// Flow through the fan, m³/s.
pub(super) fn fan_flow_m3_s(conditions: &Conditions) -> Result<f64, PhysicsError> {
    Ok(gas_along(conditions)?.fan_flow_m3_s)
}

/// Total pressure before the inlet nozzle less that behind the outlet nozzle, Pa: two gauges and two velocities.
pub(super) fn collector_loss_pa(conditions: &Conditions) -> Result<f64, PhysicsError> {
    let along = gas_along(conditions)?;
    let total_pa = |station| {
        let one = at(&along, station)?;
        let dynamic_pa = 0.5 * one.density_kg_m3 * one.velocity_m_s * one.velocity_m_s;
        Ok::<_, PhysicsError>(one.static_gauge_pa + dynamic_pa)
    };
    Ok(total_pa(Station::InletDuct)? - total_pa(Station::OutletNozzle)?)
}

/// Static pressure behind the first field over that outside, Pa.
pub(super) fn casing_pressure_pa(conditions: &Conditions) -> Result<f64, PhysicsError> {
    Ok(at(&gas_along(conditions)?, Station::Field(1))?.static_gauge_pa)
}

#[cfg(test)]
mod tests {
    use super::*;
    use ashlane_shared::conditions::{FanPosition, demonstration};

    #[test]
    fn the_probes_tell_what_the_way_of_the_gas_has() {
        let mut leaky = demonstration();
        leaky.gas.in_leakage.casing = 0.1;
        let leak = leak_by_flow(&leaky).expect("a leak");
        assert!((leak - 0.1).abs() < 1e-9, "{leak}");
        let oxygen = outlet_oxygen(&leaky).expect("oxygen");
        // By hand: (6 + 20.9 · 0.1)/1.1.
        assert!((oxygen - 0.080_90 / 1.1).abs() < 1e-9, "{oxygen}");
        assert!(fan_flow_m3_s(&leaky).expect("a flow") > 1.05 * leaky.gas.flow_m3_s);
    }

    #[test]
    fn the_two_gauges_give_the_loss_that_the_way_adds_up() {
        let conditions = demonstration();
        let along = gas_along(&conditions).expect("a way");
        let loss_pa = collector_loss_pa(&conditions).expect("a loss");
        assert!(
            (loss_pa / along.collector_loss_pa - 1.0).abs() < 1e-9,
            "{loss_pa}"
        );
    }

    #[test]
    fn the_casing_is_under_suction_where_the_fan_pulls_and_not_where_it_pushes() {
        let mut conditions = demonstration();
        assert!(casing_pressure_pa(&conditions).expect("a pressure") < -1000.0);
        conditions.appearance.fan = FanPosition::Upstream;
        assert!(casing_pressure_pa(&conditions).expect("a pressure") > 0.0);
    }
}
