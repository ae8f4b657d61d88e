//! The window and the pictures.
pub use bevy_egui as _e;
