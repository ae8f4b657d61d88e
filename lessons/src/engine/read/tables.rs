//! Tables within a table of a lesson file, one or a list of them.

use std::ops::Range as Span;

use ashlane_shared::conditions::sheet::Report;
use toml_edit::{Item, TableLike, Value as Toml};

use super::section::Section;

/// A table of a list, and where it begins.
type Tables<'d> = Vec<(&'d dyn TableLike, Option<Span<usize>>)>;

impl<'d> Section<'d> {
    /// A table below this one.
    pub(super) fn section(&self, report: &mut Report<'_>, name: &str, what: &str) -> Option<Self> {
        let path = self.path_of(name);
        let advice = format!("write [{path}]: {what}");
        let item = self.needed(report, name, &advice)?;
        let Some(table) = item.as_table_like() else {
            self.other_type(report, name, item, &advice);
            return None;
        };
        Some(Self {
            table,
            path,
            place: item.span().or_else(|| self.place()),
        })
    }

    /// The tables of a list below this one, numbered from 1; none if the key is absent.
    pub(super) fn sections(&self, report: &mut Report<'_>, name: &str) -> Vec<Self> {
        let Some(item) = self.item(name) else {
            return Vec::new();
        };
        let tables: Option<Tables<'d>> = match item {
            Item::ArrayOfTables(list) => Some(
                list.iter()
                    .map(|table| (table as &dyn TableLike, table.span()))
                    .collect(),
            ),
            Item::Value(Toml::Array(list)) => list
                .iter()
                .map(|entry| {
                    let table = entry.as_inline_table()?;
                    Some((table as &dyn TableLike, entry.span()))
                })
                .collect(),
            _ => None,
        };
        let Some(tables) = tables else {
            let path = self.path_of(name);
            let advice = format!("write [[{path}]], once for each");
            self.other_type(report, name, item, &advice);
            return Vec::new();
        };
        let numbered = tables.into_iter().enumerate();
        numbered
            .map(|(index, (table, place))| Self {
                table,
                path: format!("{} {}", self.path_of(name), index + 1),
                place: place.or_else(|| self.place()),
            })
            .collect()
    }
}
