//! A chunk of parcels with its own random streams: entering, flying, leaving, being caught and returning.

use chacha20::ChaCha8Rng;

use super::{
    gusts::random_offset,
    noise_block::NoiseStream,
    parcels::{BLOCK, Parcel, Parcels},
    passage::Passage,
    step::{Outcome, STEP_S, step},
    streams::{Purpose, stream, unit},
};

/// What happens to parcels, told to whoever keeps the books.
pub(crate) trait Books {
    /// A parcel entered the first field.
    fn entered(&mut self, parcel: &Parcel);
    /// A parcel drifted onto a plate.
    fn captured(&mut self, parcel: &Parcel);
    /// A captured parcel came back into the gas at the downstream edge of its field; `parcel` is what it is now.
    fn returned(&mut self, parcel: &Parcel);
    /// A parcel left the last field.
    fn left(&mut self, parcel: &Parcel);
    /// A parcel goes around the charged zone of its field; `parcel` says which way.
    fn sneaked(&mut self, _parcel: &Parcel) {}
}

/// The way of a parcel through its field.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Way {
    /// Between the plates, through the charged zone.
    Charged = 0,
    /// Around it, over the top.
    Top = 1,
    /// Around it, through the hoppers.
    Hopper = 2,
}

/// Parcels that fly together.
#[derive(Debug)]
pub(crate) struct Chunk {
    pub(crate) parcels: Parcels,
    injection: ChaCha8Rng,
    dispersion: NoiseStream,
    losses: ChaCha8Rng,
    next_identity: u32,
}

/// When and how heavy a parcel enters.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Entry {
    /// Time before the next step's start at which it entered, s; negative means later.
    pub(crate) owed_s: f32,
    /// Mass it stands for, kg.
    pub(crate) mass_kg: f32,
    /// Whether the parcel gets a place of its own in the gust pattern instead of sharing one moving picture.
    pub(crate) own_gusts: bool,
}

impl Chunk {
    pub(crate) fn new(seed: u64, index: u64) -> Self {
        Self {
            parcels: Parcels::default(),
            injection: stream(seed, index, Purpose::Injection),
            dispersion: NoiseStream::new(seed, index, Purpose::Dispersion),
            losses: stream(seed, index, Purpose::Losses),
            next_identity: 0,
        }
    }

    /// A number in (0, 1) from the stream of fresh parcels.
    pub(crate) fn injection_unit(&mut self) -> f64 {
        unit(&mut self.injection)
    }

    /// Lets a fresh parcel in.
    pub(crate) fn inject(&mut self, passage: &Passage, entry: Entry, books: &mut impl Books) {
        let diameter_m = passage.sizes.diameter_m(unit(&mut self.injection));
        self.inject_grain(passage, entry, diameter_m, books);
        let parcel = self.parcels.get(self.parcels.len() - 1);
        if parcel.exposed == 0.0 {
            books.sneaked(&parcel);
        }
    }

    /// Lets a fresh parcel of grains of this diameter in.
    pub(crate) fn inject_grain(
        &mut self,
        passage: &Passage,
        entry: Entry,
        diameter_m: f64,
        books: &mut impl Books,
    ) {
        let velocity = passage.face_velocity_m_s
            * face_velocity_ratio(passage.velocity_spread, &mut self.injection);
        let across = inlet_place(passage.parabolic, unit(&mut self.injection));
        let height = unit(&mut self.injection);
        let gust_offset = random_offset(unit(&mut self.injection));
        let mut parcel = Parcel {
            along_m: 0.0,
            across_m: across as f32 * passage.gap_m,
            height_m: height as f32 * passage.height_m,
            velocity_m_s: velocity as f32,
            charge: 0.0,
            diameter_m: 0.0,
            mass_kg: entry.mass_kg,
            edge_m: passage.stage(0).end_m,
            owed_s: entry.owed_s,
            gust_offset: if entry.own_gusts { gust_offset } else { 0.0 },
            exposed: 1.0,
            charge_per_field: 0.0,
            charging_constant: 0.0,
            mobility: 0.0,
            reynolds_per_velocity: 0.0,
            fixed_drift_m_s: passage.stage(0).fixed_drift_m_s as f32,
            field: 0,
            class: 0,
            way: Way::Charged as u32,
            identity: self.next_identity,
            outcome: Outcome::Flying as u32,
        };
        self.next_identity = self.next_identity.wrapping_add(1);
        become_grain(passage, &mut parcel, diameter_m);
        self.choose_way(passage, &mut parcel);
        self.parcels.push(&parcel);
        books.entered(&parcel);
    }

