//! Adds up a smooth curve from a handful of well-placed points (Gauss's rule).
//!
//! `∫ f dx ≈ Σ wₖ f(xₖ)`, xₖ the zeros of the Legendre polynomial Pₙ, `wₖ = 2/[(1−xₖ²) Pₙ′(xₖ)²]`

use std::f64::consts::PI;

/// Nodes and weights of Gauss's rule with `count` points on the interval from `low` to `high`.
///
/// The zeros are found by Newton's method from `cos(π(k+¾)/(n+½))`, which lies closer to its own zero than to any
/// other. Source: Abramowitz & Stegun 1964, 25.4.29–30.
pub(crate) fn gauss_legendre(count: usize, low: f64, high: f64) -> Vec<(f64, f64)> {
    let (middle, half) = (0.5 * (low + high), 0.5 * (high - low));
    (0..count)
        .map(|index| {
            let mut x = (PI * (index as f64 + 0.75) / (count as f64 + 0.5)).cos();
            let mut slope = 1.0;
            for _ in 0..20 {
                let (value, derivative) = legendre(count, x);
                slope = derivative;
                let step = value / derivative;
                x -= step;
                if step.abs() < 1e-15 {
                    break;
                }
            }
            let weight = 2.0 / ((1.0 - x * x) * slope * slope);
            (middle - half * x, half * weight)
        })
        .collect()
}

/// Legendre polynomial of this degree and its derivative at `x`, by the three-term recurrence.
fn legendre(degree: usize, x: f64) -> (f64, f64) {
    let (mut previous, mut current) = (0.0, 1.0);
    for order in 0..degree {
        let n = order as f64;
        let next = ((2.0 * n + 1.0) * x * current - n * previous) / (n + 1.0);
        previous = current;
        current = next;
    }
    let derivative = degree as f64 * (x * current - previous) / (x * x - 1.0);
    (current, derivative)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn degree_two_n_minus_one_is_exact() {
        for count in [1, 2, 5, 16, 64] {
            let degree = 2 * count as i32 - 1;
            let sum: f64 = gauss_legendre(count, 0.0, 2.0)
                .iter()
                .map(|(x, weight)| weight * (0.5 * x).powi(degree))
                .sum();
            let exact = 2.0 / f64::from(degree + 1);
            assert!(
                (sum / exact - 1.0).abs() < 1e-12,
                "{count} points: {sum} not {exact}"
            );
        }
    }

    #[test]
    fn nodes_run_upwards() {
        let nodes = gauss_legendre(7, -1.0, 3.0);
        assert!(
            nodes.windows(2).all(|pair| pair[0].0 < pair[1].0),
            "{nodes:?}"
        );
    }
}
