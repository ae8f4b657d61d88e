//! The sites that come with the program, embedded so that window, command line and browser read the same bytes.

use super::{
    Conditions, Kind,
    keys::defaults,
    sheet::{Sheet, SheetErrors, read_str},
};

/// Name and text of every site that comes with the program; the first is the demonstration.
pub const SITES: &[(&str, &str)] = &[
    ("demonstration", DEMONSTRATION),
    (
        "demonstration-us",
        include_str!("../../../assets/sites/demonstration-us.toml"),
    ),
    (
        "cement-kiln",
        include_str!("../../../assets/sites/cement-kiln.toml"),
    ),
    (
        "pulverised-coal-ap42",
        include_str!("../../../assets/sites/pulverised-coal-ap42.toml"),
    ),
];

const DEMONSTRATION: &str = include_str!("../../../assets/sites/demonstration.toml");
/// Fields of the demonstration collector.
const DEMONSTRATION_FIELDS: usize = 4;

/// The demonstration sheet with its text, for saving under another name.
///
/// # Errors
/// Never, as a test makes sure; the sheet is read like any other.
pub fn demonstration_sheet() -> Result<Sheet, SheetErrors> {
    read_str("demonstration.toml", DEMONSTRATION)
}

/// What the demonstration collector is told.
#[must_use]
pub fn demonstration() -> Conditions {
    // The defaults of the key table are the demonstration's values; a test compares all of them with the sheet.
    demonstration_sheet().map_or_else(
        |_| defaults(Kind::Dry, DEMONSTRATION_FIELDS),
        |sheet| sheet.conditions,
    )
}

#[cfg(test)]
mod tests {
    use super::{DEMONSTRATION_FIELDS, SITES, demonstration, demonstration_sheet};
    use crate::conditions::{Kind, keys::defaults};

    #[test]
    fn the_defaults_are_the_demonstration() {
        let sheet = demonstration_sheet().unwrap_or_else(|errors| panic!("{errors}"));
        let mut expected = defaults(Kind::Dry, DEMONSTRATION_FIELDS);
        expected.title = "Demonstration collector".to_owned();
        assert_eq!(sheet.conditions, expected);
        assert_eq!(demonstration(), expected);
    }

    #[test]
    fn every_site_has_its_own_name() {
        for (index, (name, _)) in SITES.iter().enumerate() {
            assert!(
                SITES[..index].iter().all(|(other, _)| other != name),
                "{name} twice"
            );
        }
    }
}
