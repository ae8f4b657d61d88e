//! Which cautions belong to which row of the troubleshooting table.

/// Shown with every case: it may be paused, and nobody is timed; look-alike compartments.
pub(super) const OF_ALL: [&str; 1] = ["C17"];

/// Cautions of a row, shown while its fault is set.
pub(super) fn of_row(row: &str) -> &'static [&'static str] {
    match row {
        // No voltage on the meters: off is not discharged, and a set is qualified people's work.
        "T1" => &["C1", "C7"],
        "T17" | "T18" | "T19" | "T26" | "T27" => &["C1", "C14"],
        "T4" | "T6" | "T7" | "T9" | "T13" | "T14" => &["C1", "C10"],
        "T8" | "T30" => &["C7", "C8"],
        "T10" => &["C13"],
        "T12" => &["C5", "C19"],
        "T20" => &["C4"],
        "T22" => &["C16"],
        _ => &[],
    }
}

#[cfg(test)]
mod tests {
    use ashlane_lessons::{engine::find_caution, faults::FAULTS};

    use super::*;

    #[test]
    fn every_caution_that_is_shown_is_in_the_table() {
        let rows = (0..=30).map(|row| format!("T{row}"));
        let codes = rows.flat_map(|row| of_row(&row).iter().chain(&OF_ALL));
        for code in codes {
            assert!(find_caution(code).is_some(), "no caution {code}");
        }
        // A set without supply: training.md 5.2 has C1 at any field "off" and C14 at T17 to T19.
        let lost = FAULTS.iter().find(|fault| fault.name == "supply-lost");
        assert_eq!(of_row(lost.expect("a fault").row), ["C1", "C14"]);
    }
}
