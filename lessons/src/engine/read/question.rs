//! Reads a question: what is asked, the kind of answer, its options and which of them is right.

use ashlane_shared::conditions::sheet::Report;

use super::{
    items::{matched, ordered},
    number::number,
    section::{Section, unknown},
};
use crate::engine::{Choice, Kind, Question, Text};

/// Fewest and most options.
const OPTIONS: (usize, usize) = (2, 6);
/// Most characters of a short text, where the lesson says nothing.
const LONGEST: i64 = 280;

/// Kinds of question by name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Name {
    Choice,
    Number,
    Order,
    Match,
    Text,
}

const KINDS: [(&str, Name); 5] = [
    ("choice", Name::Choice),
    ("number", Name::Number),
    ("order", Name::Order),
    ("match", Name::Match),
    ("text", Name::Text),
];

const COMMON: [&str; 4] = ["kind", "ask", "answer", "confidence"];

impl Name {
    /// Keys of this kind of question beside the common ones, and keys of its options.
    fn keys(self) -> (&'static [&'static str], &'static [&'static str]) {
        match self {
            Self::Choice => (&["option"], &["id", "text"]),
            Self::Number => (&["option", "from", "to"], &["id", "text", "from", "to"]),
            Self::Order => (&["option", "item"], &["id", "text", "order", "otherwise"]),
            Self::Match => (
                &["option", "left", "right"],
                &["id", "text", "pairs", "otherwise"],
            ),
            Self::Text => (&["longest"], &[]),
        }
    }
}

pub(super) fn question(section: &Section<'_>, report: &mut Report<'_>) -> Option<Question> {
    let predict = section.section(report, "predict", "the question that comes first")?;
    let name = predict.word(report, "kind", &KINDS)?;
    let (own, option_keys) = name.keys();
    predict.only(report, &[&COMMON, own].concat());
    let ask = predict.text(report, "ask");
    let confidence = predict.flag(report, "confidence", true);
    if name == Name::Text {
        return short_text(&predict, ask?, confidence, report);
    }
    let found = predict.sections(report, "option");
    if found.len() < OPTIONS.0 || found.len() > OPTIONS.1 {
        let (low, high) = OPTIONS;
        let message = format!(
            "a question has {low} to {high} options; write [[{}]] for each",
            predict.path_of("option")
        );
        predict.wrong(report, "option", message);
        return None;
    }
    for option in &found {
        option.only(report, option_keys);
    }
    let ids = own_names(&found, report)?;
    let (kind, texts) = match name {
        Name::Choice | Name::Text => (Some(Kind::Choice), texts(&found, report)),
        Name::Number => number(&predict, &found, report).map_or((None, None), |(entry, texts)| {
            (Some(Kind::Number(entry)), Some(texts))
        }),
        Name::Order => (
            ordered(&predict, &found, report).map(Kind::Order),
            texts(&found, report),
        ),
        Name::Match => (
            matched(&predict, &found, report).map(Kind::Match),
            texts(&found, report),
        ),
    };
    let (kind, texts) = (kind?, texts?);
    let right = match &kind {
        Kind::Number(entry) => super::number::right_range(entry),
        _ => right_option(&predict, &ids, report),
    };
    let options = ids.into_iter().zip(texts);
    Some(Question {
        ask: ask?,
        kind,
        options: options.map(|(id, text)| Choice { id, text }).collect(),
        right: right?,
        confidence,
    })
}

fn short_text(
    predict: &Section<'_>,
    ask: Text,
    confidence: bool,
    report: &mut Report<'_>,
) -> Option<Question> {
    let longest = if predict.has("longest") {
        predict.whole(report, "longest", 20..=1000)?
    } else {
        LONGEST
    };
    Some(Question {
        ask,
        kind: Kind::ShortText {
            longest: usize::try_from(longest).ok()?,
            model: predict.text(report, "answer")?,
        },
        options: Vec::new(),
        right: 0,
        confidence,
    })
}

/// The names of sections, each its own.
pub(super) fn own_names(sections: &[Section<'_>], report: &mut Report<'_>) -> Option<Vec<String>> {
    let ids: Vec<Option<String>> = sections
        .iter()
        .map(|section| section.name(report, "id"))
        .collect();
    let ids: Vec<String> = ids.into_iter().collect::<Option<_>>()?;
    super::head::different(sections, ids.iter().map(String::as_str), report);
    Some(ids)
}

/// The texts of options.
pub(super) fn texts(sections: &[Section<'_>], report: &mut Report<'_>) -> Option<Vec<Text>> {
    let texts: Vec<Option<Text>> = sections
        .iter()
        .map(|section| section.text(report, "text"))
        .collect();
    texts.into_iter().collect()
}

fn right_option(predict: &Section<'_>, ids: &[String], report: &mut Report<'_>) -> Option<usize> {
    let name = predict.string(report, "answer", "id of the right option")?;
    let found = ids.iter().position(|id| id == name);
    if found.is_none() {
        let known: Vec<&str> = ids.iter().map(String::as_str).collect();
        predict.wrong(report, "answer", unknown("option", name, &known));
    }
    found
}
