//! The hammers of a field: a slowly turning shaft that strikes one group of plates after the other, and how hard.

use crate::{
    conditions::Conditions,
    physics::{
        PhysicsError,
        rapping::{ReferenceBlow, blow_energy_j, peak_acceleration_m_s2},
    },
};

/// Groups of plates that are struck one after the other in a turn: plate by plate up to so many, beyond it some at once.
/// Teaching value, no source.
const MOST_GROUPS: usize = 32;

/// Groups into which the plates of a field are divided, struck one after the other in a turn.
#[must_use]
pub fn struck_groups(conditions: &Conditions) -> usize {
    MOST_GROUPS.min(conditions.collector.passages + 1)
}

/// When the groups of a field are struck.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Shaft {
    groups: usize,
    /// The group that is struck next.
    next_group: usize,
    /// When, s.
    next_strike_s: f64,
    /// When the present turn began, s.
    turn_began_s: f64,
    turn_s: f64,
    interval_s: f64,
}

impl Shaft {
    pub(super) fn new(conditions: &Conditions, field: usize) -> Self {
        let interval_s = conditions.rapping.interval_s[field];
        Self {
            groups: struck_groups(conditions),
            next_group: 0,
            next_strike_s: interval_s,
            turn_began_s: interval_s,
            turn_s: 1.0 / conditions.rapping.shaft_speed_per_s,
            interval_s,
        }
    }

    pub(super) fn groups(&self) -> usize {
        self.groups
    }

    /// The group that is struck next.
    pub(super) fn next_group(&self) -> usize {
        self.next_group
    }

    pub(super) fn next_strike_s(&self) -> f64 {
        self.next_strike_s
    }

    /// From now on at this interval and speed; the blow that is due stays due.
    pub(super) fn adopt(&mut self, conditions: &Conditions, field: usize) {
        self.interval_s = conditions.rapping.interval_s[field];
        self.turn_s = 1.0 / conditions.rapping.shaft_speed_per_s;
    }

    /// Begins a turn at once, if none is under way.
    pub(super) fn begin(&mut self, time_s: f64) {
        if self.next_group == 0 {
            self.next_strike_s = time_s;
        }
    }

    /// The blow that is due: which group it hits. A shaft whose turn takes longer than its interval does not stop.
    pub(super) fn strike(&mut self, time_s: f64) -> usize {
        let group = self.next_group;
        if group == 0 {
            self.turn_began_s = time_s;
        }
        self.next_group = (group + 1) % self.groups;
        self.next_strike_s = time_s + self.turn_s / self.groups as f64;
        if self.next_group == 0 {
            self.next_strike_s = self.next_strike_s.max(self.turn_began_s + self.interval_s);
        }
        group
    }
}

/// Peak acceleration of the plates of a field under a blow, m/s²: as given, or by the energy of the hammers; less where
/// energy is lost on the way.
pub(super) fn acceleration_m_s2(
    conditions: &Conditions,
    field: usize,
) -> Result<f64, PhysicsError> {
    let rapping = &conditions.rapping;
    let sound_m_s2 = match (rapping.hammer_mass_kg, rapping.hammer_drop_m) {
        (Some(mass_kg), Some(drop_m)) => {
            peak_acceleration_m_s2(blow_energy_j(mass_kg, drop_m)?, &ReferenceBlow::TEACHING)?
        }
        _ => rapping.acceleration_m_s2,
    };
    let sound = ReferenceBlow {
        energy_j: 1.0,
        acceleration_m_s2: sound_m_s2,
    };
    peak_acceleration_m_s2(1.0 - conditions.defects[field].lost_blow, &sound)
}
