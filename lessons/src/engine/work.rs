//! What a learner works at in a segment instead of moving controls: a case to diagnose, or the sequence board.

use ashlane_shared::{conditions::Conditions, physics::PhysicsError};
use serde::{Deserialize, Serialize};

use crate::{
    diagnosis::{self, Case, CaseReport, Desk},
    sequence::{self, Exercise},
};

/// The work of a segment.
#[derive(Clone, Debug)]
pub enum Work {
    /// A hidden fault.
    Diagnosis(Box<Case>),
    /// The sequence board.
    Sequence(Box<Exercise>),
}

/// One act of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WorkAct {
    /// At the desk of a case.
    Diagnosis(diagnosis::Act),
    /// At the board.
    Sequence(sequence::Act),
}

/// What came of it, with what its model proves.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WorkResult {
    /// Of a case.
    Diagnosis(CaseReport),
    /// Of the board.
    Sequence(sequence::Outcome),
}

impl WorkResult {
    /// Whether the model shows what it should; what the learner did plays no part in this.
    #[must_use]
    pub fn agrees(&self) -> bool {
        match self {
            Self::Diagnosis(report) => report.agrees(),
            Self::Sequence(outcome) => outcome.agrees(),
        }
    }

    /// Whether what the learner did is all as it should be.
    #[must_use]
    pub fn is_solved(&self) -> bool {
        match self {
            Self::Diagnosis(report) => report.outcome.is_solved(),
            Self::Sequence(outcome) => outcome.as_wanted,
        }
    }
}

impl Work {
    /// The acts that solve it.
    ///
    /// # Errors
    /// A formula refused the conditions.
    pub fn model_acts(&self, conditions: &Conditions) -> Result<Vec<WorkAct>, PhysicsError> {
        Ok(match self {
            Self::Diagnosis(case) => {
                let acts = case.model_acts().into_iter();
                acts.map(WorkAct::Diagnosis).collect()
            }
            Self::Sequence(exercise) => {
                let acts = exercise.model_acts(conditions)?.into_iter();
                acts.map(WorkAct::Sequence).collect()
            }
        })
    }

    /// What is left to do after these acts; nothing once it is finished.
    ///
    /// # Errors
    /// The first act that is not possible, in words.
    pub fn left(
        &self,
        conditions: &Conditions,
        acts: &[WorkAct],
    ) -> Result<Option<String>, String> {
        match self {
            Self::Diagnosis(case) => {
                let desk = desk(case, acts)?;
                let left = "hand the case in: cause, evidence, first action".to_owned();
                Ok((!desk.handed_in).then_some(left))
            }
            Self::Sequence(exercise) => {
                let outcome = outcome(exercise, conditions, acts)?;
                let left = format!("bring the board to its goal: {}", exercise.goal.words());
                Ok((!outcome.reached).then_some(left))
            }
        }
    }

    /// What came of these acts.
    ///
    /// # Errors
    /// A formula refused the conditions, or an act is not possible.
    pub fn result(
        &self,
        conditions: &Conditions,
        acts: &[WorkAct],
    ) -> Result<WorkResult, PhysicsError> {
        let impossible = |reason| PhysicsError::Impossible { reason };
        Ok(match self {
            Self::Diagnosis(case) => {
                let desk = desk(case, acts).map_err(impossible)?;
                WorkResult::Diagnosis(CaseReport::of(case, conditions, &desk)?)
            }
            Self::Sequence(exercise) => {
                let outcome = outcome(exercise, conditions, acts);
                WorkResult::Sequence(outcome.map_err(impossible)?)
            }
        })
    }
}

/// The desk of a case after these acts.
///
/// # Errors
/// The first act that is not possible, in words.
pub fn desk(case: &Case, acts: &[WorkAct]) -> Result<Desk, String> {
    let acts = acts.iter().map(|act| match act {
        WorkAct::Diagnosis(act) => Ok(act.clone()),
        WorkAct::Sequence(_) => Err("this is an act at the sequence board".to_owned()),
    });
    let acts = acts.collect::<Result<Vec<_>, _>>()?;
    Desk::replayed(case, &acts).map_err(|error| error.to_string())
}

/// Acts at the board among these.
///
/// # Errors
/// One of them belongs to a case.
pub fn board_acts(acts: &[WorkAct]) -> Result<Vec<sequence::Act>, String> {
    let acts = acts.iter().map(|act| match act {
        WorkAct::Sequence(act) => Ok(*act),
        WorkAct::Diagnosis(_) => Err("this is an act of a diagnosis".to_owned()),
    });
    acts.collect()
}

fn outcome(
    exercise: &Exercise,
    conditions: &Conditions,
    acts: &[WorkAct],
) -> Result<sequence::Outcome, String> {
    sequence::Outcome::of(exercise, conditions, &board_acts(acts)?)
}
