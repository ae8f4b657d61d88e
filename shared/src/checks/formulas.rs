//! The formulas that a lesson may hold its measurement against: one row a formula, found by name.
//!
//! A lesson names a formula; nothing in a lesson is computed by the lesson itself. A new formula is one function and
//! one row here, and a test walks the table.

use crate::{
    conditions::Conditions,
    physics::{PhysicsError, efficiency::limits::matts_ohnfeldt},
    theory,
};

use super::formulas_of_losses::{
    loss_floor, pilot_plant_penetration, section_loss_penetration, uneven_gas_penetration,
};

/// A formula with what a learner may ask about it.
#[derive(Clone, Copy, Debug)]
pub struct Formula {
    /// Name in lesson files.
    pub name: &'static str,
    /// What people call it.
    pub title: &'static str,
    /// The equation, as text.
    pub equation: &'static str,
    /// Author and year.
    pub source: &'static str,
    /// Where it holds.
    pub validity: &'static str,
    /// Its value under these conditions, a penetration between 0 and 1.
    pub evaluate: fn(&Conditions) -> Result<f64, PhysicsError>,
}

/// Every formula.
pub const FORMULAS: &[Formula] = &[
    Formula {
        name: "deutsch_anderson_penetration",
        title: "Deutsch–Anderson",
        equation: "P = Σ f(d) e^(−w(d) A/Q)",
        source: "Anderson 1919, Deutsch 1922",
        validity: "full mixing across the gap, no losses, even gas",
        evaluate: deutsch_anderson_penetration,
    },
    Formula {
        name: "laminar_penetration",
        title: "laminar bound",
        equation: "P = Σ f(d) max(0, 1 − w(d) A/Q)",
        source: "integral along the paths of the grains",
        validity: "no mixing across the gap, no losses, even gas",
        evaluate: laminar_penetration,
    },
    Formula {
        name: "finite_mixing_penetration",
        title: "finite mixing",
        equation: "u ∂C/∂x = D ∂²C/∂y² − ∂(wC)/∂y, with sneakage, rapping loss and uneven gas",
        source: "Leonard, Mitchner and Self 1980",
        validity: "any mixing; 1 % with one migration velocity, 10 % with the computed electric field",
        evaluate: finite_mixing_penetration,
    },
    Formula {
        name: "section_loss_penetration",
        title: "sections with losses",
        equation: "P = (LF + (1−LF) e^(−w A/(n Q)))^n, LF = S + RR(1−S)",
        source: "US EPA Air Pollution Control Cost Manual",
        validity: "one migration velocity, equal fields, full mixing, even gas",
        evaluate: section_loss_penetration,
    },
    Formula {
        name: "loss_floor",
        title: "floor of the losses",
        equation: "P ≥ LF^n",
        source: "US EPA Air Pollution Control Cost Manual",
        validity: "equal losses in every field; no plate area gets below it",
        evaluate: loss_floor,
    },
    Formula {
        name: "uneven_gas_penetration",
        title: "Deutsch in uneven gas",
        equation: "P = ∫ v e^(−De/v) g(v) dv / ∫ v g(v) dv",
        source: "flux mean of Deutsch 1922",
        validity: "one migration velocity, full mixing within a lane, no losses",
        evaluate: uneven_gas_penetration,
    },
    Formula {
        name: "pilot_plant_penetration",
        title: "pilot collector",
        equation: "P = 6.59·10⁸ V^(−5.46) %, V in kV",
        source: "US EPA pilot precipitator experiments 1978",
        validity: "fitted to one pilot collector near 30 to 36 kV; elsewhere only its slope",
        evaluate: pilot_plant_penetration,
    },
    Formula {
        name: "deutsch_after_doubling_area",
        title: "Deutsch, area doubled",
        equation: "P₂ = P₁²",
        source: "Deutsch 1922, solved for twice the area",
        validity: "as Deutsch–Anderson: one migration velocity, full mixing, no losses",
        evaluate: deutsch_after_doubling_area,
    },
    Formula {
        name: "matts_ohnfeldt_after_doubling_area",
        title: "Matts–Öhnfeldt, area doubled",
        equation: "P = e^(−(w_k A/Q)^k), so P₂ = P₁^(2^k), k = 0.5",
        source: "Matts and Öhnfeldt 1963",
        validity: "a fit for fly ash of many sizes, near the area it was measured at",
        evaluate: matts_ohnfeldt_after_doubling_area,
    },
];

