//! Undo and redo: every change of the conditions, one after the other.

use ashlane_shared::conditions::Conditions;

/// Changes that are remembered.
const MOST: usize = 200;

/// Past and undone conditions.
#[derive(Clone, Debug, Default)]
pub struct History {
    past: Vec<Entry>,
    undone: Vec<Conditions>,
}

#[derive(Clone, Debug)]
struct Entry {
    before: Conditions,
    /// Key that was changed, so that one drag of a slider is one change.
    path: Option<&'static str>,
}

impl History {
    /// Remembers the conditions before a change. Changes of one key that follow each other without [`Self::pause`]
    /// between them are one change.
    pub fn record(&mut self, before: &Conditions, path: Option<&'static str>) {
        self.undone.clear();
        let goes_on = path.is_some() && self.past.last().is_some_and(|entry| entry.path == path);
        if goes_on {
            return;
        }
        if self.past.len() == MOST {
            self.past.remove(0);
        }
        self.past.push(Entry {
            before: before.clone(),
            path,
        });
    }

    /// Ends a drag: the next change is one of its own.
    pub fn pause(&mut self) {
        if let Some(entry) = self.past.last_mut() {
            entry.path = None;
        }
    }

    /// The conditions before the last change.
    pub fn undo(&mut self, present: &Conditions) -> Option<Conditions> {
        let entry = self.past.pop()?;
        self.undone.push(present.clone());
        Some(entry.before)
    }

    /// The conditions that were undone last.
    pub fn redo(&mut self, present: &Conditions) -> Option<Conditions> {
        let again = self.undone.pop()?;
        self.past.push(Entry {
            before: present.clone(),
            path: None,
        });
        Some(again)
    }

    /// Whether there is something to undo.
    #[must_use]
    pub fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    /// Whether there is something to redo.
    #[must_use]
    pub fn can_redo(&self) -> bool {
        !self.undone.is_empty()
    }
}

#[cfg(test)]
mod tests {
    use ashlane_shared::conditions::demonstration;

    use super::*;

    fn with_flow(flow_m3_s: f64) -> Conditions {
        let mut conditions = demonstration();
        conditions.gas.flow_m3_s = flow_m3_s;
        conditions
    }

    #[test]
    fn undo_and_redo_walk_back_and_forth() {
        let mut history = History::default();
        history.record(&with_flow(100.0), Some("gas.flow"));
        history.record(&with_flow(110.0), Some("gas.temperature"));
        assert_eq!(history.undo(&with_flow(120.0)), Some(with_flow(110.0)));
        assert_eq!(history.undo(&with_flow(110.0)), Some(with_flow(100.0)));
        assert!(!history.can_undo());
        assert_eq!(history.redo(&with_flow(100.0)), Some(with_flow(110.0)));
        assert_eq!(history.redo(&with_flow(110.0)), Some(with_flow(120.0)));
        assert!(!history.can_redo() && history.can_undo());
    }

    #[test]
    fn a_drag_is_one_change_and_a_new_change_drops_what_was_undone() {
        let mut history = History::default();
        for flow in [100.0, 101.0, 102.0] {
            history.record(&with_flow(flow), Some("gas.flow"));
        }
        history.pause();
        history.record(&with_flow(103.0), Some("gas.flow"));
        assert_eq!(history.undo(&with_flow(104.0)), Some(with_flow(103.0)));
        assert_eq!(history.undo(&with_flow(103.0)), Some(with_flow(100.0)));
        history.record(&with_flow(90.0), None);
        assert!(!history.can_redo());
    }
}
