//! The layer of dust on the plates: how it grows, what it costs the field, when it breaks down and what holds it.
//!
//! The reading order follows the dust: it settles ([`growth`]), resists the current ([`resistivity`]), takes voltage
//! from the gas ([`mod@drop`]), breaks down when it takes too much ([`back_corona`]) and is pressed to the plate or pulled
//! off it ([`stress`]).

pub mod back_corona;
pub mod drop;
pub mod growth;
pub mod resistivity;
pub mod stress;
