//! The field of a row of wires between two grounded plates before any charge is in the gas.
//!
//! In units of `λ'/(2πε₀)`, λ' the line charge, with wires at (mc, 0) and plates at y = ±s:
//! `φ = (π/c)(s−|y|) − ½ Σₖ (−1)^k ln(1 + e^(−2aₖ) − 2e^(−aₖ) cos(2πx/c))`, `aₖ = 2π|y−2ks|/c`,
//! and the wire stands at `V = λ'/(2πε₀)·ln(d_eff/r_w)`, `d_eff = c/(π θ₂ θ₃)`, nome `q = e^(−4πs/c)`.

use std::f64::consts::PI;

use super::Jacobi;
use crate::physics::PhysicsError;
use crate::physics::error::{positive, require};

/// Image rows are added until the rest is below `e^(−IMAGE_DEPTH)`, the rounding of an `f64`.
const IMAGE_DEPTH: f64 = 37.0;

/// A row of parallel wires midway between two grounded plates.
#[derive(Clone, Debug, PartialEq)]
pub struct WireRow {
    gap_m: f64,
    pitch_m: f64,
    wire_radius_m: f64,
    nome: f64,
    image_rows: i32,
    jacobi: Jacobi,
    log_ratio: f64,
}

impl WireRow {
    /// A wire row from its three lengths.
    ///
    /// # Arguments
    /// * `gap_m` – distance s from wire to plate (half the plate spacing), m, 0.1 to 10 times the pitch.
    /// * `pitch_m` – distance c from wire to wire, m, above 0.
    /// * `wire_radius_m` – radius `r_w` of a wire, m, at most a fifth of gap and pitch.
    ///
    /// # Source
    /// Thin-wire limit of White 1963, ch. 4; the theta form of `d_eff` is computed (see [`Self::effective_radius_m`]).
    ///
    /// # Validity
    /// Exact for thin wires; the relative error is of the order (`r_w/s)²`.
    ///
    /// # Errors
    /// A length outside its range.
    ///
    /// ```
    /// use ashlane_shared::physics::corona::WireRow;
    /// let row = WireRow::new(0.115, 0.15, 1.365e-3)?;
    /// assert!((row.potential(0.075, 0.0) - 0.3255274).abs() < 1e-6);
    /// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
    /// ```
    pub fn new(gap_m: f64, pitch_m: f64, wire_radius_m: f64) -> Result<Self, PhysicsError> {
        positive("gap_m", gap_m)?;
        positive("pitch_m", pitch_m)?;
        positive("wire_radius_m", wire_radius_m)?;
        let ratio = gap_m / pitch_m;
        require(
            (0.1..=10.0).contains(&ratio),
            "gap_m/pitch_m",
            ratio,
            "0.1 to 10",
        )?;
        let widest_m = 0.2 * gap_m.min(pitch_m);
        require(
            wire_radius_m <= widest_m,
            "wire_radius_m",
            wire_radius_m,
            "at most a fifth of the gap and of the pitch",
        )?;
        let jacobi = Jacobi::of_row(ratio);
        let effective_radius_m = pitch_m / (PI * jacobi.theta_2 * jacobi.theta_3);
        Ok(Self {
            gap_m,
            pitch_m,
            wire_radius_m,
            nome: jacobi.nome,
            // The row k reaches the plate as e^(−2π(2k−1)s/c).
            image_rows: (0.5 * (IMAGE_DEPTH / (2.0 * PI * ratio) + 1.0)).ceil() as i32,
            jacobi,
            log_ratio: (effective_radius_m / wire_radius_m).ln(),
        })
    }

    /// Distance s from wire to plate, m.
    #[must_use]
    pub fn gap_m(&self) -> f64 {
        self.gap_m
    }

    /// Distance c from wire to wire, m.
    #[must_use]
    pub fn pitch_m(&self) -> f64 {
        self.pitch_m
    }

