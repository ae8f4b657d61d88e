//! What every field catches: the solver's line along the collector, from field to field.

use crate::theory::Theory;

/// Share of the inlet mass that each field catches by the solver: what is airborne at its start less at its end.
#[must_use]
pub fn solved_catch(theory: &Theory, fields: usize) -> Vec<f64> {
    let per_field = theory.along.len().saturating_sub(1) / fields.max(1);
    let ends = theory.along.iter().step_by(per_field.max(1));
    let airborne: Vec<f64> = ends.map(|point| point.finite_mixing).collect();
    airborne.windows(2).map(|pair| pair[0] - pair[1]).collect()
}
