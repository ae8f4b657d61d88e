//! The class votes with raised hands: the trainer types the counts, locks them, and lets them vote again after talking.
//!
//! Nothing of it is judged or kept; it needs no devices of the learners.

use ashlane_lessons::engine::{Card, Choice, Phase};
use egui::{Button, CollapsingHeader, DragValue, Grid, ProgressBar, RichText, Ui};

use super::faint;
use crate::{state::UiState, theme::Ink};

/// Most hands of a class.
const MOST: u32 = 999;

/// The votes of a class on one question.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// The question they belong to.
    pub place: String,
    /// Hands for each option.
    pub first: Vec<u32>,
    /// Hands after talking about it.
    pub second: Option<Vec<u32>>,
    /// Whether the last vote is locked.
    pub locked: bool,
}

impl Tally {
    fn of(place: String, options: usize) -> Self {
        Self {
            place,
            first: vec![0; options],
            ..Self::default()
        }
    }

    fn open_votes(&mut self) -> Option<&mut Vec<u32>> {
        if self.locked {
            return None;
        }
        Some(self.second.as_mut().unwrap_or(&mut self.first))
    }
}

/// The tally of the step's question, where it has options.
pub(super) fn tally_ui(ui: &mut Ui, card: &Card<'_>, state: &mut UiState) {
    let options = &card.question.options;
    if options.is_empty() {
        return;
    }
    let place = format!("{} {}", card.lesson_title, card.step);
    if state.tally.place != place {
        state.tally = Tally::of(place, options.len());
    }
    CollapsingHeader::new("Class tally")
        .id_salt("tally")
        .show(ui, |ui| {
            ui.label(faint(
                "Hands for each answer. Lock, talk, vote again; then go on.",
                state,
            ));
            votes_ui(ui, card, options, state);
            ways_ui(ui, state);
        });
}

fn votes_ui(ui: &mut Ui, card: &Card<'_>, options: &[Choice], state: &mut UiState) {
    let revealed = card.phase == Phase::Explain;
    let Tally {
        first,
        second,
        locked,
        ..
    } = state.tally.clone();
    let all = |votes: &[u32]| votes.iter().sum::<u32>().max(1);
    Grid::new("tally votes")
        .num_columns(if second.is_some() { 5 } else { 3 })
        .show(ui, |ui| {
            for (index, option) in options.iter().enumerate() {
                let letter = char::from(b'A' + (index % 26) as u8);
                let right = revealed && card.question.is_right(index);
                let name = if right {
                    RichText::new(format!("{letter} ✔"))
                        .strong()
                        .color(Ink::FiniteMixing.colour(state.theme))
                } else {
                    RichText::new(letter.to_string()).strong()
                };
                let words = option.text.show(state.units);
                ui.label(name).on_hover_text(&words);
                for (votes, is_open) in [
                    (Some(&first), !locked && second.is_none()),
                    (second.as_ref(), !locked),
                ] {
                    let Some(votes) = votes else { continue };
                    let mut hands = votes[index];
                    let value = DragValue::new(&mut hands).range(0..=MOST).speed(0.1);
                    let label = format!("Hands for {letter}: {words}");
                    let edit = ui.add_enabled(is_open, value).on_hover_text(label);
                    if edit.changed()
                        && let Some(votes) = state.tally.open_votes()
                    {
                        votes[index] = hands;
                    }
                    let share = votes[index] as f32 / all(votes) as f32;
                    ui.add(
                        ProgressBar::new(share)
                            .desired_width(80.0)
                            .show_percentage(),
                    );
                }
                ui.end_row();
            }
        });
}

fn ways_ui(ui: &mut Ui, state: &mut UiState) {
    ui.horizontal_wrapped(|ui| {
        let tally = &mut state.tally;
        let counted = tally.first.iter().any(|&hands| hands > 0);
        if ui
            .add_enabled(!tally.locked && counted, Button::new("Lock the votes"))
            .on_disabled_hover_text("Type the hands first.")
            .clicked()
        {
            tally.locked = true;
        }
        let again = tally.locked && tally.second.is_none();
        if ui.add_enabled(again, Button::new("Vote again")).clicked() {
            tally.second = Some(vec![0; tally.first.len()]);
            tally.locked = false;
        }
        if ui.button("Clear the tally").clicked() {
            *tally = Tally::of(tally.place.clone(), tally.first.len());
        }
    });
}
