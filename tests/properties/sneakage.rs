//! Gas around the fields: over the top or through the hoppers, and what it takes out of them.

use ashlane_shared::{
    checks::{Verdict, agreement},
    conditions::{Conditions, Mixing, demonstration},
    count::{Count, CountResult},
    theory,
};

const PARCELS: usize = 40_000;

/// The demonstration with one migration velocity, which counts quickly.
fn quick() -> Conditions {
    let mut conditions = demonstration();
    conditions.teaching.migration_velocity_m_s = Some(0.06);
    conditions.teaching.mixing = Some(Mixing::Full);
    conditions.collector.sneakage = 0.08;
    conditions
}

fn counted(conditions: &Conditions) -> CountResult {
    let mut count = Count::new(conditions, PARCELS, 11).expect("possible");
    count.run(|_| true);
    count.result()
}

#[test]
fn the_way_around_changes_no_bit_of_what_is_counted() {
    let of_share = |share: f64| {
        let mut conditions = quick();
        conditions.collector.hopper_share = share;
        counted(&conditions)
    };
    let (half, all, none) = (of_share(0.5), of_share(1.0), of_share(0.0));
    for other in [&all, &none] {
        assert_eq!(half.penetration, other.penetration);
        assert_eq!(half.by_size, other.by_size);
        assert_eq!(half.along, other.along);
    }
    for field in 0..4 {
        let [half, all, none] = [&half, &all, &none].map(|count| &count.by_field[field]);
        assert_eq!(half.collected, all.collected);
        let around = |field: &ashlane_shared::count::FieldCount| {
            field.over_top.share + field.through_hoppers.share
        };
        assert!((around(half) - around(all)).abs() < 1e-15);
        assert_eq!((all.over_top.share, none.through_hoppers.share), (0.0, 0.0));
        assert!(half.over_top.share > 0.0 && half.through_hoppers.share > 0.0);
    }
}

#[test]
fn as_much_goes_each_way_as_the_sheet_says() {
    let mut conditions = quick();
    conditions.collector.hopper_share = 0.25;
    let count = counted(&conditions);
    // Of what enters a field, S goes around it, a quarter of that through the hoppers; 5 standard errors.
    let mut entering = 1.0;
    for field in &count.by_field {
        for (counted, share) in [(field.over_top, 0.75), (field.through_hoppers, 0.25)] {
            let expected = 0.08 * share * entering;
            let error = 5.0 * counted.standard_error;
            assert!(
                (counted.share - expected).abs() < error,
                "{counted:?} for {expected}"
            );
        }
        entering -= field.collected;
    }
}

#[test]
fn hoppers_that_give_nothing_back_change_no_bit_and_those_that_do_agree_with_the_solver() {
    let of_sweepage = |sweepage: f64| {
        let mut conditions = quick();
        conditions.collector.hopper_share = 1.0;
        conditions.collector.hopper_sweepage = sweepage;
        conditions
    };
    let still = of_sweepage(0.0);
    assert_eq!(
        still.returned_share().to_bits(),
        still.rapping.reentrained.to_bits()
    );
    let swept = of_sweepage(2.0);
    // 8 % of the gas takes 16 % of the ash that falls, which is 87.6 % of what is caught.
    assert!((swept.returned_share() - (0.124 + 0.876 * 0.16)).abs() < 1e-15);
    let (before, after) = (counted(&still), counted(&swept));
    assert!(after.penetration.share > 1.5 * before.penetration.share);
    for (conditions, count) in [(&still, &before), (&swept, &after)] {
        let theory = theory::solve(conditions).expect("possible");
        let verdict = agreement(count, &theory).verdict;
        assert_eq!(
            verdict,
            Verdict::Agree,
            "{:?} {theory:?}",
            count.penetration
        );
    }
}
