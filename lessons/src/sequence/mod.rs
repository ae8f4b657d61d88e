//! The sequence board: start-up and shut-down as acts with consequences, never "wrong" alone.
//!
//! A [`Board`] holds what the acts have led to: gas that purges, a fire that steadies, combustibles, insulators that warm
//! up, dust on plates and in hoppers. Every [`Act`] is taken if it is possible at all, and what follows from it is
//! computed and kept in [`Consequences`]. The same acts lead to the same board ([`Board::replayed`]), so the list is the
//! record and [`Act::TakeBack`] an undo. Limits and waiting times belong to the site: [`SiteSettings`] has no default.
//!
//! The board opens no door: it ends at "hand over to the permit holder". Keys and grounds are a principle on it, no
//! steps. Speed counts for nothing.

mod act;
mod board;
mod consequences;
mod exercise;
mod gas;
mod outcome;
mod site;
#[cfg(test)]
mod tests;

pub use act::{Act, BoardError};
pub use board::{Board, KEYS_PRINCIPLE};
pub use consequences::Consequences;
pub use exercise::{Exercise, Goal, Start};
pub use gas::{PURGE_SHARE, Purge};
pub use outcome::{Outcome, PurgeCheck};
pub use site::{SiteSettings, Stage};
