//! An exercise at the board: the machine, where it starts, where it should come to, and the site's settings.

use super::{Act, Board, Purge, SiteSettings, Stage};
use ashlane_shared::{conditions::Conditions, physics::PhysicsError};

/// Where the board starts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Start {
    /// Cold and off, with combustibles left in the casing.
    Cold,
    /// Fire stable and purge complete since long, insulator heaters off since yesterday, no field on.
    Waiting,
    /// In service, everything warm.
    Running,
}

/// Where it should come to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Goal {
    /// In service: fire stable, every field on, heaters, rappers and ash removal running.
    InService,
    /// With the permit holder.
    HandedOver,
}

impl Start {
    /// Name in lesson files and start.
    pub const ALL: [(&str, Self); 3] = [
        ("cold", Self::Cold),
        ("waiting", Self::Waiting),
        ("running", Self::Running),
    ];
}

impl Goal {
    /// Name in lesson files and goal.
    pub const ALL: [(&str, Self); 2] = [
        ("in-service", Self::InService),
        ("handed-over", Self::HandedOver),
    ];

    /// As words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::InService => "in service: fire stable and every field on",
            Self::HandedOver => "handed over to the permit holder",
        }
    }
}

/// An exercise.
#[derive(Clone, Debug)]
pub struct Exercise {
    /// Where it starts.
    pub start: Start,
    /// Where it should come to.
    pub goal: Goal,
    /// Flow of the purge over that of the sheet.
    pub purge_share: f64,
    /// What the site says.
    pub site: SiteSettings,
}

/// Longest time that the model answer waits for one stage, s.
const PATIENCE_S: f64 = 24.0 * 3600.0;
/// How often it looks, s.
const LOOK_S: f64 = 60.0;

impl Exercise {
    /// A purge as the site asks for it, at the flow that a fan usually gives.
    #[must_use]
    pub fn usual_purge(&self, conditions: &Conditions) -> Purge {
        Purge::usual(conditions, self.site.volume_changes)
    }

    /// The acts that follow the site's own order and wait for each of its holds.
    ///
    /// # Errors
    /// A formula refused the conditions.
    pub fn model_acts(&self, conditions: &Conditions) -> Result<Vec<Act>, PhysicsError> {
        let mut way = Way {
            board: Board::new(self, conditions)?,
            acts: Vec::new(),
        };
        for stage in &self.site.order {
            way.go(*stage);
        }
        Ok(way.acts)
    }
}

/// The model answer as it is made.
struct Way {
    board: Board,
    acts: Vec<Act>,
}

impl Way {
    fn go(&mut self, stage: Stage) {
        match stage {
            Stage::Heaters => {
                self.act(Act::Heaters(true));
                self.wait_until(Board::is_dry);
            }
            Stage::AshRemoval => self.act(Act::AshRemoval(true)),
            Stage::Rappers => self.act(Act::Rappers(true)),
            Stage::Purge => {
                self.act(Act::Fan(true));
                self.wait_until(Board::is_purged);
            }
            Stage::Fire => {
                self.act(Act::Fire(true));
                self.wait_until(|board| board.is_stable() && board.is_below_set_point());
            }
            Stage::Energize => {
                for field in 0..self.board.fields().len() {
                    self.act(Act::Energize(field));
                    self.act(Act::Wait(LOOK_S));
                }
            }
            Stage::DeEnergize => {
                for field in 0..self.board.fields().len() {
                    self.act(Act::DeEnergize(field));
                    self.act(Act::Wait(LOOK_S));
                }
            }
            Stage::FireOut => self.act(Act::Fire(false)),
            Stage::CleanOut => {
                self.wait_until(Board::is_clean);
                self.act(Act::Rappers(false));
                self.act(Act::AshRemoval(false));
            }
            Stage::HandOver => self.act(Act::HandOver),
        }
    }

    /// What is so already needs no act.
    fn act(&mut self, act: Act) {
        if self.board.take(act).is_ok() {
            self.acts.push(act);
        }
    }

    fn wait_until(&mut self, is_there: impl Fn(&Board) -> bool) {
        let mut waited_s = 0.0;
        while !is_there(&self.board) && waited_s < PATIENCE_S {
            waited_s += LOOK_S;
            if self.board.take(Act::Wait(LOOK_S)).is_err() {
                break;
            }
        }
        if waited_s > 0.0 {
            self.acts.push(Act::Wait(waited_s));
        }
    }
}
