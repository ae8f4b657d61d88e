//! One question with room to answer it, each on a leaf of its own: the next leaf tells what came out of this one.

use ashlane_lessons::engine::{
    Kind, Lesson, MatchItems, NumberEntry, Question, Ranked, Segment, value_text_both,
};
use ashlane_shared::units::{Dimension, UnitSystem, format};

use super::{
    Handout,
    html::{classed, line, lines, paragraphs, table, tag, words},
    paper::{figure, height_mm},
    room::{LEAF_MM, ROW_MM, RULE_MM, TITLE_MM, line_mm, paragraphs_mm, rules_in},
};
use crate::control_name;

/// The leaf of one step; the last is the question in another setting.
pub(super) fn step(handout: &Handout<'_>, index: usize) -> String {
    let lesson = handout.lesson;
    let segment = lesson.segments.get(index);
    let (title, prose) = match segment {
        Some(segment) => (&segment.title, &segment.prose),
        None => (&lesson.transfer.title, &lesson.transfer.prose),
    };
    let question = lesson.question(index);
    let mut inside = classed("p", "faint", &words(&place(lesson, index)));
    inside.push_str(&tag("h2", &words(&format!("{}. {title}", index + 1))));
    inside.push_str(&paragraphs(prose));
    // The first figure stands on the first page.
    let drawn = handout.figures.get(index).filter(|_| index > 0);
    let before = drawn.and_then(|figures| figures.before.as_ref());
    let mut left_mm = LEAF_MM[1] - words_mm(question, segment, &prose.show_both());
    if let Some(before) = before {
        let room_mm = left_mm - RULE_MM * LEAST_RULES;
        inside.push_str(&figure(before, room_mm));
        left_mm -= height_mm(before, room_mm);
    }
    inside.push_str(&tag("h3", "Predict"));
    inside.push_str(&classed("div", "ask", &paragraphs(&question.ask)));
    inside.push_str(&answers(question));
    if question.confidence {
        inside.push_str(&sure());
    }
    inside.push_str(&tag("h3", "My reasons"));
    let mut rules = rules_in(left_mm);
    if let Some(segment) = segment {
        let reasons = (rules / 3).max(1);
        rules -= reasons;
        inside.push_str(&lines(reasons));
        inside.push_str(&observe(segment));
        inside.push_str(&tag("h3", "Explain: what it shows, in my own words"));
    }
    inside.push_str(&lines(rules));
    classed("section", "step", &inside)
}

/// Fewest lines to write on beside a figure.
const LEAST_RULES: f32 = 3.0;

/// Height of all words of a leaf, without figure and lines, mm.
fn words_mm(question: &Question, segment: Option<&Segment>, prose: &str) -> f32 {
    // Place and title.
    let mut sum_mm = 6.0 + 10.5 + paragraphs_mm(prose, false);
    sum_mm += 2.0 * TITLE_MM + paragraphs_mm(&question.ask.show_both(), true);
    sum_mm += answers_mm(question) + if question.confidence { 8.0 } else { 0.0 };
    if let Some(segment) = segment {
        let rows = measured_names(segment).len() as f32;
        sum_mm += 2.0 * TITLE_MM + ROW_MM + HIGH_ROW_MM * rows + 4.0;
        sum_mm += paragraphs_mm(&changes(segment), false) + 2.0;
    }
    sum_mm
}

/// Height of a row to write a number into, mm.
const HIGH_ROW_MM: f32 = 9.3;

fn answers_mm(question: &Question) -> f32 {
    let each = |choices: &[ashlane_lessons::engine::Choice]| -> f32 {
        let heights = choices
            .iter()
            .map(|choice| line_mm(&choice.text.show_both(), 172.0) + 1.3);
        heights.sum::<f32>() + 2.0
    };
    match &question.kind {
        Kind::Choice => each(&question.options),
        Kind::Number(_) => 8.0,
        Kind::Order(ranked) => 8.0 + each(&ranked.items),
        Kind::Match(items) => 18.0 + each(&items.left) + each(&items.right),
        Kind::ShortText { .. } => 3.0 * RULE_MM,
    }
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
        Kind::ShortText { .. } => lines(3),
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
    let mut text = tag("h3", "Observe");
    text.push_str(&tag("p", &words(&changes(segment))));
    let rows: Vec<Vec<String>> = measured_names(segment)
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

/// What is changed; the task itself would say too much.
fn changes(segment: &Segment) -> String {
    let changes: Vec<String> = segment
        .observe
        .changes
        .iter()
        .map(|change| {
            format!(
                "{} from {} to {}",
                control_name(change.key),
                value_text_both(change.key, &change.from),
                value_text_both(change.key, &change.to)
            )
        })
        .collect();
    format!("What changes: {}.", changes.join("; "))
}

/// What is measured, each once.
fn measured_names(segment: &Segment) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for check in &segment.checks {
        let title = check.quantity.row().title;
        let name = match check.size_m {
            Some(size_m) => {
                let size = format(size_m, Dimension::GrainSize, UnitSystem::Si);
                format!("{title}, {size}")
            }
            None => title.to_owned(),
        };
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}
