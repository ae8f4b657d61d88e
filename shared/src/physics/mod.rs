//! Pure formulas and solvers, one file a formula, each with equation, units, source and range.
//!
//! Everything is SI, `f64` and free of state: the same numbers go in, the same numbers come out.
//! Only the control of the set carries something from one half cycle to the next.
//! Reading order follows the dust: the [`gas`] it rides on, the [`corona`] it enters, the charge it takes
//! ([`charging`]), the speed that gives it ([`drag`], [`mixing`]) and the share that escapes ([`efficiency`]);
//! [`energization`] is the electrical set that feeds the corona, [`gas_path`] the way of the gas from duct to fan.
//! What was caught settles as a [`layer`], is shaken off by [`rapping`] and falls into a [`hopper`], or runs down in a
//! [`water_film`]; [`fly_ash`] says whether it can be sold. What was not caught is seen in the [`stack`], behind the
//! [`fan`].

pub(crate) mod chance;
pub mod charging;
mod complex;
pub mod constants;
pub mod corona;
pub mod drag;
pub mod efficiency;
mod elliptic;
pub mod energization;
pub(crate) mod error;
pub mod fan;
pub mod fly_ash;
pub mod gas;
pub mod gas_path;
pub mod hopper;
pub mod layer;
pub mod mixing;
pub(crate) mod normal;
pub(crate) mod quadrature;
pub mod rapping;
pub(crate) mod root;
pub mod stack;
pub mod water_film;

pub use error::PhysicsError;
