//! The program: does what the words say, and falls back to a count and a figure where no window can be opened.

use std::{
    io::{Write, stderr},
    path::PathBuf,
    process::ExitCode,
};

use anyhow::{Result, bail};
use ashlane_lessons::command_line::{self, Opened, Outcome};
use ashlane_panels::{command::UiCommand, lesson::LessonCommand, state::UiState};
use bevy::app::AppExit;

use crate::{
    app,
    commands::Wishes,
    flight::Flight,
    handouts,
    lesson::{Keeper, Lessons, OwnFile},
    machine, pictures,
    session::Session,
};

/// Size of the figure that is drawn where there is no display.
const FIGURE: (u32, u32) = (1440, 640);
/// Figures of earlier runs that are left alone before giving up.
const MOST_FIGURES: u32 = 99;

/// Runs the program with the words of this process.
#[must_use]
pub fn run() -> ExitCode {
    match command_line::run_here() {
        Outcome::Done(code) => code.into(),
        Outcome::Picture(wish) => told(pictures::make(&wish).map(|()| command_line::FINE)),
        Outcome::Handout(wish) => told(handouts::make(&wish)),
        Outcome::Window(opened) => told(window(*opened)),
    }
}

/// The exit code; what went wrong goes to the diagnostics.
fn told(outcome: Result<u8>) -> ExitCode {
    let code = outcome.unwrap_or_else(|error| {
        tell(&format!("{error:#}"));
        command_line::WRONG_INPUT
    });
    code.into()
}

/// Writes a line of diagnostics. When even that fails, there is nobody left to tell.
pub(crate) fn tell(text: &str) {
    drop(writeln!(stderr(), "{text}"));
}

fn window(opened: Opened) -> Result<u8> {
    if !machine::has_display() {
        return without_window(&opened);
    }
    if machine::adapter().is_none() {
        tell("There is no GPU and no software renderer that the program can use (Vulkan).");
        return without_window(&opened);
    }
    let flight = Flight::new(opened.sheet.conditions.clone())?;
    let keeper = Keeper::open(opened.data.as_deref(), opened.learner.clone())?;
    let own = opened.lesson.as_deref().map(OwnFile::open).transpose()?;
    let id = own.as_ref().map(|(_, lesson)| lesson.id.clone());
    let mut app = app::with_window();
    app.insert_resource(flight)
        .insert_resource(Lessons::kept_by(keeper).with_own(own))
        .insert_resource(Session::new(opened.sheet, opened.path))
        .add_plugins(app::plugin);
    if let Some(id) = id {
        let mut wishes = app.world_mut().resource_mut::<Wishes>();
        let commands = [LessonCommand::Enter, LessonCommand::Open(id)];
        wishes.0.extend(commands.map(UiCommand::from));
    }
    match app.run() {
        AppExit::Success => Ok(command_line::FINE),
        AppExit::Error(_) => bail!("the window ended with an error"),
    }
}

/// The same count in the terminal, and the plan as a figure.
fn without_window(opened: &Opened) -> Result<u8> {
    let code = command_line::headless_here(opened);
    let figure = free_name()?;
    pictures::write_svg(&opened.sheet, &UiState::default(), FIGURE, &figure)?;
    tell(&format!("The plan is drawn in {}.", figure.display()));
    Ok(code)
}

/// A name in the working folder that no file has yet.
fn free_name() -> Result<PathBuf> {
    let name = |number| match number {
        1 => PathBuf::from("ashlane-plan.svg"),
        _ => PathBuf::from(format!("ashlane-plan-{number}.svg")),
    };
    match (1..=MOST_FIGURES).map(name).find(|path| !path.exists()) {
        Some(path) => Ok(path),
        None => bail!("no figure is drawn: this folder holds {MOST_FIGURES} of them already"),
    }
}
