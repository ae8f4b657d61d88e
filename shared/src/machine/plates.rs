//! The plates on both sides of the drawn passage: how thick dust lies on them, and what the last blows brought down.

use crate::{
    conditions::Conditions,
    physics::{PhysicsError, rapping::slide_time_s},
    plant::{Plant, Returned},
    simulation::{Digest, TIME_STEP_S},
};

/// How long a blow is news, s: a sheet from plates of 16 m is down after 1.8 s.
const NEWS_S: f64 = 4.0;
/// Share of the way from one blow to the next at which a shaft waits for it.
const BEFORE: f64 = 0.999;

/// The plates of one field at the drawn passage, which is the one that the hammers reach first.
///
/// The plate with y > 0 stands first; it belongs to the first group that is struck, the other one to the second.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct FieldPlates {
    /// Mean thickness of the dust on each, m.
    pub layer_m: [f64; 2],
    /// The last sheet that fell from each while the flight clock ran.
    pub fallen: [Option<FallenSheet>; 2],
    /// The last blows on the plates of the whole field.
    pub turn: Option<Turn>,
}

/// A sheet of dust that a blow brought down from the one face that is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FallenSheet {
    /// Steps taken before the blow.
    pub step: u64,
    /// Dust that fell, kg: without what went back into the gas.
    pub kg: f64,
    /// How much thinner the layer is by it, mean, m.
    pub thickness_m: f64,
    /// How long its upper edge takes to the bottom of the plate, s: free fall, an idealisation.
    pub fall_s: f64,
}

impl FallenSheet {
    /// Share of its height that is below the plate by now, 0 to 1: `(t/t_fall)²`.
    #[must_use]
    pub fn gone(&self, step: u64) -> f64 {
        let share = age_s(step, self.step) / self.fall_s;
        (share * share).min(1.0)
    }

    /// Whether its blow is news.
    #[must_use]
    pub fn is_news(&self, step: u64) -> bool {
        age_s(step, self.step) < NEWS_S
    }
}

/// A turn of the hammers of a field, as far as it was struck while the flight clock ran.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turn {
    /// Steps taken before its last blow.
    pub step: u64,
    /// That blow, 1 for the first, and blows of a whole turn.
    pub blow: (usize, usize),
    /// Dust that fell, from all plates, kg.
    pub fallen_kg: f64,
    /// Dust that went back into the gas, kg.
    pub back_kg: f64,
    /// Time to the next blow of this turn, s; 0 after its last.
    pub next_s: f64,
}

impl Turn {
    /// Whether it is news: while it lasts, and for a while after its last blow.
    #[must_use]
    pub fn is_news(&self, step: u64) -> bool {
        age_s(step, self.step) < NEWS_S.max(self.next_s)
    }

    /// Share of a turn that the shaft has made since its first blow, 0 to 1: on to the next blow evenly, at the latest to just
    /// before it; after the last blow it stands.
    #[must_use]
    pub fn turned(&self, step: u64) -> f64 {
        let onwards = if self.next_s > 0.0 {
            (age_s(step, self.step) / self.next_s).min(BEFORE)
        } else {
            0.0
        };
        ((self.blow.0 as f64 - 1.0).max(0.0) + onwards) / self.blow.1.max(1) as f64
    }
}

/// Time from one step to a later one, s.
fn age_s(step: u64, since: u64) -> f64 {
    step.saturating_sub(since) as f64 * TIME_STEP_S
}

/// The plates of all fields.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Plates {
    fields: Vec<FieldPlates>,
}

impl Plates {
    pub(super) fn fields(&self) -> &[FieldPlates] {
        &self.fields
    }

    /// There are none, or they are new.
    pub(super) fn forget(&mut self) {
        self.fields.clear();
    }

    /// Looks at the layers.
    pub(super) fn look(&mut self, plant: &Plant, fields: usize) -> Result<(), PhysicsError> {
        self.fields.resize(fields, FieldPlates::default());
        for (field, plates) in self.fields.iter_mut().enumerate() {
            for (group, layer_m) in plates.layer_m.iter_mut().enumerate() {
                *layer_m = plant.group_m(field, group)?;
            }
        }
        Ok(())
    }

    /// A blow was struck; returns which of the drawn plates it hit.
    pub(super) fn struck(
        &mut self,
        blow: &Returned,
        step: u64,
        conditions: &Conditions,
    ) -> Result<Option<usize>, PhysicsError> {
        let (Some(sheet), Some(plates)) = (blow.sheet, self.fields.get_mut(blow.field)) else {
            return Ok(None);
        };
        // A turn of which the plant clock struck a part begins anew.
        let before = plates.turn.filter(|turn| turn.blow.0 == sheet.group);
        let (fallen_kg, back_kg) = before.map_or((0.0, 0.0), |turn| (turn.fallen_kg, turn.back_kg));
        let turn_s = 1.0 / conditions.rapping.shaft_speed_per_s;
        let is_last = sheet.group + 1 == sheet.groups;
        plates.turn = Some(Turn {
            step,
            next_s: if is_last {
                0.0
            } else {
                turn_s / sheet.groups as f64
            },
            blow: (sheet.group + 1, sheet.groups),
            fallen_kg: fallen_kg + sheet.fallen_kg,
            back_kg: back_kg + blow.back_kg,
        });
        let Some(drawn) = plates.fallen.get_mut(sheet.group) else {
            return Ok(None);
        };
        let collector = &conditions.collector;
        // A passage has two faces, whatever the number of plates in a group.
        let faces = 2.0 * collector.passages as f64 / sheet.groups as f64;
        *drawn = Some(FallenSheet {
            step,
            kg: sheet.fallen_kg / faces,
            thickness_m: sheet.lost_m,
            fall_s: slide_time_s(collector.plate_height_m)?,
        });
        Ok(Some(sheet.group))
    }

    /// What no account of the books tells.
    pub(super) fn add_to(&self, digest: &mut Digest) {
        for plates in &self.fields {
            for sheet in plates.fallen.iter().flatten() {
                digest.add(sheet.step);
                digest.add(sheet.kg.to_bits());
            }
            if let Some(turn) = plates.turn {
                digest.add(turn.step);
                digest.add(turn.fallen_kg.to_bits());
            }
        }
    }
}
