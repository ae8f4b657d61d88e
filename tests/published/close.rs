//! How a number is held against another one.

/// Fails unless `got` lies within the relative tolerance of `expected`.
#[track_caller]
pub(crate) fn close(what: &str, got: f64, expected: f64, relative_tolerance: f64) {
    printed(what, got, expected, relative_tolerance, 0.0);
}

/// As [`close`], with half of the last printed digit of the source on top: a source that prints 1.078 means
/// 1.0775 to 1.0785.
#[track_caller]
pub(crate) fn printed(
    what: &str,
    got: f64,
    expected: f64,
    relative_tolerance: f64,
    last_digit: f64,
) {
    let allowed = relative_tolerance * expected.abs() + 0.5 * last_digit;
    let off = (got - expected).abs();
    assert!(
        off <= allowed,
        "{what}: got {got}, expected {expected}, off by {off:e}, allowed {allowed:e}"
    );
}

#[test]
#[should_panic(expected = "value Q: got 2")]
fn a_wrong_value_fails() {
    close("value Q", 2.0, 1.0, 0.5);
}

#[test]
#[should_panic(expected = "value Q: got NaN")]
fn not_a_number_fails() {
    close("value Q", f64::NAN, 1.0, 0.5);
}
