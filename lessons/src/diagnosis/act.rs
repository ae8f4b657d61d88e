//! What a learner does with a case, act by act, and the desk that it leads to: the same acts, the same desk.

use serde::{Deserialize, Serialize};

use super::{Action, Case, Check, find_action, find_check};

/// One act.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Act {
    /// Opens a reading or orders a check, by key.
    Order(String),
    /// Names the cause, by the name of its fault.
    Cause(String),
    /// Cites what an opened check showed as evidence.
    Cite(String),
    /// Takes a citation back.
    TakeBack(String),
    /// Chooses the first action, by key.
    Action(String),
    /// Hands the case in.
    HandIn,
}

/// Why an act is not possible; the desk is as it was.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum DeskError {
    /// No such check.
    #[error("there is no check \"{0}\"; open one of the list")]
    NoCheck(String),
    /// Open already.
    #[error("\"{0}\" is open already; what it shows stays on the desk")]
    OpenAlready(String),
    /// Cited what nobody has opened.
    #[error("\"{0}\" has not been opened; order it first, then cite it")]
    NotOpened(String),
    /// Not cited.
    #[error("\"{0}\" is not cited")]
    NotCited(String),
    /// No such cause.
    #[error("\"{0}\" is not among the causes of this case")]
    NoCause(String),
    /// No such action.
    #[error("there is no action \"{0}\"; choose one of the list")]
    NoAction(String),
    /// Something is missing.
    #[error("before the case is handed in: {0}")]
    Unfinished(&'static str),
    /// Handed in.
    #[error("the case is handed in and stays as it is")]
    HandedIn,
}

/// The desk after some acts.
#[derive(Clone, Debug)]
pub struct Desk {
    /// Checks that are open, those of the beginning first, then in the order in which they were ordered.
    pub open: Vec<&'static Check>,
    /// How many of them were open from the beginning.
    pub given: usize,
    /// Evidence, in the order in which it was cited.
    pub cited: Vec<&'static Check>,
    /// Name of the cause that was named last.
    pub cause: Option<String>,
    /// The action that was chosen last.
    pub action: Option<&'static Action>,
    /// Every action that was ever chosen, in order.
    pub chosen: Vec<&'static Action>,
    /// Whether it is handed in.
    pub handed_in: bool,
}

impl Desk {
    /// The beginning of a case.
    #[must_use]
    pub fn new(case: &Case) -> Self {
        let open: Vec<&'static Check> = case.first.iter().copied().filter_map(find_check).collect();
        Self {
            given: open.len(),
            open,
            cited: Vec::new(),
            cause: None,
            action: None,
            chosen: Vec::new(),
            handed_in: false,
        }
    }

    /// The desk that these acts lead to.
    ///
    /// # Errors
    /// The first act that is not possible.
    pub fn replayed(case: &Case, acts: &[Act]) -> Result<Self, DeskError> {
        let mut desk = Self::new(case);
        acts.iter().try_for_each(|act| desk.take(case, act))?;
        Ok(desk)
    }

    /// Checks that were ordered beside those that were open.
    #[must_use]
    pub fn ordered(&self) -> &[&'static Check] {
        self.open.get(self.given..).unwrap_or(&[])
    }

    fn take(&mut self, case: &Case, act: &Act) -> Result<(), DeskError> {
        if self.handed_in {
            return Err(DeskError::HandedIn);
        }
        match act {
            Act::Order(key) => {
                let check = find_check(key).ok_or_else(|| DeskError::NoCheck(key.clone()))?;
                if self.is_open(key) {
                    return Err(DeskError::OpenAlready(key.clone()));
                }
                self.open.push(check);
            }
            Act::Cite(key) => {
                let check = find_check(key).ok_or_else(|| DeskError::NoCheck(key.clone()))?;
                if !self.is_open(key) {
                    return Err(DeskError::NotOpened(key.clone()));
                }
                if !self.cited.iter().any(|cited| cited.key == key) {
                    self.cited.push(check);
                }
            }
            Act::TakeBack(key) => {
                let cited = self.cited.iter().position(|cited| cited.key == key);
                let cited = cited.ok_or_else(|| DeskError::NotCited(key.clone()))?;
                self.cited.remove(cited);
            }
            Act::Cause(name) => {
                case.cause(name)
                    .ok_or_else(|| DeskError::NoCause(name.clone()))?;
                self.cause = Some(name.clone());
            }
            Act::Action(key) => {
                let action = find_action(key).ok_or_else(|| DeskError::NoAction(key.clone()))?;
                self.action = Some(action);
                self.chosen.push(action);
            }
            Act::HandIn => self.hand_in()?,
        }
        Ok(())
    }

    fn hand_in(&mut self) -> Result<(), DeskError> {
        let missing = if self.cause.is_none() {
            Some("name a cause")
        } else if self.cited.is_empty() {
            Some("cite at least one reading as evidence")
        } else if self.action.is_none() {
            Some("choose a first action")
        } else {
            None
        };
        if let Some(missing) = missing {
            return Err(DeskError::Unfinished(missing));
        }
        self.handed_in = true;
        Ok(())
    }

    fn is_open(&self, key: &str) -> bool {
        self.open.iter().any(|check| check.key == key)
    }
}

impl Case {
    /// The acts of its own solution.
    #[must_use]
    pub fn model_acts(&self) -> Vec<Act> {
        let owned = |key: &&'static str| (*key).to_owned();
        let keys = || self.solution.checks.iter();
        let new = |key: &&&'static str| !self.first.contains(key);
        let mut acts: Vec<Act> = keys().filter(new).map(owned).map(Act::Order).collect();
        acts.push(Act::Cause(self.fault.name.to_owned()));
        acts.extend(keys().map(owned).map(Act::Cite));
        acts.push(Act::Action(self.solution.action.to_owned()));
        acts.push(Act::HandIn);
        acts
    }
}
