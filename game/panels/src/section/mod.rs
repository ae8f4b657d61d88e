//! The big drawing in the middle of the window: the plan, or a closer look, with the ladder of scales above it.

mod cautions;
mod elevation;
mod figure;
mod ladder;
mod plan;
mod scrolled;
mod still;

use ashlane_shared::simulation::FieldState;
use egui::{Rect, Ui};

pub(crate) use cautions::{caution_words_ui, cautions_of, cautions_ui};
pub(crate) use elevation::{chosen_part, part_words_ui};
pub(crate) use figure::keep_arrows;
pub(crate) use ladder::{PASSAGE_WIRES, follow_if_none, ladder_ui, present_field, show};
pub(crate) use still::drawing_of;
pub use still::{still_drawing, still_with};

use crate::{
    checks::CheckLine,
    cross_section::{self, CrossSectionView},
    elevation::{self as side, ElevationView},
    energization::{self, EnergizationView},
    grain::{self, GrainView},
    plan::PlanView,
    state::{Rung, UiState},
    wire::{self, WireView},
};

/// Where the window left room for the drawing that the engine makes, in points; nothing when it is hidden.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Room {
    /// The space between the plates.
    pub passage: Option<Rect>,
    /// The whole drawing, for a picture of it.
    pub drawing: Option<Rect>,
}

/// What the big drawing can show at this moment.
#[derive(Clone, Copy, Debug)]
pub struct SectionView<'a> {
    /// The whole machine from the side.
    pub elevation: ElevationView<'a>,
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

/// Shows what the ladder of scales stands at.
pub(crate) fn section_ui(
    ui: &mut Ui,
    section: &SectionView<'_>,
    state: &mut UiState,
    rect: Rect,
) -> Room {
    match state.rung {
        Rung::Elevation => elevation::scrolled_elevation_ui(ui, &section.elevation, state, rect),
        Rung::Plan => plan::scrolled_plan_ui(ui, &section.plan, state, rect),
        Rung::Wire | Rung::Grain | Rung::Energization | Rung::CrossSection | Rung::Board => {
            figure::scrolled_ui(ui, section, state, rect)
        }
    }
}
