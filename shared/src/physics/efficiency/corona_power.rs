//! A rule of thumb from plants: the more electric power a collector takes for its gas, the less dust escapes.
//!
//! `P = exp(−0.55·P_c/Q)`, `P_c/Q` in W per ft³/s

use crate::physics::PhysicsError;
use crate::physics::error::{not_negative, positive};

/// Exponent of the fit per W/(ft³/s). Source: from memory of White 1963.
const EXPONENT_PER_W_S_FT3: f64 = 0.55;
/// One cubic foot, m³: 0.3048³. Source: international yard and pound agreement 1959.
const FOOT3_M3: f64 = 0.028_316_846_592;

/// Penetration that a corona power lets expect.
///
/// `P = exp(−0.55·P_c/Q)`, so that `η = 1 − exp(−0.55·P_c/Q)`, `P_c/Q` in W per ft³/s
///
/// # Arguments
/// * `corona_power_w` – `P_c`, sum of voltage times current of all fields, W, 0 or more.
/// * `flow_m3_s` – Q, actual gas flow, m³/s, above 0.
///
/// # Source
/// From memory of White 1963; a fit to coal-fired plants.
///
/// # Validity
/// Fly ash of ordinary resistivity, up to an efficiency of 98.5 %; beyond, more power helps less. Back corona takes
/// power and catches nothing.
///
/// # Errors
/// A number outside its range.
///
/// ```
/// use ashlane_shared::physics::efficiency::corona_power::corona_power_penetration;
/// // 100 W per 1000 ft³/min.
/// let escaped = corona_power_penetration(100.0, 1000.0 * 0.3048_f64.powi(3) / 60.0)?;
/// assert!((1.0 - escaped - 0.96312).abs() < 5e-6);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn corona_power_penetration(corona_power_w: f64, flow_m3_s: f64) -> Result<f64, PhysicsError> {
    let flow_ft3_s = positive("flow_m3_s", flow_m3_s)? / FOOT3_M3;
    let power_w = not_negative("corona_power_w", corona_power_w)?;
    Ok((-EXPONENT_PER_W_S_FT3 * power_w / flow_ft3_s).exp())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn twice_the_power_squares_the_penetration() {
        let one = corona_power_penetration(10e3, 118.8).expect("in range");
        let two = corona_power_penetration(20e3, 118.8).expect("in range");
        assert!((one * one / two - 1.0).abs() < 1e-14, "{one} {two}");
        let none = corona_power_penetration(0.0, 118.8).expect("in range");
        assert!((none - 1.0).abs() < 1e-15, "no power catches nothing");
    }

    #[test]
    fn impossible_gas_is_refused() {
        assert!(corona_power_penetration(1e3, 0.0).is_err(), "no gas");
        assert!(corona_power_penetration(-1.0, 100.0).is_err(), "power back");
    }
}
