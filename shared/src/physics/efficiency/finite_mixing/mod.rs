//! The exact penetration when the gas stirs the dust, but not perfectly: the ruler every count is held against.
//!
//! Half passage 0 ≤ y ≤ s, plug flow, uniform drift w and diffusivity D:
//! `u ∂C/∂x = D ∂²C/∂y² − w ∂C/∂y`; y = 0: `wC − D ∂C/∂y = 0`; y = s: `∂C/∂y = 0` (the plate takes only the drift
//! flux); `C = 1` at x = 0. With `De = wL/(us)`, `Pe = ws/D` the answer is P(Pe, De).
//!
//! Two exact forms share the work. Where dust has had time to spread over the gap (De/Pe > 0.3) the eigenfunction
//! series needs a handful of terms; before that, the Laplace inversion along a well-chosen line does.

mod inversion;
mod series;

use super::limits;
use crate::physics::PhysicsError;
use crate::physics::error::require;

/// Below this Péclet number Deutsch's law is exact to more digits than an `f64` shows.
const PERFECT_MIXING_PECLET: f64 = 1e-12;
/// Above this Péclet number the laminar law is exact to 1e-10.
const NO_MIXING_PECLET: f64 = 1e20;
/// De/Pe, the time for spreading over the gap, from which on the series is used.
///
/// Series terms fall as `e^(−π²n²De/Pe)`, the contour of the inversion nears their poles as `Pe/(2De)`; at 0.3 both are
/// short and neither loses digits.
const SPREAD_TIME: f64 = 0.3;

/// Strength of drift against mixing.
///
/// `Pe = ws/D`
///
/// # Arguments
/// * `drift_m_s` – w, m/s, above 0.
/// * `gap_m` – s, m, above 0.
/// * `diffusivity_m2_s` – D, m²/s; infinite gives 0 (perfect mixing), 0 gives infinity (no mixing).
///
/// # Source
/// Leonard, Mitchner & Self 1980.
///
/// # Validity
/// Definition.
#[must_use]
pub fn peclet_number(drift_m_s: f64, gap_m: f64, diffusivity_m2_s: f64) -> f64 {
    drift_m_s * gap_m / diffusivity_m2_s
}

