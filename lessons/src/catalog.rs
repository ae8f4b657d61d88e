//! The lessons that come with the program, embedded so that window, command line and browser read the same bytes.

use ashlane_shared::conditions::{nearest, sheet::SheetErrors};

use crate::engine::{Lesson, read_lesson};

/// Name and text of every lesson file: one row a lesson, in the order they are learned.
pub const LESSONS: &[(&str, &str)] = &[
    (
        "001_the_gas_path.toml",
        include_str!("../catalog/001_the_gas_path.toml"),
    ),
    (
        "002_the_corona.toml",
        include_str!("../catalog/002_the_corona.toml"),
    ),
    (
        "003_charging_by_size.toml",
        include_str!("../catalog/003_charging_by_size.toml"),
    ),
    (
        "004_migration_velocity.toml",
        include_str!("../catalog/004_migration_velocity.toml"),
    ),
    (
        "005_twice_the_plate_area.toml",
        include_str!("../catalog/005_twice_the_plate_area.toml"),
    ),
    (
        "006_more_gas.toml",
        include_str!("../catalog/006_more_gas.toml"),
    ),
    (
        "007_voltage.toml",
        include_str!("../catalog/007_voltage.toml"),
    ),
    (
        "008_plate_spacing.toml",
        include_str!("../catalog/008_plate_spacing.toml"),
    ),
    (
        "009_every_size_its_own_penetration.toml",
        include_str!("../catalog/009_every_size_its_own_penetration.toml"),
    ),
    (
        "010_resistivity.toml",
        include_str!("../catalog/010_resistivity.toml"),
    ),
    (
        "011_sparks_and_control.toml",
        include_str!("../catalog/011_sparks_and_control.toml"),
    ),
    (
        "012_rapping.toml",
        include_str!("../catalog/012_rapping.toml"),
    ),
    (
        "013_gas_that_slips_past.toml",
        include_str!("../catalog/013_gas_that_slips_past.toml"),
    ),
    (
        "014_a_field_lost.toml",
        include_str!("../catalog/014_a_field_lost.toml"),
    ),
    (
        "015_wet_plates.toml",
        include_str!("../catalog/015_wet_plates.toml"),
    ),
    (
        "016_hoppers_and_ash.toml",
        include_str!("../catalog/016_hoppers_and_ash.toml"),
    ),
    (
        "017_reading_the_panel.toml",
        include_str!("../catalog/017_reading_the_panel.toml"),
    ),
    (
        "018_start_up_and_shut_down.toml",
        include_str!("../catalog/018_start_up_and_shut_down.toml"),
    ),
];

/// Reads every lesson.
///
/// # Errors
/// Never, as a test makes sure; the files are read like any other.
pub fn lessons() -> Result<Vec<Lesson>, SheetErrors> {
    LESSONS
        .iter()
        .map(|(name, text)| read_lesson(name, text))
        .collect()
}

/// The lesson with this id, whatever the case of its letters.
#[must_use]
pub fn find<'l>(lessons: &'l [Lesson], id: &str) -> Option<&'l Lesson> {
    lessons
        .iter()
        .find(|lesson| lesson.id.eq_ignore_ascii_case(id.trim()))
}

/// The id that may have been meant: one that looks like it, or that of a title that does.
#[must_use]
pub fn nearest_id<'l>(lessons: &'l [Lesson], id: &str) -> Option<&'l str> {
    let by_id = nearest(id, lessons.iter().map(|lesson| lesson.id.as_str()));
    by_id.or_else(|| {
        let title = nearest(id, lessons.iter().map(|lesson| lesson.title.as_str()))?;
        lessons
            .iter()
            .find(|lesson| lesson.title == title)
            .map(|lesson| lesson.id.as_str())
    })
}
