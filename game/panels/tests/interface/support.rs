//! A window of panels with real data behind it, in a size and a text size of choice.

use std::sync::OnceLock;

use ashlane_lessons::{
    catalog,
    engine::{Card, Lesson, Progress},
    sequence::Board,
};
use ashlane_panels::{
    Room, SectionView,
    command::UiCommand,
    compare::{CompareView, Side},
    cross_section::CrossSectionView,
    elevation::ElevationView,
    explore::Tried,
    faults::{FaultSwitch, FaultsView},
    fonts,
    lesson::WorkView,
    plan::{FieldScale, PlanView},
    root_ui,
    state::{Rung, UiState},
    theme,
    view::{
        AppView, ClockView, CountView, FileView, FlightView, LearnerView, LessonState, LessonsView,
        Message, OpenLesson,
    },
};
use ashlane_shared::{
    alarms::Annunciator,
    conditions::{Conditions, demonstration},
    count::{Count, CountResult},
    simulation::Simulation,
    theory::{self, Theory},
};
use egui_kittest::Harness;

use crate::{board, elevation, energization, face, grain, plant, wire};

/// What stands behind the panels.
pub(crate) struct Backdrop {
    pub(crate) conditions: Conditions,
    pub(crate) simulation: Simulation,
    pub(crate) count: Option<(CountResult, Theory)>,
    pub(crate) settling: Option<f32>,
}

impl Backdrop {
    /// Nothing counted yet.
    pub(crate) fn empty(conditions: Conditions) -> Self {
        let simulation = Simulation::new(conditions.clone(), 1).expect("possible");
        Self {
            conditions,
            simulation,
            count: None,
            settling: Some(0.0),
        }
    }

    /// A short flight and a small count.
    pub(crate) fn counted(conditions: Conditions) -> Self {
        let mut backdrop = Self::empty(conditions);
        for _ in 0..40 {
            backdrop.simulation.step();
        }
        let mut count = Count::new(&backdrop.conditions, 8192, 1).expect("possible");
        count.run(|_| true);
        let theory = theory::solve(&backdrop.conditions).expect("possible");
        backdrop.count = Some((count.result(), theory));
        backdrop.settling = None;
        backdrop
    }
}

/// The demonstration, counted once for all tests.
pub(crate) fn demonstration_backdrop() -> &'static Backdrop {
    static BACKDROP: OnceLock<Backdrop> = OnceLock::new();
    BACKDROP.get_or_init(|| Backdrop::counted(demonstration()))
}

/// What a test looks at after a frame.
pub(crate) struct Bench {
    pub(crate) ui: UiState,
    pub(crate) out: Vec<UiCommand>,
    pub(crate) room: Room,
    pub(crate) message: Option<Message>,
    /// Whether the field is awaited, and why there is none.
    pub(crate) waits_for_field: bool,
    pub(crate) field_trouble: Option<&'static str>,
    pub(crate) clock: ClockView,
    pub(crate) classroom: Option<Classroom>,
    /// Faults that are set.
    pub(crate) faults: Vec<FaultSwitch>,
    /// What the controls say, where it is not what holds.
    pub(crate) controls: Option<Conditions>,
    /// Whether the plant clock has been run.
    pub(crate) has_plant: bool,
    /// The alarms.
    pub(crate) alarms: Annunciator,
    /// Whether the flight runs.
    pub(crate) running: bool,
    /// What is pinned to compare with.
    pub(crate) pinned: Option<Pin>,
    /// What was tried.
    pub(crate) tried: Tried,
    dressed: bool,
}

/// A pinned state, and the lock that it puts on the controls.
#[derive(Clone, Copy)]
pub(crate) struct Pin {
    pub(crate) backdrop: &'static Backdrop,
    pub(crate) locked: bool,
    pub(crate) only: Option<&'static str>,
}

/// Lessons on screen: the catalog, and how far the open one is.
#[derive(Clone)]
pub(crate) struct Classroom {
    pub(crate) lessons: Vec<Lesson>,
    pub(crate) open: Option<Progress>,
    /// Codes of learners, the present one first; nothing where nothing can be kept.
    pub(crate) learner: Option<Vec<String>>,
    /// The sequence board, where the step has one.
    pub(crate) board: Option<Board>,
}

impl Classroom {
    /// The list of lessons.
    pub(crate) fn new() -> Self {
        Self {
            lessons: catalog::lessons().expect("lessons that can be read"),
            open: None,
            learner: None,
            board: None,
        }
    }

    fn card(&self) -> Option<Card<'_>> {
        self.open.as_ref()?.card(self.lesson()?)
    }

    /// What the panels may see.
    fn view<'a>(&'a self, card: Option<&'a Card<'a>>) -> LessonsView<'a> {
        LessonsView {
            lessons: &self.lessons,
            states: self.states(),
            learner: self.learner.as_ref().map(|codes| LearnerView {
                code: codes.first().map(String::as_str),
                codes,
            }),
            open: self
                .open
                .as_ref()
                .zip(self.lesson())
                .map(|(progress, lesson)| OpenLesson {
                    lesson,
                    past: progress.past(lesson),
                    card,
                    measuring: None,
                    work: self.board.as_ref().map(WorkView::Board),
                }),
        }
    }

    /// How far the open lesson is.
    fn states(&self) -> Vec<(&str, LessonState)> {
        let state = |open: &Progress| LessonState::Begun {
            step: open.at() + 1,
            steps: self.lesson().map_or(0, Lesson::steps),
        };
        let open = self.open.iter();
        open.map(|open| (open.lesson(), state(open))).collect()
    }

    /// The open lesson.
    pub(crate) fn lesson(&self) -> Option<&Lesson> {
        catalog::find(&self.lessons, self.open.as_ref()?.lesson())
    }
}

