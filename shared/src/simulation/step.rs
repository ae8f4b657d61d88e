//! One step of 1/240 s for the parcels of a chunk: charge, mix across, drift towards the plates, move with the gas.
//!
//! The order within a step is what makes the count converge to the diffusion model (`physics.md` 5.2, T2): first the
//! random displacement, reflected at both plates, then the drift, and only a drift step that crosses a plate is a
//! capture.

#![expect(
    clippy::needless_range_loop,
    reason = "one index runs through several arrays of a block, which is what the compiler vectorises"
)]

use super::{
    charge::{ChargingLaw, charge_block},
    field_map::CELLS,
    gusts::{GustBlock, GustsNow, carried},
    noise_block::{NoiseStream, normal, uniform},
    parcels::{BLOCK, Block, Lanes, Parcels},
    passage::{Motion, Passage, Stirring},
    vector_math::{exp, floor},
};

/// The time step, s.
pub const TIME_STEP_S: f64 = 1.0 / 240.0;
pub(crate) const STEP_S: f32 = TIME_STEP_S as f32;

/// Slowest share of the mean velocity in a parabolic profile, so that nothing stands still at a plate.
const SLOWEST: f32 = 0.01;

/// What a step found for a parcel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Outcome {
    /// Still in flight in its field.
    Flying = 0,
    /// Drifted onto a plate.
    Captured = 1,
    /// Reached the end of its field.
    AtEdge = 2,
}

/// Drift velocities of a block, m/s; `towards_plate` is not negative, `along` is absent where grains only drift across.
struct Drift {
    along: Option<Lanes>,
    towards_plate: Lanes,
}

/// Field strengths and charging rates of a block.
pub(crate) struct LocalBlock {
    /// V/m.
    pub(crate) along: Lanes,
    /// V/m.
    pub(crate) towards_plate: Lanes,
    /// Magnitude, V/m.
    pub(crate) strength: Lanes,
    /// 1/s.
    pub(crate) charging: Lanes,
    /// Share of their charge that grains keep.
    pub(crate) charge_share: Lanes,
}

/// Moves all parcels by one step that starts at `time_s` and leaves an [`Outcome`] with each.
pub(crate) fn step(
    passage: &Passage,
    parcels: &mut Parcels,
    dispersion: &mut NoiseStream,
    time_s: f64,
) {
    pulp::Arch::new().dispatch(Step {
        passage,
        parcels,
        dispersion,
        time_s,
    });
}

/// The step as a value, so that it can be compiled once for each kind of vector unit and the right one be chosen.
struct Step<'a> {
    passage: &'a Passage,
    parcels: &'a mut Parcels,
    dispersion: &'a mut NoiseStream,
    time_s: f64,
}

impl pulp::WithSimd for Step<'_> {
    type Output = ();

    #[inline(always)]
    fn with_simd<S: pulp::Simd>(self, _simd: S) {
        let gusts = self.passage.gusts.map(|gusts| gusts.at(self.time_s));
        for block in self.parcels.blocks_mut() {
            step_block(self.passage, block, self.dispersion, gusts.as_ref());
        }
    }
}

#[inline(always)]
fn step_block(
    passage: &Passage,
    block: &mut Block,
    dispersion: &mut NoiseStream,
    gusts: Option<&GustsNow<'_>>,
) {
    let drift = match passage.motion {
        Motion::Fixed => Drift {
            along: None,
            towards_plate: block.fixed_drift_m_s,
        },
        Motion::Charged(law) => charged_drift(passage, block, law),
    };
    match passage.stirring {
        Stirring::None => advance(passage, block, &drift, None, gusts),
        Stirring::Diffusive { .. } => {
            advance(passage, block, &drift, Some(&normal(dispersion)), gusts);
        }
        Stirring::Full => {
            let (place, chance) = (uniform(dispersion), uniform(dispersion));
            advance_fully_mixed(passage, block, &drift, (&place, &chance));
        }
    }
}

#[inline(always)]
fn charged_drift(passage: &Passage, block: &mut Block, law: ChargingLaw) -> Drift {
    let mut local = look_up(passage, &block.along_m, &block.across_m, &block.field);
    charge_block(law, block, &local, STEP_S);
    if matches!(passage.stirring, Stirring::Full) {
        // Perfect mixing brings every grain to the plate's doorstep: the drift there decides.
        local = look_up(
            passage,
            &block.along_m,
            &[passage.gap_m; BLOCK],
            &block.field,
        );
    }
    terminal_drift(block, &local)
}

