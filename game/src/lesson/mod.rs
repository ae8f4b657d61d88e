//! Lessons in the window: which one is open, how far it is, and the counts that measure, beside the frame.

mod keeper;
mod measurement;
mod own_file;
mod work;

use ashlane_lessons::{
    catalog,
    engine::{self, Card, Lesson, Phase, Progress},
    store::{Standing, StoreError},
};
use ashlane_panels::{
    control_name,
    elevation::part_of_key,
    lesson::LessonCommand,
    state::{PlanWindow, Rung, Tab, UiState},
    view::{LearnerView, LessonState, LessonsView, OpenLesson},
    zoom::Eye,
};
use ashlane_shared::{
    conditions::{Conditions, Value, find_key},
    simulation,
};
use bevy::prelude::*;

use self::{measurement::Measurement, work::Workbench};
use crate::{flight::Flight, session::Session};

pub(crate) use keeper::Keeper;
pub(crate) use own_file::OwnFile;

/// Adds the lessons and the system that measures.
pub(crate) fn plugin(app: &mut App) {
    app.init_resource::<Lessons>()
        .add_systems(Update, (measure, prepare_work, keep, own_file::read_again));
}

/// The lessons of this session.
#[derive(Resource, Debug, Default)]
pub(crate) struct Lessons {
    catalog: Vec<Lesson>,
    /// Progress in each lesson of the catalog that was begun.
    progress: Vec<Option<Progress>>,
    /// What was flown while exploring, as long as lessons are on screen.
    explored: Option<Conditions>,
    open: Option<usize>,
    measurement: Option<Measurement>,
    /// What the work of the step shows.
    bench: Workbench,
    /// Keeps what the learner does.
    pub(crate) keeper: Keeper,
    /// A lesson of the user's own, and its file.
    own: Option<(OwnFile, Lesson)>,
}

impl Lessons {
    /// Lessons whose progress is kept.
    pub(crate) fn kept_by(keeper: Keeper) -> Self {
        Self {
            keeper,
            ..Self::default()
        }
    }

    /// The same, with a lesson of the user's own.
    pub(crate) fn with_own(self, own: Option<(OwnFile, Lesson)>) -> Self {
        Self { own, ..self }
    }

    /// Puts a lesson in the place of the one of its name, or behind the others; says where it stands.
    fn put(&mut self, lesson: Lesson) -> usize {
        let known = self.catalog.iter().position(|other| other.id == lesson.id);
        let index = known.unwrap_or(self.catalog.len());
        if known.is_some() {
            self.catalog[index] = lesson;
        } else {
            self.catalog.push(lesson);
            self.progress.push(None);
        }
        index
    }

    /// Whether lessons are on screen.
    pub(crate) fn are_on(&self) -> bool {
        self.explored.is_some()
    }

    /// Where the open lesson stands in the list.
    pub(crate) fn open_place(&self) -> Option<usize> {
        self.open
    }

    /// Whether a measurement is under way.
    pub(crate) fn is_measuring(&self) -> bool {
        self.measurement.is_some()
    }

    /// The open lesson with its progress.
    fn at_work(&self) -> Option<(&Lesson, &Progress)> {
        let index = self.open?;
        Some((
            self.catalog.get(index)?,
            self.progress.get(index)?.as_ref()?,
        ))
    }