/// A window of this size in points.
pub(crate) fn window<'a>(
    backdrop: &'a Backdrop,
    ui: UiState,
    size: [f32; 2],
) -> Harness<'a, Bench> {
    window_in(backdrop, ui, size, None)
}

/// A window of this size in points, with lessons on screen.
pub(crate) fn window_in<'a>(
    backdrop: &'a Backdrop,
    ui: UiState,
    size: [f32; 2],
    classroom: Option<Classroom>,
) -> Harness<'a, Bench> {
    let bench = Bench {
        // A test that looks at travels says so.
        ui: UiState {
            reduced_motion: true,
            ..ui
        },
        out: Vec::new(),
        room: Room::default(),
        message: None,
        waits_for_field: false,
        field_trouble: None,
        clock: ClockView::default(),
        classroom,
        faults: Vec::new(),
        controls: None,
        has_plant: true,
        alarms: Annunciator::default(),
        running: true,
        pinned: None,
        tried: Tried::default(),
        dressed: false,
    };
    let mut harness = Harness::builder()
        .with_size(size)
        .with_step_dt(1.0 / 60.0)
        .build_ui_state(
            move |ui: &mut egui::Ui, bench: &mut Bench| frame(ui, backdrop, bench),
            bench,
        );
    // Fonts are there from the second frame on.
    harness.run_steps(4);
    harness.state_mut().out.clear();
    harness
}

fn frame(ui: &mut egui::Ui, backdrop: &Backdrop, bench: &mut Bench) {
    if !bench.dressed {
        fonts::install(ui.ctx());
        theme::apply(ui.ctx(), bench.ui.theme);
        bench.dressed = true;
        return;
    }
    let moment = backdrop.simulation.frame();
    let conditions = &backdrop.conditions;
    let room = bench.classroom.as_ref();
    let card = room.and_then(Classroom::card);
    let lessons = room.map(|room| room.view(card.as_ref()));
    let view = AppView {
        conditions,
        controls: bench.controls.as_ref().unwrap_or(conditions),
        sheet: conditions,
        fields: moment.fields(),
        field_trouble: bench.field_trouble,
        flight: FlightView {
            waits_for_field: bench.waits_for_field,
            clock: bench.clock,
            ..FlightView::new(&moment, bench.running, 1.0)
        },
        count: CountView {
            result: backdrop.count.as_ref().map(|(result, _)| result),
            theory: backdrop.count.as_ref().map(|(_, theory)| theory),
            settling: backdrop.settling,
        },
        face: Some(face::view(bench.ui.units)),
        plant: bench.has_plant.then(|| plant::view(bench.ui.units)),
        faults: Some(FaultsView {
            set: &bench.faults,
            field: 1,
            now_s: 7200.0,
        }),
        file: FileView {
            name: "demo.toml",
            has_path: true,
            unsaved: true,
            can_undo: true,
            can_redo: true,
        },
        lessons,
        tried: &bench.tried,
        compare: bench.pinned.map(|pin| compared(pin, backdrop, &bench.ui)),
        message: bench.message.as_ref(),
        sheets: &[],
    };
    let alarms = bench.alarms.clone();
    let section = section(backdrop, &bench.ui, &alarms);
    bench.room = root_ui(ui, &view, &section, &mut bench.ui, &mut bench.out);
}

/// No alarm.
fn quiet() -> &'static Annunciator {
    static QUIET: OnceLock<Annunciator> = OnceLock::new();
    QUIET.get_or_init(Annunciator::default)
}

/// What is pinned beside the present moment.
fn compared<'a>(pin: Pin, backdrop: &'a Backdrop, ui: &UiState) -> CompareView<'a> {
    let then = pin.backdrop.simulation.frame();
    let count = pin.backdrop.count.as_ref();
    CompareView {
        a: Side {
            controls: &pin.backdrop.conditions,
            conditions: &pin.backdrop.conditions,
            fields: then.fields(),
            count: CountView {
                result: count.map(|(result, _)| result),
                theory: count.map(|(_, theory)| theory),
                settling: None,
            },
        },
        section: section(pin.backdrop, ui, quiet()),
        then,
        now: backdrop.simulation.frame(),
        locked: pin.locked,
        only: pin.only,
        one_apart: true,
    }
}

/// What the big drawing can show.
fn section<'a>(backdrop: &'a Backdrop, ui: &UiState, alarms: &'a Annunciator) -> SectionView<'a> {
    let moment = backdrop.simulation.frame();
    let conditions = &backdrop.conditions;
    SectionView {
        elevation: ElevationView {
            labels: ui.labels,
            ..elevation::view(backdrop, ui.units)
        },
        board: board::view(backdrop, ui.units, alarms),
        cross_section: CrossSectionView {
            machine: elevation::view(backdrop, ui.units),
            face: Some(face::view(ui.units)),
            grid: face::GRID,
            theme: ui.theme,
        },
        plan: PlanView {
            conditions,
            fields: moment.fields(),
            deposits: moment.deposits,
            plates: &[],
            step: moment.step(),
            followed: moment.followed(),
            window: ui.window,
            field_scale: FieldScale::of(moment.fields(), conditions.gap_m()),
            units: ui.units,
            calm: ui.reduced_motion,
            labels: ui.labels,
            field_map: ui.field_map,
            theme: ui.theme,
        },
        wire: (ui.rung == Rung::Wire)
            .then(|| wire::view(wire::stand(), ui.wire_layer, ui.units, ui.theme)),
        grain: (ui.rung == Rung::Grain)
            .then(|| grain::view(grain::stand("five"), ui.units, ui.theme)),
        energization: Some(energization::in_units(ui.units)),
        revision: 0,
    }
}
