//! The data of the charts as comma-separated values: what was counted and what theory says, in SI.

use std::fmt::Write;

use ashlane_shared::{count::CountResult, theory::Theory};

/// All numbers of the charts.
#[must_use]
pub fn csv(count: &CountResult, theory: &Theory) -> String {
    let mut text = String::from("# Teaching model. Not a procedure.\n");
    row(&mut text, format_args!("# parcels,{}", count.parcels));
    row(
        &mut text,
        format_args!(
            "quantity,place,counted,standard_error,finite_mixing,deutsch_anderson,laminar"
        ),
    );
    text + &rows(count, theory)
}

/// The same without its head.
pub(crate) fn rows(count: &CountResult, theory: &Theory) -> String {
    let mut text = String::new();
    for (point, line) in count.along.iter().zip(&theory.along) {
        row(
            &mut text,
            format_args!(
                "airborne_share_along_m,{},{},{},{},{},{}",
                point.along_m,
                point.counted.share,
                point.counted.standard_error,
                line.finite_mixing,
                line.deutsch_anderson,
                line.laminar
            ),
        );
    }
    for (class, expected) in count.by_size.iter().zip(&theory.by_size) {
        row(
            &mut text,
            format_args!(
                "penetration_by_diameter_m,{},{},{},{expected},,",
                class.diameter_m, class.counted.share, class.counted.standard_error
            ),
        );
    }
    for (index, field) in count.by_field.iter().enumerate() {
        row(
            &mut text,
            format_args!(
                "collected_share_by_field,{},{},,,,",
                index + 1,
                field.collected
            ),
        );
    }
    text
}

fn row(text: &mut String, arguments: std::fmt::Arguments<'_>) {
    // Writing to a String cannot fail.
    if text.write_fmt(arguments).is_ok() {
        text.push('\n');
    }
}
