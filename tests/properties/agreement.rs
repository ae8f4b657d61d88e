//! Count and theory answer alike, by independent ways: dice against a deterministic solver.

use ashlane_shared::{
    conditions::{self, Charging, Conditions, Mixing, Profile, SITES, sheet},
    theory,
};
use ashlane_tests::counted;

/// |count − finite mixing| within the larger of 4 σ and the model's own tolerance.
#[track_caller]
fn agrees(what: &str, conditions: &Conditions, parcels: usize) {
    let count = counted(conditions, parcels, 1).penetration;
    let theory = theory::solve(conditions).expect("possible conditions");
    let difference = (count.share - theory.finite_mixing).abs();
    let allowed = (4.0 * count.standard_error).max(theory.model_tolerance * theory.finite_mixing);
    assert!(
        difference <= allowed,
        "{what}: counted {} ± {}, finite mixing {}",
        count.share,
        count.standard_error,
        theory.finite_mixing
    );
}

#[test]
fn every_shipped_site_agrees() {
    for (name, text) in SITES {
        let sheet = sheet::read_str(name, text).expect("a good sheet");
        agrees(name, &sheet.conditions, 100_000);
    }
}

#[test]
fn every_kind_of_mixing_agrees_with_the_computed_field() {
    for mixing in [
        Mixing::None,
        Mixing::Full,
        Mixing::Diffusivity(5e-4),
        Mixing::Diffusivity(3e-3),
        Mixing::Diffusivity(1e-2),
    ] {
        let mut conditions = conditions::demonstration();
        conditions.teaching.mixing = Some(mixing);
        agrees(&format!("{mixing:?}"), &conditions, 60_000);
    }
}

#[test]
fn every_charging_model_agrees() {
    for charging in [Charging::Cochet, Charging::White, Charging::Field] {
        let mut conditions = conditions::demonstration();
        conditions.teaching.charging = charging;
        agrees(&format!("{charging:?}"), &conditions, 60_000);
    }
}

#[test]
fn one_migration_velocity_agrees_within_one_per_cent_or_chance_with_losses_and_spread() {
    for mixing in [
        Mixing::None,
        Mixing::Full,
        Mixing::Diffusivity(2e-3),
        Mixing::Diffusivity(2e-2),
    ] {
        for profile in [Profile::Flat, Profile::Parabolic] {
            let mut conditions = conditions::demonstration();
            conditions.teaching.migration_velocity_m_s = Some(0.05);
            conditions.teaching.mixing = Some(mixing);
            conditions.teaching.profile = profile;
            agrees(&format!("{mixing:?} {profile:?}"), &conditions, 400_000);
        }
    }
}

#[test]
fn with_one_drift_and_no_losses_the_solver_is_the_formula() {
    let mut conditions = conditions::demonstration();
    conditions.collector.sneakage = 0.0;
    conditions.rapping.reentrained = 0.0;
    conditions.gas.velocity_spread = 0.0;
    conditions.teaching.migration_velocity_m_s = Some(0.0932);
    conditions.teaching.mixing = Some(Mixing::Full);
    let theory = theory::solve(&conditions).expect("possible");
    // Reference collector R1 of the training specification: 9.32 cm/s gives 99.800 % (computed from P = e^(−w A/Q)).
    assert!(
        (theory.deutsch_anderson - 0.00200).abs() < 5e-6,
        "{}",
        theory.deutsch_anderson
    );
    assert!((theory.finite_mixing / theory.deutsch_anderson - 1.0).abs() < 1e-12);
    assert_eq!(theory.peclet_number, Some(0.0));
    let expected = 0.0932 * conditions.specific_collection_area_s_m();
    assert!(
        (theory.deutsch_number / expected - 1.0).abs() < 1e-12,
        "De = w SCA exactly"
    );
}

#[test]
fn an_unequal_wanted_voltage_scales_the_one_velocity_by_its_square() {
    let mut conditions = conditions::demonstration();
    conditions.teaching.migration_velocity_m_s = Some(0.0932);
    // Voltages that neither the limit of the current nor sparking holds back.
    conditions.electrical.voltage_v = vec![41e3, 40e3, 39e3, 38e3];
    let before = theory::solve(&conditions).expect("possible").deutsch_number;
    for voltage_v in &mut conditions.electrical.voltage_v {
        *voltage_v *= 0.9;
    }
    let after = theory::solve(&conditions).expect("possible").deutsch_number;
    assert!(
        (after / before - 0.81).abs() < 1e-6,
        "{after} after {before}"
    );
}

#[test]
fn size_classes_and_stations_agree_too() {
    let conditions = conditions::demonstration();
    let count = counted(&conditions, 300_000, 2);
    let theory = theory::solve(&conditions).expect("possible");
    for (point, expected) in count.along.iter().zip(&theory.along) {
        let difference = (point.counted.share - expected.finite_mixing).abs();
        let allowed = (4.0 * point.counted.standard_error).max(0.15 * expected.finite_mixing);
        assert!(
            difference <= allowed,
            "at {} m: {point:?}, {expected:?}",
            point.along_m
        );
    }
    for (class, expected) in count.by_size.iter().zip(&theory.by_size) {
        let difference = (class.counted.share - expected).abs();
        let allowed = 4.0 * class.counted.standard_error + 0.3 * expected;
        assert!(difference <= allowed, "{class:?}, expected {expected}");
    }
}

#[test]
fn below_onset_nothing_is_caught() {
    let mut conditions = conditions::demonstration();
    conditions.electrical.voltage_v = vec![10e3; 4];
    let count = counted(&conditions, 20_000, 1);
    assert!(
        (count.penetration.share - 1.0).abs() < 1e-12,
        "{:?}",
        count.penetration
    );
    let theory = theory::solve(&conditions).expect("possible");
    assert!(
        (theory.finite_mixing - 1.0).abs() < 1e-9 && (theory.deutsch_anderson - 1.0).abs() < 1e-9
    );
}
