//! Whether the gas is spread evenly enough over the face, from velocity readings on a grid.
//!
//! `RMS = √(Σ(u−ū)²/n)/ū`, and the shares of readings up to 1.15 ū and 1.40 ū

use crate::physics::PhysicsError;
use crate::physics::error::{positive, require};

/// Highest RMS over the mean that passes as even. Common practice, no source.
pub const HIGHEST_RMS_SHARE: f64 = 0.15;
/// First bound of a reading over the mean, and the least share of readings up to it. Common practice, no source.
pub const NEAR_BOUND: (f64, f64) = (1.15, 0.85);
/// Second bound of a reading over the mean, and the least share of readings up to it. Common practice, no source.
pub const FAR_BOUND: (f64, f64) = (1.40, 0.99);

/// What the velocity readings on a face say.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Uniformity {
    /// Mean ū of the readings, m/s.
    pub mean_m_s: f64,
    /// RMS of the readings about their mean, over the mean.
    pub rms_share: f64,
    /// Share of the readings up to 1.15 ū.
    pub share_up_to_near: f64,
    /// Share of the readings up to 1.40 ū.
    pub share_up_to_far: f64,
}

/// One of the three bounds of practice against the readings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Verdict {
    /// What was found.
    pub found: f64,
    /// The bound of practice.
    pub bound: f64,
    /// Whether it is kept.
    pub kept: bool,
}

impl Uniformity {
    /// The RMS against at most 15 %.
    #[must_use]
    pub fn rms_verdict(&self) -> Verdict {
        Verdict {
            found: self.rms_share,
            bound: HIGHEST_RMS_SHARE,
            kept: self.rms_share <= HIGHEST_RMS_SHARE,
        }
    }

    /// The share of readings up to 1.15 ū against at least 85 %.
    #[must_use]
    pub fn near_verdict(&self) -> Verdict {
        at_least(self.share_up_to_near, NEAR_BOUND.1)
    }

    /// The share of readings up to 1.40 ū against at least 99 %.
    #[must_use]
    pub fn far_verdict(&self) -> Verdict {
        at_least(self.share_up_to_far, FAR_BOUND.1)
    }

    /// Whether all three bounds are kept.
    #[must_use]
    pub fn is_even(&self) -> bool {
        self.rms_verdict().kept && self.near_verdict().kept && self.far_verdict().kept
    }
}

/// Mean, RMS and shares of velocity readings that each stand for the same part of the face.
///
/// `ū = Σu/n`, `RMS = √(Σ(u−ū)²/n)/ū`
///
/// # Arguments
/// * `readings_m_s` – velocities along the gas, m/s; two or more, each finite, with a mean above 0. A single reading may
///   be negative: gas that flows back.
///
/// # Source
/// Definitions; n below the root, because the readings are the whole grid and no sample of it.
///
/// # Validity
/// Readings at the middles of equal parts of the face. The bounds are common practice, no source.
///
/// # Errors
/// Fewer than two readings, a reading that is not finite, a mean of 0 or below.
///
/// ```
/// use ashlane_shared::physics::gas_path::uniformity::uniformity;
/// let face = uniformity(&[0.9, 1.1])?;
/// assert!((face.rms_share - 0.1).abs() < 1e-12 && face.is_even());
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn uniformity(readings_m_s: &[f64]) -> Result<Uniformity, PhysicsError> {
    let count = readings_m_s.len() as f64;
    require(count >= 2.0, "number of readings", count, "2 or more")?;
    for &reading in readings_m_s {
        require(reading.is_finite(), "reading_m_s", reading, "finite")?;
    }
    let mean_m_s = positive(
        "mean of readings_m_s",
        readings_m_s.iter().sum::<f64>() / count,
    )?;
    let square_sum: f64 = readings_m_s.iter().map(|u| (u - mean_m_s).powi(2)).sum();
    Ok(Uniformity {
        mean_m_s,
        rms_share: (square_sum / count).sqrt() / mean_m_s,
        share_up_to_near: share_up_to(readings_m_s, NEAR_BOUND.0 * mean_m_s),
        share_up_to_far: share_up_to(readings_m_s, FAR_BOUND.0 * mean_m_s),
    })
}

fn at_least(found: f64, bound: f64) -> Verdict {
    Verdict {
        found,
        bound,
        kept: found >= bound,
    }
}

fn share_up_to(readings_m_s: &[f64], bound_m_s: f64) -> f64 {
    let within = readings_m_s.iter().filter(|&&u| u <= bound_m_s).count();
    within as f64 / readings_m_s.len() as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_readings_are_even_in_every_way() {
        let face = uniformity(&[1.2; 9]).expect("nine readings");
        assert!((face.mean_m_s - 1.2).abs() < 1e-15 && face.rms_share < 1e-15);
        assert!(face.is_even());
    }

    #[test]
    fn each_bound_fails_on_its_own() {
        // Half at 0.8 and half at 1.2: RMS 20 %, half above 1.15 and none above 1.40.
        let halves = uniformity(&[0.8, 1.2, 0.8, 1.2]).expect("readings");
        assert!(!halves.rms_verdict().kept && !halves.near_verdict().kept);
        assert!(halves.far_verdict().kept);
        // One jet of 1.5 among fifty: RMS 7 %, 98 % up to 1.40.
        let mut jet = vec![1.0; 50];
        jet[7] = 1.5;
        let jet = uniformity(&jet).expect("readings");
        assert!(jet.rms_verdict().kept && jet.near_verdict().kept);
        assert!(!jet.far_verdict().kept && !jet.is_even());
    }

    #[test]
    fn the_unit_of_the_readings_does_not_matter() {
        let metres = [0.7, 1.0, 1.3, 1.6];
        let feet = metres.map(|u| u / 0.3048);
        let (metres, feet) = (uniformity(&metres), uniformity(&feet));
        let (metres, feet) = (metres.expect("readings"), feet.expect("readings"));
        assert!((metres.rms_share - feet.rms_share).abs() < 1e-15);
        assert!((metres.share_up_to_near - feet.share_up_to_near).abs() < 1e-15);
    }

    #[test]
    fn what_cannot_be_judged_is_refused_with_a_reason() {
        for (readings, word) in [
            (&[][..], "number of readings"),
            (&[1.0], "number of readings"),
            (&[1.0, f64::NAN], "reading_m_s"),
            (&[1.0, f64::INFINITY], "reading_m_s"),
            (&[-1.0, 0.2], "mean of readings_m_s"),
            (&[0.0, 0.0], "mean of readings_m_s"),
        ] {
            let refusal = uniformity(readings).expect_err("refused").to_string();
            assert!(refusal.contains(word), "{readings:?}: {refusal}");
        }
    }
}