/// Field and charging rate of each lane; places first and sums last are plain loops, only the table is read one by one.
#[inline(always)]
fn look_up(passage: &Passage, along: &Lanes, across: &Lanes, field: &[u32; BLOCK]) -> LocalBlock {
    let mut cell = [0; BLOCK];
    let (mut part_along, mut part_across, mut side) = ([0.0; BLOCK], [0.0; BLOCK], [0.0; BLOCK]);
    for i in 0..BLOCK {
        let place = passage.maps.place(along[i], across[i]);
        cell[i] = place.cell + field[i] * CELLS as u32;
        part_along[i] = place.along;
        part_across[i] = place.across;
        side[i] = place.side;
    }
    let found: [[f32; 4]; BLOCK] =
        std::array::from_fn(|i| passage.maps.at(cell[i], part_along[i], part_across[i]));
    const NOTHING: Lanes = [0.0; BLOCK];
    let mut block = LocalBlock {
        along: NOTHING,
        towards_plate: NOTHING,
        strength: NOTHING,
        charging: NOTHING,
        charge_share: NOTHING,
    };
    for i in 0..BLOCK {
        let [ex, ey, rate, share] = found[i];
        block.along[i] = ex * side[i];
        block.towards_plate[i] = ey;
        block.strength[i] = (ex * ex + ey * ey).sqrt();
        block.charging[i] = rate;
        block.charge_share[i] = share;
    }
    block
}

/// Terminal velocity by Schiller & Naumann's drag, along the force.
#[inline(always)]
fn terminal_drift(block: &Block, local: &LocalBlock) -> Drift {
    let (mut along, mut towards_plate) = ([0.0; BLOCK], [0.0; BLOCK]);
    for i in 0..BLOCK {
        let per_field = block.charge[i] * local.charge_share[i] * block.mobility[i];
        let share =
            drag_share(block.reynolds_per_velocity[i] * per_field.abs() * local.strength[i]);
        along[i] = per_field * share * local.along[i];
        towards_plate[i] = per_field * share * local.towards_plate[i];
    }
    Drift {
        along: Some(along),
        towards_plate,
    }
}

/// The share c of the Stokes velocity that Schiller & Naumann's drag leaves: c(1 + 0.15 (Re c)^0.687) = 1, with Re the
/// Reynolds number at the Stokes velocity.
///
/// A rational fit in Re^¼, within 4e-5 for Re ≤ 200 (a grain of 300 µm at 16 m/s); SciPy's minimax fit.
#[inline(always)]
fn drag_share(stokes_reynolds: f32) -> f32 {
    let t = stokes_reynolds.sqrt().sqrt();
    let t2 = t * t;
    let over = (1.0 + 0.129_729 * t) + (0.376_945 + 0.007_743 * t) * t2;
    let under = (1.0 + 0.128_332 * t) + (0.402_802 + 0.139_876 * t) * t2 + 0.051_399 * (t2 * t2);
    over / under
}

/// Reflects a distance from the wire line at both plates until it lies between them.
#[inline(always)]
fn fold(across: f32, gap: f32, turns_per_m: f32) -> f32 {
    let turns = (across + gap) * turns_per_m;
    gap - ((turns - floor(turns)) * (4.0 * gap) - 2.0 * gap).abs()
}

/// Velocities along the gas: the parcel's own, shaped by the profile, with gusts and drift on top.
#[inline(always)]
fn speeds(passage: &Passage, block: &Block, drift: &Drift, gust: Option<&GustBlock>) -> Lanes {
    let mut speed = block.velocity_m_s;
    if passage.parabolic {
        for i in 0..BLOCK {
            // In the middle of the step, so that a parcel that drifts into slower gas is not carried too far.
            let middle = block.across_m[i].abs() + 0.5 * STEP_S * drift.towards_plate[i];
            let part = middle / passage.gap_m;
            speed[i] *= (1.5 * (1.0 - part * part)).max(SLOWEST);
        }
    }
    if let Some(gust) = gust {
        for i in 0..BLOCK {
            speed[i] += gust.along[i];
        }
    }
    if let Some(along) = &drift.along {
        for i in 0..BLOCK {
            speed[i] += block.exposed[i] * along[i];
        }
    }
    speed
}

/// Flies a block along the gas; returns how long each parcel flew, which is less than a step for those that reach the
/// edge of their field, and whether it did.
#[inline(always)]
fn fly_along(block: &mut Block, speed: &Lanes) -> (Lanes, [bool; BLOCK]) {
    let (mut time, mut at_edge) = ([0.0; BLOCK], [false; BLOCK]);
    for i in 0..BLOCK {
        let (along, edge) = (block.along_m[i], block.edge_m[i]);
        let (flown, arrived, owed) = flight(speed[i], edge - along, block.owed_s[i]);
        time[i] = flown;
        at_edge[i] = arrived;
        block.owed_s[i] = owed;
        block.along_m[i] = if arrived {
            edge
        } else {
            along + speed[i] * flown
        };
    }
    (time, at_edge)
}

