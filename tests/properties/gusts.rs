//! Gusts move dust about and neither gather nor thin it.

use ashlane_shared::{
    checks::{Verdict, agreement},
    conditions::{self, Conditions},
    simulation::Simulation,
    theory,
};
use ashlane_tests::counted;

/// Gusts alone: no voltage, no other mixing than theirs and the eddies'.
fn calm() -> Conditions {
    let mut conditions = conditions::demonstration();
    conditions.electrical.voltage_v = vec![0.0; 4];
    conditions
}

#[test]
fn a_uniform_cloud_stays_uniform() {
    let mut simulation = Simulation::new(calm(), 11).expect("possible");
    for _ in 0..3600 {
        simulation.step();
    }
    let gap_m = calm().gap_m() as f32;
    // After half of the collector the cloud has been in the gusts for 5 s and more.
    let mut cells = [[0_u32; 16]; 12];
    for grain in simulation
        .frame()
        .grains()
        .filter(|grain| grain.along_m > 6.0)
    {
        let across = ((grain.across_m / gap_m + 1.0) * 8.0).clamp(0.0, 15.0) as usize;
        let along = ((grain.along_m - 6.0) * 2.0).clamp(0.0, 11.0) as usize;
        cells[along][across] += 1;
    }
    let total: u32 = cells.iter().flatten().sum();
    assert!(total > 3000, "{total} grains in the second half");
    let mut chi_squared = 0.0;
    let mut across = [0.0; 16];
    for row in &cells {
        let expected = f64::from(row.iter().sum::<u32>()) / 16.0;
        for (cell, sum) in row.iter().zip(&mut across) {
            chi_squared += (f64::from(*cell) - expected).powi(2) / expected;
            *sum += f64::from(*cell);
        }
    }
    // 12 × 15 degrees of freedom; mean 180, deviation √360 = 19: five deviations.
    assert!(
        chi_squared < 275.0,
        "χ² = {chi_squared:.0} on 180 degrees of freedom"
    );
    let expected = f64::from(total) / 16.0;
    let chi_across: f64 = across
        .iter()
        .map(|sum| (sum - expected).powi(2) / expected)
        .sum();
    // 15 degrees of freedom, p = 1e-4 at 44.3 (Abramowitz & Stegun 1964, table 26.8).
    assert!(chi_across < 44.3, "χ² across = {chi_across:.1}: {across:?}");
}

#[test]
fn gusts_do_not_blow_through_the_plates_and_have_their_strength() {
    let simulation = Simulation::new(calm(), 12).expect("possible");
    let frame = simulation.frame();
    let gap_m = calm().gap_m() as f32;
    let (mut square, mut count) = (0.0, 0.0);
    for step in 0..2400_u16 {
        let along_m = f32::from(step) * 0.005;
        for plate in [-gap_m, gap_m] {
            let (_, across) = frame.gust_m_s(along_m, plate).expect("gusts");
            assert!(
                across.abs() < 1e-4,
                "{across} m/s through the plate at {along_m}"
            );
        }
        for share in [-0.75, -0.25, 0.25, 0.75_f32] {
            let (_, across) = frame.gust_m_s(along_m, share * gap_m).expect("gusts");
            square += f64::from(across).powi(2);
            count += 1.0;
        }
    }
    let rms = (square / count).sqrt() / calm().gas_velocity_m_s();
    let expected = ashlane_shared::simulation::GUST_INTENSITY;
    assert!(
        rms > 0.4 * expected && rms < 2.0 * expected,
        "intensity {rms}, set {expected}"
    );
}

#[test]
fn the_solver_has_the_spreading_of_the_gusts_as_the_count_flies_through_them() {
    // One migration velocity, so that nothing but gusts and eddies is left to disagree: 4 σ or 3 %. With one diffusivity
    // everywhere, whatever the place and the velocity of the gas, the last of these was off by a quarter.
    for (velocity_m_s, has_losses) in [(0.03, false), (0.05, false), (0.0932, true)] {
        let mut conditions = conditions::demonstration();
        conditions.teaching.migration_velocity_m_s = Some(velocity_m_s);
        if !has_losses {
            conditions.collector.sneakage = 0.0;
            conditions.rapping.reentrained = 0.0;
            conditions.gas.velocity_spread = 0.0;
        }
        let theory = theory::solve(&conditions).expect("possible");
        let found = agreement(&counted(&conditions, 400_000, 5), &theory);
        assert_eq!(
            found.verdict,
            Verdict::Agree,
            "{velocity_m_s} m/s: {found:?}"
        );
    }
}
