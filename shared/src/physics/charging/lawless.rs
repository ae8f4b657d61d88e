//! Field and diffusion charging together, for grains of every size: the model used unless another is chosen.
//!
//! With `ν = qe/(2πε₀dkT)`, `W = ε_r/(ε_r+2)·Ede/(2kT)`, `dτ' = (eN₀b/ε₀)dt` and `f = 1` for W < 0.525, else
//! `(W+0.475)^−0.575`:
//! `dν/dτ' = f(ν−3W)/(e^(ν−3W)−1)` for ν > 3W, `(3W/4)(1−ν/3W)² + f` for |ν| ≤ 3W,
//! `−ν + f(−ν−3W)/(e^(−ν−3W)−1)` for ν < −3W.

use super::{Exposure, Grain, IonGas, thermal_charge_c};
use crate::physics::constants::{BOLTZMANN_J_K, ELEMENTARY_CHARGE_C, VACUUM_PERMITTIVITY_F_M};

/// Below this field number the whole grain is open to diffusing ions. Source: from memory of Lawless 1996.
const OPEN_FIELD_NUMBER: f64 = 0.525;
/// Shift and power of the open share above it. Source: from memory of Lawless 1996.
const OPEN_SHIFT: f64 = 0.475;
/// See [`OPEN_SHIFT`].
const OPEN_POWER: f64 = -0.575;
/// Error allowed in one integration step, relative to 1 + |ν|; the sum over a flight stays below 1e-8.
const STEP_TOLERANCE: f64 = 1e-11;
/// More steps than any flight needs; a guard against not-a-number only.
const MOST_STEPS: usize = 100_000;

/// The field number W: how much energy the field gives an ion across half a grain, in thermal energies.
///
/// `W = ε_r/(ε_r+2)·Ede/(2kT)`
///
/// # Arguments
/// * `grain` – diameter and permittivity.
/// * `temperature_k` – T, K, above 0.
/// * `field_v_m` – E, V/m, 0 or more.
///
/// # Source
/// Lawless 1996, J. Aerosol Sci. 27:191.
///
/// # Validity
/// Spheres in a uniform field.
#[must_use]
pub fn field_number(grain: &Grain, temperature_k: f64, field_v_m: f64) -> f64 {
    let polarised = 1.0 / (1.0 + 2.0 / grain.permittivity);
    polarised * field_v_m * grain.diameter_m * ELEMENTARY_CHARGE_C
        / (2.0 * BOLTZMANN_J_K * temperature_k)
}

/// Charging rate dν/dτ' in the model's own units.
///
/// Equation: the file's first lines. The charge is `2πε₀dkT/e` times ν, the time `ε₀/(eN₀b)` times τ'.
///
/// # Arguments
/// * `charge_number` – ν, any.
/// * `field_number` – W, 0 or more.
///
/// # Source
/// Lawless 1996, J. Aerosol Sci. 27:191; coefficients from memory of it, both limits verified.
///
/// # Validity
/// Continuum range; good to a few per cent down to about 0.1 µm.
#[must_use]
pub fn rate(charge_number: f64, field_number: f64) -> f64 {
    let open = if field_number < OPEN_FIELD_NUMBER {
        1.0
    } else {
        (field_number + OPEN_SHIFT).powf(OPEN_POWER)
    };
    let saturation = 3.0 * field_number;
    if charge_number > saturation {
        open * diffusion(charge_number - saturation)
    } else if charge_number < -saturation {
        -charge_number + open * diffusion(-charge_number - saturation)
    } else if saturation > 0.0 {
        0.25 * saturation * (1.0 - charge_number / saturation).powi(2) + open
    } else {
        open
    }
}

/// `x/(e^x−1)`: share of the ions that climb a potential hill of x thermal energies.
fn diffusion(hill: f64) -> f64 {
    if hill > 0.0 {
        hill / hill.exp_m1()
    } else {
        1.0
    }
}

/// Charge number after some of the model's time, from any start: the rate integrated to 1e-8.
///
/// `ν(τ₀+τ')` by fourth-order Runge–Kutta; each step is done once and in halves, the difference sets the step length.
///
/// # Arguments
/// * `charge_number` – ν at the start, any.
/// * `field_number` – W, 0 or more.
/// * `duration` – τ', 0 or more, finite.
///
/// # Source
/// Rate: Lawless 1996. Method: Hairer, Nørsett & Wanner 1993, *Solving Ordinary Differential Equations I*, II.4.
///
/// # Validity
/// As [`rate`].
#[must_use]
pub fn charge_number_later(charge_number: f64, field_number: f64, duration: f64) -> f64 {
    let mut charge = charge_number;
    let mut left = duration;
    let mut step = duration;
    for _ in 0..MOST_STEPS {
        if left <= 0.0 {
            break;
        }
        step = step.min(left);
        let whole = runge_kutta(charge, field_number, step);
        let half = runge_kutta(charge, field_number, 0.5 * step);
        let halves = runge_kutta(half, field_number, 0.5 * step);
        let error = (halves - whole).abs() / 15.0;
        let allowed = STEP_TOLERANCE * (1.0 + halves.abs());
        if error <= allowed {
            // The known leading error is taken off (Richardson).
            charge = halves + (halves - whole) / 15.0;
            left -= step;
        }
        // The error of a step grows with its fifth power; the kink at 3W makes it fall back to the second.
        let growth = if error > 0.0 {
            0.9 * (allowed / error).powf(0.2)
        } else {
            5.0
        };
        step *= growth.clamp(0.1, 5.0);
    }
    charge
}

