//! One thing that is computed in two ways: its line under a view, with the difference, the tolerance and the verdict.

use ashlane_shared::checks::Verdict;

/// One thing that is computed in two ways.
#[derive(Clone, Debug, PartialEq)]
pub struct CheckLine {
    /// What.
    pub name: &'static str,
    /// One way and the other, in words.
    pub text: String,
    /// Difference as a share.
    pub difference: f64,
    /// Largest difference that still agrees.
    pub tolerance: f64,
    /// Whether they agree.
    pub verdict: Verdict,
}

impl CheckLine {
    /// The line of two values by their ratio; what is no number disagrees.
    #[must_use]
    pub fn of_ratio(name: &'static str, text: String, ratio: f64, tolerance: f64) -> Self {
        Self {
            name,
            text,
            difference: ratio - 1.0,
            tolerance,
            verdict: if (ratio - 1.0).abs() <= tolerance {
                Verdict::Agree
            } else {
                Verdict::Disagree
            },
        }
    }
}
