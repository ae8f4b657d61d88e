//! Panels and drawings of Ashlane: pure functions from a view of one moment to widgets, drawings and commands.
//!
//! Nothing here knows the engine, a file, a clock or a thread, and nothing here computes physics: panels read
//! [`view::AppView`] and push [`command::UiCommand`]s; what they may change themselves is in [`state::UiState`].

pub mod board;
pub mod change;
pub mod charts;
mod charts_column;
pub mod checks;
pub mod cividis;
mod clocks;
pub mod command;
pub mod compare;
mod controls;
pub mod cross_section;
pub mod csv;
mod dialogs;
pub mod drawing;
pub mod elevation;
pub mod energization;
pub mod explore;
pub mod faults;
mod fields_table;
mod figure;
pub mod fonts;
pub mod grain;
pub mod handout;
pub mod history;
mod layout;
pub mod lesson;
pub mod plan;
mod playback;
pub mod presenter;
pub mod reference;
pub mod section;
pub mod state;
pub mod strip;
pub mod theme;
mod top_bar;
pub mod view;
pub mod wire;
pub mod zoom;

pub use controls::label as control_name;
pub use layout::{NOTICE, layout_for_picture, root_ui, window_ui};
pub use section::{Room, SectionView};
