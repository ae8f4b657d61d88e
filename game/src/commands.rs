//! Applies what the panels asked for, between two fixed steps and nowhere else.

use std::path::{Path, PathBuf};

use ashlane_panels::{change::with, command::UiCommand, csv, faults::FaultSwitch, view::Message};
use ashlane_shared::{
    conditions::{Conditions, Value, find_key},
    simulation::Command,
};
use bevy::{app::RunFixedMainLoop, prelude::*};

use crate::{
    alarms, clocks,
    compare::Compare,
    counting::Counting,
    exports::ExportWish,
    files,
    flight::Flight,
    lesson::{self, Lessons},
    session::Session,
    trials::{self, Trials},
};

/// Adds the queue and the system that empties it.
pub(crate) fn plugin(app: &mut App) {
    app.init_resource::<Wishes>().add_systems(
        RunFixedMainLoop,
        apply.in_set(RunFixedMainLoopSystems::BeforeFixedMainLoop),
    );
}

/// Why controls are not set.
const LOCKED: &str = "This would change more than one control, and all but one are locked while A is pinned. Take the lock off first.";

/// What the panels asked for in the last frame.
#[derive(Resource, Debug, Default)]
pub(crate) struct Wishes(pub(crate) Vec<UiCommand>);

fn apply(
    mut wishes: ResMut<Wishes>,
    mut flight: ResMut<Flight>,
    mut session: ResMut<Session>,
    mut lessons: ResMut<Lessons>,
    mut compare: ResMut<Compare>,
    mut trials: ResMut<Trials>,
    counting: Res<Counting>,
    mut commands: Commands,
) {
    for wish in std::mem::take(&mut wishes.0) {
        match wish {
            UiCommand::Lesson(command) => {
                compare.follow(&command, lessons.are_on());
                lesson::apply(command, &mut lessons, &mut flight, &mut session);
            }
            UiCommand::Set { path, value } if lessons.are_on() => {
                lesson::set(
                    path,
                    value.as_ref(),
                    &mut lessons,
                    &mut flight,
                    &mut session,
                );
            }
            wish if lessons.are_on() && is_of_sheets(&wish) => {
                session.complain("A lesson has its own collector. Go back to Explore first.");
            }
            UiCommand::Set { path, .. } if !compare.lets(path) => {}
            UiCommand::Set { path, value } => {
                set(&mut flight, &mut session, path, value.as_ref());
                compare.changed(path);
            }
            UiCommand::ChangeDone => session.history.pause(),
            UiCommand::Undo | UiCommand::Redo | UiCommand::ResetToSheet => {
                turn_back(&wish, &mut flight, &mut session, &mut compare);
            }
            UiCommand::PinA | UiCommand::SwapAB => {
                pin(&wish, &mut flight, &mut session, &mut compare, &counting);
            }
            UiCommand::Unpin => compare.unpin(),
            UiCommand::LockOthers(locked) => compare.lock(locked, flight.controls()),
            UiCommand::BackToA | UiCommand::TryAgain(_) => {
                become_again(&wish, &mut flight, &mut session, &mut compare, &trials);
            }
            UiCommand::ForgetTrials | UiCommand::ExportTrials(_) => {
                trials::apply(&wish, &mut trials, &mut session);
            }
            wish @ (UiCommand::Run(_)
            | UiCommand::SingleStep
            | UiCommand::Speed(_)
            | UiCommand::Clock(_)
            | UiCommand::RapNow(_)
            | UiCommand::Follow(_)
            | UiCommand::Restart) => fly(wish, &mut flight, &mut session),
            UiCommand::Open(path) => {
                compare.unpin();
                open(&mut flight, &mut session, &path);
            }
            UiCommand::Save => save(&mut flight, &mut session, None),
            UiCommand::SaveAs(path) => save(&mut flight, &mut session, Some(path)),
            UiCommand::ExportPicture(path) => commands.insert_resource(ExportWish(path)),
            UiCommand::ExportData(path) => export_data(&counting, &mut session, &path),
            UiCommand::Alarm(command) => alarms::tell(command, &mut flight, &mut session),
            UiCommand::Faults(faults) => set_faults(&mut flight, &mut session, faults),
            UiCommand::Dismiss => session.message = None,
        }
    }
}

/// What is asked of the flight and its clocks.
fn fly(wish: UiCommand, flight: &mut Flight, session: &mut Session) {
    match wish {
        UiCommand::Run(run) => flight.running = run,
        UiCommand::SingleStep => flight.step(1),
        UiCommand::Speed(speed) => flight.speed = speed.clamp(0.05, 8.0),
        UiCommand::Clock(clock) => tell(Command::Clock(clock), flight, session),
        UiCommand::RapNow(field) => clocks::rap_now(field, flight, session),
        UiCommand::Follow(wish) => tell(Command::Follow(Some(wish)), flight, session),
        UiCommand::Restart => tell(Command::Restart, flight, session),
        _ => {}
    }
}

/// Gives the machine a command; a refusal is told.
pub(crate) fn tell(command: Command, flight: &mut Flight, session: &mut Session) {
    if let Err(error) = flight.apply(command) {
        session.complain(error.to_string());
    }
}

/// Whether a wish is about the user's own collector: its sheet, its changes, its faults.
fn is_of_sheets(wish: &UiCommand) -> bool {
    matches!(
        wish,
        UiCommand::Undo
            | UiCommand::Redo
            | UiCommand::ResetToSheet
            | UiCommand::Open(_)
            | UiCommand::Save
            | UiCommand::SaveAs(_)
            | UiCommand::Faults(_)
            | UiCommand::BackToA
            | UiCommand::SwapAB
            | UiCommand::TryAgain(_)
            | UiCommand::LockOthers(_)
    )
}

