//! Few lanes of gas that stand for the spread of face velocities, for solvers that cannot afford many.

use crate::physics::{
    PhysicsError,
    efficiency::velocity_spread::{self, Lane},
};

/// Nodes and weights of the Gauss–Hermite rules with three and five points for the standard normal distribution.
///
/// Source: Abramowitz & Stegun 1964, table 25.10, n = 3 and 5, nodes times √2, weights over √π. They integrate polynomials
/// in v up to the fifth and ninth degree exactly; e^{−De/v} with De = 7 comes out within 2e-3 (test).
const THREE: [(f64, f64); 3] = [
    (-1.732_050_807_568_877_2, 0.166_666_666_666_666_66),
    (0.0, 0.666_666_666_666_666_6),
    (1.732_050_807_568_877_2, 0.166_666_666_666_666_66),
];
const FIVE: [(f64, f64); 5] = [
    (-2.856_970_013_872_805_6, 0.011_257_411_327_720_69),
    (-1.355_626_179_974_265_8, 0.222_075_922_005_612_63),
    (0.0, 0.533_333_333_333_333_3),
    (1.355_626_179_974_265_8, 0.222_075_922_005_612_63),
    (2.856_970_013_872_805_6, 0.011_257_411_327_720_69),
];

/// Widest spread for which three points do.
const NARROW: f64 = 0.12;
/// Widest spread for which the slowest node still moves forward well.
const WIDEST: f64 = 0.30;

/// Lanes whose gas shares add up to 1.
///
/// # Errors
/// A spread outside 0 to 0.5.
pub(super) fn lanes(spread: f64) -> Result<Vec<Lane>, PhysicsError> {
    if !(1e-9..=WIDEST).contains(&spread) {
        return few_lanes(spread);
    }
    // The flow in a lane is its velocity times the face it has; Σ weight·velocity is 1 exactly.
    let lane = |&(node, weight): &(f64, f64)| {
        let relative_velocity = 1.0 + spread * node;
        Lane {
            relative_velocity,
            gas_share: weight * relative_velocity,
        }
    };
    let nodes: &[(f64, f64)] = if spread <= NARROW { &THREE } else { &FIVE };
    Ok(nodes.iter().map(lane).collect())
}

/// Lanes of a spread that is none, or so wide that the rule above would send gas backwards: the many, three by three.
fn few_lanes(spread: f64) -> Result<Vec<Lane>, PhysicsError> {
    const TOGETHER: usize = 3;
    let joined = |many: &[Lane]| {
        let gas_share: f64 = many.iter().map(|lane| lane.gas_share).sum();
        let flow: f64 = many
            .iter()
            .map(|lane| lane.gas_share * lane.relative_velocity)
            .sum();
        Lane {
            relative_velocity: flow / gas_share,
            gas_share,
        }
    };
    Ok(velocity_spread::lanes(spread)?
        .chunks(TOGETHER)
        .map(joined)
        .collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn few_lanes_stand_for_the_whole_spread() {
        for spread in [0.0, 0.1, 0.12, 0.15, 0.25, 0.35] {
            let few = lanes(spread).expect("lanes");
            let total: f64 = few.iter().map(|lane| lane.gas_share).sum();
            assert!((total - 1.0).abs() < 1e-12, "shares add up to {total}");
            for deutsch in [1.0, 3.0, 7.0] {
                let mean: f64 = few
                    .iter()
                    .map(|lane| lane.gas_share * (-deutsch / lane.relative_velocity).exp())
                    .sum();
                let exact =
                    velocity_spread::deutsch_penetration(deutsch, spread).expect("in range");
                let allowed = if spread > WIDEST { 0.03 } else { 2e-3 };
                assert!(
                    (mean / exact - 1.0).abs() < allowed,
                    "spread {spread}, De {deutsch}: {mean} not {exact}"
                );
            }
        }
    }
}
