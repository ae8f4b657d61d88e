//! Puts new conditions into the author's document and changes nothing that still holds.

use toml_edit::{DocumentMut, InlineTable, Item, Table, TableLike, Value as Toml};

use super::{
    convert::{Context, convert},
    hand::{Style, write},
    keep::take_out,
    quantity::read_quantity,
};
use crate::{
    conditions::{
        Conditions,
        keys::{Key, Presence, Shape, Value, keys},
        rebase::Rebased,
    },
    units::{Dimension, UnitSystem},
};

const FLOW: &str = "gas.flow";
const VELOCITY: &str = "teaching.migration_velocity";
const NAMES: &str = "names";

/// The document with these conditions, as text.
pub(super) fn save(document: &DocumentMut, rebased: &Rebased) -> String {
    let Rebased { conditions, note } = rebased;
    let mut document = document.clone();
    let context = Context {
        gas: conditions.gas_state(),
        fields: conditions.collector.fields,
    };
    let style = Style {
        context,
        system: system_of(&document, &context),
    };
    for key in keys() {
        match key.shape {
            Shape::PartName { .. } => update_names(&mut document, key, conditions, &style),
            _ => update(
                &mut document,
                key,
                key.path,
                key.get(conditions),
                conditions,
                &style,
            ),
        }
    }
    if let Some(note) = note {
        remark(&mut document, VELOCITY, note);
    }
    document.to_string()
}

/// The units of a sheet are those of its gas flow.
fn system_of(document: &DocumentMut, context: &Context) -> UnitSystem {
    let flow = find(document.as_table(), FLOW).and_then(Item::as_value);
    let unit = flow
        .and_then(|flow| read_quantity(flow, Dimension::Flow, &context.gas).ok())
        .map(|read| read.unit);
    if unit.is_some_and(|unit| unit.symbol.ends_with("cfm")) {
        UnitSystem::Us
    } else {
        UnitSystem::Si
    }
}

/// Brings one key up to date.
fn update(
    document: &mut DocumentMut,
    key: &Key,
    path: &str,
    wanted: Option<Value>,
    conditions: &Conditions,
    style: &Style,
) {
    let old = find(document.as_table(), path);
    let said = old.and_then(|item| convert(key, item, &style.context).ok());
    match (old, wanted) {
        (Some(_), None) => take_out(document, path),
        (Some(old), Some(value)) => {
            if !said.is_some_and(|said| said.same_as(&value)) {
                let item = write(key, &value, Some(old), style);
                put(document, path, item);
            }
        }
        (None, Some(value)) => {
            let goes_without_saying = key.presence == Presence::Default
                && key
                    .usual(conditions)
                    .is_some_and(|usual| usual.same_as(&value));
            if !goes_without_saying {
                let item = write(key, &value, None, style);
                put(document, path, item);
            }
        }
        (None, None) => {}
    }
}

/// Brings the site names up to date.
fn update_names(document: &mut DocumentMut, key: &Key, conditions: &Conditions, style: &Style) {
    let names = &conditions.appearance.part_names;
    let written: Vec<String> = find(document.as_table(), NAMES)
        .and_then(Item::as_table_like)
        .map(|table| table.iter().map(|(name, _)| name.to_owned()).collect())
        .unwrap_or_default();
    for gone in written
        .iter()
        .filter(|name| !names.contains_key(name.as_str()))
    {
        take_out(document, &format!("{NAMES}.{gone}"));
    }
    for (part, name) in names {
        let path = format!("{NAMES}.{part}");
        update(
            document,
            key,
            &path,
            Some(Value::Text(name.clone())),
            conditions,
            style,
        );
    }
}

/// The item of a dotted path.
fn find<'d>(root: &'d Table, path: &str) -> Option<&'d Item> {
    let mut names = path.split('.');
    let mut item = root.get(names.next()?)?;
    for name in names {
        item = item.as_table_like()?.get(name)?;
    }
    Some(item)
}

/// Replaces the item of a dotted path or adds it at the end of its section, which is made if it is missing.
fn put(document: &mut DocumentMut, path: &str, item: Item) {
    let (section, name) = path.rsplit_once('.').unwrap_or(("", path));
    let mut table: &mut dyn TableLike = document.as_table_mut();
    let mut inline = false;
    for part in section.split('.') {
        let new = if inline {
            Item::Value(Toml::InlineTable(InlineTable::new()))
        } else {
            Item::Table(Table::new())
        };
        let entry = table.entry(part).or_insert(new);
        inline = entry.is_inline_table();
        match entry.as_table_like_mut() {
            Some(inner) => table = inner,
            None => return,
        }
    }
    match table.get_mut(name) {
        Some(old) => *old = item,
        None => {
            table.insert(name, item);
        }
    }
}

/// Adds a comment above a key unless it is there already.
fn remark(document: &mut DocumentMut, path: &str, note: &str) {
    let (section, name) = path.rsplit_once('.').unwrap_or(("", path));
    let Some(table) = document.get_mut(section).and_then(Item::as_table_mut) else {
        return;
    };
    let Some(mut key) = table.key_mut(name) else {
        return;
    };
    let decor = key.leaf_decor_mut();
    let above = decor
        .prefix()
        .and_then(|prefix| prefix.as_str())
        .unwrap_or_default()
        .to_owned();
    if !above.contains(note) {
        decor.set_prefix(format!("{above}# {note}\n"));
    }
}
