//! The sparks of the drawn flight: when they come and where, at the mean rate of each set's control.
//!
//! They are illustration: what a spark does to voltage and current is in the mean of the field, and nothing else feels
//! them.

use super::{
    TIME_STEP_S,
    streams::{Purpose, stream, unit},
};

const MINUTE_S: f64 = 60.0;

/// A spark that has just been.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spark {
    /// Time since, s.
    pub age_s: f64,
    /// Where along its field, as a share of the length.
    pub along: f64,
    /// At which height of the plates, as a share.
    pub height: f64,
    /// Whether it went to the upper plate of the plan.
    pub upper: bool,
}

/// Sparks of a field, 0 for the first, in the last `span_s` before a step of the flight, the latest first.
///
/// The n-th spark comes at `(n + u_n)/f`, `u_n` from 0 to 1 by the dice of this field and spark: in any long time there are
/// as many as the rate says, and the state of the flight is in none of them.
///
/// # Arguments
/// * `seed` – the seed of the flight.
/// * `field` – 0 for the first.
/// * `per_min` – mean rate `f`, 1/min, 0 and more.
/// * `step` – steps of the flight so far.
/// * `span_s` – how far to look back, s.
///
/// # Source
/// Mean rate: `physics.md` 8 (what the control aims for). Times within a period: teaching value, no source.
///
/// # Validity
/// A rate that does not change; after a change the sparks are those of a flight that always had the new one.
#[must_use]
pub fn recent_sparks(seed: u64, field: usize, per_min: f64, step: u64, span_s: f64) -> Vec<Spark> {
    if per_min <= 0.0 || per_min.is_nan() {
        return Vec::new();
    }
    let (now_s, period_s) = (step as f64 * TIME_STEP_S, MINUTE_S / per_min);
    let last = (now_s / period_s) as u64;
    let first = ((now_s - span_s) / period_s - 1.0).max(0.0) as u64;
    let sparks = (first..=last).rev().filter_map(|number| {
        let mut dice = stream(seed, (field as u64) << 40 | number, Purpose::SparkPlaces);
        let age_s = now_s - (number as f64 + unit(&mut dice)) * period_s;
        (0.0..span_s).contains(&age_s).then(|| Spark {
            age_s,
            along: unit(&mut dice),
            height: unit(&mut dice),
            upper: unit(&mut dice) < 0.5,
        })
    });
    sparks.collect()
}

/// How many sparks a field has had by a step of the flight at this rate, 1/min; see [`recent_sparks`].
#[must_use]
pub fn sparks_so_far(per_min: f64, step: u64) -> u64 {
    (per_min.max(0.0) / MINUTE_S * step as f64 * TIME_STEP_S) as u64
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Steps in a minute.
    const MINUTE: u64 = 14_400;

    #[test]
    fn in_a_minute_there_are_as_many_as_the_rate_says() {
        for per_min in [0.5, 20.0, 57.0, 600.0] {
            let sparks = recent_sparks(1, 2, per_min, 20 * MINUTE, 20.0 * MINUTE_S);
            // Each period has one; only the last may be to come.
            let wanted = 20.0 * per_min;
            assert!(
                (sparks.len() as f64 - wanted).abs() <= 1.0,
                "{per_min}/min: {} of {wanted}",
                sparks.len()
            );
            assert_eq!(sparks_so_far(per_min, 20 * MINUTE), wanted as u64);
        }
        assert!(recent_sparks(1, 0, 0.0, MINUTE, 60.0).is_empty());
        assert!(recent_sparks(1, 0, f64::NAN, MINUTE, 60.0).is_empty());
    }

    #[test]
    fn a_spark_stays_where_it_was_and_only_grows_older() {
        let seen = recent_sparks(3, 1, 60.0, MINUTE, 2.0);
        let later = recent_sparks(3, 1, 60.0, MINUTE + 24, 2.0);
        let mut matched = 0;
        for spark in &seen {
            if let Some(same) = later.iter().find(|other| other.along == spark.along) {
                assert!((same.age_s - spark.age_s - 0.1).abs() < 1e-9);
                assert_eq!((same.height, same.upper), (spark.height, spark.upper));
                matched += 1;
            }
        }
        assert!(matched > 0, "{seen:?} {later:?}");
        assert_ne!(
            recent_sparks(3, 0, 60.0, MINUTE, 2.0),
            recent_sparks(3, 1, 60.0, MINUTE, 2.0),
            "fields spark by their own dice"
        );
    }
}