    /// The card of the open lesson.
    pub(crate) fn card(&self) -> Option<Card<'_>> {
        let (lesson, progress) = self.at_work()?;
        progress.card(lesson)
    }

    /// What the controls said at the start of the step.
    pub(crate) fn start(&self) -> Option<&Conditions> {
        let (lesson, progress) = self.at_work()?;
        Some(&lesson.segments.get(progress.at())?.start)
    }

    /// What the panels may see.
    pub(crate) fn view<'a>(&'a self, card: Option<&'a Card<'a>>) -> Option<LessonsView<'a>> {
        let measured = |measurement: &Measurement| measurement.desk().share;
        self.are_on().then(|| LessonsView {
            lessons: &self.catalog,
            states: self.states(),
            learner: self.keeper.has_place().then(|| LearnerView {
                code: self.keeper.code(),
                codes: self.keeper.codes(),
            }),
            open: self.at_work().map(|(lesson, progress)| OpenLesson {
                lesson,
                past: progress.past(lesson),
                card,
                measuring: self.measurement.as_ref().map(measured),
                work: self.bench.view(),
            }),
        })
    }

    /// How far every lesson is that was begun.
    fn states(&self) -> Vec<(&str, LessonState)> {
        let both = self.catalog.iter().zip(&self.progress);
        both.map(|(lesson, progress)| (lesson.id.as_str(), self.state(lesson, progress.as_ref())))
            .collect()
    }

    fn state(&self, lesson: &Lesson, progress: Option<&Progress>) -> LessonState {
        let kept = self.keeper.standing(lesson);
        if matches!(kept, Standing::Due(_)) {
            return LessonState::Due;
        }
        match progress {
            Some(progress) if progress.phase(lesson) == Phase::Done => LessonState::Done,
            Some(progress) => LessonState::Begun {
                step: progress.at() + 1,
                steps: lesson.steps(),
            },
            None => match kept {
                Standing::Done { .. } => LessonState::Done,
                Standing::Begun => LessonState::Begun {
                    step: 1,
                    steps: lesson.steps(),
                },
                Standing::Due(_) | Standing::NotBegun => LessonState::New,
            },
        }
    }

    fn enter(&mut self, flight: &mut Flight) -> Result<(), String> {
        if self.catalog.is_empty() {
            self.catalog = catalog::lessons().map_err(|errors| errors.to_string())?;
            self.progress = vec![None; self.catalog.len()];
            if let Some((_, lesson)) = &self.own {
                self.put(lesson.clone());
            }
        }
        // What is flown later is a lesson's; a second click must not take that for the user's own.
        self.explored
            .get_or_insert_with(|| flight.controls().clone());
        flight.leave_faults_out(true);
        Ok(())
    }

    /// Opens a lesson; says what is to be said about what was kept of it.
    fn open(&mut self, id: &str) -> Result<(), String> {
        let Some(index) = self.catalog.iter().position(|lesson| lesson.id == id) else {
            return Ok(());
        };
        self.open = Some(index);
        if self.progress[index].is_some() {
            return Ok(());
        }
        let (progress, said) = self.keeper.resume(&self.catalog[index]);
        self.progress[index] = Some(progress);
        said.map_or(Ok(()), Err)
    }

    /// Keeps everything that was done in this session.
    fn keep_all(&mut self) -> Result<(), String> {
        for (lesson, progress) in self.catalog.iter().zip(&self.progress) {
            let said = progress
                .as_ref()
                .and_then(|progress| self.keeper.changed(lesson, progress, false));
            if let Some(said) = said {
                return Err(said);
            }
        }
        self.keeper.look();
        Ok(())
    }

    /// What was done so far belongs to another learner now.
    fn forget(&mut self) {
        self.progress = vec![None; self.catalog.len()];
    }

    fn tell(&mut self, command: engine::Command) -> Result<(), String> {
        let Some(index) = self.open else {
            return Ok(());
        };
        let (Some(lesson), Some(Some(progress))) =
            (self.catalog.get(index), self.progress.get_mut(index))
        else {
            return Ok(());
        };
        let dragged = matches!(command, engine::Command::Change(_));
        progress
            .apply(lesson, command)
            .map_err(|refused| sentence(&refused.to_string()))?;
        let said = self.keeper.changed(lesson, progress, dragged);
        said.map_or(Ok(()), Err)
    }
}

/// What the panels asked for about lessons.
pub(crate) fn apply(
    command: LessonCommand,
    lessons: &mut Lessons,
    flight: &mut Flight,
    session: &mut Session,
) {
    let place = lessons.place();
    let outcome = match command {
        LessonCommand::Enter => lessons.enter(flight),
        LessonCommand::Leave => {
            lessons.measurement = None;
            session.ui.marked = None;
            if let Some(explored) = lessons.explored.take() {
                fly(flight, session, &explored);
                flight.leave_faults_out(false);
            }
            session.ui.window = whole(flight);
            Ok(())
        }
        LessonCommand::Open(id) => lessons.open(&id),
        LessonCommand::Close => {
            lessons.measurement = None;
            lessons.open = None;
            lessons.keeper.look();
            if let Some(explored) = &lessons.explored {
                fly(flight, session, explored);
            }
            Ok(())
        }
        LessonCommand::Do(command) => lessons.tell(command),
        learner => change_learner(learner, lessons, session),
    };
    if let Err(trouble) = outcome {
        session.complain(trouble);
    }
    if !lessons.are_on() {
        return;
    }
    follow(lessons, flight, session);
    if lessons.place() != place {
        look(lessons, flight, &mut session.ui);
    }
}

/// Another learner, an export, a deletion: between lessons only.
fn change_learner(
    command: LessonCommand,
    lessons: &mut Lessons,
    session: &mut Session,
) -> Result<(), String> {
    let told = |error: StoreError| error.to_string();
    match command {
        LessonCommand::NewLearner => {
            // What was done before anybody was named belongs to the new code.
            let nobody = lessons.keeper.code().is_none();
            lessons.keeper.new_learner().map_err(told)?;
            if nobody {
                lessons.keep_all()?;
            } else {
                lessons.forget();
            }
        }
        LessonCommand::UseLearner(code) => {
            lessons.keeper.use_learner(&code)?;
            lessons.forget();
        }
        LessonCommand::ExportLearner(path) => {
            lessons.keeper.export(&path).map_err(told)?;
            session.tell(format!("{} is written.", path.display()));
        }
        LessonCommand::DeleteLearner => {
            lessons.keeper.delete().map_err(told)?;
            lessons.forget();
        }
        _ => {}
    }
    Ok(())
}

