//! One question with room to answer it, each on a leaf of its own: the next leaf tells what came out of this one.

use ashlane_lessons::engine::{
    Kind, Lesson, MatchItems, NumberEntry, Question, Ranked, Segment, Text, value_text_both,
};
use ashlane_shared::units::{Dimension, UnitSystem, format};

use super::{
    Handout,
    html::{boxes, classed, line, lines, number, paragraphs, table, tag, words},
    paper::{figure, height_mm},
    room::{LEAF_MM, ROW_MM, RULE_MM, TITLE_MM, line_mm, paragraphs_mm, rules_in},
    work,
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
    if let Some(segment) = segment {
        inside.push_str(&work::at_start(segment));
    }
    let observed = segment.filter(|segment| segment.work.is_none());
    let observe_mm = observed.map_or(0.0, observe_mm);
    let asked_mm = asked_mm(question, segment, &prose.show_both());
    let mut left_mm = LEAF_MM[1] - asked_mm - observe_mm;
    // The first figure stands on the first page.
    let drawn = handout.figures.get(index).filter(|_| index > 0);
    let before = drawn.and_then(|figures| figures.before.as_ref());
    let figure_room_mm = |left_mm: f32| left_mm - RULE_MM * LEAST_RULES;
    let high_mm = |left_mm| before.map_or(0.0, |one| height_mm(one, figure_room_mm(left_mm)));
    // Beside a high figure there is no room for more: observed and explained on the other side.
    let turns = left_mm - high_mm(left_mm) < 2.0 * RULE_MM;
    if turns {
        left_mm += observe_mm;
    }
    if let Some(before) = before {
        inside.push_str(&figure(before, figure_room_mm(left_mm)));
    }
    left_mm -= high_mm(left_mm);
    inside.push_str(&ask(question));
    inside.push_str(&tag("h3", "My reasons"));
    let Some(segment) = observed else {
        inside.push_str(&lines(rules_in(left_mm)));
        return classed("section", "step", &inside) + &work::leaf(handout, index);
    };
    let explain = tag("h3", "Explain: what it shows, in my own words");
    let (reasons, explained, turned) = if turns {
        let place = format!("{} · observe and explain", at(lesson, index));
        let turned = "</section>\n<section class=\"step turned\">".to_owned();
        let turned = turned + &classed("p", "faint", &words(&place));
        let room_mm = LEAF_MM[1] - observe_mm;
        (rules_in(left_mm), rules_in(room_mm), turned)
    } else {
        let rules = rules_in(left_mm);
        let reasons = (rules / 3).max(1);
        (reasons, rules - reasons, String::new())
    };
    inside.push_str(&lines(reasons));
    inside.push_str(&turned);
    inside.push_str(&observe(segment));
    inside.push_str(&explain);
    inside.push_str(&lines(explained));
    classed("section", "step", &inside)
}

/// The question with room to answer it.
fn ask(question: &Question) -> String {
    let mut text = tag("h3", "Predict");
    text.push_str(&classed("div", "ask", &paragraphs(&question.ask)));
    text.push_str(&answers(question));
    if question.confidence {
        text.push_str(&sure());
    }
    text
}

/// Fewest lines to write on beside a figure.
const LEAST_RULES: f32 = 3.0;

/// Height of title, prose, board and question, mm.
fn asked_mm(question: &Question, segment: Option<&Segment>, prose: &str) -> f32 {
    // Place and title.
    let mut sum_mm = 6.0 + 10.5 + paragraphs_mm(prose, false);
    sum_mm += 2.0 * TITLE_MM + paragraphs_mm(&question.ask.show_both(), true);
    sum_mm += answers_mm(question) + if question.confidence { 8.0 } else { 0.0 };
    sum_mm + segment.map_or(0.0, work::at_start_mm)
}

/// Height of what is observed, with the title of what is explained, mm.
fn observe_mm(segment: &Segment) -> f32 {
    let rows = measured_names(segment).len() as f32;
    let table_mm = ROW_MM + HIGH_ROW_MM * rows + 4.0;
    2.0 * TITLE_MM + table_mm + paragraphs_mm(&changes(segment), false) + 2.0
}

/// Height of a row to write a number into, mm.
const HIGH_ROW_MM: f32 = 8.3;

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
        Kind::Match(items) => {
            8.0 + each(&items.left)
                + paragraphs_mm(&partners(items, Text::show_both).join(" · "), true)
        }
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
    at(lesson, index) + turn
}

/// Which step it is.
pub(super) fn at(lesson: &Lesson, index: usize) -> String {
    format!("{} · step {} of {}", lesson.id, index + 1, lesson.steps())
}

/// Room for the answer. The ranges of a number are not shown: one of them is the answer.
fn answers(question: &Question) -> String {
    match &question.kind {
        Kind::Choice => {
            let texts = question.options.iter().map(|option| line(&option.text));
            boxes(texts, "options")
        }
        Kind::Number(entry) => number_line(entry),
        Kind::Order(ranked) => order(ranked),
        Kind::Match(items) => matching(items),
        Kind::ShortText { .. } => lines(3),
    }
}

fn number_line(entry: &NumberEntry) -> String {
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
    let items = ranked.items.iter().map(|item| line(&item.text));
    tag(
        "p",
        "Write 1 beside the first, 2 beside the second, and so on.",
    ) + &boxes(items, "options")
}

fn matching(items: &MatchItems) -> String {
    let lefts = items.left.iter().map(|left| line(&left.text));
    tag("p", "Write the letter of its partner beside each.")
        + &boxes(lefts, "options")
        + &tag("p", &partners(items, line).join(" · "))
}

/// The partners with their letters.
fn partners(items: &MatchItems, text: impl Fn(&Text) -> String) -> Vec<String> {
    let partners = ('A'..='Z').zip(&items.right);
    partners
        .map(|(letter, partner)| format!("{letter}: {}", text(&partner.text)))
        .collect()
}

fn sure() -> String {
    let choice = |text: &str| format!("<span><span class=\"box\"></span>{text}</span>");
    let choices = ["a guess", "fairly sure", "sure"].map(choice).join("");
    classed("div", "sure", &format!("How sure? {choices}"))
}

/// What is changed, and a table for what is measured together.
fn observe(segment: &Segment) -> String {
    let mut text = tag("h3", "Observe");
    text.push_str(&tag("p", &changes(segment)));
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
                words(short(control_name(change.key))),
                number(&value_text_both(change.key, &change.from)),
                number(&value_text_both(change.key, &change.to))
            )
        })
        .collect();
    format!("What changes: {}.", changes.join("; "))
}

/// The name of a control without what else the sheet says of it.
fn short(name: &str) -> &str {
    let ends = [";", ", or "].iter().filter_map(|end| name.find(end));
    ends.min().map_or(name, |end| &name[..end])
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
