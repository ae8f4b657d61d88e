//! Takes a key out of a document and leaves its line and comments behind as comments, so that nothing written is lost.

use toml_edit::{Decor, DocumentMut, Item, Key, RawString, Table};

/// Removes the item of a dotted path; its line stays as a comment in the same place.
pub(super) fn take_out(document: &mut DocumentMut, path: &str) {
    let (section, name) = path.rsplit_once('.').unwrap_or(("", path));
    let Some(item) = descend(document.as_item_mut(), section) else {
        return;
    };
    let Some(table) = item.as_table_mut() else {
        // Inside { } there is no place for comments.
        if let Some(inline) = item.as_table_like_mut() {
            inline.remove(name);
        }
        return;
    };
    let next = table
        .iter()
        .map(|(key, _)| key.to_owned())
        .skip_while(|key| key != name)
        .nth(1);
    let Some((key, item)) = table.remove_entry(name) else {
        return;
    };
    let remains = as_comment(&key, &item);
    match next.and_then(|next| table.key_mut(&next)) {
        Some(mut key) => prepend(key.leaf_decor_mut(), &remains),
        None => leave_below(document, section, &remains),
    }
}

fn descend<'d>(root: &'d mut Item, section: &str) -> Option<&'d mut Item> {
    section
        .split('.')
        .try_fold(root, |item, part| item.as_table_like_mut()?.get_mut(part))
}

/// The comments above a key and the key itself as a comment.
fn as_comment(key: &Key, item: &Item) -> String {
    let above = text(key.leaf_decor().prefix()).to_owned();
    let value = match item {
        Item::Value(value) => value.to_string(),
        Item::Table(table) => format!(" {{{table}}}"),
        _ => return above,
    };
    let line = format!("{} ={value}", key.display_repr());
    let commented: Vec<String> = line.lines().map(|line| format!("# {line}")).collect();
    format!("{above}{}\n", commented.join("\n"))
}

/// Puts text before the first section that follows, or at the end of the document.
fn leave_below(document: &mut DocumentMut, section: &str, remains: &str) {
    let here = descend(document.as_item_mut(), section)
        .and_then(|item| item.as_table().and_then(Table::position));
    match here.and_then(|here| next_table(document.as_table_mut(), here)) {
        Some(table) => prepend(table.decor_mut(), remains),
        None => {
            let end = text(Some(document.trailing())).to_owned();
            document.set_trailing(format!("{remains}{end}"));
        }
    }
}

/// The table with a heading that comes next after position `here`.
fn next_table(root: &mut Table, here: isize) -> Option<&mut Table> {
    let mut following: Vec<&mut Table> = Vec::new();
    collect(root, here, &mut following);
    following.into_iter().min_by_key(|table| table.position())
}

/// Tables after position `here`; of a table that follows, nothing inside can come before it.
fn collect<'d>(table: &'d mut Table, here: isize, following: &mut Vec<&'d mut Table>) {
    for (_, item) in table.iter_mut() {
        let Some(inner) = item.as_table_mut() else {
            continue;
        };
        let follows = inner.position().is_some_and(|position| position > here);
        if follows && !inner.is_implicit() && !inner.is_dotted() {
            following.push(inner);
        } else {
            collect(inner, here, following);
        }
    }
}

fn prepend(decor: &mut Decor, remains: &str) {
    // A heading without a prefix of its own stands below an empty line.
    let old = decor
        .prefix()
        .map_or("\n", |prefix| prefix.as_str().unwrap_or_default())
        .to_owned();
    decor.set_prefix(format!("{remains}{old}"));
}

fn text(raw: Option<&RawString>) -> &str {
    raw.and_then(RawString::as_str).unwrap_or_default()
}