/// Undo, redo, and back to the sheet, as far as the lock of a comparison lets them.
fn turn_back(wish: &UiCommand, flight: &mut Flight, session: &mut Session, compare: &mut Compare) {
    let before = flight.controls().clone();
    let history = session.history.clone();
    let wanted = match wish {
        UiCommand::Undo => session.history.undo(&before),
        UiCommand::Redo => session.history.redo(&before),
        _ => {
            session.history.record(&before, None);
            Some(session.sheet.conditions.clone())
        }
    };
    if let Some(wanted) = &wanted
        && !compare.lets_become(wanted)
    {
        session.history = history;
        return session.complain(LOCKED);
    }
    become_now(flight, session, wanted);
}

/// Sets controls that were set before: those of A, or those of a trial as far as the lock of a comparison lets them.
fn become_again(
    wish: &UiCommand,
    flight: &mut Flight,
    session: &mut Session,
    compare: &mut Compare,
    trials: &Trials,
) {
    let wanted = match wish {
        UiCommand::TryAgain(trial) => trials.controls(*trial),
        _ => compare.controls(),
    };
    let Some(wanted) = wanted.cloned() else {
        return;
    };
    if !compare.lets_become(&wanted) {
        return session.complain(LOCKED);
    }
    session.history.record(flight.controls(), None);
    become_now(flight, session, Some(wanted));
}

/// Keeps the present state as A; to swap, what A was is set.
fn pin(
    wish: &UiCommand,
    flight: &mut Flight,
    session: &mut Session,
    compare: &mut Compare,
    counting: &Counting,
) {
    let before = compare.controls().cloned();
    if let Err(refusal) = compare.pin(flight, counting, session.ui.field) {
        return session.complain(refusal);
    }
    if let (UiCommand::SwapAB, Some(before)) = (wish, before) {
        session.history.record(flight.controls(), None);
        compare.lets_become(&before);
        become_now(flight, session, Some(before));
    }
}

/// Sets a key; tells whether anything changed.
fn set(
    flight: &mut Flight,
    session: &mut Session,
    path: &'static str,
    value: Option<&Value>,
) -> bool {
    let before = flight.controls().clone();
    let done = find_key(path).map_or(Ok(()), |key| {
        let wanted = with(&before, key, value)?;
        if wanted == before {
            return Ok(());
        }
        let applied = flight.apply(Command::Conditions(Box::new(wanted)));
        applied.map_err(|error| error.to_string())
    });
    if let Err(refusal) = done {
        session.complain(refusal);
        return false;
    }
    let changed = *flight.controls() != before;
    if changed {
        session.history.record(&before, Some(path));
        session.message.take_if(|message| message.trouble);
    }
    changed
}

fn become_now(flight: &mut Flight, session: &mut Session, wanted: Option<Conditions>) {
    let Some(wanted) = wanted else { return };
    if let Err(error) = flight.apply(Command::Conditions(Box::new(wanted))) {
        session.complain(error.to_string());
    }
}

fn set_faults(flight: &mut Flight, session: &mut Session, faults: Vec<FaultSwitch>) {
    if let Err(error) = flight.set_faults(faults) {
        session.complain(format!("The faults are left as they were. {error}"));
    }
}

fn open(flight: &mut Flight, session: &mut Session, path: &Path) {
    let sheet = match files::open(path) {
        Ok(sheet) => sheet,
        Err(error) => return session.complain(format!("{error:#}")),
    };
    match Flight::new(sheet.conditions.clone()) {
        Ok(fresh) => {
            flight.replace_with(fresh);
            let file = path.exists().then(|| path.to_path_buf());
            session.take_up(sheet, file);
            session.ui.window = ashlane_panels::state::PlanWindow {
                start_m: 0.0,
                length_m: flight.conditions().collector.field_length_m as f32,
            };
            session.message = None;
        }
        Err(error) => session.complain(format!("{}: {error}", path.display())),
    }
}

/// Writes the sheet to a file, or back to its own.
fn save(flight: &mut Flight, session: &mut Session, path: Option<PathBuf>) {
    let Some(path) = path.or_else(|| session.path.clone()) else {
        return;
    };
    match files::save(&session.sheet, flight.controls(), &path) {
        Ok(sheet) => {
            // What was written is what holds from now on: the same machine, stated at its present values.
            let present = sheet.conditions.clone();
            session.name = path
                .file_name()
                .map(|name| name.to_string_lossy().into_owned())
                .unwrap_or_default();
            session.path = Some(path.clone());
            session.sheet = sheet;
            become_now(flight, session, Some(present));
            session.message = Some(Message {
                trouble: false,
                text: format!("Saved to {}.", path.display()),
            });
        }
        Err(error) => session.complain(format!("Not saved. {error:#}")),
    }
}

fn export_data(counting: &Counting, session: &mut Session, path: &Path) {
    let (Some(result), Some(theory)) = (&counting.result, &counting.theory) else {
        return session.complain("The first count is not ready yet; try again in a second.");
    };
    match files::write(path, csv::csv(result, theory)) {
        Ok(()) => session.tell(format!("Data written to {}.", path.display())),
        Err(error) => session.complain(format!("Nothing written. {error:#}")),
    }
}
