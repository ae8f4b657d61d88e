//! Judges answers, and makes answers that fall into a given option.

use std::collections::BTreeMap;

use super::{Answer, Choice, Judged, Kind, Question, assignments, permutations};
use crate::engine::Text;

impl Question {
    /// The option that an answer falls into.
    ///
    /// # Errors
    /// Says why the answer is none to this question.
    pub fn judge(&self, answer: &Answer) -> Result<Judged, String> {
        let option = match (&self.kind, answer) {
            (Kind::Choice, Answer::Choice(id)) => position(&self.options, id)?,
            (Kind::Number(entry), Answer::Number(value)) => {
                if !entry.allowed.holds(*value) {
                    return Err("this number is outside the range that is asked for".to_owned());
                }
                // A number on a border belongs to the range above.
                let held = entry.ranges.iter().enumerate();
                held.filter(|(_, range)| range.holds(*value))
                    .max_by(|(_, one), (_, other)| one.min.total_cmp(&other.min))
                    .map(|(option, _)| option)
                    .ok_or("this number falls into no range")?
            }
            (Kind::Order(ranked), Answer::Order(ids)) => {
                let order = positions(&ranked.items, ids)?;
                first_fit(&ranked.orders, &order).ok_or("this order falls into no option")?
            }
            (Kind::Match(items), Answer::Match(pairs)) => {
                let partners = partners(&items.left, &items.right, pairs)?;
                first_fit(&items.pairs, &partners).ok_or("this match falls into no option")?
            }
            (Kind::ShortText { longest, .. }, Answer::Text(text)) => {
                let length = text.trim().chars().count();
                if (1..=*longest).contains(&length) {
                    return Ok(Judged::NotJudged);
                }
                return Err(format!("write 1 to {longest} characters"));
            }
            _ => return Err("this is an answer to another kind of question".to_owned()),
        };
        Ok(Judged::Option(option))
    }

    /// Whether an option is the right one; short text has none.
    #[must_use]
    pub fn is_right(&self, option: usize) -> bool {
        option == self.right
    }

    /// The model answer.
    #[must_use]
    pub fn model_answer(&self) -> Answer {
        match &self.kind {
            Kind::Number(entry) => Answer::Number(entry.model),
            Kind::ShortText { model, .. } => {
                Answer::Text(model.show(ashlane_shared::units::UnitSystem::Si))
            }
            _ => self
                .answer_in(self.right)
                .unwrap_or_else(|| Answer::Choice(String::new())),
        }
    }

    /// An answer that falls into an option; nothing where none does.
    #[must_use]
    pub fn answer_in(&self, option: usize) -> Option<Answer> {
        Some(match &self.kind {
            Kind::Choice => Answer::Choice(self.options.get(option)?.id.clone()),
            Kind::Number(entry) => {
                let range = entry.ranges.get(option)?;
                Answer::Number(0.5 * (range.min + range.max))
            }
            Kind::Order(ranked) => {
                let order = permutations(ranked.items.len())
                    .into_iter()
                    .find(|order| first_fit(&ranked.orders, order) == Some(option))?;
                Answer::Order(names(&ranked.items, &order))
            }
            Kind::Match(items) => {
                let partners = assignments(items.left.len(), items.right.len())
                    .into_iter()
                    .find(|partners| first_fit(&items.pairs, partners) == Some(option))?;
                let right = names(&items.right, &partners);
                let left = items.left.iter().map(|item| item.id.clone());
                Answer::Match(left.zip(right).collect())
            }
            Kind::ShortText { .. } => return None,
        })
    }

    /// What an option says, for people.
    #[must_use]
    pub fn option_text(&self, option: usize) -> Option<&Text> {
        self.options.get(option).map(|choice| &choice.text)
    }
}

/// The first option that fits; one without an arrangement fits everything.
fn first_fit(options: &[Option<Vec<usize>>], given: &[usize]) -> Option<usize> {
    let exact = options
        .iter()
        .position(|option| option.as_deref() == Some(given));
    exact.or_else(|| options.iter().position(Option::is_none))
}

fn position(choices: &[Choice], id: &str) -> Result<usize, String> {
    choices
        .iter()
        .position(|choice| choice.id == id)
        .ok_or_else(|| format!("there is no option \"{id}\""))
}

/// Every item once.
fn positions(items: &[Choice], ids: &[String]) -> Result<Vec<usize>, String> {
    let mut order = Vec::with_capacity(ids.len());
    for id in ids {
        let item = position(items, id)?;
        if order.contains(&item) {
            return Err(format!("\"{id}\" stands twice"));
        }
        order.push(item);
    }
    if order.len() < items.len() {
        return Err(format!("put all {} in order", items.len()));
    }
    Ok(order)
}

