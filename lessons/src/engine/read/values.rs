//! Typed values of the keys of a lesson file; what is missing or of another type is noted.

use std::ops::{Range as Span, RangeInclusive};

use ashlane_shared::{
    conditions::sheet::{Report, Trouble},
    units::Dimension,
};
use toml_edit::Value as Toml;

use super::section::{Section, quoted, unknown};
use crate::engine::{Text, text::measure};

/// Most characters of one line, such as a title.
const LONGEST_LINE: usize = 120;
/// Most characters of running text.
const LONGEST_TEXT: usize = 4000;

/// What a name may be.
const NAMES: &str = "a name has letters, digits and hyphens only, such as half-the-dust";

/// A text of a list, and where it stands.
type Listed<'d> = (&'d str, Option<Span<usize>>);

impl<'d> Section<'d> {
    /// Text in quotation marks.
    pub(super) fn string(
        &self,
        report: &mut Report<'_>,
        name: &str,
        advice: &str,
    ) -> Option<&'d str> {
        let item = self.needed(report, name, advice)?;
        let text = item.as_str();
        if text.is_none() {
            self.other_type(report, name, item, advice);
        }
        text
    }

    /// A short text on one line.
    pub(super) fn line(&self, report: &mut Report<'_>, name: &str) -> Option<String> {
        let text = self.string(report, name, "a short text in quotation marks")?;
        let length = text.chars().count();
        let fits = (1..=LONGEST_LINE).contains(&length) && !text.trim().is_empty();
        if fits && !text.chars().any(char::is_control) {
            return Some(text.to_owned());
        }
        let message = format!("write 1 to {LONGEST_LINE} characters on one line");
        self.wrong(report, name, message);
        None
    }

    /// A name for other parts of the file: small letters, digits and hyphens.
    pub(super) fn name(&self, report: &mut Report<'_>, name: &str) -> Option<String> {
        let text = self.line(report, name)?;
        if is_name(&text) {
            return Some(text);
        }
        self.wrong(report, name, NAMES.to_owned());
        None
    }

    /// The keys of a table whose author chooses them; those that are no names are noted.
    pub(super) fn own_keys(&self, report: &mut Report<'_>) -> Vec<String> {
        let mut names = Vec::new();
        for (name, _) in self.table.iter() {
            if is_name(name) {
                names.push(name.to_owned());
            } else {
                let place = self.table.get_key_value(name);
                let place = place.and_then(|(key, _)| key.span());
                let trouble = Trouble::Clash(NAMES.to_owned());
                report.name(self.path_of(name), place, trouble);
            }
        }
        names
    }

    /// Running text, perhaps with quantities in braces.
    pub(super) fn text(&self, report: &mut Report<'_>, name: &str) -> Option<Text> {
        let text = self.string(report, name, "text in quotation marks")?;
        if text.trim().is_empty() || text.chars().count() > LONGEST_TEXT {
            let message = format!("write 1 to {LONGEST_TEXT} characters");
            self.wrong(report, name, message);
            return None;
        }
        Text::parse(text)
            .map_err(|message| self.wrong(report, name, message))
            .ok()
    }

    /// A whole number.
    pub(super) fn whole(
        &self,
        report: &mut Report<'_>,
        name: &str,
        allowed: RangeInclusive<i64>,
    ) -> Option<i64> {
        let (low, high) = (allowed.start(), allowed.end());
        let advice = format!("write a whole number without quotation marks ({low} to {high})");
        let item = self.needed(report, name, &advice)?;
        match item.as_integer() {
            Some(number) if allowed.contains(&number) => return Some(number),
            Some(_) => self.wrong(
                report,
                name,
                format!("outside the allowed range {low} to {high}"),
            ),
            None => self.other_type(report, name, item, &advice),
        }
        None
    }

    /// True or false; absent means `usual`.
    pub(super) fn flag(&self, report: &mut Report<'_>, name: &str, usual: bool) -> bool {
        let Some(item) = self.item(name) else {
            return usual;
        };
        item.as_bool().unwrap_or_else(|| {
            self.other_type(
                report,
                name,
                item,
                "write true or false without quotation marks",
            );
            usual
        })
    }

    /// One of the words of a table.
    pub(super) fn word<T: Copy>(
        &self,
        report: &mut Report<'_>,
        name: &str,
        words: &[(&'static str, T)],
    ) -> Option<T> {
        let known: Vec<&str> = words.iter().map(|(word, _)| *word).collect();
        let advice = format!("write {}", quoted(&known));
        let word = self.string(report, name, &advice)?;
        let found = words.iter().find(|(known, _)| *known == word);
        if found.is_none() {
            self.wrong(report, name, unknown("word", word, &known));
        }
        found.map(|(_, value)| *value)
    }

    /// A quantity as it is shown: text with a unit, or a plain number.
    pub(super) fn measure(&self, report: &mut Report<'_>, name: &str) -> Option<(f64, Dimension)> {
        let advice = "a number such as 4, or a quantity such as \"99 %\" or \"3 m\"";
        let item = self.needed(report, name, advice)?;
        let read = match item.as_value() {
            Some(Toml::String(text)) => measure(text.value()),
            Some(Toml::Integer(number)) => Some((*number.value() as f64, Dimension::Number)),
            Some(Toml::Float(number)) if number.value().is_finite() => {
                Some((*number.value(), Dimension::Number))
            }
            _ => None,
        };
        if read.is_none() {
            self.wrong(report, name, format!("write {advice}"));
        }
        read
    }

    /// A list of texts, each with its place.
    pub(super) fn strings(
        &self,
        report: &mut Report<'_>,
        name: &str,
        advice: &str,
    ) -> Option<Vec<Listed<'d>>> {
        let item = self.needed(report, name, advice)?;
        let texts: Option<Vec<_>> = item.as_array().and_then(|list| {
            list.iter()
                .map(|entry| Some((entry.as_str()?, entry.span())))
                .collect()
        });
        if texts.is_none() {
            self.other_type(report, name, item, advice);
        }
        texts
    }
}

fn is_name(text: &str) -> bool {
    let plain = |sign: char| sign.is_ascii_alphanumeric() || sign == '-';
    !text.is_empty() && text.chars().all(plain)
}
