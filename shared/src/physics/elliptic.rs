//! The inverse of Jacobi's sine amplitude for complex arguments, by Carlson's symmetric integral.
//!
//! `sn⁻¹(t, k) = ∫₀^t dτ/√((1−τ²)(1−k²τ²)) = t R_F(1−t², 1−k²t², 1)`

use super::complex::Complex;

/// `sn⁻¹(t, k)` for t in the first quadrant: the real part lies in 0…K, the imaginary part in 0…K'.
///
/// # Arguments
/// * `sine` – t, real and imaginary part 0 or more.
/// * `modulus` – k, 0 to 1.
///
/// # Source
/// Carlson 1995, *Numerical computation of real or complex elliptic integrals*, Numer. Algorithms 10:13.
///
/// # Validity
/// Relative error 1e-12; on the real axis beyond 1 the value above the cut.
pub(crate) fn inverse_sine_amplitude(sine: Complex, modulus: f64) -> Complex {
    let one = Complex::from(1.0);
    // Above the cut on the real axis: the squares' imaginary parts are then −0.
    let mut square = sine * sine;
    square.imaginary = square.imaginary.max(0.0);
    let k_square = Complex::from(modulus * modulus);
    sine * symmetric_integral(
        conjugate_side(one - square),
        conjugate_side(one - k_square * square),
        one,
    )
}

/// The same number with a negative zero as its imaginary part where that is zero.
fn conjugate_side(value: Complex) -> Complex {
    Complex::new(value.real, -value.imaginary.abs())
}

/// Carlson's `R_F` by duplication, then the fifth-order series.
fn symmetric_integral(x: Complex, y: Complex, z: Complex) -> Complex {
    let (mut x, mut y, mut z) = (x, y, z);
    let third = Complex::from(1.0 / 3.0);
    for _ in 0..40 {
        let mean = (x + y + z) * third;
        let spread = [x, y, z]
            .into_iter()
            .map(|value| (mean - value).size() / mean.size())
            .fold(0.0, f64::max);
        if spread < 3e-3 {
            break;
        }
        let (rx, ry, rz) = (x.sqrt(), y.sqrt(), z.sqrt());
        let lambda = rx * ry + rx * rz + ry * rz;
        let quarter = Complex::from(0.25);
        (x, y, z) = (
            (x + lambda) * quarter,
            (y + lambda) * quarter,
            (z + lambda) * quarter,
        );
    }
    let mean = (x + y + z) * third;
    let one = Complex::from(1.0);
    let (a, b) = (one - x / mean, one - y / mean);
    let c = Complex::from(-1.0) * (a + b);
    let (second, product) = (a * b - c * c, a * b * c);
    let series = one - second * Complex::from(0.1)
        + product * Complex::from(1.0 / 14.0)
        + second * second * Complex::from(1.0 / 24.0)
        - second * product * Complex::from(3.0 / 44.0);
    series / mean.sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn without_modulus_it_is_the_arc_sine() {
        let value = inverse_sine_amplitude(Complex::from(0.5), 0.0);
        assert!(
            (value.real - std::f64::consts::FRAC_PI_6).abs() < 1e-12,
            "{value:?}"
        );
        // arcsin(2) = π/2 + i ln(2 + √3), above the cut.
        let beyond = inverse_sine_amplitude(Complex::from(2.0), 0.0);
        assert!(
            (beyond.real - std::f64::consts::FRAC_PI_2).abs() < 1e-9
                && (beyond.imaginary - (2.0 + 3f64.sqrt()).ln()).abs() < 1e-9,
            "{beyond:?}"
        );
    }

    #[test]
    fn at_one_it_is_the_complete_integral() {
        // From memory of Abramowitz & Stegun, table 17.1: K(k² = 0.5) = 1.854074677301372.
        let value = inverse_sine_amplitude(Complex::from(1.0), 0.5_f64.sqrt());
        assert!(
            (value.real - 1.854_074_677_301_372).abs() < 1e-9,
            "{value:?}"
        );
    }
}
