//! Questions that arrange things: an order made with buttons, a partner for each item chosen from a list.

use std::collections::BTreeMap;

use ashlane_lessons::engine::{Answer, Choice, MatchItems, Ranked};
use egui::{Button, ComboBox, Ui};

use super::faint;
use crate::state::UiState;

/// Items with buttons to move them up and down; the order as it stands counts once one was moved or confirmed.
pub(super) fn order_ui(
    ui: &mut Ui,
    ranked: &Ranked,
    given: Option<&Answer>,
    state: &UiState,
) -> Option<Answer> {
    let mut order: Vec<String> = match given {
        Some(Answer::Order(order)) => order.clone(),
        _ => ranked.items.iter().map(|item| item.id.clone()).collect(),
    };
    let mut swap = None;
    for (index, id) in order.iter().enumerate() {
        ui.horizontal_wrapped(|ui| {
            let text = text_of(&ranked.items, id, state);
            let up = ui.add_enabled(index > 0, Button::new("up"));
            if up.on_hover_text(format!("{text}: one up")).clicked() {
                swap = Some((index, index.saturating_sub(1)));
            }
            let down = ui.add_enabled(index + 1 < order.len(), Button::new("down"));
            if down.on_hover_text(format!("{text}: one down")).clicked() {
                swap = Some((index, index + 1));
            }
            ui.label(format!("{}. {text}", index + 1));
        });
    }
    if let Some((one, other)) = swap {
        order.swap(one, other);
        return Some(Answer::Order(order));
    }
    let confirm = ui.add_enabled(given.is_none(), Button::new("This is my order"));
    confirm.clicked().then_some(Answer::Order(order))
}

/// A list of partners for every item; it counts once all have one.
pub(super) fn match_ui(
    ui: &mut Ui,
    items: &MatchItems,
    given: Option<&Answer>,
    state: &UiState,
) -> Option<Answer> {
    let names: Vec<&str> = items.left.iter().map(|item| item.id.as_str()).collect();
    let id = ui.id().with(names);
    let kept = ui.data(|data| data.get_temp::<BTreeMap<String, String>>(id));
    let mut pairs = match (given, kept) {
        (Some(Answer::Match(pairs)), _) => pairs.clone(),
        (_, Some(pairs)) => pairs,
        _ => BTreeMap::new(),
    };
    let before = pairs.clone();
    for left in &items.left {
        ui.label(left.text.show(state.units));
        let present = pairs.get(&left.id).cloned();
        let shown = present.as_ref().map_or_else(
            || "choose …".to_owned(),
            |partner| text_of(&items.right, partner, state),
        );
        ComboBox::from_id_salt(&left.id)
            .width(ui.available_width() - 8.0)
            .wrap()
            .selected_text(shown)
            .show_ui(ui, |ui| {
                for right in &items.right {
                    let on = present.as_ref() == Some(&right.id);
                    if ui
                        .selectable_label(on, right.text.show(state.units))
                        .clicked()
                    {
                        pairs.insert(left.id.clone(), right.id.clone());
                    }
                }
            });
    }
    if pairs == before {
        return None;
    }
    ui.data_mut(|data| data.insert_temp(id, pairs.clone()));
    if pairs.len() < items.left.len() {
        ui.label(faint("Choose a partner for each.", state));
        return None;
    }
    Some(Answer::Match(pairs))
}

fn text_of(choices: &[Choice], id: &str, state: &UiState) -> String {
    choices
        .iter()
        .find(|choice| choice.id == id)
        .map_or_else(|| id.to_owned(), |choice| choice.text.show(state.units))
}
