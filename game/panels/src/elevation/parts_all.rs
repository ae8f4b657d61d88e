//! All parts together: the large ones first, so that a pointer finds the small ones in front of them.

use super::{Part, parts_inside::INSIDE, parts_outside::OUTSIDE, parts_table};

/// Every part.
pub const PARTS: [Part; LARGE + OUTSIDE.len() + INSIDE.len()] = joined(
    &joined::<{ LARGE + OUTSIDE.len() }>(&parts_table::PARTS, &OUTSIDE),
    &INSIDE,
);

const LARGE: usize = parts_table::PARTS.len();

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
