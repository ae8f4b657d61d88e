//! Helpers of the cross-crate tests.

use ashlane_shared::{
    conditions::{self, Conditions, Mixing, Profile},
    count::{Count, CountResult},
};

/// The demonstration collector with nothing but one passage, one drift, one size: what the textbooks solve.
///
/// `deutsch` is w L/(u s) of the whole length, flown in `steps` steps of 1/240 s.
#[must_use]
pub fn textbook(deutsch: f64, steps: u32, mixing: Mixing, profile: Profile) -> Conditions {
    let mut conditions = conditions::demonstration();
    conditions.set_fields(1);
    conditions.collector.sneakage = 0.0;
    conditions.rapping.reentrained = 0.0;
    conditions.gas.velocity_spread = 0.0;
    conditions.teaching.mixing = Some(mixing);
    conditions.teaching.profile = profile;
    conditions.teaching.single_diameter_m = Some(5e-6);
    let time_s = f64::from(steps) / 240.0;
    let velocity_m_s = conditions.length_m() / time_s;
    conditions.gas.flow_m3_s = velocity_m_s * conditions.face_area_m2();
    conditions.teaching.migration_velocity_m_s = Some(deutsch * conditions.gap_m() / time_s);
    conditions
}

/// Diffusivity that makes the Péclet number `peclet` in a [`textbook`] passage, m²/s.
#[must_use]
pub fn diffusivity_m2_s(deutsch: f64, steps: u32, peclet: f64) -> f64 {
    let gap_m = conditions::demonstration().gap_m();
    let drift_m_s = deutsch * gap_m * 240.0 / f64::from(steps);
    drift_m_s * gap_m / peclet
}

/// A finished count.
///
/// # Panics
/// If the conditions cannot be computed.
#[must_use]
pub fn counted(conditions: &Conditions, parcels: usize, seed: u64) -> CountResult {
    #[expect(clippy::expect_used, reason = "a test helper fails by panicking")]
    let mut count = Count::new(conditions, parcels, seed).expect("possible conditions");
    count.run(|_| true);
    count.result()
}
