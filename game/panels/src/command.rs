//! What panels ask for. They change nothing themselves: the window applies these, in order, once a frame.

use std::path::PathBuf;

use ashlane_shared::{
    alarms::AlarmCommand,
    conditions::Value,
    simulation::{Clock, Follow},
};

use crate::{faults::FaultSwitch, lesson::LessonCommand};

/// A wish of the user.
#[derive(Clone, Debug, PartialEq)]
pub enum UiCommand {
    /// Set a key of the site sheet.
    Set {
        /// Dotted path of the key.
        path: &'static str,
        /// New value; nothing takes an optional value away.
        value: Option<Value>,
    },
    /// A drag or a typed entry is over: the next change is one of its own.
    ChangeDone,
    /// Take back the last change.
    Undo,
    /// Make the last undone change again.
    Redo,
    /// Back to what the sheet says.
    ResetToSheet,
    /// Run or pause.
    Run(bool),
    /// One step while paused.
    SingleStep,
    /// Steps a tick, over the usual four.
    Speed(f64),
    /// Run this clock.
    Clock(Clock),
    /// Strike the plates of a field, 0 for the first, on the flight clock.
    RapNow(usize),
    /// Follow the next grain of about this size that enters.
    Follow(Follow),
    /// Empty the passage and start anew.
    Restart,
    /// Read another sheet.
    Open(PathBuf),
    /// Write the sheet back to its file.
    Save,
    /// Write the sheet to another file.
    SaveAs(PathBuf),
    /// Write a picture of the view.
    ExportPicture(PathBuf),
    /// Set the controls of this trial again, 0 for the first that is remembered.
    TryAgain(usize),
    /// Forget what was tried.
    ForgetTrials,
    /// Write what was tried, with the rules that were found.
    ExportTrials(PathBuf),
    /// Write the data of the view.
    ExportData(PathBuf),
    /// These faults are set from now on, and no others.
    Faults(Vec<FaultSwitch>),
    /// What the operator says of alarms.
    Alarm(AlarmCommand),
    /// Keep the present state as A.
    PinA,
    /// Let A go.
    Unpin,
    /// All controls as A has them.
    BackToA,
    /// Keep the present state as A, and set the controls that A had.
    SwapAB,
    /// While A is pinned, only the first control that is changed may be changed.
    LockOthers(bool),
    /// Something about lessons.
    Lesson(LessonCommand),
    /// Take the message away.
    Dismiss,
}
