//! The plan of one gas passage, seen from above: plates, wires, dust, field, and what to call them.

mod areas;
mod drawing;
mod legend;
mod places;
mod plates;
mod scale;
mod still;

pub use areas::part_areas;
pub use drawing::plan_drawing;
pub use legend::{Legend, grain_radius};
pub use places::PlanPlaces;
pub(crate) use scale::nice_above;
pub use scale::{FieldScale, nice_below};
pub use still::still_drawing;
pub(crate) use still::still_of;

use ashlane_shared::{
    conditions::Conditions,
    machine::FieldPlates,
    simulation::{Deposits, FieldState, FollowedGrain},
    units::UnitSystem,
};

use crate::{state::PlanWindow, theme::Theme};

/// Everything the plan shows.
#[derive(Clone, Copy, Debug)]
pub struct PlanView<'a> {
    /// The conditions that hold.
    pub conditions: &'a Conditions,
    /// Electrical state of every field.
    pub fields: &'a [FieldState],
    /// Where the drawn dust settles on the plates.
    pub deposits: &'a Deposits,
    /// How thick dust lies on them, and what fell.
    pub plates: &'a [FieldPlates],
    /// Steps taken since the start.
    pub step: u64,
    /// The grain that is followed.
    pub followed: Option<&'a FollowedGrain>,
    /// Part that is shown.
    pub window: PlanWindow,
    /// Scale of the field map.
    pub field_scale: FieldScale,
    /// Units of the labels.
    pub units: UnitSystem,
    /// Reduced motion: nothing that comes and goes by itself is drawn.
    pub calm: bool,
    /// Whether labels with leader lines are shown.
    pub labels: bool,
    /// Whether the map of the field is shown.
    pub field_map: bool,
    /// Dark or light.
    pub theme: Theme,
}
