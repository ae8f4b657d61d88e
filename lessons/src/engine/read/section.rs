//! One table of a lesson file: where it stands, what is in it, and notes about what is wrong with it.

use std::ops::Range as Span;

use ashlane_shared::conditions::{
    nearest,
    sheet::{Report, Trouble, kind_of_item},
};
use toml_edit::{Item, TableLike};

/// A table with its dotted path.
pub(super) struct Section<'d> {
    pub(super) table: &'d dyn TableLike,
    pub(super) path: String,
    pub(super) place: Option<Span<usize>>,
}

impl<'d> Section<'d> {
    /// The whole file.
    pub(super) fn root(table: &'d dyn TableLike) -> Self {
        Self {
            table,
            path: String::new(),
            place: None,
        }
    }

    /// The table itself.
    pub(super) fn table(&self) -> &'d dyn TableLike {
        self.table
    }

    /// Where it begins.
    pub(super) fn place(&self) -> Option<Span<usize>> {
        self.place.clone()
    }

    /// Dotted path of a key.
    pub(super) fn path_of(&self, name: &str) -> String {
        if self.path.is_empty() {
            name.to_owned()
        } else {
            format!("{}.{name}", self.path)
        }
    }

    /// Whether a key is there.
    pub(super) fn has(&self, name: &str) -> bool {
        self.table.contains_key(name)
    }

    /// What stands behind a key.
    pub(super) fn item(&self, name: &str) -> Option<&'d Item> {
        self.table.get(name)
    }

    /// Notes every key that is not among the known ones.
    pub(super) fn only(&self, report: &mut Report<'_>, known: &[&str]) {
        for (name, _) in self.table.iter() {
            if known.contains(&name) {
                continue;
            }
            let place = self
                .table
                .get_key_value(name)
                .and_then(|(key, _)| key.span());
            let trouble = Trouble::UnknownKey {
                nearest: nearest(name, known.iter().copied()).map(str::to_owned),
                advice: format!("here stand {}", known.join(", ")),
            };
            report.name(self.path_of(name), place, trouble);
        }
    }

    /// Notes something about the value of a key.
    pub(super) fn trouble(&self, report: &mut Report<'_>, name: &str, trouble: Trouble) {
        let item = self.item(name);
        match item.and_then(Item::span) {
            Some(place) => report.value(self.path_of(name), Some(place), trouble),
            None => report.name(self.path_of(name), self.place(), trouble),
        }
    }

    /// Notes that a value cannot be, with what to write instead.
    pub(super) fn wrong(&self, report: &mut Report<'_>, name: &str, message: String) {
        self.trouble(report, name, Trouble::Clash(message));
    }

    /// What must stand behind a key.
    pub(super) fn needed(
        &self,
        report: &mut Report<'_>,
        name: &str,
        advice: &str,
    ) -> Option<&'d Item> {
        let item = self.item(name);
        if item.is_none() {
            let message = format!("add {name}: {advice}");
            report.name(self.path_of(name), self.place(), Trouble::Missing(message));
        }
        item
    }

    /// Notes that a value is of another type.
    pub(super) fn other_type(
        &self,
        report: &mut Report<'_>,
        name: &str,
        item: &Item,
        advice: &str,
    ) {
        let trouble = Trouble::WrongType {
            found: kind_of_item(item),
            advice: advice.to_owned(),
        };
        self.trouble(report, name, trouble);
    }
}

/// Most words that one message names.
const MOST_NAMED: usize = 30;

/// "unknown formula "x" (did you mean "y"?); write one of …".
pub(super) fn unknown(what: &str, word: &str, known: &[&str]) -> String {
    let near = nearest(word, known.iter().copied())
        .map_or_else(String::new, |near| format!(" (did you mean \"{near}\"?)"));
    let (named, left) = known.split_at(known.len().min(MOST_NAMED));
    let more = if left.is_empty() {
        String::new()
    } else {
        format!(
            " or one of {} more, which `ashlane lesson new` lists",
            left.len()
        )
    };
    format!("unknown {what}{near}; write {}{more}", quoted(named))
}

/// Words in quotation marks, to choose from.
pub(super) fn quoted(words: &[&str]) -> String {
    let quoted: Vec<String> = words.iter().map(|word| format!("\"{word}\"")).collect();
    quoted.join(" or ")
}
