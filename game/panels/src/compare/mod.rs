//! A | B: a state that was pinned beside the present one, in pictures and in a table of what differs.
//!
//! A keeps what it was: conditions, electrical state, dust in the gas, count and theory. B is what the window shows.

mod pictures;
mod table;

use ashlane_shared::{
    conditions::Conditions,
    simulation::{FieldState, Frame},
};
use egui::{Button, Rect, RichText, ScrollArea, Ui, UiBuilder};

use crate::{
    command::UiCommand,
    section::SectionView,
    state::UiState,
    theme::{Ink, SMALL},
    view::{AppView, CountView},
};

/// A pinned state, and what it does to the controls.
#[derive(Clone, Debug)]
pub struct CompareView<'a> {
    /// The pinned state.
    pub a: Side<'a>,
    /// What the pinned state looks like.
    pub section: SectionView<'a>,
    /// The pinned moment.
    pub then: Frame<'a>,
    /// The present moment.
    pub now: Frame<'a>,
    /// Whether only one control may be changed.
    pub locked: bool,
    /// The one, once it is known.
    pub only: Option<&'static str>,
    /// Whether the others can be locked: B is A, or differs from it by one control.
    pub one_apart: bool,
}

/// One of the two states, as the table reads it.
#[derive(Clone, Copy, Debug)]
pub struct Side<'a> {
    /// What the controls say.
    pub controls: &'a Conditions,
    /// What holds.
    pub conditions: &'a Conditions,
    /// Electrical state of every field.
    pub fields: &'a [FieldState],
    /// Count and theory.
    pub count: CountView<'a>,
}

impl<'a> Side<'a> {
    /// The present state.
    pub(crate) fn now(view: &AppView<'a>) -> Self {
        Self {
            controls: view.controls,
            conditions: view.conditions,
            fields: view.fields,
            count: view.count,
        }
    }
}

/// Pin, unpin, swap, go back, lock: above the controls.
pub(crate) fn compare_controls_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    let counted = view.count.settling.is_none() && view.count.agreement().is_some();
    ui.horizontal_wrapped(|ui| {
        let Some(compare) = &view.compare else {
            let pin = ui.add_enabled(counted, Button::new("Pin A"));
            let pin = pin
                .on_hover_text("Keep the present state as A; what you change then is B")
                .on_disabled_hover_text("Once the count of the present conditions has settled.");
            if pin.clicked() {
                out.push(UiCommand::PinA);
            }
            return;
        };
        shown_ui(ui, state);
        if view.lessons.is_none() {
            pinned_ui(ui, compare, counted, out);
        }
        if ui.button("Unpin").on_hover_text("Let A go").clicked() {
            out.push(UiCommand::Unpin);
        }
    });
    let Some(compare) = &view.compare else { return };
    // A lesson locks by itself what is not to be changed.
    if view.lessons.is_some() {
        ui.separator();
        return;
    }
    let mut locked = compare.locked;
    ui.add_enabled_ui(compare.locked || compare.one_apart, |ui| {
        let hover = "The first control that you change stays free; all others are locked.";
        let lock = ui.checkbox(&mut locked, "Lock the others");
        if lock
            .on_hover_text(hover)
            .on_disabled_hover_text("More than one control differs from A. Go back to A first.")
            .changed()
        {
            out.push(UiCommand::LockOthers(locked));
        }
    });
    ui.separator();
}

fn shown_ui(ui: &mut Ui, state: &mut UiState) {
    let shown = ui.selectable_label(state.comparing, "A | B");
    if shown
        .on_hover_text("A beside B, with a table of what differs")
        .clicked()
    {
        state.comparing = !state.comparing;
    }
}

/// What can be done with both, where every control is the user's.
fn pinned_ui(ui: &mut Ui, compare: &CompareView<'_>, counted: bool, out: &mut Vec<UiCommand>) {
    let changed = compare.a.conditions != compare.now.conditions();
    let buttons = [
        (
            "Back to A",
            changed,
            UiCommand::BackToA,
            "All controls as A has them",
        ),
        (
            "Swap",
            counted,
            UiCommand::SwapAB,
            "B is pinned as A, and A's controls are set",
        ),
    ];
    for (text, enabled, command, hover) in buttons {
        if ui
            .add_enabled(enabled, Button::new(text))
            .on_hover_text(hover)
            .clicked()
        {
            out.push(command);
        }
    }
}

/// Both pictures and the table, in place of the drawing.
pub(crate) fn compare_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    compare: &CompareView<'_>,
    section: &SectionView<'_>,
    state: &UiState,
    rect: Rect,
) {
    ui.painter()
        .rect_filled(rect, 0.0, Ink::Panel.colour(state.theme));
    let mut inside = ui.new_child(UiBuilder::new().max_rect(rect.shrink2(egui::vec2(10.0, 2.0))));
    ScrollArea::vertical()
        .id_salt("compare")
        .auto_shrink([false, false])
        .show(&mut inside, |ui| {
            table::verdict_ui(ui, &compare.a, &Side::now(view));
            pictures::pictures_ui(ui, compare, section, state, rect.height());
            table::table_ui(ui, &compare.a, &Side::now(view), state);
            let note = "Counts of A and B draw the same grains, so that the uncertainty given for \
                        their difference is on the safe side.";
            let ink = Ink::Faint.colour(state.theme);
            ui.label(RichText::new(note).size(SMALL).color(ink));
        });
}
