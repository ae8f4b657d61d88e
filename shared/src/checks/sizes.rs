//! Fine and coarse grains apart: what the count let through of each against the solver.

use super::{SIGMAS, TwoWays};
use crate::{
    conditions::Conditions,
    count::{CountResult, Counted, SizeCount},
    physics::PhysicsError,
    theory::{self, Theory},
};

/// What counts as fine, m: the dust that health standards call PM2.5.
pub const FINE_M: f64 = 2.5e-6;

/// Penetration of the fine and of the coarse grains, counted and by the solver, each with the largest difference that
/// still agrees: the solver's own, or 4σ of the count.
///
/// `Σ f_i P_i/Σ f_i` over the classes below and above [`FINE_M`]
///
/// Nothing of a group without dust.
#[must_use]
pub fn fine_and_coarse(count: &CountResult, theory: &Theory) -> [Option<(TwoWays, f64)>; 2] {
    [true, false].map(|fine| {
        let (mut inlet, mut counted, mut solved) = (0.0, 0.0, 0.0);
        let classes = count.by_size.iter().zip(&theory.by_size);
        for (class, solver) in classes.filter(|(class, _)| (class.diameter_m < FINE_M) == fine) {
            inlet += class.inlet_share;
            counted += class.inlet_share * class.counted.share;
            solved += class.inlet_share * solver;
        }
        (inlet > 0.0 && solved > 0.0).then(|| {
            // Parcels that left are as many as chance has it: √N of N.
            let share = solved.max(1.0 / count.parcels.max(1) as f64);
            let error = (share / count.parcels.max(1) as f64).sqrt();
            let both = TwoWays {
                shown: counted / inlet,
                expected: solved / inlet,
            };
            let tolerance = theory.model_tolerance.max(SIGMAS * error / solved);
            (both, tolerance)
        })
    })
}

/// What a count of so many parcels would find in each size class but for chance, by the solver.
///
/// # Errors
/// A formula refused the conditions; the message names which argument.
pub fn expected_by_size(
    conditions: &Conditions,
    parcels: usize,
) -> Result<Vec<SizeCount>, PhysicsError> {
    let solved = theory::solve(conditions)?;
    let classes = theory::size_limits(conditions)?.into_iter();
    let expected = classes.zip(solved.by_size).map(|(class, share)| {
        let entered = (class.inlet_share * parcels as f64).max(1.0);
        let inside = share.clamp(1.0 / entered, 1.0);
        SizeCount {
            diameter_m: (class.from_m * class.to_m).sqrt(),
            inlet_share: class.inlet_share,
            counted: Counted {
                share,
                standard_error: (inside * (1.0 - inside).max(1.0 / entered) / entered).sqrt(),
            },
        }
    });
    Ok(expected.collect())
}
