//! The puff of a rap in the drawn flight: dust that comes off the plates over a while, as parcels heavy enough to stand
//! for all of it.

use super::TIME_STEP_S;

/// Parcels of one puff: enough to see a cloud among the grains of the steady stream.
const PARCELS: u32 = 3000;

/// Dust on its way from the plates of a field into the gas.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Puff {
    /// The field that was struck, 0 for the first.
    field: u32,
    /// Parcels that have not come off yet.
    waiting: u32,
    waiting_kg: f64,
    per_step: f64,
    /// Parcels due but not yet released, below one.
    due: f64,
}

impl Puff {
    /// So much dust, released evenly over a time.
    pub(super) fn new(field: u32, mass_kg: f64, duration_s: f64) -> Self {
        let steps = (duration_s / TIME_STEP_S).max(1.0);
        Self {
            field,
            waiting: PARCELS,
            waiting_kg: mass_kg,
            per_step: f64::from(PARCELS) / steps,
            due: 0.0,
        }
    }

    /// Dust that has not come off yet, kg.
    pub(super) fn waiting_kg(&self) -> f64 {
        self.waiting_kg
    }

    /// Whether all of it has come off.
    pub(super) fn is_over(&self) -> bool {
        self.waiting == 0
    }

    /// Field and mass of the parcels that come off in this step.
    ///
    /// The mass of a parcel has fewer digits than the books, so each takes an even share of what is left.
    pub(super) fn release(&mut self, fields: usize) -> Vec<(u32, f32)> {
        self.due += self.per_step;
        let now = (self.due as u32).min(self.waiting);
        self.due -= f64::from(now);
        let last = fields as u32 - 1;
        let mut released = Vec::with_capacity(now as usize);
        for _ in 0..now {
            let mass_kg = (self.waiting_kg / f64::from(self.waiting)) as f32;
            self.waiting_kg -= f64::from(mass_kg);
            self.waiting -= 1;
            released.push((self.field.min(last), mass_kg));
        }
        released
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_puff_gives_all_its_dust_in_its_time_and_no_more() {
        let mut puff = Puff::new(1, 1234.5, 2.0);
        let (mut sum_kg, mut steps) = (0.0, 0);
        while !puff.is_over() {
            let released = puff.release(4);
            sum_kg += released.iter().map(|(_, kg)| f64::from(*kg)).sum::<f64>();
            steps += 1;
            assert!(
                (sum_kg + puff.waiting_kg() - 1234.5).abs() < 1e-9,
                "at step {steps}"
            );
        }
        // 2 s are 480 steps of 1/240 s.
        assert!((479..=482).contains(&steps), "{steps} steps");
        // The last parcel is rounded to the 24 bits of its mass alone.
        assert!((sum_kg / 1234.5 - 1.0).abs() < 1e-10, "{sum_kg} kg");
    }
}
