//! Notes what is tried: every state whose count has settled, while exploring and apart from that in each lesson.

use ashlane_panels::{
    command::UiCommand,
    explore::{Trial, Tried, notes},
};
use ashlane_shared::conditions::Conditions;
use bevy::prelude::*;

use crate::{
    close_looks::CloseLooks, counting::Counting, files, flight::Flight, lesson::Lessons,
    session::Session,
};

/// Adds the notes and the system that writes them.
pub(crate) fn plugin(app: &mut App) {
    app.init_resource::<Trials>().add_systems(Update, note);
}

/// What was tried in this session.
#[derive(Resource, Debug, Default)]
pub(crate) struct Trials {
    explored: Tried,
    learnt: Tried,
    /// The lesson that the second belongs to.
    lesson: Option<usize>,
    /// Conditions and parcels of the last note.
    last: Option<(u64, u64)>,
}

impl Trials {
    /// What the panels show.
    pub(crate) fn of(&self, lessons: &Lessons) -> &Tried {
        if lessons.are_on() {
            &self.learnt
        } else {
            &self.explored
        }
    }

    /// What the controls said at a trial while exploring.
    pub(crate) fn controls(&self, index: usize) -> Option<&Conditions> {
        Some(&self.explored.trials().get(index)?.controls)
    }

    /// Forgets what was explored; the present state is noted anew.
    fn forget(&mut self) {
        self.explored = Tried::default();
        self.last = None;
    }
}

/// What the panels asked for about trials.
pub(crate) fn apply(wish: &UiCommand, trials: &mut Trials, session: &mut Session) {
    match wish {
        UiCommand::ForgetTrials => trials.forget(),
        UiCommand::ExportTrials(path) => {
            let text = notes(&trials.explored, &session.ui.exploring.rules);
            match files::write(path, text) {
                Ok(()) => session.tell(format!("Written to {}.", path.display())),
                Err(error) => session.complain(format!("Nothing written. {error:#}")),
            }
        }
        _ => {}
    }
}

fn note(
    flight: Res<Flight>,
    counting: Res<Counting>,
    looks: Res<CloseLooks>,
    lessons: Res<Lessons>,
    mut trials: ResMut<Trials>,
) {
    let open = lessons.open_place();
    if trials.lesson != open {
        (trials.lesson, trials.last) = (open, None);
        trials.learnt = Tried::default();
    }
    let generation = flight.generation();
    let (Some(count), Some(theory)) = (&counting.result, &counting.theory) else {
        return;
    };
    let is_present = counting.is_settled() && counting.is_of(generation);
    let this = Some((generation, count.parcels));
    if !is_present || trials.last == this || (lessons.are_on() && open.is_none()) {
        return;
    }
    trials.last = this;
    let trial = Trial::new(
        (flight.controls(), flight.conditions()),
        looks.side.meters(),
        (count, theory),
    );
    if open.is_some() {
        trials.learnt.note(trial);
    } else {
        trials.explored.note(trial);
    }
}
