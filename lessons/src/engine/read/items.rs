//! Reads questions for an order or a match: the items, and the arrangement that each option is.

use ashlane_shared::conditions::sheet::{Report, Trouble};

use super::{
    question::{own_names, texts},
    section::{Section, unknown},
};
use crate::engine::{
    Choice, MatchItems, Ranked,
    question::{assignments, permutations},
};

/// Fewest and most items.
const ITEMS: (usize, usize) = (2, 6);
const ITEM_KEYS: [&str; 2] = ["id", "text"];

/// Arrangement of each option; nothing for the one that stands for any other.
type Arrangements = Vec<Option<Vec<usize>>>;

pub(super) fn ordered(
    predict: &Section<'_>,
    options: &[Section<'_>],
    report: &mut Report<'_>,
) -> Option<Ranked> {
    let items = items(predict, "item", report)?;
    let orders = arrangements(options, report, |option, report| {
        let listed = option.strings(report, "order", "ids of all items in order")?;
        let mut order = Vec::with_capacity(listed.len());
        for (id, place) in listed {
            let item = found(option, "order", &items, id, place, report)?;
            if order.contains(&item) {
                option.wrong(report, "order", format!("\"{id}\" stands twice"));
                return None;
            }
            order.push(item);
        }
        if order.len() < items.len() {
            let message = format!("name all {} items", items.len());
            option.wrong(report, "order", message);
            return None;
        }
        Some(order)
    })?;
    let all = permutations(items.len());
    all_fit(predict, options, &orders, all.len(), report)?;
    Some(Ranked { items, orders })
}

pub(super) fn matched(
    predict: &Section<'_>,
    options: &[Section<'_>],
    report: &mut Report<'_>,
) -> Option<MatchItems> {
    let (left, right) = (
        items(predict, "left", report),
        items(predict, "right", report),
    );
    let (left, right) = (left?, right?);
    let pairs = arrangements(options, report, |option, report| {
        let section = option.section(report, "pairs", "a partner for each left item")?;
        let known: Vec<&str> = left.iter().map(|item| item.id.as_str()).collect();
        section.only(report, &known);
        let mut partners = Vec::with_capacity(left.len());
        for item in &left {
            let id = section.string(report, &item.id, "id of a right item")?;
            let place = section.item(&item.id).and_then(toml_edit::Item::span);
            partners.push(found(&section, &item.id, &right, id, place, report)?);
        }
        Some(partners)
    })?;
    let all = assignments(left.len(), right.len());
    all_fit(predict, options, &pairs, all.len(), report)?;
    Some(MatchItems { left, right, pairs })
}

fn items(predict: &Section<'_>, name: &str, report: &mut Report<'_>) -> Option<Vec<Choice>> {
    let sections = predict.sections(report, name);
    let (low, high) = ITEMS;
    if sections.len() < low || sections.len() > high {
        let path = predict.path_of(name);
        let message = format!("{low} to {high} items are needed; write [[{path}]] for each");
        predict.wrong(report, name, message);
        return None;
    }
    for section in &sections {
        section.only(report, &ITEM_KEYS);
    }
    let (ids, texts) = (own_names(&sections, report), texts(&sections, report));
    let choices = ids?.into_iter().zip(texts?);
    Some(choices.map(|(id, text)| Choice { id, text }).collect())
}

fn found(
    section: &Section<'_>,
    name: &str,
    items: &[Choice],
    id: &str,
    place: Option<std::ops::Range<usize>>,
    report: &mut Report<'_>,
) -> Option<usize> {
    let found = items.iter().position(|item| item.id == id);
    if found.is_none() {
        let known: Vec<&str> = items.iter().map(|item| item.id.as_str()).collect();
        let trouble = Trouble::Clash(unknown("item", id, &known));
        report.value(section.path_of(name), place, trouble);
    }
    found
}

fn arrangements<'d>(
    options: &[Section<'d>],
    report: &mut Report<'_>,
    mut read: impl FnMut(&Section<'d>, &mut Report<'_>) -> Option<Vec<usize>>,
) -> Option<Arrangements> {
    let mut arrangements = Vec::with_capacity(options.len());
    for option in options {
        let otherwise = option.flag(report, "otherwise", false);
        arrangements.push(if otherwise {
            None
        } else {
            Some(read(option, report)?)
        });
    }
    Some(arrangements)
}

/// Every arrangement must fall into one option, and every option must be possible.
fn all_fit(
    predict: &Section<'_>,
    options: &[Section<'_>],
    arrangements: &Arrangements,
    possible: usize,
    report: &mut Report<'_>,
) -> Option<()> {
    for (index, arrangement) in arrangements.iter().enumerate() {
        if arrangements[..index].contains(arrangement) {
            let message = "another option says the same; keep one of them";
            options.get(index)?.wrong(report, "id", message.to_owned());
            return None;
        }
    }
    let listed = arrangements.iter().flatten().count();
    let has_rest = listed < arrangements.len();
    if has_rest == (listed < possible) {
        return Some(());
    }
    let message = if has_rest {
        "all answers are listed already, so that \"otherwise\" is never chosen; take it away"
    } else {
        "some answers fall into no option; add one with otherwise = true"
    };
    predict.wrong(report, "option", message.to_owned());
    None
}