/// Share of the dust that escapes with finite mixing across the gap.
///
/// `P = Σ (−1)^(n−1) 8h²β_n²e^h/[(h²+β_n²)²(h²+β_n²+2h)]·exp[−(β_n²+h²)De/(2h)]`, `h = Pe/2`,
/// `β_n = (n−1)π + 2 atan2(h, β_n)`, or the same by Laplace inversion
///
/// # Arguments
/// * `peclet` – Pe, 0 (Deutsch) to infinity (laminar).
/// * `deutsch` – De, 0 to infinity.
///
/// # Source
/// Leonard, Mitchner & Self 1980, Atmos. Environ. 14:1289.
///
/// # Validity
/// Exact for its model; computed to 1e-9 relative for every Pe and De whose P is an `f64`.
///
/// # Errors
/// A negative argument or one that is not a number.
///
/// ```
/// let escaped = ashlane_shared::physics::efficiency::penetration(10.0, 2.0)?;
/// assert!((escaped / 9.636164e-3 - 1.0).abs() < 1e-6);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn penetration(peclet: f64, deutsch: f64) -> Result<f64, PhysicsError> {
    require(peclet >= 0.0, "peclet", peclet, "0 or more")?;
    require(deutsch >= 0.0, "deutsch", deutsch, "0 or more")?;
    let (perfect, none) = (limits::deutsch(deutsch), limits::laminar(deutsch));
    if peclet < PERFECT_MIXING_PECLET || deutsch <= 0.0 || perfect <= 0.0 {
        return Ok(perfect);
    }
    if peclet > NO_MIXING_PECLET {
        return Ok(none);
    }
    let exact = if deutsch > SPREAD_TIME * peclet {
        series::penetration(peclet, deutsch)
    } else {
        inversion::penetration(peclet, deutsch)
    };
    // Both bounds hold exactly; rounding must not break them.
    Ok(exact.clamp(none, perfect))
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use super::*;
    use crate::physics::complex::Complex;
    use crate::physics::quadrature::gauss_legendre;
    use proptest::prelude::*;

    fn exact(peclet: f64, deutsch: f64) -> f64 {
        penetration(peclet, deutsch).expect("arguments in range")
    }

    /// Laplace transform of P − (1−De), as the specification prints it, inverted by Euler summation (Abate & Whitt
    /// 1995): a third road, with nothing in common with the other two but the transform.
    fn euler(peclet: f64, deutsch: f64, terms: usize) -> f64 {
        let h = 0.5 * peclet;
        let transform = |p: Complex| {
            let r = square_root(Complex::from(h * h) + Complex::from(peclet) * p);
            let hr = Complex::from(h) - r;
            let plus = Complex::from(h) + r;
            let below = plus * plus - hr * hr * (Complex::from(-2.0) * r).exp();
            Complex::from(2.0 * peclet) * r * hr.exp() / (p * p * below)
        };
        let start = 23.0;
        let term = |k: usize| {
            let p = Complex::new(start / (2.0 * deutsch), k as f64 * PI / deutsch);
            let sign = if k.is_multiple_of(2) { 1.0 } else { -1.0 };
            sign * transform(p).real
        };
        let mut sum = 0.5 * term(0);
        let mut average = 0.0;
        let (mut binomial, order) = (1.0, 15);
        for k in 1..=terms + order {
            sum += term(k);
            if k >= terms {
                let index = (k - terms) as f64;
                average += binomial * sum;
                binomial *= (order as f64 - index) / (index + 1.0);
            }
        }
        (1.0 - deutsch) + (0.5 * start).exp() / deutsch * average / 2.0_f64.powi(order as i32)
    }

    fn square_root(z: Complex) -> Complex {
        let size = z.real.hypot(z.imaginary);
        let real = (0.5 * (size + z.real)).sqrt();
        Complex::new(real, 0.5 * z.imaginary / real)
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(400))]

        #[test]
        fn inversion_and_full_series_agree(log_peclet in -3.0..1.47_f64, ratio in 0.05..0.3_f64) {
            let peclet = 10_f64.powf(log_peclet);
            let deutsch = ratio * peclet;
            let (by_line, by_series) =
                (inversion::penetration(peclet, deutsch), series::penetration(peclet, deutsch));
            prop_assert!((by_line / by_series - 1.0).abs() < 1e-9, "{} {}", by_line, by_series);
        }

        #[test]
        fn euler_summation_agrees_where_it_holds(log_peclet in -1.0..4.0_f64, deutsch in 0.1..1.3_f64) {
            let peclet = 10_f64.powf(log_peclet);
            let (got, other) = (exact(peclet, deutsch), euler(peclet, deutsch, 1500));
            // Euler summation has 1e-9 absolute here; the front at De = 1 is 1/√Pe thin.
            prop_assert!((got - other).abs() < 3e-9, "{} {} at {} {}", got, other, peclet, deutsch);
        }

        #[test]
        fn it_lies_between_laminar_and_deutsch(log_peclet in -14.0..22.0_f64, log_deutsch in -12.0..3.0_f64) {
            let (peclet, deutsch) = (10_f64.powf(log_peclet), 10_f64.powf(log_deutsch));
            let got = exact(peclet, deutsch);
            prop_assert!(got <= (-deutsch).exp() && got >= 0.0_f64.max(1.0 - deutsch), "{}", got);
        }

        #[test]
        fn it_falls_with_deutsch_and_with_peclet(log_peclet in -4.0..7.0_f64, deutsch in 0.0..8.0_f64) {
            let peclet = 10_f64.powf(log_peclet);
            let here = exact(peclet, deutsch);
            let slack = 1e-9 * here;
            prop_assert!(exact(peclet, deutsch + 1e-3) <= here + slack);
            prop_assert!(exact(peclet * 1.02, deutsch) <= here + slack);
        }
    }

    #[test]
    fn the_integral_over_deutsch_is_known() {
        // ∫P dDe = ½[1 + 2/Pe − 2(1−e^(−Pe))/Pe²], exact.
        for peclet in [0.01, 0.3, 1.0, 3.0, 10.0, 29.0, 31.0, 100.0, 1e3, 1e4, 1e6] {
            let wide = 1.0 + 8.0 / f64::sqrt(peclet);
            let mut edges = vec![0.0];
            edges.extend((1..=60).map(|k| wide * f64::from(k) / 60.0));
            edges.extend((1..=20).map(|k| wide + 2.0 * f64::from(k)));
            let sum: f64 = edges
                .windows(2)
                .flat_map(|pair| gauss_legendre(12, pair[0], pair[1]))
                .map(|(deutsch, weight)| weight * exact(peclet, deutsch))
                .sum();
            let known = 0.5 * (1.0 + 2.0 / peclet + 2.0 * (-peclet).exp_m1() / (peclet * peclet));
            assert!(
                (sum / known - 1.0).abs() < 1e-7,
                "{sum} not {known} at Pe = {peclet}"
            );
        }
    }

    #[test]
    fn the_first_dust_is_lost_at_the_plate_undiluted() {
        for peclet in [0.01, 1.0, 30.0, 1e4] {
            let deutsch = 1e-6 * f64::min(peclet, 1.0);
            let slope = (exact(peclet, deutsch) - 1.0) / deutsch;
            assert!((slope + 1.0).abs() < 1e-4, "{slope} at Pe = {peclet}");
        }
    }

    #[test]
    fn the_limits_are_met() {
        for deutsch in [0.0, 0.2, 1.0, 5.0, 50.0] {
            assert!(
                (exact(0.0, deutsch) - limits::deutsch(deutsch)).abs() < 1e-15,
                "Pe = 0"
            );
            assert!(
                (exact(1e-9, deutsch) / limits::deutsch(deutsch) - 1.0).abs() < 1e-6,
                "small Pe"
            );
            assert!(
                (exact(f64::INFINITY, deutsch) - limits::laminar(deutsch)).abs() < 1e-15,
                "Pe = ∞"
            );
            assert!(
                (exact(1e12, deutsch) - limits::laminar(deutsch)).abs() < 1e-6,
                "large Pe"
            );
        }
        assert!(
            exact(3.0, f64::INFINITY).abs() < 1e-300,
            "endless collector"
        );
    }

    #[test]
    fn the_two_forms_join_without_a_step() {
        for peclet in [0.02, 1.0, 7.0, 40.0] {
            let join = SPREAD_TIME * peclet;
            let (before, after) = (
                exact(peclet, join * (1.0 - 1e-12)),
                exact(peclet, join * (1.0 + 1e-12)),
            );
            assert!(
                (before / after - 1.0).abs() < 1e-9,
                "{before} {after} at Pe = {peclet}"
            );
        }
    }

    #[test]
    fn nonsense_is_refused() {
        for (peclet, deutsch) in [(-1.0, 1.0), (1.0, -1.0), (f64::NAN, 1.0), (1.0, f64::NAN)] {
            assert!(penetration(peclet, deutsch).is_err(), "{peclet} {deutsch}");
        }
    }
}
