//! How the mass of the dust is spread over grain sizes, and what that does to the penetration.
//!
//! `P = ∫ P(d) f_m(ln d) dln d` with F the mass finer than d and `f_m = dF/dln d`

mod log_normal;
mod table;

use log_normal::LogNormal;
use table::Table;

use crate::conditions::Sizes;
use crate::physics::PhysicsError;

/// A size distribution by mass.
#[derive(Clone, Debug, PartialEq)]
pub struct SizeDistribution(Shape);

#[derive(Clone, Debug, PartialEq)]
enum Shape {
    LogNormal(LogNormal),
    Table(Table),
}

/// One class of grains that stands for its neighbours.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SizeClass {
    /// Diameter, m.
    pub diameter_m: f64,
    /// Share of the mass.
    pub mass_fraction: f64,
}

impl SizeDistribution {
    /// Log-normal by mass.
    ///
    /// `f_m = e^{−½[ln(d/MMD)/ln GSD]²}/(√(2π) ln GSD)`
    ///
    /// # Arguments
    /// * `mass_median_diameter_m` – MMD, m, above 0.
    /// * `geometric_deviation` – GSD, above 1.
    ///
    /// # Source
    /// Definition (Hatch & Choate 1929).
    ///
    /// # Validity
    /// Fly ash from the boiler: GSD 2.5–4.
    ///
    /// # Errors
    /// A number outside its range.
    pub fn log_normal(
        mass_median_diameter_m: f64,
        geometric_deviation: f64,
    ) -> Result<Self, PhysicsError> {
        LogNormal::new(mass_median_diameter_m, geometric_deviation)
            .map(|it| Self(Shape::LogNormal(it)))
    }

    /// From a cumulative table: straight lines of mass finer over the logarithm of the diameter.
    ///
    /// Everything finer than the first diameter is spread evenly in ln d down to a quarter of it.
    ///
    /// # Arguments
    /// * `finer` – (diameter in m, mass fraction finer than it), diameters strictly rising, fractions never
    ///   falling, from 0 to below 1.
    /// * `largest_m` – diameter that everything is finer than, m, above the last one of the table.
    ///
    /// # Source
    /// Common practice, no source.
    ///
    /// # Validity
    /// Between the given diameters; the ends are a convention.
    ///
    /// # Errors
    /// An empty table, entries that do not rise, numbers outside their range.
    pub fn table(finer: &[(f64, f64)], largest_m: f64) -> Result<Self, PhysicsError> {
        Table::new(finer, largest_m).map(|it| Self(Shape::Table(it)))
    }

    /// The distribution that the conditions describe.
    ///
    /// # Arguments
    /// * `sizes` – what the site sheet says.
    ///
    /// # Source
    /// As [`Self::log_normal`] and [`Self::table`].
    ///
    /// # Validity
    /// As [`Self::log_normal`] and [`Self::table`].
    ///
    /// # Errors
    /// As [`Self::log_normal`] and [`Self::table`].
    pub fn of(sizes: &Sizes) -> Result<Self, PhysicsError> {
        match sizes {
            Sizes::LogNormal {
                mass_median_diameter_m,
                geometric_deviation,
            } => Self::log_normal(*mass_median_diameter_m, *geometric_deviation),
            Sizes::Table { finer, largest_m } => Self::table(finer, *largest_m),
        }
    }

    /// Mass fraction finer than a diameter, F(d).
    ///
    /// # Arguments
    /// * `diameter_m` – d, m; 0 or less gives 0.
    ///
    /// # Source
    /// As the constructor's.
    ///
    /// # Validity
    /// As the constructor's.
    #[must_use]
    pub fn cumulative(&self, diameter_m: f64) -> f64 {
        if diameter_m <= 0.0 {
            return 0.0;
        }
        let log_diameter = diameter_m.ln();
        match &self.0 {
            Shape::LogNormal(it) => it.cumulative(log_diameter),
            Shape::Table(it) => it.cumulative(log_diameter),
        }
    }

    /// Mass per unit of ln d, `dF/dln d`.
    ///
    /// # Arguments
    /// * `diameter_m` – d, m; 0 or less gives 0.
    ///
    /// # Source
    /// As the constructor's.
    ///
    /// # Validity
    /// As the constructor's.
    #[must_use]
    pub fn density_per_ln(&self, diameter_m: f64) -> f64 {
        if diameter_m <= 0.0 {
            return 0.0;
        }
        let log_diameter = diameter_m.ln();
        match &self.0 {
            Shape::LogNormal(it) => it.density(log_diameter),
            Shape::Table(it) => it.density(log_diameter),
        }
    }

    /// Diameter that a given share of the mass is finer than, m: F⁻¹, for drawing grains from even random numbers.
    ///
    /// # Arguments
    /// * `mass_fraction` – 0 to 1; the ends of a log-normal give its last representable grain.
    ///
    /// # Source
    /// As the constructor's.
    ///
    /// # Validity
    /// As the constructor's.
    #[must_use]
    pub fn quantile_m(&self, mass_fraction: f64) -> f64 {
        let share = mass_fraction.clamp(0.0, 1.0);
        match &self.0 {
            Shape::LogNormal(it) => it.quantile(share),
            Shape::Table(it) => it.quantile(share),
        }
        .exp()
    }

