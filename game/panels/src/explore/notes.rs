//! What was explored as a file for people: the rules that were found, and every trial.

use std::collections::BTreeMap;

use ashlane_lessons::{engine::NOTICE_LONG, prompts::PROMPTS};
use ashlane_shared::units::{Dimension, UnitSystem, format, number_text};

use super::{
    Tried,
    list::{changes, compared},
};
use crate::{
    charts::percent_of_caught,
    strip::{counted_texts, thousands},
};

/// The whole file, as Markdown; both unit systems.
#[must_use]
pub fn notes(tried: &Tried, rules: &BTreeMap<usize, String>) -> String {
    let mut text = format!("# What was explored\n\n{NOTICE_LONG}\n\n## Rules\n\n");
    if rules.is_empty() {
        text.push_str("None was written down.\n");
    }
    for (&index, rule) in rules {
        if let Some(prompt) = PROMPTS.get(index) {
            // A paragraph of somebody's own, and no heading or list of this file.
            let rule = rule.replace('\n', "\n> ");
            text.push_str(&format!(
                "{} (lesson {})\n\n> {rule}\n\n",
                prompt.question, prompt.lesson
            ));
        }
    }
    text.push_str(
        "\n## Trials\n\n| no. | changed | penetration (3σ) | parcels | efficiency | De | power | dust that leaves | against the one before |\n\
         |--:|---|--:|--:|--:|--:|--:|--:|---|\n",
    );
    for (index, trial) in tried.trials().iter().enumerate() {
        let before = index.checked_sub(1);
        let before = before.map(|before| (tried.number(before), &tried.trials()[before]));
        let both = |value, dimension| {
            let [si, us] =
                [UnitSystem::Si, UnitSystem::Us].map(|units| format(value, dimension, units));
            if si == us { si } else { format!("{si} ({us})") }
        };
        let changed = |units| changes(before.map(|(_, before)| before), trial, units);
        let (si, us) = (changed(UnitSystem::Si), changed(UnitSystem::Us));
        let cells = [
            tried.number(index).to_string(),
            if si == us { si } else { format!("{si} ({us})") },
            counted_texts(&trial.agreement).0,
            thousands(trial.agreement.parcels),
            percent_of_caught(trial.agreement.counted.share),
            number_text(trial.deutsch_number, 3),
            both(trial.power_w, Dimension::Power),
            both(trial.outlet_kg_m3(), Dimension::Emission),
            before.map_or_else(String::new, |before| compared(before, trial)),
        ];
        let cells = cells.map(|cell| cell.replace('|', "\\|"));
        text.push_str(&format!(
            "| {} |
",
            cells.join(" | ")
        ));
    }
    text
}
