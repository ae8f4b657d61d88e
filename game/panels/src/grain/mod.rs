//! One grain followed as it flies: its path from the inlet to the plate, the forces on it, its charge and its speed.

mod charge;
mod chart;
mod drawing;
mod forces;
mod path;
mod places;
mod reading;
mod speed;

pub use drawing::drawing;
pub(crate) use drawing::lens;
pub use reading::{checks, not_compared};

use ashlane_shared::{
    checks::{Comparison, GrainCurves, GrainForces, SpeedComparison},
    conditions::{Conditions, GasDirection},
    simulation::{FollowedGrain, GrainPoint},
    units::{Dimension, GasState, UnitSystem, format_in, number_text},
};

use crate::theme::Theme;

/// Everything the view shows.
#[derive(Clone, Copy, Debug)]
pub struct GrainView<'a> {
    /// The record.
    pub grain: &'a FollowedGrain,
    /// The conditions under which it flies.
    pub conditions: &'a Conditions,
    /// What the formulas say along the record.
    pub curves: &'a GrainCurves,
    /// Forces at the last point; nothing while no grain has come.
    pub forces: Option<GrainForces>,
    /// Charge as flown and by the law in use; nothing where the two are not compared.
    pub charge: Option<Comparison>,
    /// Speed as flown and by the formula; nothing where the two are not compared.
    pub speed: Option<SpeedComparison>,
    /// Units of the labels.
    pub units: UnitSystem,
    /// Dark or light.
    pub theme: Theme,
}

impl GrainView<'_> {
    /// The last point.
    pub(crate) fn now(&self) -> Option<&GrainPoint> {
        self.grain.points.last()
    }

    /// Whether charge is computed, and not one migration velocity given.
    fn is_charged(&self) -> bool {
        self.conditions.teaching.migration_velocity_m_s.is_none()
    }

    /// Whether the gas is drawn from right to left.
    fn is_mirrored(&self) -> bool {
        self.conditions.appearance.gas_direction == GasDirection::RightToLeft
    }

    /// A value with its unit and three digits.
    fn text(&self, value_si: f64, dimension: Dimension) -> String {
        let unit = dimension.display_unit(self.units);
        format_in(value_si, unit, &GasState::NORMAL, 3)
    }

    /// The diameter with two digits.
    fn diameter(&self) -> String {
        let unit = Dimension::GrainSize.display_unit(self.units);
        format_in(self.grain.diameter_m, unit, &GasState::NORMAL, 2)
    }
}

/// A number of three digits, with its thousands apart: 3 120.
fn grouped(value: f64) -> String {
    let text = number_text(value, 3);
    let (whole, rest) = text.split_once('.').unwrap_or((text.as_str(), ""));
    if !rest.is_empty() || !whole.chars().all(|digit| digit.is_ascii_digit()) || whole.len() < 5 {
        return text;
    }
    let mut apart = String::new();
    for (index, digit) in whole.chars().enumerate() {
        if index > 0 && (whole.len() - index).is_multiple_of(3) {
            apart.push('\u{a0}');
        }
        apart.push(digit);
    }
    apart
}

#[cfg(test)]
mod tests {
    use super::grouped;

    #[test]
    fn thousands_stand_apart_from_five_digits_on() {
        assert_eq!(grouped(3123.0), "3120");
        assert_eq!(grouped(107_529.0), "108\u{a0}000");
        assert_eq!(grouped(12.34), "12.3");
        assert_eq!(grouped(2.5e8), "2.5e8");
        assert_eq!(grouped(0.0), "0");
    }
}
