//! The big drawing in the middle of the window: the plan, or a closer look, with the ladder of scales above it.

mod cautions;
mod elevation;
mod figure;
mod foot;
mod here;
mod ladder;
mod parts;
mod plan;
mod scrolled;
mod still;
mod travel;

use ashlane_shared::simulation::FieldState;
use egui::{Rect, Ui};

pub(crate) use cautions::{caution_words_ui, cautions_of, cautions_ui};
pub(crate) use figure::{keep_arrows, ring_ui, take_focus};
pub(crate) use foot::foot_ui;
pub(crate) use ladder::{PASSAGE_WIRES, follow_if_none, ladder_ui, present_field, show};
pub(crate) use parts::{chosen_part, has_parts, part_words_ui};
pub use still::{bare_drawing, still_drawing, still_with};
pub(crate) use travel::{above_legend, figure, windowed};

use crate::{
    board::{BoardView, board_ui},
    checks::CheckLine,
    command::UiCommand,
    cross_section::{self, CrossSectionView},
    elevation::{self as side, ElevationView, Measures},
    energization::{self, EnergizationView},
    grain::{self, GrainView},
    plan::PlanView,
    state::{PlanWindow, Rung, UiState},
    wire::{self, WireView},
    zoom::{Shown, Stand},
};

/// Where the window left room for the drawing that the engine makes, in points; nothing when it is hidden.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Room {
    /// The space between the plates.
    pub passage: Option<Rect>,
    /// The part of it that is seen, and how.
    pub seen: Seen,
    /// The whole drawing, for a picture of it.
    pub drawing: Option<Rect>,
}

/// How the engine's dust is seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seen {
    /// Part of the passage along the gas.
    pub window: PlanWindow,
    /// From the side (0), from above (1), or tipping over between.
    pub turned: f32,
    /// How much of the dust is there, 0 to 1: it goes where a nearer rung has none.
    pub dust: f32,
}

impl Default for Seen {
    fn default() -> Self {
        Self {
            window: PlanWindow {
                start_m: 0.0,
                length_m: 1.0,
            },
            turned: 1.0,
            dust: 1.0,
        }
    }
}

/// What the big drawing can show at this moment.
#[derive(Clone, Copy, Debug)]
pub struct SectionView<'a> {
    /// The whole machine from the side.
    pub elevation: ElevationView<'a>,
    /// The operator's panel.
    pub board: BoardView<'a>,
    /// The section across the gas.
    pub cross_section: CrossSectionView<'a>,
    /// The plan of the passage.
    pub plan: PlanView<'a>,
    /// The close look at one wire, where it has been prepared.
    pub wire: Option<WireView<'a>>,
    /// The grain that is followed.
    pub grain: Option<GrainView<'a>>,
    /// The electrical set of the field that is looked at, where it has been prepared.
    pub energization: Option<EnergizationView<'a>>,
    /// A number that changes with every change of the closer looks, so that a drawing can be kept until then.
    pub revision: u64,
}

impl<'a> SectionView<'a> {
    /// Electrical state of every field.
    pub(crate) fn fields(&self) -> &'a [FieldState] {
        self.plan.fields
    }

    /// Why something is not checked at the moment.
    pub(crate) fn unchecked(&self, rung: Rung) -> Option<&'static str> {
        let grain = self.grain.as_ref().filter(|_| rung == Rung::Grain)?;
        grain::not_compared(grain)
    }

    /// Checks of what is shown, besides the penetration.
    #[must_use]
    pub fn checks(&self, rung: Rung) -> Vec<CheckLine> {
        match rung {
            Rung::Plan => Vec::new(),
            Rung::Elevation | Rung::Board => side::checks(&self.elevation),
            Rung::CrossSection => cross_section::checks(&self.cross_section),
            Rung::Wire => self.wire.as_ref().map(wire::checks).unwrap_or_default(),
            Rung::Grain => self.grain.as_ref().map(grain::checks).unwrap_or_default(),
            Rung::Energization => self
                .energization
                .as_ref()
                .map(energization::checks)
                .unwrap_or_default(),
        }
    }
}

/// Shows where the ladder of scales stands, or the way there.
pub(crate) fn section_ui(
    ui: &mut Ui,
    section: &SectionView<'_>,
    state: &mut UiState,
    rect: Rect,
    out: &mut Vec<UiCommand>,
) -> Room {
    parts::seek(state, &section.elevation, rect.size().into());
    let passed_s = ui.input(|input| input.stable_dt);
    let (mut wanted, cut) = (Stand::of(state), state.reduced_motion);
    if wanted.eye.times <= 1.0 {
        // The way from and to the whole machine is straight from and to its middle.
        let view = &section.elevation;
        wanted.eye = Measures::new(view.conditions, view.hoppers, view.gas).whole_eye();
    }
    let shown = state.zoom.follow(wanted, passed_s, cut);
    if state.zoom.is_travelling() {
        ui.ctx().request_repaint();
    }
    match shown {
        Shown::Between { from, to, share } => {
            travel::travel_ui(ui, section, state, (&from, &to, share), rect)
        }
        Shown::At(stand) => {
            state.zoom.rect = Some(rect);
            stand_ui(ui, section, state, (&stand, rect), out)
        }
    }
}

fn stand_ui(
    ui: &mut Ui,
    section: &SectionView<'_>,
    state: &mut UiState,
    (stand, rect): (&Stand, Rect),
    out: &mut Vec<UiCommand>,
) -> Room {
    match stand.rung {
        Rung::Board => board_ui(ui, &section.board, state, rect, out),
        Rung::Elevation => {
            let view = travel::eyed(section, stand);
            elevation::scrolled_elevation_ui(ui, &view, state, rect)
        }
        Rung::Plan => {
            let view = windowed(section, stand);
            plan::scrolled_plan_ui(ui, (&view, &section.elevation), state, rect)
        }
        Rung::Wire | Rung::Grain | Rung::Energization | Rung::CrossSection => {
            figure::scrolled_ui(ui, section, state, rect)
        }
    }
}
