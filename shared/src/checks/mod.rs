//! Every view carries its proof: what was counted beside what theory says, with the tolerance and the verdict.

mod agreement;
mod fitness;

pub use agreement::{Agreement, SIGMAS, Verdict, agreement};
pub use fitness::left_out;
