//! What panels may see: plain data of one moment, read-only.

use crate::{
    charts::{FaceView, PlantView},
    compare::CompareView,
    explore::Tried,
    faults::FaultsView,
    lesson::WorkView,
};
use ashlane_lessons::engine::{Card, Lesson, PastStep};
use ashlane_shared::{
    checks::{Agreement, agreement},
    conditions::Conditions,
    count::CountResult,
    simulation::{Clock, FieldState, Frame, Ledger},
    theory::Theory,
};

/// One moment of the whole window.
#[derive(Clone, Debug)]
pub struct AppView<'a> {
    /// The conditions that hold.
    pub conditions: &'a Conditions,
    /// What the controls say: the conditions that hold, but for the faults that are set.
    pub controls: &'a Conditions,
    /// What the sheet says, for the reference marks.
    pub sheet: &'a Conditions,
    /// Electrical state of every field.
    pub fields: &'a [FieldState],
    /// Why the field of the present conditions could not be computed.
    pub field_trouble: Option<&'a str>,
    /// The drawn flight.
    pub flight: FlightView,
    /// The batch count and the theory.
    pub count: CountView<'a>,
    /// The face behind the distribution plate.
    pub face: Option<FaceView<'a>>,
    /// Some days on the plant clock, once they have been run for these conditions.
    pub plant: Option<PlantView<'a>>,
    /// The faults that are set; nothing where none can be, as in a lesson.
    pub faults: Option<FaultsView<'a>>,
    /// The sheet's file and the history of changes.
    pub file: FileView<'a>,
    /// The lessons; nothing while exploring.
    pub lessons: Option<LessonsView<'a>>,
    /// A state that was pinned to compare with.
    pub compare: Option<CompareView<'a>>,
    /// What was tried: while exploring, or in the open lesson.
    pub tried: &'a Tried,
    /// Something to tell.
    pub message: Option<&'a Message>,
    /// Sheets that the open dialog can offer.
    pub sheets: &'a [String],
}

impl AppView<'_> {
    /// Paths of the controls that may be moved; nothing when all may.
    #[must_use]
    pub fn free(&self) -> Option<&[&'static str]> {
        let Some(lessons) = self.lessons.as_ref() else {
            return self.one_of_comparison();
        };
        let open = lessons.open.as_ref();
        let card = open.and_then(|open| open.card);
        Some(card.map_or(&[], |card| card.free.as_slice()))
    }

    /// The one control that may be moved while all others are locked to compare.
    fn one_of_comparison(&self) -> Option<&[&'static str]> {
        let only = self.compare.as_ref().filter(|compare| compare.locked)?;
        only.only.as_ref().map(std::slice::from_ref)
    }

    /// Whether a control may be moved.
    #[must_use]
    pub fn is_free(&self, path: &str) -> bool {
        self.free().is_none_or(|free| free.contains(&path))
    }
}

/// The lessons to choose from, and the one that is played.
#[derive(Clone, Debug, Default)]
pub struct LessonsView<'a> {
    /// Every lesson.
    pub lessons: &'a [Lesson],
    /// How far those lessons are that were begun, by their ids.
    pub states: Vec<(&'a str, LessonState)>,
    /// Who learns, where progress can be kept.
    pub learner: Option<LearnerView<'a>>,
    /// The one that is played.
    pub open: Option<OpenLesson<'a>>,
}

/// Who learns, and who else has learnt here.
#[derive(Clone, Copy, Debug)]
pub struct LearnerView<'a> {
    /// The code; nothing as long as nothing is kept.
    pub code: Option<&'a str>,
    /// Every code that is kept here.
    pub codes: &'a [String],
}

/// How far a lesson is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum LessonState {
    /// Not begun.
    #[default]
    New,
    /// At a step, from 1.
    Begun {
        /// The step.
        step: usize,
        /// Of so many.
        steps: usize,
    },
    /// At its end.
    Done,
    /// Done some time ago, and due again.
    Due,
}

impl LessonsView<'_> {
    /// How far a lesson is.
    #[must_use]
    pub fn state_of(&self, id: &str) -> LessonState {
        let found = self.states.iter().find(|(known, _)| *known == id);
        found.map_or(LessonState::New, |(_, state)| *state)
    }
}

/// The lesson that is played.
#[derive(Clone, Debug)]
pub struct OpenLesson<'a> {
    /// The lesson.
    pub lesson: &'a Lesson,
    /// What may be shown at the moment; nothing at the end.
    pub card: Option<&'a Card<'a>>,
    /// The steps that are done.
    pub past: Vec<PastStep<'a>>,
    /// Share done of the measurement that is under way.
    pub measuring: Option<f32>,
    /// What the work of the step shows, where it has some.
    pub work: Option<WorkView<'a>>,
}

/// The drawn flight.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct FlightView {
    /// Flight time since the start, s.
    pub time_s: f64,
    /// Whether it runs.
    pub running: bool,
    /// Steps a tick over the usual four.
    pub speed: f64,
    /// Whether it stands still until the field of the present conditions is there.
    pub waits_for_field: bool,
    /// Whether it is paused in the field of the conditions before.
    pub field_before: bool,
    /// Grains in the gas.
    pub airborne: usize,
    /// The books.
    pub ledger: Ledger,
    /// The two clocks.
    pub clock: ClockView,
}

/// The two clocks.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ClockView {
    /// The clock that was asked for.
    pub asked: Clock,
    /// The clock that moves the books.
    pub runs: Clock,
    /// Time of layers and hoppers since they were clean, s.
    pub time_s: f64,
    /// Whether rates are being counted for the plant clock.
    pub counts_rates: bool,
}

impl FlightView {
    /// What a frame shows.
    #[must_use]
    pub fn new(frame: &Frame<'_>, running: bool, speed: f64) -> Self {
        Self {
            time_s: frame.time_s(),
            running,
            speed,
            waits_for_field: false,
            field_before: false,
            airborne: frame.airborne(),
            ledger: *frame.ledger,
            clock: ClockView::default(),
        }
    }
}

/// The batch count and the theory beside it.
#[derive(Clone, Copy, Debug, Default)]
pub struct CountView<'a> {
    /// The last count, perhaps of older conditions.
    pub result: Option<&'a CountResult>,
    /// The theory of the same conditions.
    pub theory: Option<&'a Theory>,
    /// Share done of a count for the present conditions that is under way; nothing when it is settled.
    pub settling: Option<f32>,
}

impl CountView<'_> {
    /// Count against theory, as far as both are there.
    #[must_use]
    pub fn agreement(&self) -> Option<Agreement> {
        self.result
            .zip(self.theory)
            .map(|(count, theory)| agreement(count, theory))
    }
}

/// The sheet's file and the history of changes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct FileView<'a> {
    /// Name of the file, or of the embedded sheet.
    pub name: &'a str,
    /// Whether there is a file to save to.
    pub has_path: bool,
    /// Whether the conditions differ from the file.
    pub unsaved: bool,
    /// Whether there is a change to take back.
    pub can_undo: bool,
    /// Whether there is a change to make again.
    pub can_redo: bool,
}

/// Something to tell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Message {
    /// Whether something went wrong.
    pub trouble: bool,
    /// What, in a sentence or more.
    pub text: String,
}
