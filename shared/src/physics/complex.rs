//! The few operations on complex numbers that one contour integral needs.

use std::ops::{Add, Div, Mul, Sub};

/// A complex number.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Complex {
    pub(crate) real: f64,
    pub(crate) imaginary: f64,
}

impl Complex {
    pub(crate) const fn new(real: f64, imaginary: f64) -> Self {
        Self { real, imaginary }
    }

    pub(crate) fn exp(self) -> Self {
        let size = self.real.exp();
        let (sine, cosine) = self.imaginary.sin_cos();
        Self::new(size * cosine, size * sine)
    }

    /// Absolute value.
    pub(crate) fn size(self) -> f64 {
        self.real.hypot(self.imaginary)
    }

    /// The root in the right half plane, with the sign of the imaginary part (also of a zero one).
    pub(crate) fn sqrt(self) -> Self {
        let size = self.size();
        let real = (0.5 * (size + self.real)).max(0.0).sqrt();
        let imaginary = (0.5 * (size - self.real)).max(0.0).sqrt();
        Self::new(real, imaginary.copysign(self.imaginary))
    }
}

impl From<f64> for Complex {
    fn from(real: f64) -> Self {
        Self::new(real, 0.0)
    }
}

impl Add for Complex {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.real + other.real, self.imaginary + other.imaginary)
    }
}

impl Sub for Complex {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.real - other.real, self.imaginary - other.imaginary)
    }
}

impl Mul for Complex {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self::new(
            self.real * other.real - self.imaginary * other.imaginary,
            self.real * other.imaginary + self.imaginary * other.real,
        )
    }
}

impl Div for Complex {
    type Output = Self;
    fn div(self, other: Self) -> Self {
        let square = other.real * other.real + other.imaginary * other.imaginary;
        let product = self * Self::new(other.real, -other.imaginary);
        Self::new(product.real / square, product.imaginary / square)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn division_undoes_multiplication() {
        let (a, b) = (Complex::new(1.5, -2.0), Complex::new(-0.25, 3.0));
        let back = a * b / b;
        assert!(
            (back.real - a.real).abs() < 1e-15 && (back.imaginary - a.imaginary).abs() < 1e-15,
            "{back:?}"
        );
    }

    #[test]
    fn euler_was_right() {
        let minus_one = Complex::new(0.0, std::f64::consts::PI).exp() + Complex::from(1.0);
        assert!(
            minus_one.real.abs() < 1e-15 && minus_one.imaginary.abs() < 1e-15,
            "{minus_one:?}"
        );
    }
}
