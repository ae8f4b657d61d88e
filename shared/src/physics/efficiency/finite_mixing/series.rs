//! Penetration as a sum of decaying shapes across the gap: short once the dust has spread over the gap.
//!
//! `P = Σ (−1)^(n−1) 8h²β_n²e^h/[(h²+β_n²)²(h²+β_n²+2h)]·exp[−(β_n²+h²)De/(2h)]`, `β_n = (n−1)π + 2 atan2(h, β_n)`

use std::f64::consts::PI;

/// More terms than De/Pe ≥ 0.05 ever needs.
const MOST_TERMS: usize = 200;

/// The series, summed until a term is below rounding.
///
/// Good for `De/Pe ≥ 0.3` at every Pe, where the first term carries nearly all; down to 0.05 for Pe ≤ 30.
pub(super) fn penetration(peclet: f64, deutsch: f64) -> f64 {
    let h = 0.5 * peclet;
    let mut sum = 0.0_f64;
    for order in 0..MOST_TERMS {
        let beta = eigenvalue(order, h);
        let square = h * h + beta * beta;
        let coefficient = 8.0 * (h * beta / square).powi(2) / (square + 2.0 * h);
        // e^h joins the decay, so that neither overflows.
        let term = coefficient * (h - square * deutsch / peclet).exp();
        sum += if order % 2 == 0 { term } else { -term };
        if term <= 1e-17 * sum.abs() {
            break;
        }
    }
    sum
}

/// Root of `β = nπ + 2 atan(h/β)` between nπ and (n+1)π, n counted from 0.
///
/// `f(β) = β − nπ − 2 atan(h/β)` rises and is concave, so after one step Newton's method climbs to the root from below
/// and never passes it; each step is kept inside the bracket all the same.
pub(super) fn eigenvalue(order: usize, h: f64) -> f64 {
    let low = order as f64 * PI;
    // √(2h) is the first root for small h, π for large h.
    let root = (2.0 * h).sqrt();
    let mut beta = low + root / (1.0 + root / PI);
    for _ in 0..60 {
        let value = beta - low - 2.0 * h.atan2(beta);
        let slope = 1.0 + 2.0 * h / (beta * beta + h * h);
        let step = value / slope;
        // Never to the lower end itself, which for n = 0 is a false root of the clamped iteration.
        beta = (beta - step).clamp(low + 0.01 * (beta - low), low + PI);
        if step.abs() <= 1e-16 * beta {
            break;
        }
    }
    beta
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn eigenvalues_are_roots_inside_their_brackets() {
        for h in [1e-12, 1e-6, 1e-3, 0.05, 0.5, 5.0, 15.0, 1e3, 1e6] {
            for order in 0..8 {
                let beta = eigenvalue(order, h);
                let low = order as f64 * PI;
                assert!(
                    beta > low && beta < low + PI,
                    "{beta} at h = {h}, n = {order}"
                );
                // The equation in the form that keeps its digits: tan of half of both sides.
                let residual = beta - low - 2.0 * h.atan2(beta);
                let slope = 1.0 + 2.0 * h / (beta * beta + h * h);
                assert!(
                    (residual / slope).abs() <= 1e-14 * beta.max(low),
                    "{residual} at h = {h}, n = {order}"
                );
            }
        }
    }

    #[test]
    fn the_first_eigenvalue_of_strong_mixing_is_known() {
        // β tan(β/2) = h, so β² → 2h(1 − h/6).
        let beta = eigenvalue(0, 1e-6);
        assert!(
            (beta * beta / (2e-6 * (1.0 - 1e-6 / 6.0)) - 1.0).abs() < 1e-10,
            "{beta}"
        );
    }
}
