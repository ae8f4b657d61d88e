//! The one sentence of a presentation: the part that is looked at, the step of the lesson, or the stop.

use ashlane_lessons::engine::{Caution, find_caution};

use super::stops::Stop;
use crate::{
    section::{SectionView, chosen_part, present_field},
    state::{Rung, UiState},
    view::AppView,
};

/// Size of the sentence, points.
pub(super) const SIZE: f32 = 15.0;

/// What is looked at.
pub(super) fn sentence(view: &AppView<'_>, section: &SectionView<'_>, state: &UiState) -> String {
    if let (Rung::Elevation, Some(part)) = (state.rung, chosen_part(state)) {
        let value = part.value(&section.elevation);
        let now = value.map_or_else(String::new, |value| format!(" Now: {value}."));
        return format!("{}. {}{now}", part.name, part.purpose);
    }
    if let Some(step) = of_lesson(view) {
        return step;
    }
    let field_m = view.conditions.collector.field_length_m as f32;
    let field = present_field(state, field_m, view.fields.len()) + 1;
    match Stop::of(state, view.conditions) {
        Stop::Collector => {
            "The whole machine from the side: dusty gas comes in, every field takes \
             its share of what is left, and what stays in the gas leaves by the stack."
                .to_owned()
        }
        Stop::Across => {
            "Looking along the gas: its passages side by side between the plates, and the \
             ways around them above and below."
                .to_owned()
        }
        Stop::Plan => {
            "One gas passage from above, all fields in a row: each takes its share of the \
             dust that the fields before it left."
                .to_owned()
        }
        Stop::Field => format!(
            "Field {field} from above: wires at high voltage between grounded plates. Dust that is \
             charged moves to the plates."
        ),
        Stop::Passage => format!(
            "A few wires of field {field}: the gas carries the dust along, the electric force pulls \
             it across, and gusts mix it."
        ),
        Stop::Wire => format!(
            "One wire of field {field}: only a thin skin round it glows; its ions cross the gap to \
             the plate and charge the dust on their way."
        ),
        Stop::Grain => "One grain: it takes up charge from the ions, and electric force and drag \
             settle how fast it moves to the plate."
            .to_owned(),
        Stop::Energization => format!(
            "The electrical set of field {field}: voltage and current over time, and what holds the \
             voltage where it is."
        ),
        Stop::Panel => {
            "What an operator reads: the meters of every field, and the instruments where \
             the gas comes in and where it leaves."
                .to_owned()
        }
    }
}

/// The step of the lesson that is open.
fn of_lesson(view: &AppView<'_>) -> Option<String> {
    let card = view.lessons.as_ref()?.open.as_ref()?.card?;
    let waits = if card.can_go_on {
        ""
    } else {
        " The next step opens when this one is done; Esc leads to its card."
    };
    let (step, steps) = (card.step + 1, card.steps);
    Some(format!("Step {step} of {steps}: {}.{waits}", card.title))
}

/// The cautions of the view, and of the part that is chosen.
pub(super) fn cautions(
    mut of_view: Vec<&'static Caution>,
    state: &UiState,
) -> Vec<&'static Caution> {
    if let (Rung::Elevation, Some(part)) = (state.rung, chosen_part(state)) {
        for caution in part.cautions.iter().filter_map(|code| find_caution(code)) {
            if of_view.iter().all(|known| known.code != caution.code) {
                of_view.push(caution);
            }
        }
    }
    of_view
}