/// A control was moved while a lesson is open.
pub(crate) fn set(
    path: &'static str,
    value: Option<&Value>,
    lessons: &mut Lessons,
    flight: &mut Flight,
    session: &mut Session,
) {
    let Some(key) = find_key(path) else { return };
    let mut wanted = flight.controls().clone();
    let set = match value {
        Some(value) => key
            .set(&mut wanted, value)
            .map_err(|refusal| format!("{}: {refusal}", control_name(key))),
        None => {
            key.clear(&mut wanted);
            Ok(())
        }
    };
    let changed = set.and_then(|()| lessons.tell(engine::Command::Change(Box::new(wanted))));
    match changed {
        Ok(()) => {
            let before_m = flight.conditions().length_m();
            follow(lessons, flight, session);
            if flight.conditions().length_m() != before_m {
                session.ui.window = whole(flight);
            }
        }
        Err(trouble) => session.complain(trouble),
    }
}

impl Lessons {
    /// Lesson and step that are looked at.
    fn place(&self) -> Option<(usize, usize)> {
        let (_, progress) = self.at_work()?;
        Some((self.open?, progress.at()))
    }
}

/// Flies what the lesson says.
fn follow(lessons: &Lessons, flight: &mut Flight, session: &mut Session) {
    if let Some((_, progress)) = lessons.at_work() {
        fly(flight, session, progress.conditions());
    }
}

fn fly(flight: &mut Flight, session: &mut Session, conditions: &Conditions) {
    if flight.controls() == conditions {
        return;
    }
    let command = simulation::Command::Conditions(Box::new(conditions.clone()));
    if let Err(error) = flight.apply(command) {
        session.complain(error.to_string());
    }
}

/// Shows what a step wants to be looked at.
fn look(lessons: &Lessons, flight: &Flight, ui: &mut UiState) {
    ui.window = whole(flight);
    ui.tab = Tab::Lesson;
    let view = lessons
        .card()
        .and_then(|card| card.look)
        .map(|look| look.view);
    ui.rung = Rung::of_view(view.unwrap_or_default());
    ui.field = 0;
    ui.eye = Eye::WHOLE;
    (ui.part, ui.marked) = (None, None);
    ui.seek = lessons
        .card()
        .and_then(|card| card.look.filter(|look| look.highlight)?.part)
        .and_then(|part| part_of_key(part.key))
        .map(|part| part.name);
    let layers = lessons
        .card()
        .and_then(|card| card.look.and_then(|look| look.layers.clone()));
    // A step that says nothing about them shows them all, whatever the step before hid.
    let on = |layer: &str| layers.as_ref().is_none_or(|layers| layers.contains(&layer));
    ui.labels = on("labels");
    ui.field_map = on("field_map");
    ui.tracers = on("tracers");
}

fn whole(flight: &Flight) -> PlanWindow {
    PlanWindow {
        start_m: 0.0,
        length_m: flight.conditions().length_m() as f32,
    }
}

/// A sentence for the screen.
fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    let first: String = letters
        .next()
        .map(|first| first.to_uppercase().collect())
        .unwrap_or_default();
    format!("{first}{}.", letters.as_str())
}

/// Starts a measurement once the task is done, stops it when a control is moved away, takes its reading over.
fn measure(mut lessons: ResMut<Lessons>, mut session: ResMut<Session>) {
    let Some((lesson, progress)) = lessons.at_work() else {
        return;
    };
    if progress.phase(lesson) != Phase::Observe {
        lessons.bypass_change_detection().measurement = None;
        return;
    }
    let plan = progress.plan(lesson).ok();
    let outcome = lessons
        .measurement
        .as_ref()
        .and_then(|measurement| measurement.desk().outcome.take());
    match (plan, &lessons.measurement, outcome) {
        (None, ..) => lessons.measurement = None,
        (Some(plan), None, _) => lessons.measurement = Some(Measurement::start(plan)),
        (Some(_), Some(_), Some(outcome)) => {
            lessons.measurement = None;
            let told = match outcome {
                Ok(reading) => lessons.tell(engine::Command::Measured(Box::new(reading))),
                Err(error) => Err(error.to_string()),
            };
            if let Err(trouble) = told {
                session.complain(trouble);
            }
        }
        (Some(_), Some(_), None) => {}
    }
}

/// Keeps what a dragged control left to keep.
fn keep(mut lessons: ResMut<Lessons>, mut session: ResMut<Session>) {
    if !lessons.keeper.is_due() {
        return;
    }
    let lessons = lessons.bypass_change_detection();
    let Some(index) = lessons.open else { return };
    if let (Some(lesson), Some(Some(progress))) =
        (lessons.catalog.get(index), lessons.progress.get(index))
        && let Some(said) = lessons.keeper.keep(lesson, progress)
    {
        session.complain(said);
    }
}

/// Keeps what the work of the step shows.
fn prepare_work(mut lessons: ResMut<Lessons>) {
    let place = lessons.place();
    let lessons = lessons.bypass_change_detection();
    let Some((place, card)) = place.zip(lessons.card()) else {
        lessons.bench = Workbench::default();
        return;
    };
    let wanted = match &card.work {
        Some((work, acts)) if card.phase == Phase::Observe => Some(((*work).clone(), acts.clone())),
        _ => None,
    };
    let start = lessons.start().cloned();
    match wanted.zip(start) {
        Some(((work, acts), start)) => lessons.bench.keep(place, &work, &acts, &start),
        None => lessons.bench = Workbench::default(),
    }
}