/// The row of a formula.
#[must_use]
pub fn find_formula(name: &str) -> Option<&'static Formula> {
    FORMULAS.iter().find(|formula| formula.name == name)
}

/// Exponent of the stretched exponential for fly ash.
const MATTS_OHNFELDT_EXPONENT: f64 = 0.5;

/// Penetration with full mixing across the gap, summed over the sizes of the dust.
///
/// `P = Σ f(d) e^(−w(d) A/Q)`
///
/// # Source
/// Anderson 1919, Deutsch 1922 (Ann. Phys. 373:335).
///
/// # Validity
/// Full mixing, no losses, even gas; with the computed electric field w is that at the plate.
///
/// # Errors
/// A formula refused the conditions.
pub fn deutsch_anderson_penetration(conditions: &Conditions) -> Result<f64, PhysicsError> {
    Ok(theory::limits(conditions)?.deutsch_anderson)
}

/// Penetration without any mixing across the gap, summed over the sizes of the dust.
///
/// `P = Σ f(d) max(0, 1 − w(d) A/Q)`
///
/// # Source
/// Integral along the paths of the grains, computed.
///
/// # Validity
/// Laminar flow, no losses, even gas.
///
/// # Errors
/// A formula refused the conditions.
pub fn laminar_penetration(conditions: &Conditions) -> Result<f64, PhysicsError> {
    Ok(theory::limits(conditions)?.laminar)
}

/// Penetration by the deterministic solver, with everything that the count has.
///
/// `u ∂C/∂x = D ∂²C/∂y² − ∂(wC)/∂y`, field by field with sneakage and rapping loss, over lanes of uneven gas
///
/// # Source
/// Leonard, Mitchner & Self 1980, Atmos. Environ. 14:1289; losses after US EPA, Air Pollution Control Cost Manual.
///
/// # Validity
/// 1 % with one migration velocity, 10 % with the computed electric field.
///
/// # Errors
/// A formula refused the conditions.
pub fn finite_mixing_penetration(conditions: &Conditions) -> Result<f64, PhysicsError> {
    Ok(theory::solve(conditions)?.finite_mixing)
}

/// What Deutsch's law makes of this collector's own penetration when the area is doubled.
///
/// `P₂ = e^(−2 w A/Q) = P₁²`
///
/// # Source
/// Deutsch 1922 (Ann. Phys. 373:335), solved for twice the area.
///
/// # Validity
/// One migration velocity, full mixing, no losses; elsewhere it promises too much.
///
/// # Errors
/// A formula refused the conditions.
///
/// ```
/// use ashlane_shared::{checks, conditions::{Mixing, demonstration}};
/// let mut conditions = demonstration();
/// conditions.collector.sneakage = 0.0;
/// conditions.rapping.reentrained = 0.0;
/// conditions.gas.velocity_spread = 0.0;
/// conditions.teaching.mixing = Some(Mixing::Full);
/// // Efficiency 90 %: w A/Q = ln 10. Twice the area gives 99 %.
/// conditions.teaching.migration_velocity_m_s = Some(10f64.ln() / conditions.specific_collection_area_s_m());
/// let escaped = checks::deutsch_after_doubling_area(&conditions)?;
/// assert!((escaped - 0.01).abs() < 1e-9);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn deutsch_after_doubling_area(conditions: &Conditions) -> Result<f64, PhysicsError> {
    Ok(finite_mixing_penetration(conditions)?.powi(2))
}