    /// Lets a parcel of dust in that a rap of this field sent back into the gas: uncharged, spread over the gap, at the
    /// field's downstream edge; so it starts in the next field, or has left the last one.
    pub(crate) fn inject_behind(
        &mut self,
        passage: &Passage,
        entry: Entry,
        field: u32,
        books: &mut impl Books,
    ) {
        let captured_m = passage.sizes.diameter_m(unit(&mut self.injection));
        let diameter_m = passage
            .sizes
            .reentrained_diameter_m(captured_m, unit(&mut self.losses));
        self.inject_grain(passage, entry, diameter_m, books);
        let index = self.parcels.len() - 1;
        let mut parcel = self.parcels.get(index);
        parcel.field = field;
        parcel.along_m = passage.stage(field).end_m;
        self.pass_edge(passage, index, parcel, true, books);
    }

    /// Flies all parcels one step from `time_s` on and settles what became of them.
    pub(crate) fn step(&mut self, passage: &Passage, time_s: f64, books: &mut impl Books) {
        step(passage, &mut self.parcels, &mut self.dispersion, time_s);
        // From the end, because a parcel taken out is replaced by the last one, which has been settled by then.
        for block in (0..self.parcels.blocks().len()).rev() {
            if self.parcels.blocks()[block].outcome == [Outcome::Flying as u32; BLOCK] {
                continue;
            }
            let end = self.parcels.len().min((block + 1) * BLOCK);
            for index in (block * BLOCK..end).rev() {
                self.settle(passage, index, books);
            }
        }
    }

    fn settle(&mut self, passage: &Passage, index: usize, books: &mut impl Books) {
        let mut parcel = self.parcels.get(index);
        if parcel.outcome == Outcome::Captured as u32 {
            books.captured(&parcel);
            if passage.reentrained > 0.0 && unit(&mut self.losses) < passage.reentrained {
                parcel.along_m = parcel.edge_m;
                parcel.charge = 0.0;
                let diameter_m = passage
                    .sizes
                    .reentrained_diameter_m(f64::from(parcel.diameter_m), unit(&mut self.losses));
                become_grain(passage, &mut parcel, diameter_m);
                books.returned(&parcel);
                self.pass_edge(passage, index, parcel, true, books);
            } else {
                self.parcels.remove(index);
            }
        } else if parcel.outcome == Outcome::AtEdge as u32 {
            let bypassed = parcel.exposed == 0.0;
            self.pass_edge(passage, index, parcel, bypassed, books);
        }
    }

    /// Into the next field or out of the collector; `spread` puts the parcel anywhere across the gap.
    fn pass_edge(
        &mut self,
        passage: &Passage,
        index: usize,
        mut parcel: Parcel,
        spread: bool,
        books: &mut impl Books,
    ) {
        if spread {
            parcel.across_m =
                inlet_place(passage.parabolic, unit(&mut self.losses)) as f32 * passage.gap_m;
        }
        parcel.outcome = Outcome::Flying as u32;
        parcel.field += 1;
        if parcel.field as usize >= passage.stages.len() {
            books.left(&parcel);
            self.parcels.remove(index);
            return;
        }
        let stage = passage.stage(parcel.field);
        parcel.edge_m = stage.end_m;
        parcel.fixed_drift_m_s = stage.fixed_drift_m_s as f32;
        self.choose_way(passage, &mut parcel);
        self.parcels.set(index, &parcel);
        if parcel.exposed == 0.0 {
            books.sneaked(&parcel);
        }
    }

