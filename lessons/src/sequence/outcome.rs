//! What came of an exercise: order, holds, what followed, and the purge measured twice. Speed is not looked at.

use ashlane_shared::conditions::Conditions;
use serde::{Deserialize, Serialize};

use super::{Act, Board, Consequences, Exercise, Goal, Stage, Start, gas::volume_m3};

/// How far the two witnesses of a purge may differ (training.md L18).
const PURGE_AGREES: f64 = 0.01;

/// Volume changes of a purge by two roads.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct PurgeCheck {
    /// `∫Q dt / V`.
    pub by_flow: f64,
    /// `ln(c₀/c)` of the combustibles that it thinned out: a stirred volume.
    pub by_dilution: f64,
}

impl PurgeCheck {
    /// Whether both agree within 1 %.
    #[must_use]
    pub fn agrees(&self) -> bool {
        (self.by_flow - self.by_dilution).abs() <= PURGE_AGREES * self.by_dilution.abs()
    }
}

/// What came of an exercise.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Outcome {
    /// Whether the goal was reached.
    pub reached: bool,
    /// Stages that came before one that the site has before them, in words.
    pub out_of_order: Vec<String>,
    /// Whether fields went off from the inlet on; nothing where none did.
    pub inlet_first: Option<bool>,
    /// What followed.
    pub consequences: Consequences,
    /// Whether nothing followed that a hold of the site is there for, since anybody could act.
    pub holds_kept: bool,
    /// Dust that is left on the plates, kg.
    pub on_plates_kg: f64,
    /// Ash that is left in the hoppers, kg.
    pub in_hoppers_kg: f64,
    /// Whether plates and hoppers are clean.
    pub clean: bool,
    /// The purge by two roads; nothing where none was made.
    pub purge: Option<PurgeCheck>,
    /// Where order and limits come from.
    pub source: String,
    /// Whether goal, order and holds are all as the site wants them.
    pub as_wanted: bool,
}

impl Outcome {
    /// What came of these acts.
    ///
    /// # Errors
    /// The first act that is not possible, in words.
    pub fn of(exercise: &Exercise, conditions: &Conditions, acts: &[Act]) -> Result<Self, String> {
        let board = Board::replayed(exercise, conditions, acts)?;
        let seen = seen(exercise, conditions, board.acts())?;
        let (layers_kg, hoppers_kg) = board.dust_kg();
        let outcome = Self {
            as_wanted: false,
            holds_kept: holds_kept(exercise, *board.consequences()),
            reached: match exercise.goal {
                Goal::InService => board.is_in_service(),
                Goal::HandedOver => board.is_handed_over(),
            },
            out_of_order: out_of_order(&seen),
            inlet_first: inlet_first(board.acts()),
            consequences: *board.consequences(),
            on_plates_kg: layers_kg.iter().sum(),
            in_hoppers_kg: hoppers_kg.iter().sum(),
            clean: board.is_clean(),
            purge: purge(&board, conditions),
            source: exercise.site.source.clone(),
        };
        Ok(Self {
            as_wanted: outcome.is_as_wanted(exercise),
            ..outcome
        })
    }

    fn is_as_wanted(&self, exercise: &Exercise) -> bool {
        self.reached
            && self.out_of_order.is_empty()
            && self.inlet_first != Some(false)
            && self.holds_kept
            && (exercise.goal == Goal::InService || self.clean)
    }

    /// Whether the purge agrees by both roads; a board without one has nothing to disagree.
    #[must_use]
    pub fn agrees(&self) -> bool {
        self.purge.is_none_or(|purge| purge.agrees())
    }
}

fn holds_kept(exercise: &Exercise, mut so_far: Consequences) -> bool {
    if exercise.start == Start::Waiting {
        // Moist gas met cold insulators before anybody could act.
        so_far.condensing_s = 0.0;
    }
    so_far.holds_were_kept()
}

/// After how many acts each stage of the site's order was there; nothing where it never was.
type Seen = Vec<(Stage, Option<usize>)>;

fn seen(exercise: &Exercise, conditions: &Conditions, acts: &[Act]) -> Result<Seen, String> {
    let mut board = Board::new(exercise, conditions).map_err(|error| error.to_string())?;
    let order = &exercise.site.order;
    let mut seen: Seen = order.iter().map(|stage| (*stage, None)).collect();
    let mut was_on = board.fields().iter().any(|on| *on);
    for done in 0..=acts.len() {
        if let Some(act) = done.checked_sub(1).and_then(|last| acts.get(last)) {
            board.take(*act).map_err(|error| error.to_string())?;
        }
        was_on |= board.fields().iter().any(|on| *on);
        for (stage, first) in &mut seen {
            if first.is_none() && is_there(*stage, &board, was_on) {
                *first = Some(done);
            }
        }
    }
    Ok(seen)
}

fn is_there(stage: Stage, board: &Board, was_on: bool) -> bool {
    let now = board.now();
    let any_on = now.on.iter().any(|on| *on);
    match stage {
        Stage::Heaters => now.heaters,
        Stage::AshRemoval => now.ash_removal,
        Stage::Rappers => now.rappers,
        Stage::Purge => board.is_purged(),
        Stage::Fire => board.is_stable(),
        Stage::Energize => any_on,
        Stage::DeEnergize => was_on && !any_on,
        Stage::FireOut => now.burning_s.is_none(),
        Stage::CleanOut => !now.rappers && !now.ash_removal,
        Stage::HandOver => now.handed_over,
    }
}

/// Every stage that was there before one that the order has before it.
fn out_of_order(seen: &[(Stage, Option<usize>)]) -> Vec<String> {
    let mut told = Vec::new();
    for (place, &(later, there)) in seen.iter().enumerate() {
        // What was there at the start is nobody's act.
        let Some(there) = there.filter(|there| *there > 0) else {
            continue;
        };
        let early = |first: &Option<usize>| first.is_none_or(|first| first > there);
        if let Some((before, _)) = seen[..place].iter().find(|(_, first)| early(first)) {
            told.push(format!("{} before {}", later.words(), before.words()));
        }
    }
    told
}

/// Whether fields went off from the inlet on.
fn inlet_first(acts: &[Act]) -> Option<bool> {
    let off: Vec<usize> = acts
        .iter()
        .filter_map(|act| match act {
            Act::DeEnergize(field) => Some(*field),
            _ => None,
        })
        .collect();
    (!off.is_empty()).then(|| off.windows(2).all(|pair| pair[0] < pair[1]))
}

/// The purge by both roads, until the fire was lit or until now.
fn purge(board: &Board, conditions: &Conditions) -> Option<PurgeCheck> {
    let now = board.now();
    let (by_flow, left) = match (now.purge_closed, now.burning_s) {
        (Some(closed), _) => closed,
        (None, None) => (now.purged_m3 / volume_m3(conditions), now.combustibles),
        (None, Some(_)) => return None,
    };
    (by_flow > 0.0).then(|| PurgeCheck {
        by_flow,
        by_dilution: (now.purge_from / left).ln(),
    })
}
