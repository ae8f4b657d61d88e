//! The stops of a walk through the machine, in the order of the ladder of scales: a clicker goes from one to the next.

use ashlane_shared::conditions::Conditions;

use crate::{
    section::{PASSAGE_WIRES, present_field, show},
    state::{Rung, UiState},
};

/// A place to stop at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Stop {
    Collector,
    Across,
    Plan,
    Field,
    Passage,
    Wire,
    Grain,
    Energization,
    Panel,
}

impl Stop {
    /// Every stop in order.
    const ALL: [Self; 9] = [
        Self::Collector,
        Self::Across,
        Self::Plan,
        Self::Field,
        Self::Passage,
        Self::Wire,
        Self::Grain,
        Self::Energization,
        Self::Panel,
    ];

    /// The stop that the drawing is at, or that it is nearest to on the plan.
    pub(super) fn of(state: &UiState, conditions: &Conditions) -> Self {
        match state.rung {
            Rung::Elevation => Self::Collector,
            Rung::CrossSection => Self::Across,
            Rung::Wire => Self::Wire,
            Rung::Grain => Self::Grain,
            Rung::Energization => Self::Energization,
            Rung::Board => Self::Panel,
            Rung::Plan => {
                let length_m = f64::from(state.window.length_m);
                let field_m = conditions.collector.field_length_m;
                if length_m > 0.999 * conditions.length_m() && conditions.collector.fields > 1 {
                    Self::Plan
                } else if length_m > 0.5 * (field_m + passage_m(conditions)) {
                    Self::Field
                } else {
                    Self::Passage
                }
            }
        }
    }

    /// The stop after this one, or before it; the last and the first stay.
    pub(super) fn neighbour(self, forward: bool, conditions: &Conditions) -> Self {
        // A collector of one field is that field.
        let there = |stop: &Self| *stop != Self::Plan || conditions.collector.fields > 1;
        let stops: Vec<Self> = Self::ALL.into_iter().filter(there).collect();
        let at = stops
            .iter()
            .position(|stop| *stop == self)
            .unwrap_or_default();
        let next = if forward {
            at + 1
        } else {
            at.saturating_sub(1)
        };
        stops.get(next).copied().unwrap_or(self)
    }

    /// Shows it; the field that is looked at stays the same on all of them.
    pub(super) fn show(self, state: &mut UiState, conditions: &Conditions) {
        let fields = conditions.collector.fields;
        let field_m = conditions.collector.field_length_m as f32;
        let total_m = conditions.length_m() as f32;
        // The whole plan is at no field.
        if state.rung == Rung::Plan && state.window.length_m < 0.999 * total_m {
            state.field = present_field(state, field_m, fields);
        }
        let field = state.field.min(fields.saturating_sub(1));
        state.field = field;
        state.rung = match self {
            Self::Collector => Rung::Elevation,
            Self::Across => Rung::CrossSection,
            Self::Plan => return show(state, total_m, 0.0, total_m),
            Self::Field => return show(state, total_m, field as f32 * field_m, field_m),
            Self::Passage => {
                let passage_m = passage_m(conditions) as f32;
                let middle_m = (field as f32 + 0.5) * field_m;
                return show(state, total_m, middle_m - 0.5 * passage_m, passage_m);
            }
            Self::Wire => Rung::Wire,
            Self::Grain => Rung::Grain,
            Self::Energization => Rung::Energization,
            Self::Panel => Rung::Board,
        };
    }
}

fn passage_m(conditions: &Conditions) -> f64 {
    PASSAGE_WIRES * conditions.collector.wire_spacing_m
}

#[cfg(test)]
mod tests {
    use ashlane_shared::conditions::demonstration;

    use super::*;

    #[test]
    fn a_walk_there_and_back_stops_everywhere_and_keeps_the_field() {
        let mut conditions = demonstration();
        for fields in [1, 4] {
            conditions.set_fields(fields);
            let mut state = UiState {
                rung: Rung::Elevation,
                field: fields - 1,
                ..UiState::default()
            };
            for walk in [true, false] {
                let mut met = vec![Stop::of(&state, &conditions)];
                for _ in 0..20 {
                    let next = Stop::of(&state, &conditions).neighbour(walk, &conditions);
                    next.show(&mut state, &conditions);
                    let now = Stop::of(&state, &conditions);
                    if met.last() != Some(&now) {
                        met.push(now);
                    }
                }
                let mut expected = Stop::ALL.to_vec();
                expected.retain(|stop| fields > 1 || *stop != Stop::Plan);
                if !walk {
                    expected.reverse();
                }
                assert_eq!(met, expected, "{fields} fields");
                assert_eq!(state.field, fields - 1);
            }
        }
    }
}
