//! Hatch & Choate 1929, J. Franklin Inst. 207:369: the log-normal distribution of grain sizes, and its penetration.

use ashlane_shared::physics::efficiency::SizeDistribution;
use ashlane_shared::physics::efficiency::limits::deutsch;
use ashlane_shared::physics::efficiency::size_distribution::mean;

use crate::close;

#[test]
fn penetration_when_drift_grows_with_size() {
    // Computed by quadrature: w ∝ d, De50 the Deutsch number of the median.
    let table = [
        (2.0, 2.0, 0.1837726),
        (2.0, 5.0, 0.04049362),
        (2.0, 10.0, 7.429951e-3),
        (3.0, 2.0, 0.2263448),
        (3.0, 5.0, 0.08293367),
        (3.0, 10.0, 0.02977462),
    ];
    for (deviation, median_number, expected) in table {
        let classes = SizeDistribution::log_normal(10e-6, deviation)
            .expect("a distribution")
            .classes(48);
        let escaped = mean(&classes, |diameter_m| {
            deutsch(median_number * diameter_m / 10e-6)
        });
        close(
            &format!("value Y1, GSD {deviation}, De50 {median_number}"),
            escaped,
            expected,
            1e-5,
        );
    }
}
