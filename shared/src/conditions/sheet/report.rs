//! Collects the problems of one sheet, or another TOML file of ours, with the lines they stand on.

use std::ops::Range;

use super::problem::{SheetErrors, SheetProblem, Trouble};

/// Problems listed; a wrong file has thousands and nobody reads them.
const MOST_LISTED: usize = 50;
/// Longest piece of the sheet that a message repeats, in characters.
const LONGEST_ECHO: usize = 60;

/// What is known to be wrong so far.
#[derive(Debug)]
pub struct Report<'t> {
    file: String,
    text: &'t str,
    line_ends: Vec<usize>,
    problems: Vec<SheetProblem>,
    left_out: usize,
}

impl<'t> Report<'t> {
    /// Nothing is wrong yet; `file` stands for the text in messages.
    #[must_use]
    pub fn new(file: &str, text: &'t str) -> Self {
        let line_ends = text
            .bytes()
            .enumerate()
            .filter(|&(_, byte)| byte == b'\n')
            .map(|(index, _)| index)
            .collect();
        Self {
            file: file.to_owned(),
            text,
            line_ends,
            problems: Vec::new(),
            left_out: 0,
        }
    }

    /// Notes trouble with the value that stands at `place`.
    pub fn value(&mut self, key: String, place: Option<Range<usize>>, trouble: Trouble) {
        let value = place
            .clone()
            .map_or_else(String::new, |place| self.echo(place));
        self.push(SheetProblem {
            line: place.map(|place| self.line(place.start)),
            key,
            value,
            trouble,
        });
    }

    /// Notes trouble with something that has a place but no value.
    pub fn name(&mut self, key: String, place: Option<Range<usize>>, trouble: Trouble) {
        let line = place.map(|place| self.line(place.start));
        self.push(SheetProblem {
            line,
            key: shortened(&key),
            value: String::new(),
            trouble,
        });
    }

    /// Whether more problems are only counted; then it is not worth finding words for them.
    pub(super) fn is_full(&self) -> bool {
        self.problems.len() >= MOST_LISTED
    }

    /// Problems noted so far, listed or only counted.
    pub(super) fn noted(&self) -> usize {
        self.problems.len() + self.left_out
    }

    /// Counts a problem without words.
    pub(super) fn count(&mut self) {
        self.left_out += 1;
    }

    fn push(&mut self, problem: SheetProblem) {
        if self.is_full() {
            self.count();
        } else {
            self.problems.push(problem);
        }
    }

    /// Line of a byte, from 1.
    #[must_use]
    pub fn line(&self, byte: usize) -> usize {
        // Trouble at the very end stands on the last line that has text.
        let last = self.text.trim_end().len();
        self.line_ends.partition_point(|&end| end < byte.min(last)) + 1
    }

    /// Whether nothing is wrong.
    #[must_use]
    pub fn is_clean(&self) -> bool {
        self.problems.is_empty()
    }

    /// All problems in the order of their lines, those without a line last.
    #[must_use]
    pub fn into_errors(mut self) -> SheetErrors {
        self.problems
            .sort_by_key(|problem| problem.line.unwrap_or(usize::MAX));
        SheetErrors {
            file: self.file,
            problems: self.problems,
            left_out: self.left_out,
        }
    }

    /// A piece of the sheet on one line.
    pub(super) fn echo(&self, place: Range<usize>) -> String {
        shortened(self.text.get(place).unwrap_or_default())
    }
}

/// Text on one line and not too long.
pub(super) fn shortened(text: &str) -> String {
    let mut short: String = text
        .chars()
        .take(LONGEST_ECHO)
        .map(|sign| if sign.is_control() { ' ' } else { sign })
        .collect();
    if text.chars().nth(LONGEST_ECHO).is_some() {
        short.push('…');
    }
    short
}
