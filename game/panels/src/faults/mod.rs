//! The trainer's switches for faults: which, how bad, from when; hidden from the class by one key.
//!
//! The panel asks for the whole list of set faults at every change; what they do to the collector is decided elsewhere.

mod cautions;
mod row;

use ashlane_lessons::{
    engine::find_caution,
    faults::{FAULTS, Fault, Struck},
};
use ashlane_shared::{conditions::Conditions, physics::PhysicsError};
use egui::{CollapsingHeader, Key, RichText, Ui};

use crate::{
    command::UiCommand,
    section::caution_words_ui,
    state::UiState,
    theme::{Ink, SMALL},
    view::AppView,
};
use cautions::{OF_ALL, of_row};

/// The key that hides the faults and brings them back.
pub(crate) const HIDE_KEY: Key = Key::F9;

/// One fault that is set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FaultSwitch {
    /// Its name, as the command line has it.
    pub name: &'static str,
    /// 0 to 1.
    pub severity: f64,
    /// From when on, s of the plant clock.
    pub from_s: f64,
    /// The field that it strikes where it strikes one, 0 for the first.
    pub field: usize,
}

impl FaultSwitch {
    /// Strikes conditions; where they have fewer fields, the last one.
    ///
    /// # Errors
    /// A formula refused the conditions.
    pub fn strike(&self, mut conditions: Conditions) -> Result<Conditions, PhysicsError> {
        let last = conditions.collector.fields.saturating_sub(1);
        let place = Struck {
            severity: self.severity,
            field: self.field.min(last),
        };
        if let Some(fault) = FAULTS.iter().find(|fault| fault.name == self.name) {
            (fault.strike)(&mut conditions, place)?;
        }
        Ok(conditions)
    }
}

/// Whether it matters to these conditions which field a fault strikes.
pub(crate) fn strikes_one_field(fault: &Fault, conditions: &Conditions) -> bool {
    let on = |field| {
        FaultSwitch {
            name: fault.name,
            severity: 1.0,
            from_s: 0.0,
            field,
        }
        .strike(conditions.clone())
    };
    on(0) != on(1)
}

/// The faults that are set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FaultsView<'a> {
    /// Every one of them.
    pub set: &'a [FaultSwitch],
    /// The field that a fault is set in until the trainer chooses another, 0 for the first: drawn with the seed.
    pub field: usize,
    /// Time of the plant clock, s: a fault that is switched on strikes from now on.
    pub now_s: f64,
}

/// Hides the faults from the class, or shows them.
pub(crate) fn hide_key(ui: &Ui, state: &mut UiState) {
    if ui.input(|input| input.key_pressed(HIDE_KEY)) {
        state.faults_hidden = !state.faults_hidden;
    }
}

/// The panel; nothing where no faults can be set.
pub(crate) fn faults_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    let Some(faults) = &view.faults else {
        return;
    };
    if state.faults_hidden {
        // The same words whether anything is set or not.
        ui.horizontal_wrapped(|ui| {
            if ui.button("Show faults").clicked() {
                state.faults_hidden = false;
            }
            ui.label(faint(
                format!("hidden from the class ({})", HIDE_KEY.name()),
                state,
            ));
        });
        return;
    }
    let title = match faults.set.len() {
        0 => "Faults (trainer)".to_owned(),
        set => format!("Faults (trainer): {set} set"),
    };
    CollapsingHeader::new(RichText::new(title).strong())
        .id_salt("faults")
        .default_open(!faults.set.is_empty())
        .show(ui, |ui| list_ui(ui, (faults, view.controls), state, out));
}

fn list_ui(
    ui: &mut Ui,
    (faults, controls): (&FaultsView<'_>, &Conditions),
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    ui.horizontal_wrapped(|ui| {
        let hover = format!(
            "Names, rows and signs of the faults; {} too",
            HIDE_KEY.name()
        );
        if ui
            .button("Hide from the class")
            .on_hover_text(hover)
            .clicked()
        {
            state.faults_hidden = true;
        }
        let all_off = ui.add_enabled(!faults.set.is_empty(), egui::Button::new("All off"));
        if all_off.clicked() {
            out.push(UiCommand::Faults(Vec::new()));
        }
    });
    for caution in OF_ALL.iter().filter_map(|code| find_caution(code)) {
        caution_words_ui(ui, caution, state);
    }
    let mut done = false;
    let mut wanted = faults.set.to_vec();
    for fault in FAULTS {
        done |= row::row_ui(ui, (fault, controls), faults, &mut wanted, state);
        if faults.set.iter().any(|set| set.name == fault.name) {
            for caution in of_row(fault.row)
                .iter()
                .filter_map(|code| find_caution(code))
            {
                caution_words_ui(ui, caution, state);
            }
        }
    }
    if wanted != faults.set {
        out.push(UiCommand::Faults(wanted));
    }
    if done {
        out.push(UiCommand::ChangeDone);
    }
}

fn faint(text: impl Into<String>, state: &UiState) -> RichText {
    RichText::new(text)
        .size(SMALL)
        .color(Ink::Faint.colour(state.theme))
}