/// What the stretched exponential of the trade makes of this collector's own penetration when the area is doubled.
///
/// `P = e^(−(w_k A/Q)^k)`, so `P₂ = P₁^(2^k)`, k = 0.5
///
/// # Source
/// Matts & Öhnfeldt 1963, SF Review 6/7; k from memory of it.
///
/// # Validity
/// A fit for fly ash of many sizes, near the area it was measured at.
///
/// # Errors
/// A formula refused the conditions.
pub fn matts_ohnfeldt_after_doubling_area(conditions: &Conditions) -> Result<f64, PhysicsError> {
    // −ln P = (w_k A/Q)^k gives w_k A/Q back, and that doubles with the area.
    let number = (-finite_mixing_penetration(conditions)?.ln()).powf(1.0 / MATTS_OHNFELDT_EXPONENT);
    Ok(matts_ohnfeldt(2.0 * number, MATTS_OHNFELDT_EXPONENT))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::conditions::{Mixing, demonstration};

    /// One migration velocity, full mixing, no losses.
    fn ideal(deutsch: f64) -> Conditions {
        let mut conditions = demonstration();
        conditions.collector.sneakage = 0.0;
        conditions.rapping.reentrained = 0.0;
        conditions.gas.velocity_spread = 0.0;
        conditions.teaching.mixing = Some(Mixing::Full);
        conditions.teaching.migration_velocity_m_s =
            Some(deutsch / conditions.specific_collection_area_s_m());
        conditions
    }

    #[test]
    fn every_row_is_found_by_its_own_name_and_explains_itself() {
        for (index, formula) in FORMULAS.iter().enumerate() {
            let found = find_formula(formula.name).expect("a row is found by its name");
            assert_eq!(found.title, formula.title, "{} twice", formula.name);
            assert!(
                FORMULAS[..index]
                    .iter()
                    .all(|other| other.title != formula.title),
                "{} twice",
                formula.title
            );
            for text in [formula.equation, formula.source, formula.validity] {
                assert!(!text.is_empty(), "{} is not explained", formula.name);
            }
            let value = (formula.evaluate)(&ideal(0.5)).expect("possible conditions");
            assert!((0.0..=1.0).contains(&value), "{}: {value}", formula.name);
        }
        assert!(find_formula("deutsch").is_none());
    }

    #[test]
    fn the_formulas_give_what_their_equations_say() {
        // Efficiency 99 %: training.md L5 has 99 → 99.99 % by Deutsch and 99.85 % by Matts–Öhnfeldt.
        // 40 kV is what no limit holds back, so that the pilot's line is asked at 40 kV.
        let mut conditions = ideal(100f64.ln());
        conditions.electrical.voltage_v = vec![40e3; 4];
        conditions.reference.voltage_v = vec![40e3; 4];
        let expected = [
            ("deutsch_anderson_penetration", 0.01),
            ("laminar_penetration", 0.0),
            ("finite_mixing_penetration", 0.01),
            ("section_loss_penetration", 0.01),
            ("loss_floor", 0.0),
            ("uneven_gas_penetration", 0.01),
            ("pilot_plant_penetration", 6.59e6 * 40f64.powf(-5.46)),
            ("deutsch_after_doubling_area", 1e-4),
            (
                "matts_ohnfeldt_after_doubling_area",
                0.01f64.powf(2f64.sqrt()),
            ),
        ];
        assert_eq!(expected.len(), FORMULAS.len(), "a formula is not checked");
        for (name, value) in expected {
            let formula = find_formula(name).expect("a known name");
            let got = (formula.evaluate)(&conditions).expect("possible conditions");
            assert!((got - value).abs() < 1e-9, "{name}: {got}, not {value}");
        }
        let half = (find_formula("laminar_penetration").expect("known").evaluate)(&ideal(0.5));
        assert!((half.expect("possible") - 0.5).abs() < 1e-9, "1 − De");
        assert!((0.01f64.powf(2f64.sqrt()) - 0.0015).abs() < 2e-5, "99.85 %");
    }
}
