//! The verdict of a check: tolerance = max(stated, 3 σ).

use ashlane_shared::{checks::Verdict, count::Counted};
use serde::{Deserialize, Serialize};

use super::{Measured, Quantity};
use crate::engine::Check;

/// Standard errors behind "±".
const SIGMAS: f64 = 3.0;

/// How a measured value should lie to its formula.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Relation {
    /// Equal within the tolerance.
    Equals,
    /// Above by more than the tolerance.
    Above,
    /// Below by more than the tolerance.
    Below,
    /// Between two formulas, give or take the tolerance.
    Between,
}

/// Name in lesson files and relation.
pub const RELATIONS: [(&str, Relation); 4] = [
    ("equals", Relation::Equals),
    ("above", Relation::Above),
    ("below", Relation::Below),
    ("between", Relation::Between),
];

impl Relation {
    /// Its name in lesson files.
    #[must_use]
    pub fn name(self) -> &'static str {
        RELATIONS
            .iter()
            .find(|(_, relation)| *relation == self)
            .map_or("", |(name, _)| name)
    }
}

/// A formula and what it gave.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Bound {
    /// Name of the formula.
    pub formula: String,
    /// The quantity by this formula.
    pub value: f64,
    /// Stated tolerance at this value.
    pub stated: f64,
}

/// What the formulas of a check give.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::engine) struct Expected {
    pub(in crate::engine) lower: Bound,
    pub(in crate::engine) upper: Option<Bound>,
    /// Dust that enters at the target over that at the start.
    pub(in crate::engine) inlet_ratio: f64,
}

/// A check as it is kept: measured value, formula, N, ± and tolerance together.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CheckResult {
    /// What was measured.
    pub quantity: Quantity,
    /// How it should lie to the formula.
    pub relation: Relation,
    /// The measured value.
    pub measured: f64,
    /// The same at the start, where it was read there.
    #[serde(default)]
    pub before: Option<f64>,
    /// Diameter of the grain, m, where the check names one.
    #[serde(default)]
    pub size_m: Option<f64>,
    /// Field, from 1, where the check names one.
    #[serde(default)]
    pub field: Option<usize>,
    /// One standard error of it.
    pub standard_error: f64,
    /// Parcels of the count; 0 where nothing is counted.
    pub parcels: u64,
    /// The formula; of two, the one with the smaller value.
    pub formula: Bound,
    /// The formula with the larger value, where there are two.
    pub upper: Option<Bound>,
    /// Measured less formula; between two, what it is outside by, 0 within.
    pub difference: f64,
    /// The larger of the stated tolerance and 3 σ.
    pub tolerance: f64,
    /// Whether it lies as it should.
    pub verdict: Verdict,
}

impl CheckResult {
    /// Three standard errors: what "±" shows.
    #[must_use]
    pub fn plus_minus(&self) -> f64 {
        SIGMAS * self.standard_error
    }
}

/// What was read, with its uncertainty.
#[derive(Clone, Copy, Debug)]
pub(in crate::engine) struct Read {
    pub(in crate::engine) before: Option<f64>,
    pub(in crate::engine) measured: Counted,
    pub(in crate::engine) parcels: u64,
}

/// Compares counted penetrations with what the formulas give.
pub(in crate::engine) fn judge(
    check: &Check,
    expected: &Expected,
    before: &Measured,
    after: &Measured,
) -> CheckResult {
    let measured =
        check
            .quantity
            .measured(before.penetration, after.penetration, expected.inlet_ratio);
    let parcels = if check.quantity.needs_before() {
        before.parcels.min(after.parcels)
    } else {
        after.parcels
    };
    let read = Read {
        before: None,
        measured,
        parcels,
    };
    judge_reading(check, expected, read)
}

