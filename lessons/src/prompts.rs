//! Questions to explore with: nothing is judged, the model answers.
//!
//! Each asks for one control to be moved, or for one thing to be followed, and says where to look. The questions are
//! our own; what they are about is taught, with its sources, by the lesson that each names.

/// One question.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Prompt {
    /// The question.
    pub question: &'static str,
    /// Path of the control to move; nothing where something is to be followed.
    pub control: Option<&'static str>,
    /// Where to look: one of [`crate::engine::LESSON_VIEWS`].
    pub view: &'static str,
    /// The lesson that teaches it.
    pub lesson: &'static str,
}

const fn row(
    lesson: &'static str,
    control: &'static str,
    view: &'static str,
    question: &'static str,
) -> Prompt {
    Prompt {
        question,
        control: if control.is_empty() {
            None
        } else {
            Some(control)
        },
        view,
        lesson,
    }
}

/// Every question.
// One row a line, so that it reads as the table it is.
#[rustfmt::skip]
pub const PROMPTS: &[Prompt] = &[
    row("L1", "", "elevation", "Where does a grain go from the inlet to the outlet, and at how many places can it be caught, or be missed?"),
    row("L2", "", "grain", "Follow a grain of half a micrometre and one of ten. Which reaches the plate first, and which of its charges came first?"),
    row("L3", "electrical.voltage", "wire", "At how many kilovolts does the current begin? How much of the dust is caught below that?"),
    row("L4", "collector.fields", "along", "Take away one field, then another. What is alike from field to field: the kilograms that are caught, or the share of what comes in?"),
    row("L5", "teaching.mixing", "along", "Which way of mixing lets the least dust through? What would the gas have to do for it?"),
    row("L6", "gas.flow", "along", "Raise the gas flow by a tenth, then by a tenth again. Does the dust that leaves grow by a tenth each time?"),
    row("L6", "collector.field_length", "along", "Make every field a quarter longer; go back, and take a fifth off the gas flow. Do both let the same share through?"),
    row("L7", "electrical.voltage", "by_size", "Take one kilovolt off, then another. Does each cost the same? Which sizes pay most?"),
    row("L8", "collector.plate_spacing", "cross-section", "Move the plates apart and leave the voltage alone. What becomes of the current, and of the penetration?"),
    row("L9", "dust.mass_median_diameter", "by_size", "Make the dust finer in three steps. Which size is hardest to catch, and does it move?"),
    row("L9", "dust.load", "panel", "Double the dust that comes in. What do the meters of the first field say, and what those of the last?"),
    row("L10", "gas.temperature", "along", "Cool the gas in small steps, then warm it. At which temperature does most dust leave, and what else has changed with it?"),
    row("L12", "rapping.reentrained", "along", "Let rapping give back twice as much of what was caught. By how much does the penetration grow?"),
    row("L13", "gas.velocity_spread", "elevation", "Spread the gas unevenly over the face at the same flow. Do the slow places make good what the fast ones let through?"),
    row("L13", "collector.sneakage", "along", "Let a tenth of the gas go round each field. How much more voltage would make that good, if any could?"),
];

#[cfg(test)]
mod tests {
    use ashlane_shared::conditions::find_key;

    use super::PROMPTS;
    use crate::{catalog, engine::LESSON_VIEWS};

    #[test]
    fn every_question_names_a_control_a_view_and_a_lesson_that_there_are() {
        let lessons = catalog::lessons().expect("sound lessons");
        for prompt in PROMPTS {
            let question = prompt.question;
            assert!(
                question.contains('?') && question.chars().count() <= 160,
                "{question}"
            );
            assert!(
                prompt.control.is_none_or(|path| find_key(path).is_some()),
                "{prompt:?}"
            );
            assert!(
                LESSON_VIEWS.iter().any(|(name, _)| *name == prompt.view),
                "{prompt:?}"
            );
            assert!(
                catalog::find(&lessons, prompt.lesson).is_some(),
                "{prompt:?}"
            );
            let alike = |other: &&super::Prompt| other.question == question;
            assert_eq!(PROMPTS.iter().filter(alike).count(), 1, "{question}");
        }
    }
}
