//! How fast the gusts spread dust across the passage: measured with tracers, by place and by velocity.
//!
//! No gust blows through a plate, so the diffusivity falls from the wire line to nothing at the plate; and the pattern
//! travels with the gas, so that dust in faster or slower gas leaves each gust behind before it has gone far.

use super::{PERIODS_PER_CYCLE, Pattern, carried, random_offset};
use crate::simulation::{
    parcels::{BLOCK, Lanes},
    streams::{Purpose, stream, unit},
};

/// Places across, from the wire line to the plate.
const BINS: usize = 16;
/// Velocities over that of the pattern; beyond the ends a gust is left behind at once.
const VELOCITIES: [f64; 11] = [0.5, 0.7, 0.8, 0.87, 0.94, 1.0, 1.06, 1.13, 1.2, 1.3, 1.5];
/// Diffusivity of the eddies that stir the tracers too, in units of gas velocity times gap: 0.016 on the demonstration
/// collector, by the project's own formula; eddies grow with both. Without them the gusts would spread a tenth more.
const EDDIES: f64 = 0.015;
/// Tracers are flown for 12 gaps, three times as far as a gust remembers.
const STEP: f32 = 0.05;
const STEPS: usize = 240;
/// Blocks of tracers for each velocity.
const BLOCKS: usize = 512;

/// Diffusivity across by velocity and place, in units of gas velocity times gap.
#[derive(Clone, Debug)]
pub(super) struct Spreading {
    by_velocity: Vec<[f64; BINS]>,
}

impl Spreading {
    /// K(y) = ⟨v(t)·Σ v dt⟩ of the tracers that are at y at the end of their flight.
    ///
    /// # Source
    /// Taylor 1921, Diffusion by continuous movements, Proc. London Math. Soc. 20:196, with the past in place of the
    /// future, so that place is where the flux is.
    pub(super) fn measured(pattern: &Pattern) -> Self {
        Self {
            // One after the other: whoever waits for other threads in here might be given work that asks for this.
            by_velocity: VELOCITIES
                .iter()
                .map(|&velocity| at_velocity(pattern, velocity as f32))
                .collect(),
        }
    }

    /// At a place, 0 on the wire line and 1 at the plate, in gas of a velocity over that of the pattern.
    pub(super) fn at(&self, place: f64, velocity: f64) -> f64 {
        let above = VELOCITIES.partition_point(|&known| known < velocity);
        let above = above.clamp(1, VELOCITIES.len() - 1);
        let (low, high) = (VELOCITIES[above - 1], VELOCITIES[above]);
        let part = ((velocity - low) / (high - low)).clamp(0.0, 1.0);
        let of = |index: usize| at_place(&self.by_velocity[index], place);
        of(above - 1) * (1.0 - part) + of(above) * part
    }

    /// Mean over the gap in gas that travels with the pattern.
    pub(super) fn mean(&self) -> f64 {
        let places = (0..BINS).map(|bin| (bin as f64 + 0.5) / BINS as f64);
        places.map(|place| self.at(place, 1.0)).sum::<f64>() / BINS as f64
    }
}

/// Between the middles of the bins by straight lines, down to nothing at the plate.
fn at_place(profile: &[f64; BINS], place: f64) -> f64 {
    let bins = (place * BINS as f64 - 0.5).clamp(0.0, BINS as f64 - 0.5);
    let below = bins as usize;
    let part = bins - below as f64;
    match profile.get(below + 1) {
        Some(next) => profile[below] + part * (next - profile[below]),
        // Half a bin from the last middle to the plate.
        None => profile[below] * (1.0 - 2.0 * part),
    }
}

/// The tracers in gas of one velocity.
fn at_velocity(pattern: &Pattern, velocity: f32) -> [f64; BINS] {
    // A uniform number has the variance 1/12.
    let kick = (24.0 * EDDIES as f32 * STEP).sqrt();
    let mut sums = [(0.0, 0.0); BINS];
    for block in 0..BLOCKS {
        let mut generator = stream(0, block as u64, Purpose::Tracers);
        let mut random = || unit(&mut generator);
        let (mut along, mut offset, mut pushed): (Lanes, Lanes, Lanes) =
            ([0.0; BLOCK], [0.0; BLOCK], [0.0; BLOCK]);
        let mut across: Lanes = std::array::from_fn(|_| (2.0 * random() - 1.0) as f32);
        offset.fill_with(|| random_offset(random()));
        let first_periods = PERIODS_PER_CYCLE * block as f64 / BLOCKS as f64;
        for step in 0..=STEPS {
            let now = pattern.at_gaps(first_periods, f64::from(STEP) * step as f64);
            let gust = now.block(&along, &across, &offset);
            if step == STEPS {
                for i in 0..BLOCK {
                    let bin = (across[i].abs() * BINS as f32) as usize;
                    let (sum, count) = &mut sums[bin.min(BINS - 1)];
                    *sum += f64::from(gust.across[i] * pushed[i]);
                    *count += 1.0;
                }
                break;
            }
            for i in 0..BLOCK {
                let push = carried(gust.across[i], gust.stretch[i], STEP);
                along[i] += STEP * (velocity + gust.along[i]);
                pushed[i] += push;
                let stirred = across[i] + push + kick * (random() as f32 - 0.5);
                // Back from the plate that it went through.
                across[i] = if stirred.abs() > 1.0 {
                    2.0_f32.copysign(stirred) - stirred
                } else {
                    stirred
                };
            }
        }
    }
    sums.map(|(sum, count): (f64, f64)| (sum / count.max(1.0)).max(0.0))
}

#[cfg(test)]
mod tests {
    use super::{super::pattern, *};

    #[test]
    fn gusts_spread_most_on_the_wire_line_in_gas_that_travels_with_them() {
        let spreading = Spreading::measured(pattern());
        let with_it = spreading.at(0.1, 1.0);
        assert!(spreading.at(0.9, 1.0) < 0.4 * with_it);
        assert_eq!(spreading.at(1.0, 1.0), 0.0, "through the plate");
        for velocity in [0.6, 1.25, 3.0] {
            assert!(spreading.at(0.1, velocity) < 0.4 * with_it, "at {velocity}");
        }
        let between = spreading.at(0.1, 1.03);
        assert!(between < with_it && between > spreading.at(0.1, 1.06));
    }
}