/// How far a parcel flies this step: the time, whether that brings it to the edge of its field, and what it still owes.
#[inline(always)]
fn flight(velocity: f32, rest_m: f32, owed_s: f32) -> (f32, bool, f32) {
    let span = STEP_S + owed_s;
    let at_edge = velocity * span >= rest_m;
    let time = if at_edge { rest_m / velocity } else { span };
    (time, at_edge, span - time)
}

#[inline(always)]
fn advance(
    passage: &Passage,
    block: &mut Block,
    drift: &Drift,
    random: Option<&Lanes>,
    gusts: Option<&GustsNow<'_>>,
) {
    let gap = passage.gap_m;
    let gust = gusts.map(|gusts| gusts.block(&block.along_m, &block.across_m, &block.gust_offset));
    let speed = speeds(passage, block, drift, gust.as_ref());
    let (time, at_edge) = fly_along(block, &speed);
    let mut across = block.across_m;
    if let Some(gust) = &gust {
        for i in 0..BLOCK {
            across[i] += carried(gust.across[i], gust.stretch[i], time[i] * block.exposed[i]);
        }
    }
    if let Some(random) = random {
        let double_diffusivity = passage.stirring.double_diffusivity();
        let turns_per_m = 0.25 / gap;
        for i in 0..BLOCK {
            let spread = (double_diffusivity * (time[i] * block.exposed[i])).sqrt();
            across[i] = fold(across[i] + spread * random[i], gap, turns_per_m);
        }
    }
    for i in 0..BLOCK {
        let y =
            across[i] + (drift.towards_plate[i] * (time[i] * block.exposed[i])).copysign(across[i]);
        let captured = (y.abs() >= gap) & (drift.towards_plate[i] * block.exposed[i] > 0.0);
        block.across_m[i] = y.clamp(-gap, gap);
        block.outcome[i] = judge(captured, at_edge[i]);
    }
}

#[inline(always)]
fn judge(captured: bool, at_edge: bool) -> u32 {
    let arrived = if at_edge {
        Outcome::AtEdge as u32
    } else {
        Outcome::Flying as u32
    };
    if captured {
        Outcome::Captured as u32
    } else {
        arrived
    }
}

/// Perfect mixing: a new place across at every step, and capture with probability 1 − e^{−w dt/s}.
#[inline(always)]
fn advance_fully_mixed(
    passage: &Passage,
    block: &mut Block,
    drift: &Drift,
    (place, chance): (&Lanes, &Lanes),
) {
    let gap = passage.gap_m;
    let speed = speeds(passage, block, drift, None);
    let (time, at_edge) = fly_along(block, &speed);
    for i in 0..BLOCK {
        let exposed = block.exposed[i];
        let survival = exp(-drift.towards_plate[i] * (time[i] * exposed) / gap);
        let captured = (chance[i] > survival) & (exposed > 0.0);
        let fresh = (2.0 * place[i] - 1.0) * gap;
        let mixed = block.across_m[i] + exposed * (fresh - block.across_m[i]);
        block.across_m[i] = if captured { gap.copysign(mixed) } else { mixed };
        block.outcome[i] = judge(captured, at_edge[i]);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn folding_reflects_until_inside() {
        for (across, expected) in [
            (0.1, 0.1),
            (0.17, 0.13),
            (-0.17, -0.13),
            (0.47, -0.13),
            (0.75, 0.15),
            (-0.4, 0.1),
        ] {
            assert!(
                (fold(across, 0.15, 0.25 / 0.15) - expected).abs() < 1e-6,
                "{across} folds to {}",
                fold(across, 0.15, 0.25 / 0.15)
            );
        }
    }

    #[test]
    fn the_fast_drag_share_solves_schiller_and_naumann() {
        for i in 0..400 {
            let reynolds = 1e-6 * 1.055_f64.powi(i);
            if reynolds > 200.0 {
                break;
            }
            let share = f64::from(drag_share(reynolds as f32));
            let residual = share * (1.0 + 0.15 * (reynolds * share).powf(0.687)) - 1.0;
            assert!(
                residual.abs() < 5e-5,
                "Re {reynolds}: residual {residual:e}"
            );
        }
    }

    #[test]
    fn a_flight_stops_exactly_at_the_edge_and_owes_the_rest() {
        let (time, at_edge, owed) = flight(1.2, 0.003, 0.0);
        assert!(at_edge && (time - 0.0025).abs() < 1e-8 && (owed - (STEP_S - 0.0025)).abs() < 1e-8);
        let (time, at_edge, owed) = flight(1.2, 0.5, owed);
        assert!(!at_edge && (time - (2.0 * STEP_S - 0.0025)).abs() < 1e-8 && owed == 0.0);
        assert!(
            !flight(-0.1, 0.5, 0.0).1,
            "a parcel driven back does not reach the edge"
        );
    }
}
