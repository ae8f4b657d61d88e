//! Reads a lesson file into a [`Lesson`]: everything that is wrong at once, each with line, key, value and mend.
//!
//! The style is that of the site sheet, and so are the reader of the values and the report. A lesson is quick to
//! read; whether its checks make sense is computed by [`examine`](super::examine()).

mod board;
mod check;
mod diagnosis;
mod explain;
mod head;
mod items;
mod look;
mod number;
mod observe;
mod question;
mod section;
mod segment;
mod tables;
mod values;
mod work;

use ashlane_shared::conditions::sheet::{Report, SheetErrors, Trouble, parse_document};

use super::{Lesson, Transfer};
use explain::Ideas;
use section::Section;

/// Largest lesson that is read, bytes.
pub const MOST_BYTES: usize = 1 << 18;
/// Most rounds of a lesson.
const MOST_SEGMENTS: usize = 5;

const LESSON_KEYS: [&str; 13] = [
    "id",
    "revision",
    "change",
    "title",
    "goal",
    "minutes",
    "competencies",
    "cautions",
    "seed",
    "misconceptions",
    "column",
    "segment",
    "transfer",
];
const TRANSFER_KEYS: [&str; 4] = ["title", "prose", "predict", "explain"];

/// Reads a lesson from text; `name` stands for it in messages.
///
/// # Errors
/// Lists everything that is wrong with it, each with line, key, value and what to do.
pub fn read_lesson(name: &str, text: &str) -> Result<Lesson, SheetErrors> {
    let mut report = Report::new(name, text);
    if text.len() > MOST_BYTES {
        let trouble = Trouble::TooLarge {
            bytes: text.len() as u64,
            most: MOST_BYTES as u64,
        };
        report.name(String::new(), None, trouble);
        return Err(report.into_errors());
    }
    let lesson = match parse_document(text, &mut report) {
        // What a broken line took away is not called missing.
        (Some(document), true) => lesson(&Section::root(document.as_table()), &mut report),
        _ => None,
    };
    match lesson {
        Some(lesson) if report.is_clean() => Ok(lesson),
        _ => Err(report.into_errors()),
    }
}

fn lesson(root: &Section<'_>, report: &mut Report<'_>) -> Option<Lesson> {
    root.only(report, &LESSON_KEYS);
    let head = head::head(root, report);
    let competencies = head::competencies(root, report);
    let cautions = head::cautions(root, report);
    let misconceptions = head::misconceptions(root, report);
    let columns = head::columns(root, report);
    let mut ideas = Ideas::new(&misconceptions);
    let found = root.sections(report, "segment");
    if found.is_empty() || found.len() > MOST_SEGMENTS {
        let message = format!("a lesson has 1 to {MOST_SEGMENTS} segments; write [[segment]]");
        root.wrong(report, "segment", message);
    }
    let mut segments = Vec::with_capacity(found.len());
    for section in &found {
        segments.extend(segment::segment(section, &columns, &mut ideas, report));
    }
    head::different(
        &found,
        segments.iter().map(|segment| segment.id.as_str()),
        report,
    );
    let transfer = transfer(root, &mut ideas, report);
    ideas.all_used(root, report);
    let (head, transfer) = (head?, transfer?);
    Some(Lesson {
        id: head.id,
        revision: head.revision,
        change: head.change,
        title: head.title,
        goal: head.goal,
        minutes: head.minutes,
        seed: head.seed,
        competencies,
        cautions,
        columns,
        segments,
        transfer,
        misconceptions,
    })
}

fn transfer(
    root: &Section<'_>,
    ideas: &mut Ideas<'_>,
    report: &mut Report<'_>,
) -> Option<Transfer> {
    let section = root.section(report, "transfer", "the question that ends the lesson")?;
    section.only(report, &TRANSFER_KEYS);
    let title = section.line(report, "title");
    let prose = section.text(report, "prose");
    let predict = question::question(&section, report);
    let explain = predict
        .as_ref()
        .and_then(|question| explain::explain(&section, question, ideas, report));
    Some(Transfer {
        title: title?,
        prose: prose?,
        predict: predict?,
        explain: explain?,
    })
}