/// A partner for every left item.
fn partners(
    left: &[Choice],
    right: &[Choice],
    pairs: &BTreeMap<String, String>,
) -> Result<Vec<usize>, String> {
    for name in pairs.keys() {
        position(left, name)?;
    }
    left.iter()
        .map(|item| {
            let partner = pairs
                .get(&item.id)
                .ok_or_else(|| format!("\"{}\" has no partner yet", item.id))?;
            position(right, partner)
        })
        .collect()
}

fn names(choices: &[Choice], order: &[usize]) -> Vec<String> {
    order
        .iter()
        .filter_map(|&index| choices.get(index))
        .map(|choice| choice.id.clone())
        .collect()
}

#[cfg(test)]
mod tests {
    use ashlane_shared::{conditions::Range, units::Dimension};

    use super::*;
    use crate::engine::question::{MatchItems, NumberEntry, Ranked};

    fn choices(ids: &[&str]) -> Vec<Choice> {
        let choice = |id: &&str| Choice {
            id: (*id).to_owned(),
            text: Text::default(),
        };
        ids.iter().map(choice).collect()
    }

    fn question(kind: Kind, options: &[&str]) -> Question {
        Question {
            ask: Text::default(),
            kind,
            options: choices(options),
            right: 0,
            confidence: true,
        }
    }

    #[test]
    fn numbers_fall_into_the_range_that_holds_them() {
        let range = |min, max| Range { min, max };
        let entry = NumberEntry {
            dimension: Dimension::Fraction,
            allowed: range(0.9, 1.0),
            model: 0.99,
            ranges: vec![range(0.985, 0.995), range(0.9, 0.985), range(0.995, 1.0)],
        };
        let question = question(Kind::Number(entry), &["right", "low", "high"]);
        for (value, option) in [
            (0.99, 0),
            (0.9, 1),
            (0.95, 1),
            (0.985, 0),
            (0.995, 2),
            (1.0, 2),
        ] {
            let judged = question.judge(&Answer::Number(value));
            assert_eq!(judged, Ok(Judged::Option(option)), "{value}");
        }
        for outside in [0.89, 1.01, f64::NAN] {
            assert!(question.judge(&Answer::Number(outside)).is_err());
        }
        assert!(question.judge(&Answer::Choice("right".to_owned())).is_err());
    }

    #[test]
    fn an_order_fits_its_option_or_the_one_for_all_others() {
        let ranked = Ranked {
            items: choices(&["a", "b", "c"]),
            orders: vec![Some(vec![2, 0, 1]), Some(vec![0, 1, 2]), None],
        };
        let question = question(Kind::Order(ranked), &["right", "as-listed", "other"]);
        let order = |ids: &[&str]| Answer::Order(ids.iter().map(|id| (*id).to_owned()).collect());
        assert_eq!(
            question.judge(&order(&["c", "a", "b"])),
            Ok(Judged::Option(0))
        );
        assert_eq!(
            question.judge(&order(&["a", "b", "c"])),
            Ok(Judged::Option(1))
        );
        assert_eq!(
            question.judge(&order(&["b", "a", "c"])),
            Ok(Judged::Option(2))
        );
        for wrong in [&["a", "b"][..], &["a", "a", "b"], &["a", "b", "d"]] {
            assert!(question.judge(&order(wrong)).is_err(), "{wrong:?}");
        }
    }

    #[test]
    fn every_option_has_an_answer_that_falls_into_it() {
        let items = MatchItems {
            left: choices(&["low", "normal"]),
            right: choices(&["1", "2", "3"]),
            pairs: vec![Some(vec![0, 1]), Some(vec![1, 0]), None],
        };
        let ranked = Ranked {
            items: choices(&["a", "b"]),
            orders: vec![Some(vec![1, 0]), Some(vec![0, 1])],
        };
        for question in [
            question(Kind::Match(items), &["right", "swapped", "other"]),
            question(Kind::Order(ranked), &["right", "wrong"]),
            question(Kind::Choice, &["right", "wrong"]),
        ] {
            for option in 0..question.options.len() {
                let answer = question.answer_in(option).expect("an answer");
                assert_eq!(question.judge(&answer), Ok(Judged::Option(option)));
            }
            assert_eq!(
                question.judge(&question.model_answer()),
                Ok(Judged::Option(0))
            );
        }
    }

    #[test]
    fn short_text_is_taken_but_not_judged() {
        let kind = Kind::ShortText {
            longest: 20,
            model: Text::parse("because").expect("text"),
        };
        let question = question(kind, &[]);
        let judged = |text: &str| question.judge(&Answer::Text(text.to_owned()));
        assert_eq!(judged("it depends"), Ok(Judged::NotJudged));
        assert!(judged("  ").is_err() && judged(&"x".repeat(21)).is_err());
    }
}
