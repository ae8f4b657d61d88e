//! One question with room to answer it, each on a leaf of its own: the next leaf tells what came out of this one.

use ashlane_lessons::engine::{
    Kind, Lesson, MatchItems, NumberEntry, Question, Ranked, Segment, value_text_both,
};
use ashlane_shared::units::{UnitSystem, format};

use super::{
    Handout,
    html::{classed, line, lines, paragraphs, table, tag, words},
    paper::figure,
};
use crate::control_name;

/// The leaf of one step; the last is the question in another setting.
pub(super) fn step(handout: &Handout<'_>, index: usize) -> String {
    let lesson = handout.lesson;
    let segment = lesson.segments.get(index);
    let (title, prose) = segment.map_or(
        (&lesson.transfer.title, &lesson.transfer.prose),
        |segment| (&segment.title, &segment.prose),
    );
    let mut inside = classed("p", "faint", &words(&place(lesson, index)));
    inside.push_str(&tag("h2", &words(&format!("{}. {title}", index + 1))));
    inside.push_str(&paragraphs(prose));
    // The first figure stands on the first page.
    let drawn = handout.figures.get(index).filter(|_| index > 0);
    if let Some(before) = drawn.and_then(|figures| figures.before.as_ref()) {
        inside.push_str(&figure(before));
    }
    let question = lesson.question(index);
    inside.push_str(&tag("h3", "Predict"));
    inside.push_str(&classed("div", "ask", &paragraphs(&question.ask)));
    inside.push_str(&answers(question));
    if question.confidence {
        inside.push_str(&sure());
    }
    inside.push_str(&tag("h3", "My reasons"));
    if let Some(segment) = segment {
        inside.push_str(&lines("fixed"));
        inside.push_str(&observe(segment));
        inside.push_str(&tag("h3", "Explain: what it shows, in my own words"));
    }
    inside.push_str(&lines("rest"));
    classed("section", "step", &inside)
}

fn place(lesson: &Lesson, index: usize) -> String {
    let steps = lesson.steps();
    let turn = if index + 1 < steps {
        " · answer first, then turn over: the next leaf tells what came out"
    } else {
        " · the same idea in another setting"
    };
    format!("{} · step {} of {steps}{turn}", lesson.id, index + 1)
}

/// Room for the answer. The ranges of a number are not shown: one of them is the answer.
fn answers(question: &Question) -> String {
    match &question.kind {
        Kind::Choice => {
            let texts = question.options.iter().map(|option| line(&option.text));
            boxes(texts)
        }
        Kind::Number(entry) => number(entry),
        Kind::Order(ranked) => order(ranked),
        Kind::Match(items) => matching(items),
        Kind::ShortText { .. } => lines("fixed"),
    }
}

fn boxes(texts: impl Iterator<Item = String>) -> String {
    let items: String = texts
        .map(|text| {
            tag(
                "li",
                &format!("<span class=\"box\"></span><span>{text}</span>"),
            )
        })
        .collect();
    classed("ul", "options", &items)
}

fn number(entry: &NumberEntry) -> String {
    let range = |units| {
        let text = |value| format(value, entry.dimension, units);
        format!("{} to {}", text(entry.allowed.min), text(entry.allowed.max))
    };
    let (si, us) = (range(UnitSystem::Si), range(UnitSystem::Us));
    let both = if si == us { si } else { format!("{si} ({us})") };
    tag(
        "p",
        &format!(
            "My answer, from {}: <span class=\"blank\"></span>",
            words(&both)
        ),
    )
}

fn order(ranked: &Ranked) -> String {
    let items: String = ranked
        .items
        .iter()
        .map(|item| {
            let text = line(&item.text);
            tag(
                "li",
                &format!("<span class=\"box\"></span><span>{text}</span>"),
            )
        })
        .collect();
    tag(
        "p",
        "Write 1 beside the first, 2 beside the second, and so on.",
    ) + &classed("ul", "options", &items)
}

fn matching(items: &MatchItems) -> String {
    let letter = |index: usize| char::from(b'A' + u8::try_from(index).unwrap_or(25).min(25));
    let partners: Vec<String> = items
        .right
        .iter()
        .enumerate()
        .map(|(index, partner)| format!("<b>{}</b> {}", letter(index), line(&partner.text)))
        .collect();
    let lefts = items.left.iter().map(|left| line(&left.text));
    tag("p", "Write the letter of its partner beside each.")
        + &boxes(lefts)
        + &tag("p", &partners.join(" · "))
}

fn sure() -> String {
    let choice = |text: &str| format!("<span><span class=\"box\"></span>{text}</span>");
    let choices = ["a guess", "fairly sure", "sure"].map(choice).join("");
    classed("div", "sure", &format!("How sure? {choices}"))
}

/// What is changed, and a table for what is measured together.
fn observe(segment: &Segment) -> String {
    let changes: Vec<String> = segment
        .observe
        .changes
        .iter()
        .map(|change| {
            format!(
                "{}: from {} to {}",
                control_name(change.key),
                value_text_both(change.key, &change.from),
                value_text_both(change.key, &change.to)
            )
        })
        .collect();
    let mut text = tag("h3", "Observe");
    text.push_str(&tag(
        "p",
        &format!("One thing changes. {}.", words(&changes.join("; "))),
    ));
    let mut names: Vec<String> = Vec::new();
    for check in &segment.checks {
        let title = check.quantity.row().title;
        let name = match check.size_m {
            Some(size_m) => {
                let size = format(
                    size_m,
                    ashlane_shared::units::Dimension::GrainSize,
                    UnitSystem::Si,
                );
                format!("{title}, {size}")
            }
            None => title.to_owned(),
        };
        if !names.contains(&name) {
            names.push(name);
        }
    }
    let rows: Vec<Vec<String>> = names
        .iter()
        .map(|name| {
            let mut row = vec![words(name)];
            row.resize(5, String::new());
            row
        })
        .collect();
    text.push_str(&table(
        "fill",
        &["what is measured", "before", "after", "± (3 σ)", "formula"],
        &rows,
    ));
    text
}
