//! The simulation: parcels of ash, the step that moves them, and the books kept over their mass.

mod charge;
mod chunk;
mod command;
mod deposits;
mod electrics;
mod even_field;
mod events;
mod face;
mod field_map;
mod flight;
mod followed;
mod frame;
mod gas_along;
mod grain;
mod gusts;
mod ledger;
mod noise_block;
mod parcels;
mod passage;
mod puff;
mod sizes;
mod sparks;
mod step;
mod still;
mod streams;
mod tracer_transit;
mod vector_math;

pub use command::{Clock, Command, CommandError, LoggedCommand, PLANT_TIMES};
pub use deposits::{Deposits, LAYER_BINS_PER_FIELD, StuckGrain};
pub use electrics::{
    DustCharge, Electrics, ElectricsWork, FieldEnergization, FieldState, HeldBy, LayerLoad, Swung,
    TabulatedField, TabulatedState, VoltageCurrentPoint, Wear, corona, electrics,
    electrics_are_ready, energization_of, layer_resistivity_ohm_m, wire_row,
};
pub use even_field::{EvenField, EvenPoint, fly_in_even_field};
pub use face::{behind_plates, face_velocities, readings_m_s};
pub use flight::{DRAWN_GRAINS, FIELD_DELAY_STEPS, Simulation};
pub use followed::{FOLLOW_TOLERANCE, Follow, FollowedGrain, GrainFate, GrainPoint};
pub use frame::{Frame, Grain};
pub use gas_along::{GasAlong, GasStation, fan_share_w, gas_along, gas_at_face};
pub use gusts::INTENSITY as GUST_INTENSITY;
pub use ledger::{Account, Ledger};
pub use sparks::{Spark, recent_sparks, sparks_so_far};
pub use step::TIME_STEP_S;
pub use still::Still;
pub use streams::{spark_stream, struck_field};
pub use tracer_transit::tracer_transit_s;

pub(crate) use chunk::{Books, Chunk, Entry, Way};
pub(crate) use electrics::{ChargeAlong, MEAN_OF_SINE, Met};
pub(crate) use events::Flown;
pub(crate) use flight::Digest;
pub(crate) use parcels::{Parcel, Parcels};
pub use passage::fixed_drifts_m_s;
pub(crate) use passage::{Motion, Passage, Stirring};
pub(crate) use sizes::SizeSampler;
