//! The way of the gas: from the inlet duct through nozzle, perforated plates and fields to the fan, and what it picks up.
//!
//! The reading order follows the gas: what it holds in heat and water ([`heat`], [`stream`]), how plates spread it
//! ([`perforated_plate`]) and how that is judged ([`uniformity`]), where suction draws in air ([`leakage`]), what the way
//! costs in pressure ([`pressure`]) and what a wet collector does to it ([`saturation`]).

pub mod heat;
pub mod leakage;
pub mod perforated_plate;
pub mod pressure;
pub mod saturation;
pub mod stream;
pub mod uniformity;
