//! The parcels in flight: arrays of numbers, one a quantity, in blocks of equal length.
//!
//! A parcel stands for a small, fixed mass of ash of one diameter. Entries beyond `len` hold harmless numbers, so that
//! the step needs no special case for the last block. Arrays of one block lie side by side: the compiler sees that
//! they do not overlap, which lets it work on several parcels with one instruction.

/// Parcels worked on together; one fill of the random generator's buffer.
pub(crate) const BLOCK: usize = 64;

/// One number for each parcel of a block.
pub(crate) type Lanes = [f32; BLOCK];

/// Declares the arrays once and derives what must touch all of them.
macro_rules! parcel_arrays {
    ($($(#[$doc:meta])* $name:ident: $kind:ty = $idle:expr,)*) => {
        /// One parcel, to be added, looked at or overwritten.
        #[derive(Clone, Copy, Debug)]
        pub(crate) struct Parcel {
            $($(#[$doc])* pub(crate) $name: $kind,)*
        }

        /// A block of parcels, one array a quantity.
        #[derive(Clone, Debug)]
        pub(crate) struct Block {
            $($(#[$doc])* pub(crate) $name: [$kind; BLOCK],)*
        }

        impl Block {
            /// A block without parcels.
            pub(crate) const IDLE: Self = Self { $($name: [$idle; BLOCK],)* };

            fn get(&self, lane: usize) -> Parcel {
                Parcel { $($name: self.$name[lane],)* }
            }

            fn set(&mut self, lane: usize, parcel: &Parcel) {
                $(self.$name[lane] = parcel.$name;)*
            }
        }
    };
}

parcel_arrays! {
    /// Distance from the start of the first field, m.
    along_m: f32 = 0.0,
    /// Distance from the wire line, towards one plate positive, m.
    across_m: f32 = 0.0,
    /// Height above the bottom edge of the plates, m.
    height_m: f32 = 0.0,
    /// Face velocity that the parcel keeps through all fields, m/s.
    velocity_m_s: f32 = 0.0,
    /// Charge ν = q e/(2π ε0 d k T).
    charge: f32 = 0.0,
    /// Diameter, m.
    diameter_m: f32 = 1e-6,
    /// Mass it stands for, kg.
    mass_kg: f32 = 0.0,
    /// End of the present field, m.
    edge_m: f32 = 1e9,
    /// Flight time still owed from before the last step's end, s.
    owed_s: f32 = 0.0,
    /// Shift along the gust pattern, in its cells.
    gust_offset: f32 = 0.0,
    /// 1 in the charged zone, 0 while bypassing it.
    exposed: f32 = 0.0,
    /// W per field strength of Lawless' model, m/V.
    charge_per_field: f32 = 0.0,
    /// The charging model's own constant of this grain.
    charging_constant: f32 = 0.0,
    /// Stokes drift per charge and field strength, m²/V/s.
    mobility: f32 = 0.0,
    /// Reynolds number per velocity, s/m.
    reynolds_per_velocity: f32 = 0.0,
    /// The one migration velocity of the present field, where it is fixed, m/s.
    fixed_drift_m_s: f32 = 0.0,
    /// Present field, 0 for the first.
    field: u32 = 0,
    /// Size class at the inlet.
    class: u32 = 0,
    /// Way through the present field: see `chunk::Way`.
    way: u32 = 0,
    /// Running number of the parcel in its chunk.
    identity: u32 = 0,
    /// What the step found: see `step::Outcome`.
    outcome: u32 = 0,
}

/// All parcels of a chunk.
#[derive(Clone, Debug, Default)]
pub(crate) struct Parcels {
    len: usize,
    blocks: Vec<Block>,
}

impl Parcels {
    /// Number of parcels in flight.
    pub(crate) fn len(&self) -> usize {
        self.len
    }

    /// The blocks that hold parcels.
    pub(crate) fn blocks(&self) -> &[Block] {
        &self.blocks[..self.len.div_ceil(BLOCK)]
    }

    /// The blocks that hold parcels, to be changed.
    pub(crate) fn blocks_mut(&mut self) -> &mut [Block] {
        &mut self.blocks[..self.len.div_ceil(BLOCK)]
    }

    /// Adds a parcel at the end.
    pub(crate) fn push(&mut self, parcel: &Parcel) {
        if self.len == self.blocks.len() * BLOCK {
            self.blocks.push(Block::IDLE);
        }
        self.len += 1;
        self.set(self.len - 1, parcel);
    }

    /// A copy of one parcel.
    pub(crate) fn get(&self, index: usize) -> Parcel {
        self.blocks[index / BLOCK].get(index % BLOCK)
    }

    /// A copy of the parcel with this running number.
    pub(crate) fn find(&self, identity: u32) -> Option<Parcel> {
        let number = |index: &usize| self.blocks[index / BLOCK].identity[index % BLOCK];
        let index = (0..self.len).find(|index| number(index) == identity)?;
        Some(self.get(index))
    }

    /// Overwrites one parcel.
    pub(crate) fn set(&mut self, index: usize, parcel: &Parcel) {
        self.blocks[index / BLOCK].set(index % BLOCK, parcel);
    }

    /// Takes one parcel out; the last one moves to its place.
    pub(crate) fn remove(&mut self, index: usize) {
        self.len -= 1;
        let last = self.get(self.len);
        self.set(index, &last);
        self.set(self.len, &Block::IDLE.get(0));
    }

    /// Takes all parcels out.
    pub(crate) fn clear(&mut self) {
        self.len = 0;
        self.blocks.fill(Block::IDLE);
    }

    /// All parcels, one after the other.
    pub(crate) fn iter(&self) -> impl Iterator<Item = Parcel> + '_ {
        (0..self.len).map(|index| self.get(index))
    }
}