/// Compares what was read with what the formulas give.
pub(in crate::engine) fn judge_reading(
    check: &Check,
    expected: &Expected,
    read: Read,
) -> CheckResult {
    let Read {
        before,
        measured,
        parcels,
    } = read;
    let (formula, upper) = in_order(expected);
    let band = SIGMAS * measured.standard_error;
    let value = measured.share;
    let against = match &upper {
        // The nearer end decides.
        Some(upper) if value > 0.5 * (formula.value + upper.value) => upper,
        _ => &formula,
    };
    let tolerance = against.stated.max(band);
    let difference = match &upper {
        Some(upper) => (value - upper.value).max(0.0) + (value - formula.value).min(0.0),
        None => value - formula.value,
    };
    let holds = match check.relation {
        Relation::Equals | Relation::Between => difference.abs() <= tolerance,
        Relation::Above => difference > tolerance,
        Relation::Below => difference < -tolerance,
    };
    CheckResult {
        quantity: check.quantity,
        relation: check.relation,
        measured: value,
        before,
        size_m: check.size_m,
        field: check.field.map(|field| field + 1),
        standard_error: measured.standard_error,
        parcels,
        difference,
        tolerance,
        verdict: if holds {
            Verdict::Agree
        } else {
            Verdict::Disagree
        },
        formula,
        upper,
    }
}

/// The smaller value first: the larger penetration is the smaller efficiency.
fn in_order(expected: &Expected) -> (Bound, Option<Bound>) {
    let lower = expected.lower.clone();
    match expected.upper.clone() {
        Some(upper) if upper.value < lower.value => (upper, Some(lower)),
        upper => (lower, upper),
    }
}

#[cfg(test)]
mod tests {
    use ashlane_shared::{checks::FORMULAS, count::Counted};

    use super::*;
    use crate::engine::Moment;

    fn check(relation: Relation) -> Check {
        Check {
            line: None,
            quantity: Quantity::Penetration,
            relation,
            formula: &FORMULAS[0],
            upper: None,
            formula_at: Moment::After,
            tolerance: 0.05,
            size_m: None,
            span: None,
            field: None,
            parcels: 1,
        }
    }

    fn bound(value: f64) -> Bound {
        Bound {
            formula: String::new(),
            value,
            stated: 0.05 * value,
        }
    }

    /// Counted `share` with this σ against formulas at 0.010 and, if any, above.
    fn verdict(
        relation: Relation,
        upper: Option<f64>,
        share: f64,
        standard_error: f64,
    ) -> CheckResult {
        let expected = Expected {
            lower: bound(0.010),
            upper: upper.map(bound),
            inlet_ratio: 1.0,
        };
        let count = Measured {
            penetration: Counted {
                share,
                standard_error,
            },
            parcels: 1000,
            seed: 1,
        };
        judge(&check(relation), &expected, &count, &count)
    }

    #[test]
    fn the_larger_of_stated_and_three_sigma_is_allowed() {
        let stated = verdict(Relation::Equals, None, 0.0104, 1e-5);
        assert!((stated.tolerance - 0.0005).abs() < 1e-12, "{stated:?}");
        assert_eq!(stated.verdict, Verdict::Agree);
        assert_eq!(
            verdict(Relation::Equals, None, 0.0106, 1e-5).verdict,
            Verdict::Disagree
        );
        let noisy = verdict(Relation::Equals, None, 0.0106, 3e-4);
        assert!((noisy.tolerance - 0.0009).abs() < 1e-12, "{noisy:?}");
        assert_eq!(noisy.verdict, Verdict::Agree);
    }

    #[test]
    fn above_and_below_need_a_contrast_larger_than_the_tolerance() {
        for (relation, share, holds) in [
            (Relation::Above, 0.0104, false),
            (Relation::Above, 0.0110, true),
            (Relation::Below, 0.0110, false),
            (Relation::Below, 0.0096, false),
            (Relation::Below, 0.0090, true),
        ] {
            let result = verdict(relation, None, share, 1e-5);
            assert_eq!(result.verdict == Verdict::Agree, holds, "{result:?}");
        }
    }

    #[test]
    fn between_takes_the_formulas_in_any_order() {
        for (upper, share, holds) in [
            (0.02, 0.015, true),
            (0.02, 0.0208, true),
            (0.02, 0.0212, false),
            (0.02, 0.0094, false),
            (0.005, 0.007, true),
            (0.005, 0.0047, false),
        ] {
            let result = verdict(Relation::Between, Some(upper), share, 1e-5);
            assert_eq!(result.verdict == Verdict::Agree, holds, "{result:?}");
            let upper = result.upper.expect("two formulas");
            assert!(result.formula.value <= upper.value);
        }
    }
}
