//! What is wrong with one field: wires, frame, insulators, set, meter, hammers, hopper. A sound field has nothing.
//!
//! A site sheet has no words for these: a site is sound until a fault strikes it.

use serde::{Deserialize, Serialize};

/// What is wrong with one field.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct FieldDefects {
    /// Thickness of the dust that sticks to the discharge wires, m.
    pub wire_coating_m: f64,
    /// How far the frame of the wires stands out of the middle of its passages, m.
    pub displaced_m: f64,
    /// How far a loose wire swings, m.
    pub swing_m: f64,
    /// Time of one swing, s, above 0.
    pub swing_s: f64,
    /// Conductance over the support insulators, or of a short, S.
    pub leakage_s: f64,
    /// Voltage that the insulators hold over that at which the gap sparks; 1 and more where it is the gap that sparks.
    pub insulator_share: f64,
    /// Share of every second half cycle of the line that is missing.
    pub missing_half_cycles: f64,
    /// What the kilovolt meter shows over the voltage.
    pub meter_share: f64,
    /// Share of the hammers' energy that does not reach the plates.
    pub lost_blow: f64,
    /// Share of the dust on the wires that their rappers leave there.
    pub uncleaned_wires: f64,
    /// Share of the ash that bridges over the hopper outlets and cannot be taken away.
    pub bridged: f64,
    /// Share of the plates of a wet collector over which no water runs.
    pub dry_share: f64,
}

impl FieldDefects {
    /// A sound field.
    pub const NONE: Self = Self {
        wire_coating_m: 0.0,
        displaced_m: 0.0,
        swing_m: 0.0,
        swing_s: 20.0,
        leakage_s: 0.0,
        insulator_share: 1.0,
        missing_half_cycles: 0.0,
        meter_share: 1.0,
        lost_blow: 0.0,
        uncleaned_wires: 0.0,
        bridged: 0.0,
        dry_share: 0.0,
    };

    /// Everything that is no number of its range, by name.
    pub(super) fn objections(&self, gap_m: f64) -> Vec<(&'static str, f64, &'static str)> {
        let mut wrong = Vec::new();
        let mut within = |name, value: f64, (low, high): (f64, f64), range| {
            if !(low..=high).contains(&value) {
                wrong.push((name, value, range));
            }
        };
        let within_gap = (0.0, 0.9 * gap_m);
        let share = (0.0, 1.0);
        within(
            "wire_coating_m",
            self.wire_coating_m,
            (0.0, 0.02),
            "0 to 20 mm",
        );
        within(
            "displaced_m",
            self.displaced_m,
            within_gap,
            "0 to 90 % of the gap",
        );
        within("swing_m", self.swing_m, within_gap, "0 to 90 % of the gap");
        within("swing_s", self.swing_s, (0.1, 3600.0), "0.1 s to 1 h");
        within("leakage_s", self.leakage_s, (0.0, 10.0), "0 to 10 S");
        within(
            "insulator_share",
            self.insulator_share,
            (0.01, 1.0),
            "0.01 to 1",
        );
        within(
            "missing_half_cycles",
            self.missing_half_cycles,
            share,
            "0 to 1",
        );
        within("meter_share", self.meter_share, (0.0, 10.0), "0 to 10");
        within("lost_blow", self.lost_blow, share, "0 to 1");
        within("uncleaned_wires", self.uncleaned_wires, share, "0 to 1");
        within("bridged", self.bridged, share, "0 to 1");
        within("dry_share", self.dry_share, share, "0 to 1");
        wrong
    }
}

impl Default for FieldDefects {
    fn default() -> Self {
        Self::NONE
    }
}
