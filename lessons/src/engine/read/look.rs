//! Reads where a segment looks: view, part, layers.

use ashlane_shared::conditions::{
    PARTS, find_part,
    sheet::{Report, Trouble},
};

use super::section::{Section, unknown};
use crate::engine::{LAYERS, LESSON_VIEWS, Look};

const LOOK_KEYS: [&str; 4] = ["view", "part", "highlight", "layers"];

pub(super) fn look(section: &Section<'_>, report: &mut Report<'_>) -> Option<Look> {
    let look = section.section(report, "look", "view, and perhaps part, highlight, layers")?;
    look.only(report, &LOOK_KEYS);
    let views = LESSON_VIEWS.map(|(name, _)| (name, name));
    let view = look.word(report, "view", &views);
    let part = if look.has("part") {
        let key = look.string(report, "part", "a part of the machine in quotation marks")?;
        let part = find_part(key).map(|(part, _)| part);
        if part.is_none() {
            let known: Vec<&str> = PARTS.iter().map(|part| part.key).collect();
            look.wrong(report, "part", unknown("part", key, &known));
        }
        part
    } else {
        None
    };
    Some(Look {
        view: view?,
        part,
        highlight: look.flag(report, "highlight", part.is_some()),
        layers: look.has("layers").then(|| layers(&look, report)).flatten(),
    })
}

fn layers(look: &Section<'_>, report: &mut Report<'_>) -> Option<Vec<&'static str>> {
    let known = LAYERS.map(|(name, _)| name);
    let listed = look.strings(report, "layers", "a list of layers in quotation marks")?;
    let mut found = Vec::with_capacity(listed.len());
    for (name, place) in listed {
        match known.iter().find(|known| **known == name) {
            Some(known) => found.push(*known),
            None => {
                let trouble = Trouble::Clash(unknown("layer", name, &known));
                report.value(look.path_of("layers"), place, trouble);
            }
        }
    }
    Some(found)
}