    /// Through the charged zone of the present field or around it.
    ///
    /// One number decides both whether and which way around: below the sneakage, the lowest part goes through the hoppers.
    /// So no dice are thrown for the way, and nothing else changes with the share.
    fn choose_way(&mut self, passage: &Passage, parcel: &mut Parcel) {
        parcel.exposed = 1.0;
        parcel.way = Way::Charged as u32;
        if passage.sneakage <= 0.0 {
            return;
        }
        let chance = unit(&mut self.losses);
        if chance < passage.sneakage {
            parcel.exposed = 0.0;
            parcel.way = if chance < passage.sneakage * passage.hopper_share {
                Way::Hopper
            } else {
                Way::Top
            } as u32;
        }
    }
}

/// Gives a parcel the constants of grains of a diameter.
pub(crate) fn become_grain(passage: &Passage, parcel: &mut Parcel, diameter_m: f64) {
    let grain = passage.grain(diameter_m);
    parcel.diameter_m = diameter_m as f32;
    parcel.class = passage.sizes.class(diameter_m) as u32;
    parcel.charge_per_field = grain.charge_per_field as f32;
    parcel.charging_constant = grain.charging_constant as f32;
    parcel.mobility = grain.mobility as f32;
    parcel.reynolds_per_velocity = grain.reynolds_per_velocity as f32;
}

/// Place across in gaps, −1 to 1, such that the gas brings the same mass to every share of the flow.
///
/// Flat: uniform. Parabolic: the flow between the wire line and y is (3y − y³)/2, inverted by y = 2 sin(asin(f)/3).
fn inlet_place(parabolic: bool, random: f64) -> f64 {
    let share = 2.0 * random - 1.0;
    if parabolic {
        2.0 * (share.asin() / 3.0).sin()
    } else {
        share
    }
}

/// Face velocity over its mean: Gaussian over the face, weighted by the flow it carries, above 0.
///
/// `v·g(v)` is drawn by accepting v with probability `v/v_max`; `v_max` lies six deviations above the mean.
fn face_velocity_ratio(spread: f64, generator: &mut ChaCha8Rng) -> f64 {
    if spread <= 0.0 {
        return 1.0;
    }
    let most = 1.0 + 6.0 * spread;
    loop {
        let radius = (-2.0 * unit(generator).ln()).sqrt();
        let velocity = 1.0 + spread * radius * (std::f64::consts::TAU * unit(generator)).cos();
        if velocity > 0.0 && velocity <= most && unit(generator) * most < velocity {
            return velocity;
        }
    }
}

/// Time of entry within the coming step, as flight time owed: between −dt and 0.
pub(crate) fn random_entry_s(random: f64) -> f32 {
    -(random as f32) * STEP_S
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::conditions::demonstration;

    /// Nobody keeps these books.
    struct Unread;

    impl Books for Unread {
        fn entered(&mut self, _parcel: &Parcel) {}
        fn captured(&mut self, _parcel: &Parcel) {}
        fn returned(&mut self, _parcel: &Parcel) {}
        fn left(&mut self, _parcel: &Parcel) {}
    }

    #[test]
    fn the_way_around_throws_no_dice_of_its_own() {
        let mut conditions = demonstration();
        conditions.teaching.migration_velocity_m_s = Some(0.06);
        let passage = Passage::new(&conditions).expect("possible");
        let mut chunk = Chunk::new(3, 0);
        let mut parcel = {
            let mut other = Chunk::new(4, 0);
            let entry = Entry {
                owed_s: 0.0,
                mass_kg: 1.0,
                own_gusts: true,
            };
            other.inject(&passage, entry, &mut Unread);
            other.parcels.get(0)
        };
        let mut alone = stream(3, 0, Purpose::Losses);
        let mut seen = [0; 3];
        for _ in 0..2000 {
            chunk.choose_way(&passage, &mut parcel);
            let around = unit(&mut alone) < passage.sneakage;
            assert_eq!(parcel.exposed == 0.0, around);
            seen[parcel.way as usize] += 1;
        }
        assert!(seen.iter().all(|&parcels| parcels > 20), "{seen:?}");
        assert_eq!(unit(&mut chunk.losses), unit(&mut alone));
    }
}
