//! The constants with which the cell between two wires and a plate is stretched into a plain rectangle.
//!
//! `q = e^(−4πs/c)`, `θ₂ = 2 Σ q^((n+½)²)`, `θ₃ = 1 + 2 Σ q^(n²)`, `k = (θ₂/θ₃)²`, `K = πθ₃²/2`

use std::f64::consts::PI;

/// Constants of the elliptic functions that map the quarter cell (wire to mid-wire, wire plane to plate) onto the
/// rectangle `p ∈ [0, ln(d_eff/r_w)]`, `ψ ∈ [0, π/2]`.
///
/// `ζ = p + iψ`-form of the map: `ζ = ln(θ₁/θ₄)`, `|dz/dζ|² = (c/2K)² |t|²/|(1−t²)(1−k²t²)|`, `t = e^(−p+iψ)/√k`.
///
/// # Source
/// Whittaker & Watson 1927, *A Course of Modern Analysis*, ch. 21; the numbers are computed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Jacobi {
    /// Nome q = e^(−4πs/c).
    pub nome: f64,
    /// θ₂(0, q).
    pub theta_2: f64,
    /// θ₃(0, q).
    pub theta_3: f64,
    /// Modulus k = (θ₂/θ₃)².
    pub modulus: f64,
    /// Complete elliptic integral K = πθ₃²/2.
    pub complete_integral: f64,
}

impl Jacobi {
    /// The constants that belong to a row of wires.
    ///
    /// # Arguments
    /// * `gap_over_pitch` – s/c, 0.1 or more: ten terms of the series then reach 1e-16.
    ///
    /// # Source
    /// Whittaker & Watson 1927, ch. 21.
    ///
    /// # Validity
    /// Thin wires.
    #[must_use]
    pub fn of_row(gap_over_pitch: f64) -> Self {
        let nome = (-4.0 * PI * gap_over_pitch).exp();
        let theta_2 = 2.0
            * (0..10)
                .map(|n| nome.powf((f64::from(n) + 0.5).powi(2)))
                .sum::<f64>();
        let theta_3 = 1.0 + 2.0 * (1..10).map(|n| nome.powi(n * n)).sum::<f64>();
        Self {
            nome,
            theta_2,
            theta_3,
            modulus: (theta_2 / theta_3).powi(2),
            complete_integral: 0.5 * PI * theta_3 * theta_3,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Arithmetic-geometric mean: an independent road to K.
    fn complete_integral(modulus: f64) -> f64 {
        let (mut a, mut g) = (1.0_f64, (1.0 - modulus * modulus).sqrt());
        for _ in 0..30 {
            (a, g) = (0.5 * (a + g), (a * g).sqrt());
        }
        0.5 * PI / a
    }

    #[test]
    fn modulus_integral_and_nome_belong_together() {
        for ratio in [0.1, 0.3, 0.6, 1.0, 3.0] {
            let jacobi = Jacobi::of_row(ratio);
            let whole = complete_integral(jacobi.modulus);
            assert!(
                (jacobi.complete_integral / whole - 1.0).abs() < 1e-13,
                "K at {ratio}"
            );
            let complement = complete_integral((1.0 - jacobi.modulus * jacobi.modulus).sqrt());
            // q = e^(−πK'/K); at small moduli K' is only known to the digits of 1 − k².
            let nome = (-PI * complement / whole).exp();
            if ratio <= 0.6 {
                assert!(
                    (nome / jacobi.nome - 1.0).abs() < 1e-8,
                    "nome {nome} at {ratio}"
                );
            }
        }
    }
}
