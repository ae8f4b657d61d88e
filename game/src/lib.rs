//! The window, the pictures and the program of Ashlane.
#![expect(
    clippy::too_many_arguments,
    reason = "a system names what it reads and writes as its arguments"
)]
#![expect(
    elided_lifetimes_in_paths,
    reason = "the lifetimes of system parameters say nothing to a reader"
)]

mod app;
mod commands;
mod counting;
mod exports;
mod files;
mod flight;
mod interface;
pub mod pictures;
mod plan_view;
mod schedule;
mod session;

use ashlane_shared::conditions::sheet::Sheet;
use bevy::app::AppExit;
use std::path::PathBuf;

/// Opens the window on a sheet.
///
/// # Errors
/// The conditions of the sheet cannot be computed.
pub fn open_window(sheet: Sheet, path: Option<PathBuf>) -> anyhow::Result<AppExit> {
    let flight = flight::Flight::new(sheet.conditions.clone())?;
    let mut app = app::with_window();
    app.insert_resource(flight)
        .insert_resource(session::Session::new(sheet, path))
        .add_plugins(app::plugin);
    Ok(app.run())
}
