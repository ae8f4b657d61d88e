//! A published penetration by grain size, for the eye: coal boilers without and behind an electrostatic precipitator.

/// Upper ends of the classes, m, and cumulative mass finer than them, %: without a collector and behind a precipitator.
///
/// # Source
/// US EPA AP-42, Table 1.1-6, dry-bottom boilers with pulverised coal, from memory of it.
const FINER: [(f64, f64, f64); 7] = [
    (0.625e-6, 1.0, 12.0),
    (1.0e-6, 2.0, 14.0),
    (1.25e-6, 2.0, 17.0),
    (2.5e-6, 6.0, 29.0),
    (6.0e-6, 17.0, 50.0),
    (10.0e-6, 23.0, 67.0),
    (15.0e-6, 32.0, 79.0),
];
/// Emission behind over emission without: 0.08A and 10A lb of dust a ton of coal. Source as above.
const TOTAL: f64 = 0.08 / 10.0;
/// Classes with less of the dust than this are too coarse a rounding to divide by, %.
const LEAST: f64 = 3.0;
/// The coarsest class ends nowhere; it is drawn up to here, m.
const COARSEST_M: f64 = 60e-6;

/// One class.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PublishedClass {
    /// From this diameter on, m.
    pub from_m: f64,
    /// Up to this, m.
    pub to_m: f64,
    /// Share of it that gets through.
    pub penetration: f64,
}

/// Penetration by size of a precipitator that lets 0.8 % of the dust of a coal boiler through.
///
/// `P_i = 0.008 Δf_behind/Δf_without`; single classes are good to ±50 %.
#[must_use]
pub fn boiler_penetrations() -> Vec<PublishedClass> {
    let coarsest = (COARSEST_M, 100.0, 100.0);
    let ends = FINER.iter().zip(FINER.iter().skip(1).chain([&coarsest]));
    ends.filter(|(low, high)| high.1 - low.1 >= LEAST)
        .map(|(low, high)| PublishedClass {
            from_m: low.0,
            to_m: high.0,
            penetration: TOTAL * (high.2 - low.2) / (high.1 - low.1),
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_classes_are_those_of_the_specification() {
        // physics.md U1: 1.25–2.5 µm 0.024, 2.5–6 0.0153, 10–15 0.0107, above 15 0.0025.
        let classes = boiler_penetrations();
        for (from_m, expected) in [
            (1.25e-6, 0.024),
            (2.5e-6, 0.0153),
            (10e-6, 0.0107),
            (15e-6, 0.0025),
        ] {
            let class = classes.iter().find(|class| class.from_m == from_m);
            let found = class.expect("a class").penetration;
            assert!((found / expected - 1.0).abs() < 0.02, "{from_m}: {found}");
        }
    }
}
