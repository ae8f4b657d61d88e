//! Where a place between wires and plates lies in the stretched rectangle, and back.
//!
//! `ζ = ln(θ₁/θ₄)(πz/c, q) = −p + iψ`, `dζ/dz = (π/c)(θ₁′/θ₁ − θ₄′/θ₄)`

use std::f64::consts::PI;

use super::WireRow;
use crate::physics::{complex::Complex, elliptic::inverse_sine_amplitude};

/// A place, seen in the rectangle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Image {
    /// Potential without space charge in units of `λ'/(2πε₀)`, 0 on the plates.
    pub p: f64,
    /// Angle around the wire, 0 on the wire plane to π/2 on the line from the wire to the plate.
    pub psi: f64,
    /// `dζ/dz`, real and imaginary part, 1/m.
    pub slope: (f64, f64),
    /// 1 or −1: side of the wire along the gas, and of the wire plane.
    pub sides: (f64, f64),
}

/// Terms of the theta series: enough for gaps of a tenth of the pitch.
const TERMS: i32 = 8;

impl WireRow {
    /// Where a place lies in the rectangle.
    ///
    /// # Arguments
    /// * `x_m` – distance along the gas from a wire, m, any.
    /// * `y_m` – distance from the wire plane, m, any; beyond a plate the plate itself, inside a wire its surface.
    ///
    /// # Source
    /// Whittaker & Watson 1927, ch. 21.
    ///
    /// # Validity
    /// Thin wires.
    #[must_use]
    pub fn image(&self, x_m: f64, y_m: f64) -> Image {
        let from_wire_m = x_m - self.pitch_m() * (x_m / self.pitch_m()).round();
        let sides = (1.0_f64.copysign(from_wire_m), 1.0_f64.copysign(y_m));
        let (mut x, mut y) = (from_wire_m.abs(), y_m.abs().min(self.gap_m()));
        let distance_m = x.hypot(y);
        let radius_m = self.wire_radius_m();
        if distance_m < radius_m {
            // From the axis itself straight towards the plate.
            (x, y) = if distance_m > 0.0 {
                (x * radius_m / distance_m, y * radius_m / distance_m)
            } else {
                (0.0, radius_m)
            };
        }
        let wave = PI / self.pitch_m();
        let thetas = Thetas::new(Complex::new(wave * x, wave * y), self.jacobi().nome);
        let ratio = thetas.first / thetas.fourth;
        let slope = thetas.first_slope / thetas.first - thetas.fourth_slope / thetas.fourth;
        Image {
            p: (-ratio.size().ln()).clamp(0.0, self.log_ratio()),
            psi: ratio
                .imaginary
                .atan2(ratio.real)
                .clamp(0.0, std::f64::consts::FRAC_PI_2),
            slope: (wave * slope.real, wave * slope.imaginary),
            sides,
        }
    }

    /// Where a point of the rectangle lies: x along the gas from the wire and y from the wire plane, m.
    ///
    /// `z = (c/2K) sn⁻¹(t, k)`, `t = e^(−p+iψ)/√k`
    ///
    /// # Arguments
    /// * `p` – potential without space charge, in units of `λ'/(2πε₀)`, 0 to `ln(d_eff/r_w)`.
    /// * `psi` – angle around the wire from the wire plane, 0 to π/2.
    ///
    /// # Source
    /// Whittaker & Watson 1927, ch. 22; the elliptic integral by Carlson 1995, Numer. Algorithms 10:13.
    ///
    /// # Validity
    /// Thin wires.
    #[must_use]
    pub fn place_m(&self, p: f64, psi: f64) -> (f64, f64) {
        let jacobi = self.jacobi();
        let sine = Complex::new(-p, psi).exp() * Complex::from(1.0 / jacobi.modulus.sqrt());
        let turns = inverse_sine_amplitude(sine, jacobi.modulus);
        let scale_m = self.pitch_m() / (2.0 * jacobi.complete_integral);
        (
            (scale_m * turns.real).clamp(0.0, 0.5 * self.pitch_m()),
            (scale_m * turns.imaginary).clamp(0.0, self.gap_m()),
        )
    }
}