    /// Radius `r_w` of a wire, m.
    #[must_use]
    pub fn wire_radius_m(&self) -> f64 {
        self.wire_radius_m
    }

    /// Constants of the conformal map of the quarter cell.
    #[must_use]
    pub fn jacobi(&self) -> Jacobi {
        self.jacobi
    }

    /// Radius of the tube in which one wire would need the same voltage for the same line charge, m.
    ///
    /// `d_eff = c/(π θ₂(0,q) θ₃(0,q))`
    ///
    /// # Source
    /// Computed from `φ = −ln|θ₁/θ₄|` near the wire. The textbook `4s/π` is 17 % low at s/c = 0.5.
    ///
    /// # Validity
    /// Thin wires.
    #[must_use]
    pub fn effective_radius_m(&self) -> f64 {
        self.wire_radius_m * self.log_ratio.exp()
    }

    /// `ln(d_eff/r_w)`: voltage of the wire in units of `λ'/(2πε₀)`.
    ///
    /// # Source
    /// Definition.
    ///
    /// # Validity
    /// Thin wires.
    #[must_use]
    pub fn log_ratio(&self) -> f64 {
        self.log_ratio
    }

    /// Potential at a point, in units of `λ'/(2πε₀)`.
    ///
    /// Equation: the file's first lines.
    ///
    /// # Arguments
    /// * `x_m` – distance along the gas from a wire, m, any.
    /// * `y_m` – distance from the wire plane, m, −s to s; 0 is returned beyond the plates.
    ///
    /// # Source
    /// Image rows, computed; equals Cooperman's series in White 1963, ch. 4.
    ///
    /// # Validity
    /// Thin wires; inside the metal of a wire the wire's own potential is returned.
    #[must_use]
    pub fn line_potential(&self, x_m: f64, y_m: f64) -> f64 {
        let height_m = y_m.abs();
        if height_m >= self.gap_m {
            return 0.0;
        }
        if self.is_inside_wire(x_m, y_m) {
            return self.log_ratio;
        }
        // One logarithm of the product of all rows instead of a sum of logarithms.
        let mut product = 1.0;
        self.each_image_row(x_m, height_m, |row| {
            if row.even {
                product *= row.distance;
            } else {
                product /= row.distance;
            }
        });
        PI / self.pitch_m * (self.gap_m - height_m) - 0.5 * product.ln()
    }

    /// Field components (`E_x`, `E_y`) at a point, 1/m, in units of `λ'/(2πε₀)`: the downhill slope of
    /// [`Self::line_potential`], differentiated term by term.
    ///
    /// # Arguments
    /// * `x_m` – distance along the gas from a wire, m, any.
    /// * `y_m` – distance from the wire plane, m, −s to s.
    ///
    /// # Source
    /// Gradient of the image-row form, computed.
    ///
    /// # Validity
    /// Thin wires; zero inside the metal of a wire, the plate's own value beyond a plate.
    #[must_use]
    pub fn line_field(&self, x_m: f64, y_m: f64) -> (f64, f64) {
        if self.is_inside_wire(x_m, y_m) {
            return (0.0, 0.0);
        }
        let wave = 2.0 * PI / self.pitch_m;
        let (mut along, mut across) = (0.0, PI / self.pitch_m);
        let (sine_double, sine_squared) = {
            let (sine, cosine) = (0.5 * wave * x_m).sin_cos();
            (2.0 * sine * cosine, sine * sine)
        };
        self.each_image_row(x_m, y_m.abs().min(self.gap_m), |row| {
            let sign = if row.even { 0.5 } else { -0.5 };
            let decay = row.decay;
            along += sign * 2.0 * decay * wave * sine_double / row.distance;
            let slope = decay * (4.0 * sine_squared - 2.0 * row.one_less_decay);
            across += sign * row.rising * wave * slope / row.distance;
        });
        (along, if y_m < 0.0 { -across } else { across })
    }

