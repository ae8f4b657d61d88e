//! How much charge the dust holds in the gas of each field, from parcels flown through the whole collector.

use crate::{
    conditions::Conditions,
    parallel,
    physics::constants::{BOLTZMANN_J_K, ELEMENTARY_CHARGE_C, VACUUM_PERMITTIVITY_F_M},
    simulation::{Books, Chunk, Entry, Parcel, Passage, TIME_STEP_S},
};

/// Bins from the wire plane to the plate.
const BINS: usize = 10;
/// Chunks flown, and parcels of each: their sizes are evenly spread, so a few thousand are enough.
const CHUNKS: usize = 8;
const PARCELS_PER_CHUNK: usize = 256;
/// Steps between two looks at the parcels.
const STEPS_PER_LOOK: u64 = 8;
/// Longest flight that is followed, in treatment times.
const MOST_TREATMENT_TIMES: f64 = 6.0;
/// The seed of these parcels, the same for everyone: the field is a function of the conditions alone.
const SEED: u64 = 0x636f_726f_6e61;

/// Charge of the dust by its distance from the wire plane, averaged along the length of one field.
#[derive(Clone, Debug, PartialEq)]
pub struct DustCharge {
    gap_m: f64,
    bins_c_m3: [f64; BINS],
}

impl DustCharge {
    /// Clean gas.
    #[must_use]
    pub fn none(gap_m: f64) -> Self {
        Self {
            gap_m,
            bins_c_m3: [0.0; BINS],
        }
    }

    /// Mean over the gap, C/m³.
    #[must_use]
    pub fn mean_c_m3(&self) -> f64 {
        self.bins_c_m3.iter().sum::<f64>() / BINS as f64
    }

    /// Charge at a distance from the wire plane, C/m³: linear between the middles of the bins.
    #[must_use]
    pub fn at_c_m3(&self, depth_m: f64) -> f64 {
        let place = (depth_m / self.gap_m * BINS as f64 - 0.5).clamp(0.0, (BINS - 1) as f64);
        let below = (place as usize).min(BINS - 2);
        let (near, far) = (self.bins_c_m3[below], self.bins_c_m3[below + 1]);
        near + (place - below as f64) * (far - near)
    }

    /// The same distribution with `factor` times the charge.
    pub(super) fn scale(&mut self, factor: f64) {
        for charge in &mut self.bins_c_m3 {
            *charge *= factor;
        }
    }
}

/// Charge of the dust in every field when grains charge and move in the fields of this passage.
pub(super) fn flown(conditions: &Conditions, passage: &Passage) -> Vec<DustCharge> {
    let fields = passage.stages.len();
    let scale = Scale::new(conditions, passage);
    let sums = parallel::map_indices(0..CHUNKS, |chunk| fly(passage, &scale, fields, chunk));
    (0..fields)
        .map(|field| DustCharge {
            gap_m: conditions.gap_m(),
            bins_c_m3: std::array::from_fn(|bin| {
                sums.iter().map(|sum| sum[field][bin]).sum::<f64>()
            }),
        })
        .collect()
}

/// What turns a look at a parcel into a charge density.
struct Scale {
    /// C/m³ per charge ν over the square of the diameter, m².
    per_charge: f64,
    /// Share of their charge that grains keep, by field.
    charge_share: Vec<f64>,
    bins_per_m: f64,
    most_steps: u64,
}

impl Scale {
    /// A parcel stands for its share of the inlet's mass flow for the time between two looks:
    /// `ρ_q = Σ ν·12 ε₀ kT/(e ρ_p d²)·(Ṁ/N) Δt/volume`.
    fn new(conditions: &Conditions, passage: &Passage) -> Self {
        let charge_to_mass =
            12.0 * VACUUM_PERMITTIVITY_F_M * BOLTZMANN_J_K * conditions.gas.temperature_k
                / (ELEMENTARY_CHARGE_C * conditions.dust.density_kg_m3);
        let parcels = (CHUNKS * PARCELS_PER_CHUNK) as f64;
        let inlet_kg_s =
            conditions.inlet_mass_kg_s() / f64::from(conditions.collector.passages as u32);
        let look_s = STEPS_PER_LOOK as f64 * TIME_STEP_S;
        let bin_m3 = conditions.collector.field_length_m
            * conditions.collector.plate_height_m
            * conditions.collector.plate_spacing_m
            / BINS as f64;
        Self {
            per_charge: charge_to_mass * inlet_kg_s / parcels * look_s / bin_m3,
            charge_share: (passage.states.iter())
                .map(|state| state.charge_share)
                .collect(),
            bins_per_m: BINS as f64 / f64::from(passage.gap_m),
            most_steps: (MOST_TREATMENT_TIMES * conditions.treatment_time_s() / TIME_STEP_S) as u64,
        }
    }
}

fn fly(passage: &Passage, scale: &Scale, fields: usize, index: usize) -> Vec<[f64; BINS]> {
    let mut chunk = Chunk::new(SEED, index as u64);
    for parcel in 0..PARCELS_PER_CHUNK {
        // Sizes evenly dealt to the chunks in turn; fine grains hold most of the charge, so they are more and lighter:
        // the share s of the mass below a grain is u³, and a parcel weighs ds/du.
        let even = ((parcel * CHUNKS + index) as f64 + chunk.injection_unit())
            / (CHUNKS * PARCELS_PER_CHUNK) as f64;
        let diameter_m = passage.sizes.diameter_m(even.powi(3));
        let entry = Entry {
            owed_s: 0.0,
            mass_kg: (3.0 * even * even) as f32,
            own_gusts: true,
        };
        chunk.inject_grain(passage, entry, diameter_m, &mut NoBooks);
    }
    let start_s = 1e3 * chunk.injection_unit();
    let mut sums = vec![[0.0; BINS]; fields];
    for step in 0..scale.most_steps {
        if chunk.parcels.len() == 0 {
            break;
        }
        if step % STEPS_PER_LOOK == 0 {
            look(scale, &chunk, &mut sums);
        }
        chunk.step(passage, start_s + step as f64 * TIME_STEP_S, &mut NoBooks);
    }
    sums
}

/// Adds what the parcels in the charged zones hold at this moment.
fn look(scale: &Scale, chunk: &Chunk, sums: &mut [[f64; BINS]]) {
    for parcel in chunk.parcels.iter() {
        if parcel.exposed == 0.0 {
            continue;
        }
        let bin = (f64::from(parcel.across_m.abs()) * scale.bins_per_m) as usize;
        let diameter_m = f64::from(parcel.diameter_m);
        let field = parcel.field as usize;
        let kept = scale.charge_share.get(field).copied().unwrap_or(1.0);
        sums[field][bin.min(BINS - 1)] +=
            scale.per_charge * kept * f64::from(parcel.mass_kg * parcel.charge)
                / (diameter_m * diameter_m);
    }
}

/// Nobody counts these parcels.
struct NoBooks;

impl Books for NoBooks {
    fn entered(&mut self, _parcel: &Parcel) {}
    fn captured(&mut self, _parcel: &Parcel) {}
    fn returned(&mut self, _parcel: &Parcel) {}
    fn left(&mut self, _parcel: &Parcel) {}
}
