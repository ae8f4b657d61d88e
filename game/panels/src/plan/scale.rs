//! Scales: the colours of the field map, and round lengths for scale bars.

use ashlane_shared::{
    simulation::FieldState,
    units::{Dimension, UnitSystem, from_display},
};

/// The logarithmic scale of the field map, V/m: dark blue below the first, yellow above the second.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FieldScale {
    /// At the dark end, V/m.
    pub low_v_m: f32,
    /// At the light end, V/m.
    pub high_v_m: f32,
}

impl FieldScale {
    /// A scale that holds the plates' and the wires' field of these fields, in whole decades and halves of them.
    #[must_use]
    pub fn of(fields: &[FieldState], gap_m: f64) -> Self {
        let mean_v_m = fields
            .iter()
            .map(|field| field.voltage_v / gap_m)
            .fold(0.0, f64::max)
            .max(1e4);
        Self {
            low_v_m: nice_below(0.35 * mean_v_m) as f32,
            high_v_m: nice_below(9.0 * mean_v_m) as f32,
        }
    }

    /// Where a field strength lies on the scale, 0 to 1.
    #[must_use]
    pub fn share(&self, strength_v_m: f32) -> f32 {
        let place =
            (strength_v_m.max(1.0) / self.low_v_m).ln() / (self.high_v_m / self.low_v_m).ln();
        place.clamp(0.0, 1.0)
    }

    /// Round values along the scale in the unit people read: where each lies, V/m, and what it says.
    #[must_use]
    pub fn marks(&self, units: UnitSystem) -> Vec<(f32, f64)> {
        let mut marks = Vec::new();
        for exponent in -3..4 {
            for step in [1.0, 2.0, 5.0] {
                let mark = step * 10_f64.powi(exponent);
                let at_v_m = from_display(mark, Dimension::Field, units) as f32;
                if at_v_m >= 0.999 * self.low_v_m && at_v_m <= 1.001 * self.high_v_m {
                    marks.push((at_v_m, mark));
                }
            }
        }
        marks
    }
}

/// The largest of 1, 2, 5 times a power of ten that is not above `value`.
#[must_use]
pub fn nice_below(value: f64) -> f64 {
    if value <= 0.0 || !value.is_finite() {
        return 1.0;
    }
    let decade = 10_f64.powf(value.log10().floor());
    let part = value / decade;
    let step = if part >= 5.0 {
        5.0
    } else if part >= 2.0 {
        2.0
    } else {
        1.0
    };
    step * decade
}

/// The smallest of 1, 2, 5 times a power of ten that is not below `value`.
pub(crate) fn nice_above(value: f64) -> f64 {
    let below = nice_below(value);
    if below >= 0.999 * value {
        below
    } else {
        // 2 after 1, 5 after 2, 10 after 5.
        nice_below(2.51 * below)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nice_numbers_are_one_two_or_five() {
        for (value, expected) in [
            (0.37, 0.2),
            (1.0, 1.0),
            (9.9, 5.0),
            (25.0, 20.0),
            (0.05, 0.05),
        ] {
            assert!(
                (nice_below(value) / expected - 1.0).abs() < 1e-9,
                "{value} gives {}",
                nice_below(value)
            );
        }
    }

    #[test]
    fn the_scale_is_logarithmic_and_marked_inside() {
        let scale = FieldScale {
            low_v_m: 1e5,
            high_v_m: 2e6,
        };
        assert!((scale.share(1e5)).abs() < 1e-6 && (scale.share(2e6) - 1.0).abs() < 1e-6);
        let middle = (1e5_f32 * 2e6).sqrt();
        assert!((scale.share(middle) - 0.5).abs() < 1e-4);
        let read = |units| -> Vec<f64> {
            let marks = scale.marks(units).into_iter();
            marks.map(|(_, read)| read).collect()
        };
        assert_eq!(read(UnitSystem::Si), [1.0, 2.0, 5.0, 10.0, 20.0]);
        assert_eq!(read(UnitSystem::Us), [5.0, 10.0, 20.0, 50.0]);
        // 5 kV over 25.4 mm.
        let (at_v_m, _) = scale.marks(UnitSystem::Us)[0];
        assert!((at_v_m - 5000.0 / 0.0254).abs() < 1.0, "{at_v_m} V/m");
    }
}
