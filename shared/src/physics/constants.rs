//! The constants of nature every formula here uses, each in exactly one place.

/// Permittivity of free space ε₀, F/m. Source: CODATA 2018.
pub const VACUUM_PERMITTIVITY_F_M: f64 = 8.854_187_812_8e-12;

/// Charge of one electron e, C. Source: SI 2019, exact.
pub const ELEMENTARY_CHARGE_C: f64 = 1.602_176_634e-19;

/// Boltzmann constant k, J/K. Source: SI 2019, exact.
pub const BOLTZMANN_J_K: f64 = 1.380_649e-23;

/// Molar gas constant R = `k·N_A`, J/(mol·K). Source: SI 2019, exact (here to the digits of an `f64`).
pub const GAS_CONSTANT_J_MOL_K: f64 = 8.314_462_618_153_24;

/// Standard acceleration of gravity g, m/s². Source: 3rd CGPM 1901, exact by convention.
pub const GRAVITY_M_S2: f64 = 9.806_65;

/// Pressure of the standard atmosphere, Pa. Source: 10th CGPM 1954, exact by convention.
pub const STANDARD_PRESSURE_PA: f64 = 101_325.0;
