//! A | B in the engine: the pinned state, kept whole while the flight goes on, and the lock on the other controls.

use ashlane_panels::{
    SectionView,
    board::BoardView,
    change::Apart,
    compare::{CompareView, Side},
    lesson::LessonCommand,
    plan::PlanView,
    state::UiState,
    view::CountView,
};
use ashlane_shared::{
    alarms::Annunciator,
    conditions::Conditions,
    count::CountResult,
    machine::FieldPlates,
    physics::PhysicsError,
    simulation::{Still, electrics_are_ready},
    theory::Theory,
};
use bevy::prelude::*;

use crate::{
    board,
    close_looks::{GrainStand, SetStand, SideStand, WireStand},
    counting::Counting,
    face::Face,
    flight::Flight,
    pictures::{across, plan_of},
};

/// Adds the pinned state and the system that lets its count grow.
pub(crate) fn plugin(app: &mut App) {
    app.init_resource::<Compare>().add_systems(Update, refine);
}

/// The pinned state, if there is one.
#[derive(Resource, Debug, Default)]
pub(crate) struct Compare {
    pinned: Option<Pinned>,
    locked: bool,
    only: Option<&'static str>,
    /// What was pinned while exploring, as long as lessons are on screen.
    aside: Option<Box<Self>>,
}

/// A state that is kept.
#[derive(Debug)]
struct Pinned {
    controls: Conditions,
    still: Still,
    plates: Vec<FieldPlates>,
    side: SideStand,
    face: Face,
    wire: WireStand,
    grain: GrainStand,
    set: Option<SetStand>,
    result: CountResult,
    theory: Theory,
    generation: u64,
    alarms: Annunciator,
}

impl Compare {
    /// Keeps the present state; one that was kept before goes.
    ///
    /// # Errors
    /// The count is not settled, or a formula refused the state.
    pub(crate) fn pin(
        &mut self,
        flight: &Flight,
        counting: &Counting,
        field: usize,
    ) -> Result<(), String> {
        let settled = counting.is_settled() && counting.is_of(flight.generation());
        let (Some(result), Some(theory), true) = (&counting.result, &counting.theory, settled)
        else {
            return Err(
                "A is not pinned: the count of the present conditions has not settled. \
                        Wait until the agreement strip shows its verdict."
                    .to_owned(),
            );
        };
        let pinned = Pinned::new(flight, field, (result.clone(), theory.clone()));
        let pinned = pinned.map_err(|error| format!("A is not pinned. {error}"))?;
        *self = Self {
            pinned: Some(pinned),
            locked: self.locked,
            only: None,
            aside: self.aside.take(),
        };
        Ok(())
    }

    /// Lets it go, and the lock with it.
    pub(crate) fn unpin(&mut self) {
        *self = Self {
            aside: self.aside.take(),
            ..Self::default()
        };
    }

    /// Lessons come on screen, or go, or another one is opened: each compares by itself.
    pub(crate) fn follow(&mut self, command: &LessonCommand, lessons_are_on: bool) {
        match command {
            LessonCommand::Enter if !lessons_are_on => {
                let explored = std::mem::take(self);
                self.aside = Some(Box::new(explored));
            }
            LessonCommand::Leave => *self = self.aside.take().map_or_else(Self::default, |it| *it),
            LessonCommand::Open(_) | LessonCommand::Close => self.unpin(),
            _ => {}
        }
    }

    /// What its controls say.
    pub(crate) fn controls(&self) -> Option<&Conditions> {
        self.pinned.as_ref().map(|pinned| &pinned.controls)
    }

    /// Locks the others, or lets all be changed; not where more than one differs already.
    pub(crate) fn lock(&mut self, locked: bool, present: &Conditions) {
        let apart = self.apart(present);
        self.locked = locked && self.pinned.is_some() && apart.is_some();
        self.only = apart.flatten();
    }

    /// Whether a control may be changed.
    pub(crate) fn lets(&self, path: &str) -> bool {
        !self.locked || self.only.is_none_or(|only| only == path)
    }