/// One classical Runge–Kutta step.
fn runge_kutta(charge: f64, field_number: f64, step: f64) -> f64 {
    let first = rate(charge, field_number);
    let second = rate(charge + 0.5 * step * first, field_number);
    let third = rate(charge + 0.5 * step * second, field_number);
    let fourth = rate(charge + step * third, field_number);
    charge + step / 6.0 * (first + 2.0 * (second + third) + fourth)
}

/// Charge after some more time, C.
///
/// `q = (2πε₀dkT/e) ν`, `τ' = (eN₀b/ε₀)t`
///
/// # Arguments
/// * `grain`, `gas`, `exposure` – see their fields.
/// * `charge_c` – charge at the start, C, positive with the sign of the ions.
/// * `duration_s` – t, s, 0 or more.
///
/// # Source
/// Lawless 1996, J. Aerosol Sci. 27:191.
///
/// # Validity
/// As [`rate`].
#[must_use]
pub fn charge_later_c(
    grain: &Grain,
    gas: &IonGas,
    exposure: &Exposure,
    charge_c: f64,
    duration_s: f64,
) -> f64 {
    let unit_c = thermal_charge_c(grain.diameter_m, gas.temperature_k);
    let clock_1_s = ELEMENTARY_CHARGE_C * exposure.ion_density_per_m3 * gas.ion_mobility_m2_v_s
        / VACUUM_PERMITTIVITY_F_M;
    let field_number = field_number(grain, gas.temperature_k, exposure.field_v_m);
    unit_c * charge_number_later(charge_c / unit_c, field_number, clock_1_s * duration_s)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Below 3W the rate is a Riccati equation: y = 1−ν/3W obeys dy/dτ' = −(3W/4·y²+f)/3W, a tangent.
    fn below_saturation(field_number: f64, duration: f64) -> f64 {
        let (drive, open) = (0.75 * field_number, rate(3.0 * field_number, field_number));
        let root = (open / drive).sqrt();
        let angle = (1.0 / root).atan() - (drive * open).sqrt() * duration / (3.0 * field_number);
        3.0 * field_number * (1.0 - root * angle.tan())
    }

    /// Above 3W: ∫(e^x−1)/x dx = fτ', the entire exponential integral Ein(x) = Σ x^k/(k·k!).
    fn ein(x: f64) -> f64 {
        let (mut power, mut sum) = (1.0, 0.0);
        for k in 1..200 {
            let k = f64::from(k);
            power *= x / k;
            sum += power / k;
        }
        sum
    }

    #[test]
    fn integration_equals_the_tangent_below_saturation() {
        for field_number in [0.3, 2.0, 9.0, 60.0] {
            for duration in [0.01, 0.3, 2.0] {
                let exact = below_saturation(field_number, duration);
                if exact <= 3.0 * field_number {
                    let got = charge_number_later(0.0, field_number, duration);
                    assert!((got / exact - 1.0).abs() < 1e-9, "{got} not {exact}");
                }
            }
        }
    }

    #[test]
    fn integration_equals_the_exponential_integral_above_saturation() {
        for field_number in [0.0, 0.4, 5.0] {
            let open = rate(3.0 * field_number, field_number);
            for duration in [0.1, 3.0, 113.0, 1e4] {
                let got = charge_number_later(3.0 * field_number, field_number, duration);
                let back = ein(got - 3.0 * field_number) / open;
                assert!(
                    (back / duration - 1.0).abs() < 1e-8,
                    "{back} not {duration}"
                );
            }
        }
    }

    #[test]
    fn integration_crosses_the_kink_without_losing_digits() {
        // Tangent until 3W, Ein after it.
        let field_number = 2.0;
        let (drive, open) = (0.75 * field_number, rate(3.0 * field_number, field_number));
        let arrival = (drive / open).sqrt().atan() * 3.0 * field_number / (drive * open).sqrt();
        let got = charge_number_later(0.0, field_number, arrival + 20.0);
        let back = ein(got - 3.0 * field_number) / open;
        assert!((back / 20.0 - 1.0).abs() < 1e-8, "{back}");
    }

    #[test]
    fn the_rate_is_continuous_at_both_kinks() {
        for field_number in [0.1, 1.0, 30.0] {
            for kink in [-3.0 * field_number, 3.0 * field_number] {
                let (below, above) = (
                    rate(kink - 1e-9, field_number),
                    rate(kink + 1e-9, field_number),
                );
                assert!(
                    (below - above).abs() < 1e-7 * (1.0 + below.abs()),
                    "{below} {above} at {kink}"
                );
            }
        }
    }

    #[test]
    fn a_grain_of_the_wrong_sign_is_turned_round() {
        let turned = charge_number_later(-20.0, 2.0, 50.0);
        assert!(turned > 6.0, "{turned}");
        let there = charge_number_later(-20.0, 2.0, 0.7);
        let twice = charge_number_later(charge_number_later(-20.0, 2.0, 0.3), 2.0, 0.4);
        assert!((there - twice).abs() < 1e-8, "{there} not {twice}");
    }
}
