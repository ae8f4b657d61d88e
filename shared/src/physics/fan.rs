//! What moving the gas costs: the power of the fan.
//!
//! `P = QΔp/η`

use super::PhysicsError;
use super::error::{not_negative, positive, require};

/// Power that a fan takes, W.
///
/// `P = QΔp/η`
///
/// # Arguments
/// * `flow_m3_s` – Q of the gas as it is at the fan, m³/s, 0 or more.
/// * `pressure_rise_pa` – Δp that the fan makes, Pa, 0 or more (a collector takes 50–250).
/// * `efficiency` – η of fan and motor together, above 0 to 1.
///
/// # Source
/// Conservation of energy; the range of Δp is common practice, no source.
///
/// # Validity
/// Δp small beside the absolute pressure, so that the gas keeps its volume.
///
/// # Errors
/// A number outside its range.
///
/// ```
/// let power = ashlane_shared::physics::fan::fan_power_w(500.0, 200.0, 0.7)?;
/// assert!((power - 142.9e3).abs() < 50.0);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn fan_power_w(
    flow_m3_s: f64,
    pressure_rise_pa: f64,
    efficiency: f64,
) -> Result<f64, PhysicsError> {
    not_negative("flow_m3_s", flow_m3_s)?;
    not_negative("pressure_rise_pa", pressure_rise_pa)?;
    positive("efficiency", efficiency)?;
    require(efficiency <= 1.0, "efficiency", efficiency, "above 0 to 1")?;
    Ok(flow_m3_s * pressure_rise_pa / efficiency)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_perfect_fan_takes_only_what_the_gas_gets() {
        let perfect = fan_power_w(100.0, 150.0, 1.0).expect("a fan");
        assert!((perfect - 15e3).abs() < 1e-9, "{perfect}");
        let real = fan_power_w(100.0, 150.0, 0.5).expect("a fan");
        assert!((real / perfect - 2.0).abs() < 1e-14, "{real}");
    }

    #[test]
    fn impossible_fans_are_refused() {
        for efficiency in [0.0, -0.5, 1.01, f64::NAN] {
            assert!(
                fan_power_w(100.0, 150.0, efficiency).is_err(),
                "{efficiency}"
            );
        }
        assert!(fan_power_w(-1.0, 150.0, 0.7).is_err(), "backwards");
    }
}
