//! The readings and checks that a learner may open or order: one row each, the cheapest and safest first.

use ashlane_shared::units::Dimension;

use super::{
    Shown,
    readings::{self, Numbers},
};

/// Where a check is made and by whom: from the cheapest and safest to the dearest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Reach {
    /// At the panel, by the operator.
    Panel,
    /// From the logs and trends of the control room.
    Logs,
    /// Outside, from a walkway that anybody on shift may use.
    Outside,
    /// By people who are qualified for the set.
    Qualified,
    /// A sample for the laboratory.
    Laboratory,
    /// A survey that is planned and takes days.
    Survey,
}

impl Reach {
    /// As words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Panel => "at the panel",
            Self::Logs => "from logs and trends",
            Self::Outside => "outside, from the walkway",
            Self::Qualified => "by people qualified for the set",
            Self::Laboratory => "by the laboratory",
            Self::Survey => "by a planned survey",
        }
    }

    /// 1 for the cheapest and safest.
    #[must_use]
    pub const fn rank(self) -> u8 {
        self as u8 + 1
    }
}

/// Of which fields a check's numbers are signs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Signs {
    /// Of each field for itself.
    Each,
    /// Of the field that is looked at: in the others they follow the dust that reaches them, which is a consequence.
    Own,
}

/// A reading or a check.
#[derive(Clone, Copy, Debug)]
pub struct Check {
    /// Its key.
    pub key: &'static str,
    /// What people call it.
    pub name: &'static str,
    /// Where, by whom, how dear.
    pub reach: Reach,
    /// What its numbers are.
    pub dimension: Dimension,
    /// Smallest difference that it can tell. Teaching value, no source.
    pub fine: f64,
    /// The same as a share of what is usual. Teaching value, no source.
    pub share: f64,
    /// Of which fields its numbers are signs.
    pub signs: Signs,
    /// Reads a machine.
    pub(super) read: fn(&Shown) -> Numbers,
}

const fn row(
    (key, name): (&'static str, &'static str),
    reach: Reach,
    dimension: Dimension,
    (fine, share, signs): (f64, f64, Signs),
    read: fn(&Shown) -> Numbers,
) -> Check {
    Check {
        key,
        name,
        reach,
        dimension,
        fine,
        share,
        signs,
        read,
    }
}

/// Every check.
// One row a line, so that it reads as the table it is.
#[rustfmt::skip]
pub const CHECKS: &[Check] = &[
    row(("kv", "kilovolt meters"), Reach::Panel, Dimension::Voltage, (500.0, 0.02, Signs::Each), readings::kilovolts),
    row(("ma", "milliammeters"), Reach::Panel, Dimension::Current, (0.01, 0.15, Signs::Own), readings::milliamperes),
    row(("sparks", "spark counters"), Reach::Panel, Dimension::SparkRate, (0.04, 0.2, Signs::Each), readings::sparks),
    row(("power", "power of each set"), Reach::Panel, Dimension::Power, (300.0, 0.15, Signs::Own), readings::power),
    row(("swing", "whether needles swing"), Reach::Panel, Dimension::Voltage, (500.0, 0.0, Signs::Each), readings::swing),
    row(("opacity", "opacity, mean"), Reach::Panel, Dimension::Fraction, (0.002, 0.1, Signs::Each), readings::opacity),
    row(("hopper-level", "hopper levels"), Reach::Panel, Dimension::Fraction, (0.08, 0.0, Signs::Each), readings::hopper_level),
    row(("temperature", "gas temperature"), Reach::Panel, Dimension::Temperature, (3.0, 0.0, Signs::Each), readings::temperature),
    row(("oxygen", "oxygen in and out"), Reach::Panel, Dimension::Fraction, (0.004, 0.0, Signs::Each), readings::oxygen),
    row(("spikes", "opacity spikes against the rapper log"), Reach::Logs, Dimension::Fraction, (0.002, 0.2, Signs::Each), readings::spikes),
    row(("row-ash", "ash that came into each row"), Reach::Logs, Dimension::MassFlow, (0.002, 0.15, Signs::Own), readings::row_ash),
    row(("v-i", "one point of the V–I curve beside the saved one"), Reach::Logs, Dimension::Current, (0.03, 0.25, Signs::Own), readings::test_current),
    row(("primary", "kV worked back from the primary side"), Reach::Qualified, Dimension::Voltage, (500.0, 0.02, Signs::Each), readings::from_primary),
    row(("half-cycles", "primary current on a recorder"), Reach::Qualified, Dimension::Fraction, (0.05, 0.0, Signs::Each), readings::half_cycles),
    row(("resistivity", "resistivity of an ash sample"), Reach::Laboratory, Dimension::Resistivity, (0.0, 1.0, Signs::Each), readings::resistivity),
    row(("unevenness", "velocity survey of the inlet face"), Reach::Survey, Dimension::Fraction, (0.03, 0.0, Signs::Each), readings::unevenness),
];

/// The row of a key.
#[must_use]
pub fn find_check(key: &str) -> Option<&'static Check> {
    CHECKS.iter().find(|row| row.key == key)
}