    /// Grain classes whose weighted sum is the integral over all sizes; the mass fractions add up to 1.
    ///
    /// `∫ g f_m dln d ≈ Σ m_i g(d_i)`: equidistant points over ±7 deviations for a log-normal, Gauss's rule between
    /// the points of a table.
    ///
    /// # Arguments
    /// * `count` – how many; 48 give the penetration of a log-normal to 1e-6. A table has at least 3 in each interval.
    ///
    /// # Source
    /// Trefethen & Weideman 2014, SIAM Review 56:385 (why equidistant points are so good here).
    ///
    /// # Validity
    /// Smooth g.
    #[must_use]
    pub fn classes(&self, count: usize) -> Vec<SizeClass> {
        match &self.0 {
            Shape::LogNormal(it) => it.classes(count.max(1)),
            Shape::Table(it) => it.classes(count),
        }
    }
}

/// Mean of something over grain classes, weighted by mass: the penetration of the whole dust from that of each grain.
///
/// `P = Σ m_i P(d_i) / Σ m_i`
///
/// # Arguments
/// * `classes` – the classes, not empty.
/// * `of_diameter` – P(d), d in m.
///
/// # Source
/// Definition of the mass mean.
///
/// # Validity
/// Grains that do not touch one another.
///
/// ```
/// use ashlane_shared::physics::efficiency::SizeDistribution;
/// use ashlane_shared::physics::efficiency::size_distribution::mean;
/// // Drift in proportion to size, De = 5 at the median, GSD 2: computed by quadrature.
/// let dust = SizeDistribution::log_normal(10e-6, 2.0)?;
/// let escaped = mean(&dust.classes(60), |diameter_m| (-5.0 * diameter_m / 10e-6_f64).exp());
/// assert!((escaped / 0.04049362 - 1.0).abs() < 1e-5);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
#[must_use]
pub fn mean(classes: &[SizeClass], of_diameter: impl Fn(f64) -> f64) -> f64 {
    let total: f64 = classes.iter().map(|class| class.mass_fraction).sum();
    let sum: f64 = classes
        .iter()
        .map(|class| class.mass_fraction * of_diameter(class.diameter_m))
        .sum();
    sum / total
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn dusts() -> [SizeDistribution; 2] {
        let table = [(2e-6, 0.1), (5e-6, 0.3), (20e-6, 0.75)];
        [
            SizeDistribution::log_normal(16e-6, 3.0).expect("a log-normal"),
            SizeDistribution::table(&table, 90e-6).expect("a table"),
        ]
    }

    proptest! {
        #[test]
        fn quantile_undoes_cumulative(share in 1e-6..0.999_999_f64) {
            for dust in dusts() {
                let back = dust.cumulative(dust.quantile_m(share));
                prop_assert!((back - share).abs() < 1e-12, "{} came back as {}", share, back);
            }
        }

        #[test]
        fn density_is_the_slope_of_cumulative(log_diameter in -6.2..-4.2_f64) {
            let diameter_m = 10_f64.powf(log_diameter);
            for dust in dusts() {
                let step = 1e-6_f64;
                let slope = (dust.cumulative(diameter_m * step.exp()) - dust.cumulative(diameter_m * (-step).exp()))
                    / (2.0 * step);
                let density = dust.density_per_ln(diameter_m);
                // A table's density jumps at its points; a difference across one of them lies between both sides.
                let near = (dust.density_per_ln(diameter_m * 0.999_99) - dust.density_per_ln(diameter_m * 1.000_01)).abs();
                prop_assert!((slope - density).abs() < 1e-7 + near, "{} not {}", slope, density);
            }
        }
    }

    #[test]
    fn classes_carry_all_the_mass_in_order() {
        for dust in dusts() {
            let classes = dust.classes(48);
            let total: f64 = classes.iter().map(|class| class.mass_fraction).sum();
            assert!((total - 1.0).abs() < 1e-12, "{total}");
            assert!(
                classes
                    .windows(2)
                    .all(|pair| pair[0].diameter_m < pair[1].diameter_m),
                "order"
            );
        }
    }

    #[test]
    fn more_classes_change_nothing() {
        for dust in dusts() {
            let escaped =
                |count: usize| mean(&dust.classes(count), |d| (-4.0 * d / 16e-6_f64).exp());
            assert!(
                (escaped(48) / escaped(400) - 1.0).abs() < 1e-6,
                "{} {}",
                escaped(48),
                escaped(400)
            );
        }
    }

    #[test]
    fn conditions_and_constructors_agree() {
        let finer = vec![(2e-6, 0.1), (5e-6, 0.3), (20e-6, 0.75)];
        let table = SizeDistribution::of(&Sizes::Table {
            finer,
            largest_m: 90e-6,
        });
        let sizes = Sizes::LogNormal {
            mass_median_diameter_m: 16e-6,
            geometric_deviation: 3.0,
        };
        let [log_normal, from_table] = dusts();
        assert_eq!(SizeDistribution::of(&sizes), Ok(log_normal));
        assert_eq!(table, Ok(from_table));
    }
}