    /// Potential at a point for one volt on the wires.
    ///
    /// `φ/V`, the value of [`Self::line_potential`] over `ln(d_eff/r_w)`
    ///
    /// # Arguments
    /// * `x_m` – distance along the gas from a wire, m, any.
    /// * `y_m` – distance from the wire plane, m, −s to s.
    ///
    /// # Source
    /// As [`Self::line_potential`].
    ///
    /// # Validity
    /// As [`Self::line_potential`].
    #[must_use]
    pub fn potential(&self, x_m: f64, y_m: f64) -> f64 {
        self.line_potential(x_m, y_m) / self.log_ratio
    }

    /// Field components (`E_x`, `E_y`) at a point for one volt on the wires, 1/m.
    ///
    /// `E/V`, the value of [`Self::line_field`] over `ln(d_eff/r_w)`
    ///
    /// # Arguments
    /// * `x_m` – distance along the gas from a wire, m, any.
    /// * `y_m` – distance from the wire plane, m, −s to s.
    ///
    /// # Source
    /// As [`Self::line_field`].
    ///
    /// # Validity
    /// As [`Self::line_field`].
    #[must_use]
    pub fn field_per_volt_1_m(&self, x_m: f64, y_m: f64) -> (f64, f64) {
        let (along, across) = self.line_field(x_m, y_m);
        (along / self.log_ratio, across / self.log_ratio)
    }

    /// Mean of `E_y` over one pitch for one volt on the wires, 1/m; the same at every height above the wires.
    ///
    /// `Ē_y/V = π/(c ln(d_eff/r_w))`
    ///
    /// # Source
    /// Gauss's law over one pitch: half of the line charge ends on each plate.
    ///
    /// # Validity
    /// Exact without space charge.
    #[must_use]
    pub fn mean_field_per_volt_1_m(&self) -> f64 {
        PI / (self.pitch_m * self.log_ratio)
    }

    fn is_inside_wire(&self, x_m: f64, y_m: f64) -> bool {
        let to_wire_m = x_m - self.pitch_m * (x_m / self.pitch_m).round();
        to_wire_m.hypot(y_m) < self.wire_radius_m
    }

    /// Calls `visit` for the wire row itself and its images in both plates, at height y ≥ 0.
    fn each_image_row(&self, x_m: f64, height_m: f64, mut visit: impl FnMut(ImageRow)) {
        let wave = 2.0 * PI / self.pitch_m;
        let sine = (0.5 * wave * x_m).sin();
        let falling = (-wave * height_m).exp();
        let rising = 1.0 / falling;
        let mut row = |k: i32, decay: f64, one_less_decay: f64, direction: f64| {
            // 1 + g² − 2g cos 2α = (1−g)² + 4g sin²α keeps its digits next to a wire.
            let distance = one_less_decay * one_less_decay + 4.0 * decay * sine * sine;
            visit(ImageRow {
                even: k % 2 == 0,
                decay,
                one_less_decay,
                distance,
                rising: direction,
            });
        };
        row(0, falling, -(-wave * height_m).exp_m1(), -1.0);
        let mut nome_power = 1.0;
        for k in 1..=self.image_rows {
            nome_power *= self.nome;
            let (below, above) = (nome_power * falling, nome_power * rising);
            row(k, below, 1.0 - below, -1.0);
            row(k, above, 1.0 - above, 1.0);
        }
    }
}

/// One row of image wires seen from a point.
struct ImageRow {
    /// Whether the row has the sign of the real wires.
    even: bool,
    /// g = e^(−aₖ).
    decay: f64,
    /// 1 − g, computed so that it keeps its digits next to the wire.
    one_less_decay: f64,
    /// 1 + g² − 2g cos(2πx/c).
    distance: f64,
    /// +1 if g grows with y, −1 if it falls.
    rising: f64,
}

mod image;

pub use image::Image;

#[cfg(test)]
mod tests;
