//! Penetration while the dust is still a moving front: the Laplace transform inverted along a line on which it is
//! nothing but a bell curve.
//!
//! With p the variable of De and `r = √(h²+Pe·p) = hρ`, `h = Pe/2`, the transform of `P − (1−De)` is
//! `2Pe·r·e^(h−r)/[p²((h+r)²−(h−r)²e^(−2r))]`. Written in ρ, the exponent `p·De + h − r` is the exact square
//! `κ[(ρ−1/De)² − (1−1/De)²]`, `κ = Pe·De/4`, so on a vertical line the integrand is a Gaussian times a slow factor:
//! `P = (1−De) + (1/2πi)∫ e^{κ[(ρ−1/De)²−(1−1/De)²]}·16ρ²/{h(ρ²−1)²[(1+ρ)²−(1−ρ)²e^(−2hρ)]} dρ`.
//! Left of the double pole ρ = 1, whose residue is −(1−De), the first term is missing.

use std::f64::consts::PI;

use crate::physics::complex::Complex;

/// `e^` of this is the error the sum of equidistant points may leave, before the growth within the strip.
const STRIP_DEPTH: f64 = 34.0;
/// The Gaussian is cut off at `e^` of minus this.
const GAUSS_DEPTH: f64 = 33.0;
/// Exponents below this are zero in an `f64`.
const UNDERFLOW: f64 = -740.0;

/// The contour integral by the trapezoidal rule, which converges geometrically here (20 to 70 points).
///
/// For `0 < De ≤ 0.3·Pe`; relative error about 1e-12.
pub(super) fn penetration(peclet: f64, deutsch: f64) -> f64 {
    let saddle_depth = -peclet * (deutsch - 1.0) * (deutsch - 1.0) / (4.0 * deutsch);
    let left_of_pole = deutsch > 1.0;
    let straight = if left_of_pole { 0.0 } else { 1.0 - deutsch };
    if saddle_depth < UNDERFLOW {
        return straight;
    }
    let line = Line::beside_the_pole(peclet, deutsch, left_of_pole);
    straight + line.integral(saddle_depth)
}

/// The vertical line ρ = `position` + it.
struct Line {
    half_peclet: f64,
    kappa: f64,
    position: f64,
    /// Distance from the saddle of the Gaussian.
    offset: f64,
    step: f64,
    points: usize,
}

impl Line {
    /// Through the saddle ρ = 1/De where possible, but one width of the Gaussian away from the pole at 1 and from the
    /// eigenvalues on the imaginary axis.
    fn beside_the_pole(peclet: f64, deutsch: f64, left_of_pole: bool) -> Self {
        let kappa = 0.25 * peclet * deutsch;
        let width = 1.0 / kappa.sqrt();
        let saddle = 1.0 / deutsch;
        let position = if left_of_pole {
            saddle.clamp(width.min(0.5), (1.0 - width).max(0.5))
        } else {
            saddle.max(1.0 + width)
        };
        let clear = position.min((position - 1.0).abs()).min(2.0 * width);
        let step = 2.0 * PI * clear / STRIP_DEPTH;
        Self {
            half_peclet: 0.5 * peclet,
            kappa,
            position,
            offset: position - saddle,
            step,
            points: (GAUSS_DEPTH.sqrt() * width / step).ceil() as usize,
        }
    }

    fn integral(&self, saddle_depth: f64) -> f64 {
        let half_middle = 0.5 * self.integrand(0.0, saddle_depth);
        let sides: f64 = (1..=self.points)
            .map(|k| self.integrand(k as f64 * self.step, saddle_depth))
            .sum();
        (half_middle + sides) * self.step / PI
    }

    /// Real part of the integrand at height t; the imaginary part cancels against −t.
    fn integrand(&self, t: f64, saddle_depth: f64) -> f64 {
        let one = Complex::from(1.0);
        let rho = Complex::new(self.position, t);
        let (minus, plus) = (rho - one, rho + one);
        let exponent = Complex::new(
            saddle_depth + self.kappa * (self.offset * self.offset - t * t),
            2.0 * self.kappa * self.offset * t,
        );
        let echo = (Complex::from(-2.0 * self.half_peclet) * rho).exp();
        let gap = plus * plus - minus * minus * echo;
        let slow = rho / (minus * plus);
        (Complex::from(16.0 / self.half_peclet) * exponent.exp() * slow * slow / gap).real
    }
}
