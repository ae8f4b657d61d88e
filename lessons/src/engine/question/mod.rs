//! Questions of a lesson: every answer falls into one option, and one option is right.
//!
//! A choice names its option, a number lies in the range of one, an order or a match fits one or is "anything else".
//! So every wrong answer has a branch of the explanation. Only short text is not judged: the model answer is shown.

mod answer;
mod arrangements;

use std::collections::BTreeMap;

use ashlane_shared::{conditions::Range, units::Dimension};
use serde::{Deserialize, Serialize};

use super::Text;

pub(super) use arrangements::{assignments, permutations};

/// A question.
#[derive(Clone, Debug)]
pub struct Question {
    /// The question in words.
    pub ask: Text,
    /// What kind of answer it takes.
    pub kind: Kind,
    /// Options that answers fall into; none for short text.
    pub options: Vec<Choice>,
    /// The right option; without meaning for short text.
    pub right: usize,
    /// Whether the learner also says how sure the answer is.
    pub confidence: bool,
}

/// One option.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// Its name in the file.
    pub id: String,
    /// What it says.
    pub text: Text,
}

/// The kind of answer a question takes.
#[derive(Clone, Debug)]
pub enum Kind {
    /// One of the options.
    Choice,
    /// A number.
    Number(NumberEntry),
    /// All items in an order.
    Order(Ranked),
    /// A partner for each item.
    Match(MatchItems),
    /// A few words.
    ShortText {
        /// Most characters.
        longest: usize,
        /// A good answer, shown afterwards.
        model: Text,
    },
}

/// A number to enter.
#[derive(Clone, Debug)]
pub struct NumberEntry {
    /// What it measures.
    pub dimension: Dimension,
    /// What may be entered, SI.
    pub allowed: Range,
    /// The right value, SI.
    pub model: f64,
    /// Range of each option, SI; together they fill what may be entered.
    pub ranges: Vec<Range>,
}

/// Items to put in order.
#[derive(Clone, Debug)]
pub struct Ranked {
    /// The items.
    pub items: Vec<Choice>,
    /// Order of each option; nothing stands for any other.
    pub orders: Vec<Option<Vec<usize>>>,
}

/// Items to match.
#[derive(Clone, Debug)]
pub struct MatchItems {
    /// Items that each get a partner.
    pub left: Vec<Choice>,
    /// The partners.
    pub right: Vec<Choice>,
    /// Partner of every left item for each option; nothing stands for any other.
    pub pairs: Vec<Option<Vec<usize>>>,
}

/// What a learner answers.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Answer {
    /// Name of an option.
    Choice(String),
    /// A number, SI.
    Number(f64),
    /// Names of the items in order.
    Order(Vec<String>),
    /// Partner of each left item, by name.
    Match(BTreeMap<String, String>),
    /// A few words.
    Text(String),
}

/// How sure the learner is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Confidence {
    /// A guess.
    Guess,
    /// Fairly sure.
    FairlySure,
    /// Sure.
    Sure,
}

/// What became of an answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Judged {
    /// It falls into this option.
    Option(usize),
    /// Short text: the learner compares it with the model answer.
    NotJudged,
}
