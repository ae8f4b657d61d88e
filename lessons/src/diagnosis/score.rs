//! What came of a case: cause, evidence, order of the checks, first action. Speed is not looked at.

use ashlane_shared::{conditions::Conditions, physics::PhysicsError, side_by_side};
use serde::{Deserialize, Serialize};

use super::{CHECKS, Case, Desk, Evidence, Sign, find_check, same_pattern};

/// How far a scripted size may be missed (training.md L17).
const SIZE: f64 = 0.1;

/// What came of a case.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Outcome {
    /// Checks that were ordered, in order; those that were open from the beginning are not counted.
    pub ordered: Vec<String>,
    /// Whether no check was ordered while one that tells as much stood nearer and safer: those that do, in order.
    pub passed_over: Vec<String>,
    /// Cause that was named.
    pub cause: String,
    /// Whether it is the true one.
    pub right_cause: bool,
    /// What was cited.
    pub citations: Vec<Citation>,
    /// Causes that the citations do not rule out.
    pub not_ruled_out: Vec<String>,
    /// First action that was chosen.
    pub action: String,
    /// Whether it fits the true cause.
    pub fitting_action: bool,
    /// Unsafe actions that were chosen at any time, also where they were changed later.
    pub attempts: Vec<Attempt>,
}

/// A reading that was cited.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Citation {
    /// Key of the check.
    pub check: String,
    /// Whether it speaks for the true cause: it has moved, or it would look different under another cause of the case.
    pub speaks: bool,
}

/// An unsafe action that was chosen.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Attempt {
    /// Key of the action.
    pub action: String,
    /// Why it is unsafe here.
    pub why: String,
}

/// Another cause of the case, and the checks that tell it from the true one.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Separation {
    /// Name of the other cause.
    pub cause: String,
    /// Whether the readings that were open from the beginning look alike.
    pub same_first_signs: bool,
    /// Keys of the checks that tell them apart, the cheapest and safest first.
    pub told_by: Vec<String>,
}

/// One sign of the row, held against the machine.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SignResult {
    /// The sign in words, with what the machine shows.
    pub text: String,
    /// Over what is usual, where that is something.
    pub ratio: Option<f64>,
    /// Whether direction and size are those of the script.
    pub holds: bool,
}

impl Outcome {
    /// Whether cause, evidence and first action are all right, and nothing unsafe was ever chosen.
    #[must_use]
    pub fn is_solved(&self) -> bool {
        self.right_cause
            && self.not_ruled_out.is_empty()
            && self.citations.iter().all(|citation| citation.speaks)
            && self.fitting_action
            && self.attempts.is_empty()
    }
}

/// A case with what its machine proves: outcome, signs of the row, and what tells the causes apart.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CaseReport {
    /// What came of the learner's desk.
    pub outcome: Outcome,
    /// The signs of the row against the machine.
    pub signs: Vec<SignResult>,
    /// What tells every other cause from the true one.
    pub separations: Vec<Separation>,
}

impl CaseReport {
    /// Runs the machines of a case and scores a desk.
    ///
    /// # Errors
    /// A formula refused the conditions.
    pub fn of(case: &Case, sound: &Conditions, desk: &Desk) -> Result<Self, PhysicsError> {
        let evidence = Evidence::of(case, sound)?;
        let separations = separations(case, sound, &evidence)?;
        Ok(Self {
            outcome: score(case, desk, &evidence, &separations),
            signs: signs(case, &evidence),
            separations,
        })
    }

    /// Whether the machine shows its row, and every cause is told from the true one by some check.
    #[must_use]
    pub fn agrees(&self) -> bool {
        self.signs.iter().all(|sign| sign.holds)
            && self
                .separations
                .iter()
                .all(|other| !other.told_by.is_empty())
    }
}

/// What tells every other cause of a case from the true one, through machines of their own.
///
/// # Errors
/// A formula refused the conditions.
pub fn separations(
    case: &Case,
    sound: &Conditions,
    evidence: &Evidence,
) -> Result<Vec<Separation>, PhysicsError> {
    let others = case.causes.iter();
    let others: Vec<_> = others
        .filter(|cause| cause.fault.name != case.fault.name)
        .collect();
    let told = side_by_side(&others, |&cause| {
        let holds = case.would_hold(cause, sound)?;
        let other = Evidence::beside(evidence.sound.clone(), &holds, case, sound)?;
        let mut told_by = Vec::new();
        for check in CHECKS {
            if !same_pattern(&evidence.signs(check), &other.signs(check)) {
                told_by.push(check.key.to_owned());
            }
        }
        let first = |key: &String| case.first.contains(&key.as_str());
        Ok(Separation {
            cause: cause.fault.name.to_owned(),
            same_first_signs: !told_by.iter().any(first),
            told_by,
        })
    });
    told.into_iter().collect()
}

