//! First actions that are offered: one row each, with the faults they fit and when choosing them would be unsafe.
//!
//! None of them is a step of a procedure: each ends where the site's own people and rules take over, and nothing opens.

use super::{Evidence, Turn, find_check};

/// A first action.
#[derive(Clone, Copy, Debug)]
pub struct Action {
    /// Its key.
    pub key: &'static str,
    /// What it says.
    pub name: &'static str,
    /// Faults whose first action it is.
    pub fits: &'static [&'static str],
    /// Caution that stands beside it, by code.
    pub caution: Option<&'static str>,
    pub(super) danger: Danger,
}

/// When an action is unsafe, and what to say then.
#[derive(Clone, Copy, Debug)]
pub(super) enum Danger {
    /// Never.
    None,
    /// While a field shows next to no voltage.
    FieldGone(&'static str),
    /// Always.
    Always(&'static str),
}

impl Action {
    /// Why it is unsafe with this machine; nothing where it is not.
    #[must_use]
    pub fn is_unsafe(&self, evidence: &Evidence) -> Option<&'static str> {
        match self.danger {
            Danger::None => None,
            Danger::Always(why) => Some(why),
            Danger::FieldGone(why) => {
                let kilovolts = evidence.reveals(find_check("kv")?);
                let gone = |finding: &super::Finding| finding.turn() == Turn::Gone;
                kilovolts.iter().any(gone).then_some(why)
            }
        }
    }
}

const fn row(
    (key, name): (&'static str, &'static str),
    fits: &'static [&'static str],
    caution: Option<&'static str>,
    danger: Danger,
) -> Action {
    Action {
        key,
        name,
        fits,
        caution,
        danger,
    }
}

const AGAIN: &str = "A set goes on again only when it is known why it gave nothing: hopper level, ground switch, interlock and insulator alarms are read first. A buried frame fuses ash, and an open interlock may mean that somebody is where the voltage would come.";
const INSIDE: &str = "No door is opened to look. Off is not discharged, ash can run like water, and what lies behind a door is for the permit holder under the site's procedure.";
const BRIDGED: &str = "A trip or an interlock is never bypassed, however sure the reading is.";

/// Every action.
// One row a line, so that it reads as the table it is.
#[rustfmt::skip]
pub const ACTIONS: &[Action] = &[
    row(("field-off", "take the field out of service at the panel, report it, and hand over to those whom the site's procedure names"), &["dead-short", "swinging-wire", "close-clearance", "half-rectifier", "supply-lost", "insulator-tracking"], Some("C1"), Danger::None),
    row(("ash-handling", "report the row to ash handling, who work under their own procedure, and keep the field off while its level is high or unknown"), &["plugged-hopper"], Some("C7"), Danger::None),
    row(("less-power", "ask the sets for less current, and watch the opacity"), &["back-corona", "close-clearance"], None, Danger::None),
    row(("boiler", "tell the boiler desk and the chemist: fuel, gas temperature, conditioning, air"), &["high-resistivity", "back-corona", "air-leak"], None, Danger::None),
    row(("rappers", "order a check of the rappers and of their program under the site's rules"), &["lost-rapper", "hard-rapping", "dusty-wires"], Some("C10"), Danger::None),
    row(("meter", "keep the field in service, mark the meter as doubtful, and order its check"), &["false-meter"], Some("C14"), Danger::None),
    row(("survey", "note it for a survey of the gas distribution at the next outage"), &["gas-distribution"], Some("C6"), Danger::None),
    row(("more-power", "ask the sets for more voltage until the opacity comes down"), &[], None, Danger::None),
    row(("reset", "reset, and hope"), &[], Some("C1"), Danger::FieldGone(AGAIN)),
    row(("look-inside", "have a door opened and look"), &[], Some("C6"), Danger::Always(INSIDE)),
    row(("bridge", "bridge the interlock that stops the set"), &[], Some("C2"), Danger::Always(BRIDGED)),
];

/// The row of a key.
#[must_use]
pub fn find_action(key: &str) -> Option<&'static Action> {
    ACTIONS.iter().find(|row| row.key == key)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{engine::find_caution, faults::FAULTS};

    #[test]
    fn every_fault_has_a_first_action_that_is_never_unsafe() {
        for fault in FAULTS {
            let fits = |action: &&Action| action.fits.contains(&fault.name);
            let fitting: Vec<&Action> = ACTIONS.iter().filter(fits).collect();
            assert!(!fitting.is_empty(), "{}", fault.name);
            let safe = |action: &&Action| matches!(action.danger, Danger::None);
            assert!(fitting.iter().all(safe), "{}", fault.name);
        }
        for action in ACTIONS {
            assert_eq!(
                find_action(action.key).map(|found| found.name),
                Some(action.name)
            );
            assert!(
                action
                    .fits
                    .iter()
                    .all(|name| FAULTS.iter().any(|fault| fault.name == *name))
            );
            assert!(
                action
                    .caution
                    .is_none_or(|code| find_caution(code).is_some())
            );
        }
    }
}