/// θ₁ and θ₄ with their slopes.
struct Thetas {
    first: Complex,
    first_slope: Complex,
    fourth: Complex,
    fourth_slope: Complex,
}

impl Thetas {
    /// `θ₁ = 2Σ(−1)ⁿ q^((n+½)²) sin((2n+1)v)`, `θ₄ = 1 + 2Σ(−1)ⁿ q^(n²) cos(2nv)`
    fn new(v: Complex, nome: f64) -> Self {
        let turn = Complex::new(-v.imaginary, v.real).exp();
        let back = Complex::from(1.0) / turn;
        let (turn_square, back_square) = (turn * turn, back * back);
        // e^{±i k v} for k = 1, 3, 5, … and 2, 4, 6, …
        let (mut odd, mut odd_back) = (turn, back);
        let (mut even, mut even_back) = (turn_square, back_square);
        let mut thetas = Self {
            first: Complex::from(0.0),
            first_slope: Complex::from(0.0),
            fourth: Complex::from(1.0),
            fourth_slope: Complex::from(0.0),
        };
        let mut sign = 1.0;
        for n in 0..TERMS {
            let order = f64::from(n);
            let weight = sign * nome.powf((order + 0.5) * (order + 0.5));
            // 2 sin kv = −i(e^{ikv} − e^{−ikv}), its slope is k(e^{ikv} + e^{−ikv}).
            let sine = Complex::new(0.0, -1.0) * (odd - odd_back);
            thetas.first = thetas.first + sine * Complex::from(weight);
            thetas.first_slope =
                thetas.first_slope + (odd + odd_back) * Complex::from(weight * (2.0 * order + 1.0));
            sign = -sign;
            let weight = sign * nome.powi((n + 1) * (n + 1));
            let sine = Complex::new(0.0, -1.0) * (even - even_back);
            thetas.fourth = thetas.fourth + (even + even_back) * Complex::from(weight);
            thetas.fourth_slope =
                thetas.fourth_slope - sine * Complex::from(weight * 2.0 * (order + 1.0));
            (odd, odd_back) = (odd * turn_square, odd_back * back_square);
            (even, even_back) = (even * turn_square, even_back * back_square);
        }
        thetas
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn image_and_place_undo_each_other_and_agree_with_the_image_rows() {
        for ratio in [0.2, 0.6, 1.0, 3.0] {
            let row = WireRow::new(0.15, 0.15 / ratio, 1.35e-3).expect("a row");
            for (u, v) in [
                (0.1, 0.02),
                (0.02, 0.3),
                (0.9, 0.1),
                (0.5, 0.5),
                (0.97, 0.95),
            ] {
                let (x_m, y_m) = (u * 0.5 * row.pitch_m(), v * row.gap_m());
                let image = row.image(x_m, y_m);
                let exact = row.line_potential(x_m, y_m);
                assert!(
                    (image.p - exact).abs() < 1e-9 * exact.max(1.0),
                    "{ratio}: {exact}"
                );
                let (along, across) = row.line_field(x_m, y_m);
                let scale = along.hypot(across);
                assert!(
                    (image.slope.0 - along).abs() < 1e-9 * scale
                        && (image.slope.1 + across).abs() < 1e-9 * scale,
                    "{ratio}, {u}, {v}: {:?}, {along}, {across}",
                    image.slope
                );
                let (back_x_m, back_y_m) = row.place_m(image.p, image.psi);
                assert!(
                    (back_x_m - x_m).abs() < 1e-7 * row.pitch_m()
                        && (back_y_m - y_m).abs() < 1e-7 * row.pitch_m(),
                    "{ratio}: {x_m}, {y_m} came back as {back_x_m}, {back_y_m}"
                );
            }
        }
    }

    #[test]
    fn sides_are_told_apart() {
        let row = WireRow::new(0.15, 0.25, 1.35e-3).expect("a row");
        let image = row.image(0.25 - 0.04, -0.05);
        let mirror = row.image(0.04, 0.05);
        assert_eq!(image.sides, (-1.0, -1.0));
        assert!((image.p - mirror.p).abs() < 1e-12 && (image.psi - mirror.psi).abs() < 1e-12);
    }
}
