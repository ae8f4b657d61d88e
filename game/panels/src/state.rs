//! What only the presentation knows: units, sizes, what is open. Nothing here changes a computed number.

use ashlane_shared::{alarms::Tag, units::UnitSystem};
use serde::{Deserialize, Serialize};

use crate::{
    explore::Exploring,
    lesson::Tally,
    presenter::Presenting,
    reference::Reference,
    theme::Theme,
    wire::WireLayer,
    zoom::{Eye, Zoom},
};

/// Smallest and largest text, per cent.
pub const TEXT_PERCENT: (u32, u32) = (75, 250);

/// Presentation state of the window.
#[derive(Clone, Debug, PartialEq)]
pub struct UiState {
    /// Units on screen.
    pub units: UnitSystem,
    /// Dark or light.
    pub theme: Theme,
    /// Size of text, per cent.
    pub text_percent: u32,
    /// Labels with leader lines on the drawing.
    pub labels: bool,
    /// The map of the field behind the dust.
    pub field_map: bool,
    /// Marks that move with the gas.
    pub tracers: bool,
    /// Part of the passage that is shown.
    pub window: PlanWindow,
    /// Where on the ladder of scales the drawing stands.
    pub rung: Rung,
    /// Part of the machine that the elevation shows.
    pub eye: Eye,
    /// How the drawing follows to where rung, window and eye want it.
    pub zoom: Zoom,
    /// The drawing cuts from one stand to another instead of travelling.
    pub reduced_motion: bool,
    /// The field that a closer look is at, from 0.
    pub field: usize,
    /// Diameter of the grain that is followed, m.
    pub grain_m: f64,
    /// What the colours round a wire show.
    pub wire_layer: WireLayer,
    /// The place that is read near the wire: along the gas and from the wire plane, m.
    pub probe_m: Option<(f64, f64)>,
    /// Name of the part of the machine that is looked at.
    pub part: Option<&'static str>,
    /// The caution whose words are open, where there is little room.
    pub caution: Option<&'static str>,
    /// The alarm whose words are open.
    pub alarm: Option<Tag>,
    /// How long an alarm is shelved, minutes of the plant.
    pub shelf_minutes: f64,
    /// Resistivity of the layer in the chart of its curve, Ω·m; nothing is that of the sheet's dust.
    pub layer_ohm_m: Option<f64>,
    /// Whether names, rows and signs of the faults are hidden from the class.
    pub faults_hidden: bool,
    /// What the narrow layout shows.
    pub tab: Tab,
    /// The dialog that is open.
    pub dialog: Option<Dialog>,
    /// Whether the long notice was read in this session.
    pub notice_read: bool,
    /// Whether the learner is about to be deleted.
    pub deleting: bool,
    /// The votes of a class on the question of the step.
    pub tally: Tally,
    /// What is looked up, while something is.
    pub reference: Option<Reference>,
    /// A part of the machine that the drawing is to travel to, with the next frame that can.
    pub seek: Option<&'static str>,
    /// The part that a lesson points at: marked, without its words.
    pub marked: Option<&'static str>,
    /// What is being typed as an answer.
    pub entry: Entry,
    /// The questions to explore with, and the rules that were found.
    pub exploring: Exploring,
    /// Whether the pinned state is shown beside the present one.
    pub comparing: bool,
    /// The presentation, while there is one.
    pub presenting: Option<Presenting>,
}

/// An answer as typed so far.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Entry {
    /// The question it belongs to.
    pub place: String,
    /// The text.
    pub text: String,
}

impl Default for UiState {
    fn default() -> Self {
        Self {
            units: UnitSystem::Si,
            theme: Theme::Dark,
            text_percent: 100,
            labels: true,
            field_map: true,
            tracers: true,
            window: PlanWindow {
                start_m: 0.0,
                length_m: 3.0,
            },
            rung: Rung::Plan,
            eye: Eye::WHOLE,
            zoom: Zoom::default(),
            reduced_motion: false,
            field: 0,
            grain_m: 5e-6,
            wire_layer: WireLayer::Field,
            probe_m: None,
            part: None,
            caution: None,
            alarm: None,
            shelf_minutes: 30.0,
            layer_ohm_m: None,
            faults_hidden: false,
            tab: Tab::Section,
            dialog: None,
            notice_read: false,
            deleting: false,
            tally: Tally::default(),
            reference: None,
            seek: None,
            marked: None,
            entry: Entry::default(),
            exploring: Exploring::default(),
            comparing: false,
            presenting: None,
        }
    }
}

