//! Walks a parsed sheet and pairs everything in it with its row of the key table.

use std::ops::Range as Span;

use toml_edit::{Item, TableLike};

use super::{convert::kind_of_item, problem::Trouble, report::Report};
use crate::conditions::{
    keys::{Key, MOST_FIELDS, SECTIONS, Shape, find_key, keys},
    nearest::nearest,
    parts::{PARTS, find_part},
};

/// Something written in the sheet that has a row in the key table.
#[derive(Debug)]
pub(super) struct Entry<'d> {
    /// Its row.
    pub key: &'static Key,
    /// Dotted path as written; differs from the row's for site names.
    pub path: String,
    /// What stands behind it.
    pub item: &'d Item,
    /// Where the value stands.
    pub place: Option<Span<usize>>,
}

/// Everything known in the sheet; the unknown goes to the report.
#[derive(Debug, Default)]
pub(super) struct Gathered<'d> {
    /// Keys with their values, in the order of the sheet.
    pub entries: Vec<Entry<'d>>,
    /// Where each section begins.
    pub sections: Vec<(String, Option<Span<usize>>)>,
    /// What misspelt sections and keys were probably meant to be.
    pub meant: Vec<String>,
}

impl<'d> Gathered<'d> {
    /// The entry of a dotted path.
    pub(super) fn entry(&self, path: &str) -> Option<&Entry<'d>> {
        self.entries.iter().find(|entry| entry.path == path)
    }

    /// Whether a key is there under a name that was probably meant to be its own.
    pub(super) fn is_misspelt(&self, key: &Key) -> bool {
        self.meant
            .iter()
            .any(|meant| meant == key.path || meant == key.split().0)
    }

    /// Where a section begins, if it is there.
    pub(super) fn section(&self, name: &str) -> Option<Span<usize>> {
        self.sections
            .iter()
            .find(|(section, _)| section == name)
            .and_then(|(_, place)| place.clone())
    }
}

impl Gathered<'_> {
    fn note_meaning(&mut self, section: &str, trouble: &Trouble) {
        match trouble {
            Trouble::UnknownSection {
                nearest: Some(name),
                ..
            } => self.meant.push(name.clone()),
            Trouble::UnknownKey {
                nearest: Some(name),
                ..
            } => self.meant.push(format!("{section}.{name}")),
            _ => {}
        }
    }
}

/// Pairs what is written with the key table.
pub(super) fn gather<'d>(root: &'d dyn TableLike, report: &mut Report<'_>) -> Gathered<'d> {
    let mut gathered = Gathered::default();
    for (name, item) in root.iter() {
        if SECTIONS.contains(&name) {
            walk_section(name, item, &mut gathered, report);
        } else if report.is_full() {
            report.count();
        } else {
            let trouble = unknown_at_root(name, item);
            gathered.note_meaning("", &trouble);
            report.name(name.to_owned(), key_place(root, name), trouble);
        }
    }
    gathered
}

fn walk_section<'d>(
    section: &str,
    item: &'d Item,
    gathered: &mut Gathered<'d>,
    report: &mut Report<'_>,
) {
    let Some(table) = item.as_table_like() else {
        let trouble = Trouble::NotASection {
            found: kind_of_item(item),
            section: section.to_owned(),
        };
        return report.value(section.to_owned(), item.span(), trouble);
    };
    gathered.sections.push((section.to_owned(), item.span()));
    for (name, inner) in table.iter() {
        let path = format!("{section}.{name}");
        if SECTIONS.contains(&path.as_str()) {
            walk_section(&path, inner, gathered, report);
        } else if let Some(key) = row_of(section, name) {
            gathered.entries.push(Entry {
                key,
                path,
                item: inner,
                place: inner.span(),
            });
        } else if report.is_full() {
            report.count();
        } else {
            let trouble = unknown_in_section(section, name);
            gathered.note_meaning(section, &trouble);
            report.name(path, key_place(table, name), trouble);
        }
    }
}

/// The row of a key; site names share one.
pub(super) fn row_of(section: &str, name: &str) -> Option<&'static Key> {
    if section != "names" {
        return find_key(&format!("{section}.{name}"));
    }
    let (_, number) = find_part(name)?;
    number
        .is_none_or(|number: usize| number <= MOST_FIELDS)
        .then(|| keys().find(|key| matches!(key.shape, Shape::PartName { .. })))?
}

fn key_place(table: &dyn TableLike, name: &str) -> Option<Span<usize>> {
    table.get_key_value(name).and_then(|(key, _)| key.span())
}

/// Outside all sections: a misspelt section, or a key without its section.
fn unknown_at_root(name: &str, item: &Item) -> Trouble {
    if item.is_table_like() || item.is_array_of_tables() {
        return Trouble::UnknownSection {
            nearest: nearest(name, SECTIONS.into_iter()).map(str::to_owned),
            known: SECTIONS.map(|section| format!("[{section}]")).join(", "),
        };
    }
    let near = nearest(name, keys().map(|key| key.split().1));
    let home = keys()
        .map(Key::split)
        .find(|&(_, known)| Some(known) == near)
        .map_or("gas", |(home, _)| home);
    let advice = match near {
        Some(_) => format!("it belongs below [{home}]"),
        None => "every key stands below its section, such as flow below [gas]".to_owned(),
    };
    Trouble::UnknownKey {
        nearest: near.filter(|&near| near != name).map(str::to_owned),
        advice,
    }
}

fn unknown_in_section(section: &str, name: &str) -> Trouble {
    if section == "names" {
        let known: Vec<&str> = PARTS.iter().map(|part| part.key).collect();
        let near = nearest(name, known.iter().copied()).map(str::to_owned);
        return Trouble::UnknownKey {
            nearest: near,
            advice: format!("the parts are {}", known.join(", ")),
        };
    }
    let known: Vec<&str> = keys()
        .map(Key::split)
        .filter(|&(home, _)| home == section)
        .map(|(_, name)| name)
        .collect();
    let near = nearest(name, known.iter().copied()).map(str::to_owned);
    let elsewhere = keys()
        .map(Key::split)
        .find(|&(home, known)| home != section && known == name);
    let advice = match elsewhere {
        Some((home, _)) if near.is_none() => format!("it belongs below [{home}]"),
        _ => format!("[{section}] takes {}", known.join(", ")),
    };
    Trouble::UnknownKey {
        nearest: near,
        advice,
    }
}