/// The signs of a case against its machine.
#[must_use]
pub fn signs(case: &Case, evidence: &Evidence) -> Vec<SignResult> {
    let signs = case.signs.iter();
    signs.map(|sign| sign_result(sign, evidence)).collect()
}

fn sign_result(sign: &Sign, evidence: &Evidence) -> SignResult {
    let findings = find_check(sign.check).map_or_else(Vec::new, |check| evidence.reveals(check));
    let by_field = findings.first().is_some_and(|first| first.field.is_some());
    let place = sign
        .finding
        .unwrap_or(if by_field { evidence.place } else { 0 });
    let Some(finding) = findings.get(place) else {
        return SignResult {
            text: format!("{}: the machine has no such reading", sign.check),
            ratio: None,
            holds: false,
        };
    };
    let ratio = finding.ratio();
    let sized = match (sign.ratio, ratio) {
        (None, _) => true,
        (Some(wanted), Some(ratio)) => (ratio - wanted).abs() <= SIZE * wanted.abs(),
        (Some(_), None) => false,
    };
    SignResult {
        text: finding.text(ashlane_shared::units::UnitSystem::Si),
        ratio,
        holds: sized && finding.turn() == sign.turn,
    }
}

/// What came of a desk that was handed in; `separations` are those of the case.
#[must_use]
pub fn score(case: &Case, desk: &Desk, evidence: &Evidence, separations: &[Separation]) -> Outcome {
    let cause = desk.cause.clone().unwrap_or_default();
    let action = desk.action;
    let mut attempts: Vec<Attempt> = Vec::new();
    for action in &desk.chosen {
        if let Some(why) = action.is_unsafe(evidence) {
            attempts.push(Attempt {
                action: action.key.to_owned(),
                why: why.to_owned(),
            });
        }
    }
    let tells = |key: &str| {
        let told = |other: &Separation| other.told_by.iter().any(|told| told == key);
        separations.iter().any(told)
    };
    let mut citations = Vec::with_capacity(desk.cited.len());
    for check in &desk.cited {
        let findings = evidence.reveals(check);
        let moved = |finding: &super::Finding| finding.turn() != super::Turn::Same;
        citations.push(Citation {
            check: check.key.to_owned(),
            speaks: findings.iter().any(moved) || tells(check.key),
        });
    }
    let cited = |key: &String| desk.cited.iter().any(|check| check.key == key);
    let open_end = separations
        .iter()
        .filter(|other| !other.told_by.iter().any(cited));
    Outcome {
        ordered: keys(desk.ordered()),
        passed_over: passed_over(desk, separations),
        right_cause: cause == case.fault.name,
        cause,
        citations,
        not_ruled_out: open_end.map(|other| other.cause.clone()).collect(),
        fitting_action: action.is_some_and(|action| action.fits.contains(&case.fault.name)),
        action: action.map_or_else(String::new, |action| action.key.to_owned()),
        attempts,
    }
}

fn keys(checks: &[&'static super::Check]) -> Vec<String> {
    checks.iter().map(|check| check.key.to_owned()).collect()
}

/// Nearer and safer checks that would have told what a farther one was ordered for.
fn passed_over(desk: &Desk, separations: &[Separation]) -> Vec<String> {
    let mut passed = Vec::new();
    for (place, ordered) in desk.ordered().iter().enumerate() {
        let known = &desk.open[..desk.given + place];
        for other in separations {
            if !other.told_by.iter().any(|key| key == ordered.key) {
                continue;
            }
            let nearer = other.told_by.iter().filter_map(|key| find_check(key));
            let nearer = nearer
                .filter(|check| check.reach < ordered.reach)
                .map(|check| check.key);
            let done = |key: &str| known.iter().any(|known| known.key == key);
            let nearer: Vec<&str> = nearer.collect();
            if !nearer.is_empty() && !nearer.iter().any(|key| done(key)) {
                passed.extend(nearer.first().map(|key| (*key).to_owned()));
            }
        }
    }
    passed.dedup();
    passed
}