/// A step of the ladder of scales.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Rung {
    /// The whole machine from the side.
    Elevation,
    /// The section across the gas.
    CrossSection,
    /// The readings board.
    Board,
    /// The plan: all fields, one, or a gas passage, as far as it is zoomed.
    #[default]
    Plan,
    /// One wire.
    Wire,
    /// One grain.
    Grain,
    /// The electrical set of one field.
    Energization,
}

impl Rung {
    /// Where a view of this name is to be seen; the plan where it is none of the closer looks.
    #[must_use]
    pub fn of_view(name: &str) -> Self {
        match name {
            "panel" => Self::Board,
            "elevation" => Self::Elevation,
            "cross-section" => Self::CrossSection,
            "wire" => Self::Wire,
            "grain" => Self::Grain,
            "energization" => Self::Energization,
            _ => Self::Plan,
        }
    }
}

/// Part of the passage along the gas.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct PlanWindow {
    /// Where it starts, m.
    pub start_m: f32,
    /// How long it is, m.
    pub length_m: f32,
}

impl PlanWindow {
    /// Shortest part that makes sense, m.
    const SHORTEST_M: f32 = 0.1;

    /// The same part, moved and cut so that it lies in a passage of this length.
    #[must_use]
    pub fn within(self, total_m: f32) -> Self {
        let length_m = self.length_m.clamp(Self::SHORTEST_M.min(total_m), total_m);
        Self {
            start_m: self.start_m.clamp(0.0, total_m - length_m),
            length_m,
        }
    }

    /// Larger (factor above 1) or smaller part round a fixed place.
    #[must_use]
    pub fn zoomed(self, factor: f32, about_m: f32, total_m: f32) -> Self {
        let length_m = (self.length_m * factor).clamp(Self::SHORTEST_M, total_m);
        let share = (about_m - self.start_m) / self.length_m;
        Self {
            start_m: about_m - share * length_m,
            length_m,
        }
        .within(total_m)
    }
}

/// What the narrow layout shows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Tab {
    /// The drawing.
    #[default]
    Section,
    /// The controls.
    Conditions,
    /// The charts.
    Charts,
    /// The card of the lesson.
    Lesson,
    /// The agreement strip, where there is no room for it below.
    Agreement,
}

/// What a file dialog is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Purpose {
    /// Open a sheet.
    Open,
    /// Save the sheet under another name.
    SaveAs,
    /// Write a picture.
    Picture,
    /// Write data.
    Data,
    /// Write what was tried.
    Trials,
    /// Write everything of a learner.
    Learner,
}

/// A file dialog.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Dialog {
    /// What it is for.
    pub purpose: Purpose,
    /// The path as typed so far.
    pub path: String,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_window_stays_in_the_passage_and_keeps_the_place_under_the_pointer() {
        let window = PlanWindow {
            start_m: 2.0,
            length_m: 4.0,
        };
        let near = window.zoomed(0.5, 3.0, 12.0);
        assert!((near.length_m - 2.0).abs() < 1e-6);
        assert!(
            ((3.0 - near.start_m) / near.length_m - 0.25).abs() < 1e-6,
            "{near:?}"
        );
        let far = window.zoomed(100.0, 3.0, 12.0);
        assert_eq!(
            far,
            PlanWindow {
                start_m: 0.0,
                length_m: 12.0
            }
        );
        let moved = PlanWindow {
            start_m: 11.0,
            length_m: 4.0,
        }
        .within(12.0);
        assert_eq!(
            moved,
            PlanWindow {
                start_m: 8.0,
                length_m: 4.0
            }
        );
    }
}