    /// A control was changed: while others are locked, it is the one.
    pub(crate) fn changed(&mut self, path: &'static str) {
        if self.locked {
            self.only.get_or_insert(path);
        }
    }

    /// Whether these conditions may become the present ones; with the lock on, one control may differ.
    pub(crate) fn lets_become(&mut self, wanted: &Conditions) -> bool {
        if !self.locked {
            return true;
        }
        let apart = self.apart(wanted);
        if let Some(only) = apart {
            self.only = only;
        }
        apart.is_some()
    }

    /// The one control by which these conditions differ from the pinned ones, or none; nothing where they differ by more.
    fn apart(&self, present: &Conditions) -> Option<Option<&'static str>> {
        let pinned = self.controls()?;
        match Apart::of(pinned, present) {
            Apart::Same => Some(None),
            Apart::One(path) => Some(Some(path)),
            Apart::More => None,
        }
    }

    /// As the panels show it.
    pub(crate) fn view<'a>(&'a self, flight: &'a Flight, ui: &UiState) -> Option<CompareView<'a>> {
        let pinned = self.pinned.as_ref()?;
        Some(CompareView {
            a: Side {
                controls: &pinned.controls,
                conditions: pinned.still.frame().conditions(),
                fields: pinned.side.meters(),
                count: CountView {
                    result: Some(&pinned.result),
                    theory: Some(&pinned.theory),
                    settling: None,
                },
            },
            section: pinned.section(ui),
            then: pinned.still.frame(),
            now: flight.frame(),
            locked: self.locked,
            only: self.only,
            one_apart: self.apart(flight.controls()).is_some(),
        })
    }
}

impl Pinned {
    fn new(
        flight: &Flight,
        field: usize,
        (result, theory): (CountResult, Theory),
    ) -> Result<Self, PhysicsError> {
        let frame = flight.frame();
        let conditions = flight.conditions();
        // A field that nobody has solved yet is not worth standing still for.
        let set = electrics_are_ready(conditions)
            .then(|| SetStand::new(conditions, field))
            .transpose()?;
        Ok(Self {
            controls: flight.controls().clone(),
            plates: flight.machine().plates().to_vec(),
            side: SideStand::new(flight)?,
            face: Face::new(conditions)?,
            wire: WireStand::new(&frame, field)?,
            grain: GrainStand::of(&frame),
            set,
            result,
            theory,
            generation: flight.generation(),
            alarms: flight.alarms().clone(),
            still: Still::of(&frame),
        })
    }

    /// What it looks like.
    fn section(&self, ui: &UiState) -> SectionView<'_> {
        let frame = self.still.frame();
        let side = self.side.view(&frame, &self.plates, ui);
        SectionView {
            elevation: side,
            board: BoardView {
                machine: side,
                alarms: &self.alarms,
                stack: board::counted(frame.conditions(), &self.result),
                readings: &[],
            },
            cross_section: across(side, &self.face, ui),
            plan: PlanView {
                fields: self.side.meters(),
                ..plan_of(&frame, &self.plates, ui)
            },
            wire: Some(self.wire.view(ui)),
            grain: self.grain.view(&frame, ui),
            energization: self.set.as_ref().map(|set| set.view(ui)),
            revision: 0,
        }
    }
}

/// As long as nothing has changed, the count goes on for A too.
fn refine(flight: Res<Flight>, counting: Res<Counting>, mut compare: ResMut<Compare>) {
    let generation = flight.generation();
    let (Some(result), Some(theory)) = (&counting.result, &counting.theory) else {
        return;
    };
    let grown = |pinned: &Pinned| {
        pinned.generation == generation
            && counting.is_of(generation)
            && counting.is_settled()
            && pinned.result.parcels < result.parcels
    };
    if compare.pinned.as_ref().is_some_and(grown)
        && let Some(pinned) = &mut compare.pinned
    {
        (pinned.result, pinned.theory) = (result.clone(), theory.clone());
    }
}
