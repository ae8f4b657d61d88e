//! What a formula answers when it is asked about something that cannot be.

use thiserror::Error;

/// A refusal of a formula: which argument, what it was, what it may be.
#[derive(Clone, Debug, Error, PartialEq)]
pub enum PhysicsError {
    /// A number outside the range of the formula.
    #[error("{argument} is {value}, allowed is {allowed}")]
    OutOfRange {
        /// Name of the argument, with its unit.
        argument: &'static str,
        /// Its value.
        value: f64,
        /// The allowed range in words.
        allowed: &'static str,
    },
    /// A list whose length does not fit the others.
    #[error("{argument} has {got} entries, {expected} are needed")]
    WrongLength {
        /// Name of the list.
        argument: &'static str,
        /// Its length.
        got: usize,
        /// The length that fits.
        expected: usize,
    },
    /// Inputs that are each possible, but not together.
    #[error("no collector can do this: {reason}")]
    Impossible {
        /// Why not.
        reason: String,
    },
}

/// Passes a value that satisfies `allowed_when`; NaN never does if the condition is a comparison.
pub(crate) fn require(
    allowed_when: bool,
    argument: &'static str,
    value: f64,
    allowed: &'static str,
) -> Result<f64, PhysicsError> {
    if allowed_when {
        Ok(value)
    } else {
        Err(PhysicsError::OutOfRange {
            argument,
            value,
            allowed,
        })
    }
}

/// Passes a finite value above zero.
pub(crate) fn positive(argument: &'static str, value: f64) -> Result<f64, PhysicsError> {
    require(
        value > 0.0 && value.is_finite(),
        argument,
        value,
        "finite and above 0",
    )
}

/// Passes a finite value of zero or more.
pub(crate) fn not_negative(argument: &'static str, value: f64) -> Result<f64, PhysicsError> {
    require(
        value >= 0.0 && value.is_finite(),
        argument,
        value,
        "finite and 0 or more",
    )
}

/// Passes a share: 0 or more and below 1.
pub(crate) fn share(argument: &'static str, value: f64) -> Result<f64, PhysicsError> {
    require(
        (0.0..1.0).contains(&value),
        argument,
        value,
        "0 or more and below 1",
    )
}

/// Passes lists of the length that the others have.
pub(crate) fn length(
    argument: &'static str,
    got: usize,
    expected: usize,
) -> Result<(), PhysicsError> {
    if got == expected {
        Ok(())
    } else {
        Err(PhysicsError::WrongLength {
            argument,
            got,
            expected,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_refusal_names_argument_value_and_range() {
        let refusal = positive("gap_m", -0.1).unwrap_err();
        assert_eq!(
            refusal.to_string(),
            "gap_m is -0.1, allowed is finite and above 0"
        );
    }

    #[test]
    fn not_a_number_is_refused_everywhere() {
        assert!(positive("a", f64::NAN).is_err(), "positive let NaN pass");
        assert!(
            not_negative("a", f64::NAN).is_err(),
            "not_negative let NaN pass"
        );
        assert!(share("a", f64::NAN).is_err(), "share let NaN pass");
    }
}
