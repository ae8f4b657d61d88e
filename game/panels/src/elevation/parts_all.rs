//! All parts together: the large ones first, so that a pointer finds the small ones in front of them.

use super::{Part, parts_outside::OUTSIDE, parts_table};

/// Every part.
pub const PARTS: [Part; parts_table::PARTS.len() + OUTSIDE.len()] =
    joined(&parts_table::PARTS, &OUTSIDE);

const fn joined<const ALL: usize>(first: &[Part], then: &[Part]) -> [Part; ALL] {
    let mut all = [first[0]; ALL];
    let mut index = 0;
    while index < ALL {
        all[index] = if index < first.len() {
            first[index]
        } else {
            then[index - first.len()]
        };
        index += 1;
    }
    all
}
