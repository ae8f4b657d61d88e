//! Work that a step asks for instead of moving a control: a case at the desk, or the sequence board.

mod board;
mod desk;
mod result;

use ashlane_lessons::{
    diagnosis::Evidence,
    engine::{Card, Command, Work, WorkAct},
    sequence::Board,
};
use egui::Ui;

use super::tell;
use crate::{command::UiCommand, state::UiState};

pub(super) use result::result_ui;

/// What the work of a step shows at the moment.
#[derive(Clone, Copy, Debug)]
pub enum WorkView<'a> {
    /// The machine of a case is being looked at.
    Preparing,
    /// The machine of a case.
    Case(&'a Evidence),
    /// The sequence board.
    Board(&'a Board),
    /// Why there is nothing to see.
    Trouble(&'a str),
}

/// The work of the step, once its prediction is locked.
pub(super) fn work_ui(
    ui: &mut Ui,
    card: &Card<'_>,
    view: Option<WorkView<'_>>,
    state: &UiState,
    out: &mut Vec<UiCommand>,
) {
    let Some((work, acts)) = &card.work else {
        return;
    };
    match (work, view) {
        (Work::Diagnosis(case), Some(WorkView::Case(evidence))) => {
            desk::desk_ui(ui, (case, acts), evidence, state, out);
        }
        (Work::Sequence(exercise), Some(WorkView::Board(board))) => {
            board::board_ui(ui, exercise, board, state, out);
        }
        (_, Some(WorkView::Trouble(why))) => {
            ui.label(why);
        }
        _ => {
            ui.label("The machine is being run on the plant clock …");
            ui.spinner();
        }
    }
}

fn act(out: &mut Vec<UiCommand>, act: WorkAct) {
    tell(out, Command::Act(act));
}
