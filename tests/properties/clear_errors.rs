//! What errors of any file must be, whatever garbage was in it: some, each with the file's name, none endless.

use ashlane_shared::conditions::sheet::SheetErrors;
use proptest::prelude::*;

/// Longest message that a person still reads, letters.
const LONGEST: usize = 1200;

/// Whether a person can use these errors.
pub(crate) fn are_clear(errors: &SheetErrors, name: &str) -> Result<(), TestCaseError> {
    let message = errors.to_string();
    prop_assert!(!errors.problems.is_empty());
    prop_assert!(
        message.lines().all(|line| line.starts_with(name)),
        "{message}"
    );
    prop_assert!(
        message.lines().all(|line| line.chars().count() < LONGEST),
        "too long: {message}"
    );
    Ok(())
}
