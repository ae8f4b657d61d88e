//! Matts & Öhnfeldt 1963, SF Review 6/7: the stretched exponential of the trade.

use ashlane_shared::physics::efficiency::limits::matts_ohnfeldt;

use crate::close;

#[test]
fn stretched_exponential() {
    // Computed from the formula; that k is about 0.5 is from memory of the source.
    close(
        "value E1, k = 0.5",
        matts_ohnfeldt(40.0, 0.5),
        1.791763e-3,
        1e-6,
    );
    close(
        "value E1, k = 0.6",
        matts_ohnfeldt(40.0, 0.6),
        1.066348e-4,
        1e-6,
    );
}
