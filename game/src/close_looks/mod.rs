//! What the closer looks need besides the flight: worked out when the field changes, kept until it does again.

mod stands;

use ashlane_panels::{
    energization::EnergizationView,
    grain::GrainView,
    state::{Rung, UiState},
    wire::WireView,
};
use ashlane_shared::{
    conditions::Conditions,
    physics::PhysicsError,
    simulation::{FieldState, Frame, electrics_are_ready},
};
use bevy::{
    prelude::*,
    tasks::{AsyncComputeTaskPool, Task, block_on, futures_lite::future::poll_once},
};

use crate::{flight::Flight, schedule::FrameStage, session::Session};
pub(crate) use stands::{GrainStand, SetStand, SideStand, WireStand};

/// Adds the systems that work them out.
pub(crate) fn plugin(app: &mut App) {
    app.init_resource::<CloseLooks>()
        .add_systems(Update, (prepare, prepare_set).in_set(FrameStage::Draw));
}

/// The present closer looks.
#[derive(Resource, Debug, Default)]
pub(crate) struct CloseLooks {
    /// What they were worked out for.
    of: Option<(Conditions, FieldState)>,
    /// The machine from the side.
    pub(crate) side: SideStand,
    /// The wire.
    wire: Option<WireStand>,
    /// The grain.
    grain: GrainStand,
    /// The electrical set.
    set: Option<SetStand>,
    /// Work on the next one.
    set_work: Option<SetWork>,
    /// What the set is of: the generation of the conditions, and the field.
    set_of: Option<(u64, usize)>,
    /// Counts how often they changed.
    pub(crate) revision: u64,
}

/// A set that is being worked out.
#[derive(Debug)]
struct SetWork {
    /// What it is of.
    of: (u64, usize),
    task: Task<Result<SetStand, PhysicsError>>,
}

impl CloseLooks {
    /// Works out the set at once, for pictures.
    pub(crate) fn settle_now(&mut self, flight: &Flight, field: usize) -> Result<()> {
        self.set = Some(SetStand::new(flight.conditions(), field)?);
        self.set_of = Some((flight.generation(), field));
        self.revision += 1;
        Ok(())
    }

    /// The electrical set.
    pub(crate) fn energization(&self, ui: &UiState) -> Option<EnergizationView<'_>> {
        self.set.as_ref().map(|set| set.view(ui))
    }

    /// The followed grain.
    pub(crate) fn grain<'a>(&'a self, frame: &Frame<'a>, ui: &UiState) -> Option<GrainView<'a>> {
        self.grain.view(frame, ui)
    }

    /// The close look at the wire.
    pub(crate) fn wire(&self, ui: &UiState) -> Option<WireView<'_>> {
        self.wire.as_ref().map(|stand| stand.view(ui))
    }
}

fn prepare(flight: Res<Flight>, mut session: ResMut<Session>, mut looks: ResMut<CloseLooks>) {
    if let Err(error) = looks.side.go_on(&flight) {
        session.complain(format!("The machine from the side: {error}"));
    }
    let frame = flight.frame();
    match session.ui.rung {
        Rung::Grain => return looks.grain.go_on(&frame),
        Rung::Wire => {}
        _ => return,
    }
    let last = frame.fields().len().saturating_sub(1);
    let field = session.ui.field.min(last);
    let state = &frame.fields()[field];
    let known = looks
        .of
        .as_ref()
        .is_some_and(|(conditions, known)| known == state && conditions == frame.conditions());
    if known {
        return;
    }
    looks.of = Some((frame.conditions().clone(), state.clone()));
    looks.revision += 1;
    match WireStand::new(&frame, field) {
        Ok(stand) => looks.wire = Some(stand),
        Err(error) => {
            looks.wire = None;
            session.complain(format!("Close look at the wire: {error}"));
        }
    }
}

/// The set is worked out beside the frame, once its field is solved; until then the one before is shown.
fn prepare_set(flight: Res<Flight>, mut session: ResMut<Session>, mut looks: ResMut<CloseLooks>) {
    if let Some(work) = &mut looks.set_work {
        let of = work.of;
        let Some(done) = block_on(poll_once(&mut work.task)) else {
            return;
        };
        looks.set_work = None;
        match done {
            Ok(set) => {
                looks.set = Some(set);
                looks.revision += 1;
            }
            Err(error) => {
                looks.set = None;
                session.complain(format!("Electrical set: {error}"));
            }
        }
        looks.set_of = Some(of);
    }
    let conditions = flight.conditions();
    let last = conditions.collector.fields.saturating_sub(1);
    let wanted = (flight.generation(), session.ui.field.min(last));
    if looks.set_of == Some(wanted) || !electrics_are_ready(conditions) {
        return;
    }
    let conditions = conditions.clone();
    let work = async move { SetStand::new(&conditions, wanted.1) };
    looks.set_work = Some(SetWork {
        of: wanted,
        task: AsyncComputeTaskPool::get().spawn(work),
    });
}
