//! A case: the fault that is hidden, how long it has been there, and what the learner may take it for.

use ashlane_shared::{conditions::Conditions, physics::PhysicsError, simulation::struck_field};

use super::Turn;
use crate::{
    engine::Text,
    faults::{Fault, SetFault},
};

/// A case.
#[derive(Clone, Debug)]
pub struct Case {
    /// The fault that is hidden.
    pub fault: &'static Fault,
    /// How bad it is, 0 to 1.
    pub severity: f64,
    /// Which field it strikes is drawn with this.
    pub seed: u64,
    /// How long the plant has run with it when the learner comes, h.
    pub hours: f64,
    /// Keys of the readings that are open from the beginning.
    pub first: Vec<&'static str>,
    /// Causes that are offered, the true one among them.
    pub causes: Vec<Cause>,
    /// A way that solves it.
    pub solution: Solution,
    /// What the machine has to show: its row of the troubleshooting table.
    pub signs: Vec<Sign>,
}

/// A cause that is offered.
#[derive(Clone, Debug)]
pub struct Cause {
    /// Its fault.
    pub fault: &'static Fault,
    /// How bad that would be, 0 to 1.
    pub severity: f64,
    /// What is said to whoever names it.
    pub text: Text,
}

/// A way that solves a case.
#[derive(Clone, Debug)]
pub struct Solution {
    /// Keys of the checks to order, in this order; what they show is cited.
    pub checks: Vec<&'static str>,
    /// Key of the first action.
    pub action: &'static str,
}

/// One sign of the row: which way a reading goes, and how far where that is scripted.
#[derive(Clone, Debug, PartialEq)]
pub struct Sign {
    /// Key of the check.
    pub check: &'static str,
    /// Which of its findings, from 0, by field where it has one for each; nothing is the struck field.
    pub finding: Option<usize>,
    /// Which way.
    pub turn: Turn,
    /// Scripted share of the usual value, within 10 %.
    pub ratio: Option<f64>,
}

impl Case {
    /// The field that is struck, from 0.
    #[must_use]
    pub fn place(&self, sound: &Conditions) -> usize {
        struck_field(self.seed, sound.collector.fields)
    }

    /// The conditions that hold in the machine of this case.
    ///
    /// # Errors
    /// A formula refused the conditions.
    pub fn holds(&self, sound: &Conditions) -> Result<Conditions, PhysicsError> {
        set(self.fault, self.severity).strike(sound, self.seed)
    }

    /// The conditions that would hold if this cause were the true one.
    ///
    /// # Errors
    /// A formula refused the conditions.
    pub fn would_hold(
        &self,
        cause: &Cause,
        sound: &Conditions,
    ) -> Result<Conditions, PhysicsError> {
        set(cause.fault, cause.severity).strike(sound, self.seed)
    }

    /// The causes in the order in which they are offered: by their titles, so that no place is that of the true one.
    #[must_use]
    pub fn offered(&self) -> Vec<&Cause> {
        let mut causes: Vec<&Cause> = self.causes.iter().collect();
        causes.sort_by_key(|cause| cause.fault.title);
        causes
    }

    /// The cause of this name.
    #[must_use]
    pub fn cause(&self, name: &str) -> Option<&Cause> {
        self.causes.iter().find(|cause| cause.fault.name == name)
    }
}

fn set(fault: &'static Fault, severity: f64) -> SetFault {
    SetFault {
        fault,
        severity,
        from_s: 0.0,
        to_s: None,
    }
}
