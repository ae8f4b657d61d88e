//! What the site calls its fields and parts: its numbers, its own names, else ours.

use super::{Conditions, FieldNumbering, find_part};

/// Longest name where there is little room, characters.
const SHORT: usize = 14;

impl Conditions {
    /// The number that the site gives a field; `field` is counted from 0 along the gas.
    #[must_use]
    pub fn field_number(&self, field: usize) -> usize {
        let along = match self.appearance.field_numbering {
            FieldNumbering::AlongGas => field,
            FieldNumbering::AgainstGas => self.collector.fields.saturating_sub(field + 1),
        };
        self.appearance.first_field_number + along
    }

    /// What the site calls a part, by its key under `[names]`; our name where it has none of its own.
    #[must_use]
    pub fn part_name<'a>(&'a self, key: &'a str) -> &'a str {
        let own = self.appearance.part_names.get(key).map(String::as_str);
        own.or_else(|| find_part(key).map(|(part, _)| part.name))
            .unwrap_or(key)
    }

    /// What the site calls the part of one field: the name of just that one, which `key_1` gives for the first field that the
    /// gas meets, else the name of such parts with the number of the field. `field` is counted from 0 along the gas.
    #[must_use]
    pub fn part_name_of_field(&self, key: &str, field: usize) -> String {
        let own = self
            .appearance
            .part_names
            .get(&format!("{key}_{}", field + 1));
        own.cloned()
            .unwrap_or_else(|| format!("{} {}", self.part_name(key), self.field_number(field)))
    }

    /// What the site calls a field: "field 3", "zone 3" or a name of its own. `field` is counted from 0 along the gas.
    #[must_use]
    pub fn field_name(&self, field: usize) -> String {
        self.part_name_of_field("field", field)
    }

    /// The same where there is room for a word and a number only.
    #[must_use]
    pub fn short_field_name(&self, field: usize) -> String {
        let name = self.field_name(field);
        if name.chars().count() <= SHORT {
            name
        } else {
            format!("field {}", self.field_number(field))
        }
    }

    /// The name of a field at the beginning of a line: "Field 3".
    #[must_use]
    pub fn field_title(&self, field: usize) -> String {
        capitalised(&self.field_name(field))
    }
}

/// A text with a capital at its beginning.
#[must_use]
pub fn capitalised(text: &str) -> String {
    let mut rest = text.chars();
    rest.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(rest).collect()
    })
}

#[cfg(test)]
mod tests {
    use super::{super::demonstration, *};

    #[test]
    fn fields_have_the_numbers_of_the_site() {
        let mut site = demonstration();
        let numbers = |site: &Conditions| -> Vec<usize> {
            (0..4).map(|field| site.field_number(field)).collect()
        };
        assert_eq!(numbers(&site), [1, 2, 3, 4]);
        site.appearance.first_field_number = 0;
        assert_eq!(numbers(&site), [0, 1, 2, 3]);
        site.appearance.first_field_number = 5;
        site.appearance.field_numbering = FieldNumbering::AgainstGas;
        assert_eq!(numbers(&site), [8, 7, 6, 5]);
        assert_eq!(site.field_name(0), "field 8");
        assert_eq!(site.field_title(3), "Field 5");
    }

    #[test]
    fn parts_have_the_names_of_the_site_where_it_has_some() {
        let mut site = demonstration();
        assert_eq!(site.part_name("tr_set"), "T/R set");
        assert_eq!(site.part_name_of_field("tr_set", 1), "T/R set 2");
        let mut name = |key: &str, name: &str| {
            site.appearance
                .part_names
                .insert(key.to_owned(), name.to_owned());
        };
        name("tr_set", "rectifier");
        name("tr_set_2", "old rectifier");
        name("field_1", "éclair");
        assert_eq!(site.part_name("tr_set"), "rectifier");
        assert_eq!(site.part_name_of_field("tr_set", 0), "rectifier 1");
        assert_eq!(site.part_name_of_field("tr_set", 1), "old rectifier");
        assert_eq!(
            (site.field_title(0).as_str(), site.field_name(1).as_str()),
            ("Éclair", "field 2")
        );
        assert_eq!(site.part_name("none such"), "none such");
        assert_eq!(site.short_field_name(0), "éclair");
        let long = "field that stands beside the old gate";
        let names = &mut site.appearance.part_names;
        names.insert("field_1".to_owned(), long.to_owned());
        assert_eq!(
            (site.field_name(0), site.short_field_name(0)),
            (long.to_owned(), "field 1".to_owned())
        );
    }
}
