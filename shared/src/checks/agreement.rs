//! Penetration three ways, and whether the count and the solver agree.

use serde::{Deserialize, Serialize};

use crate::{
    count::{CountResult, Counted},
    theory::Theory,
};

/// Standard errors that chance alone hardly ever exceeds: one time in 16,000.
pub const SIGMAS: f64 = 4.0;

/// Outcome of a check.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// The difference is within the tolerance.
    Agree,
    /// It is not.
    Disagree,
}

/// Penetration three ways.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Agreement {
    /// Parcels counted.
    pub parcels: u64,
    /// The count and its standard error.
    pub counted: Counted,
    /// Solver with everything the count has.
    pub finite_mixing: f64,
    /// Formula.
    pub deutsch_anderson: f64,
    /// Laminar limit.
    pub laminar: f64,
    /// Count less solver, in standard errors of the count.
    pub score: f64,
    /// Largest difference of count and solver that still agrees, as penetration.
    pub tolerance: f64,
    /// Whether they agree.
    pub verdict: Verdict,
}

/// Compares a count with the theory of the same conditions.
///
/// They agree when |counted − finite mixing| is at most the larger of 4 σ and the stated tolerance of the solver.
#[must_use]
pub fn agreement(count: &CountResult, theory: &Theory) -> Agreement {
    let counted = count.penetration;
    let difference = counted.share - theory.finite_mixing;
    let tolerance =
        (SIGMAS * counted.standard_error).max(theory.model_tolerance * theory.finite_mixing);
    Agreement {
        parcels: count.parcels,
        counted,
        finite_mixing: theory.finite_mixing,
        deutsch_anderson: theory.deutsch_anderson,
        laminar: theory.laminar,
        score: difference / counted.standard_error,
        tolerance,
        verdict: if difference.abs() <= tolerance {
            Verdict::Agree
        } else {
            Verdict::Disagree
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{conditions::demonstration, count::Count, theory};

    #[test]
    fn a_count_that_is_off_disagrees() {
        let conditions = demonstration();
        let mut count = Count::new(&conditions, 20_000, 1).expect("possible");
        count.run(|_| true);
        let result = count.result();
        let theory = theory::solve(&conditions).expect("possible");
        assert_eq!(agreement(&result, &theory).verdict, Verdict::Agree);
        let mut off = theory.clone();
        off.finite_mixing *= 2.0;
        assert_eq!(
            agreement(&result, &off).verdict,
            Verdict::Disagree,
            "twice the theory passes"
        );
        let mut wrong = result;
        wrong.penetration.share *= 2.0;
        assert_eq!(
            agreement(&wrong, &theory).verdict,
            Verdict::Disagree,
            "twice the count passes"
        );
    }
}
