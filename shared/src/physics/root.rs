//! Where a curve crosses zero between two places on either side of it.

/// Halvings at most; 200 bring any two numbers of an `f64` together.
const HALVINGS: u32 = 200;

/// The place between `low` and `high` at which `rising` crosses zero from below, by halving until nothing lies between.
///
/// Where `rising` is above zero throughout it gives `low`, where below `high`: callers make sure of the signs.
pub(crate) fn root_of_rising(rising: impl Fn(f64) -> f64, low: f64, high: f64) -> f64 {
    let (mut low, mut high) = (low, high);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if middle <= low || middle >= high {
            break;
        }
        if rising(middle) < 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_cube_root_of_two_is_found_to_the_last_digit() {
        let root = root_of_rising(|x| x * x * x - 2.0, 0.0, 1e3);
        assert!((root - 2.0_f64.cbrt()).abs() < 1e-15, "{root}");
    }
}
