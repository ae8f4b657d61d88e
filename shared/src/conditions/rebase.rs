//! Restates what was given at the sheet's gas, voltage and spacing for the present ones, so that it can be saved.
//!
//! Ion mobility and spark field are stated at the sheet's gas, the teaching migration velocity at its voltage and
//! spacing. After controls moved, the old numbers under new headings would be another machine.

use super::{Conditions, Reference};

/// Relative difference of two velocities that is only rounding.
const SAME_VELOCITY: f64 = 1e-9;

/// Conditions whose reference is what they say themselves.
#[derive(Clone, Debug, PartialEq)]
pub struct Rebased {
    /// The restated conditions: same physics, as far as one number for all fields can say it.
    pub conditions: Conditions,
    /// What could not be kept, in a sentence for people.
    pub note: Option<String>,
}

impl Conditions {
    /// The same physics, stated at the present gas, voltages and spacing.
    ///
    /// Takes every field at its wanted voltage; where sets are held back, [`Self::rebased_with_drifts`] is exact.
    #[must_use]
    pub fn rebased(&self) -> Rebased {
        let voltages = self.electrical.voltage_v.iter().enumerate();
        let drifts_m_s: Vec<f64> = voltages
            .filter_map(|(field, &voltage_v)| {
                self.teaching_migration_velocity_m_s(field, voltage_v)
            })
            .collect();
        self.rebased_with_drifts(&drifts_m_s)
    }

    /// The same physics, given the teaching migration velocity that each field really has now, m/s.
    #[must_use]
    pub fn rebased_with_drifts(&self, drifts_m_s: &[f64]) -> Rebased {
        let mut conditions = self.clone();
        conditions.electrical.ion_mobility_m2_v_s = self.ion_mobility_m2_v_s();
        conditions.electrical.spark_field_v_m = self.spark_field_v_m();
        let note = conditions.restate_velocity(drifts_m_s);
        conditions.reference = conditions.reference_here();
        Rebased { conditions, note }
    }

    /// The reference a sheet with these values has.
    pub(super) fn reference_here(&self) -> Reference {
        Reference {
            temperature_k: self.gas.temperature_k,
            pressure_pa: self.gas.pressure_pa,
            voltage_v: self.electrical.voltage_v.clone(),
            plate_spacing_m: self.collector.plate_spacing_m,
        }
    }

    /// Takes the velocity of the first field that is on; says so when others have another.
    fn restate_velocity(&mut self, drifts_m_s: &[f64]) -> Option<String> {
        let velocity_m_s = self.teaching.migration_velocity_m_s.as_mut()?;
        let on = || {
            drifts_m_s
                .iter()
                .copied()
                .enumerate()
                .filter(|&(_, drift_m_s)| drift_m_s > 0.0)
        };
        let (lead, drift_m_s) = on().next()?;
        *velocity_m_s = drift_m_s;
        let differs =
            on().any(|(_, other_m_s)| (other_m_s / drift_m_s - 1.0).abs() > SAME_VELOCITY);
        differs.then(|| {
            format!(
                "The voltages changed by different ratios: migration_velocity is that of field {}.",
                lead + 1
            )
        })
    }
}

#[cfg(test)]
mod tests {
    use super::super::demonstration;

    #[test]
    fn mobility_and_spark_field_follow_the_gas() {
        let mut moved = demonstration();
        moved.gas.temperature_k *= 1.1;
        let rebased = moved.rebased().conditions;
        // b ∝ T/p, spark field ∝ (p/T)^0.8.
        let sheet = demonstration().electrical;
        assert!(
            (rebased.electrical.ion_mobility_m2_v_s / sheet.ion_mobility_m2_v_s - 1.1).abs()
                < 1e-12
        );
        assert!(
            (rebased.electrical.spark_field_v_m / sheet.spark_field_v_m - 1.1f64.powf(-0.8)).abs()
                < 1e-12
        );
        assert_eq!(rebased.ion_mobility_m2_v_s(), moved.ion_mobility_m2_v_s());
        assert_eq!(
            rebased.rebased().conditions,
            rebased,
            "a second time changes nothing"
        );
    }

    #[test]
    fn one_velocity_scales_with_voltage_and_spacing() {
        let mut moved = demonstration();
        moved.teaching.migration_velocity_m_s = Some(0.1);
        for voltage_v in &mut moved.electrical.voltage_v {
            *voltage_v *= 1.2;
        }
        moved.collector.plate_spacing_m = 0.4;
        let rebased = moved.rebased();
        let expected = 0.1 * 1.44 * (0.3f64 / 0.4).powi(2);
        assert!(
            (rebased.conditions.teaching.migration_velocity_m_s.unwrap() - expected).abs() < 1e-12
        );
        assert_eq!(rebased.note, None);
        for (field, &voltage_v) in moved.electrical.voltage_v.iter().enumerate() {
            let before = moved
                .teaching_migration_velocity_m_s(field, 0.9 * voltage_v)
                .unwrap();
            let after = rebased
                .conditions
                .teaching_migration_velocity_m_s(field, 0.9 * voltage_v)
                .unwrap();
            assert!(
                (before / after - 1.0).abs() < 1e-12,
                "field {field}: {before} became {after}"
            );
        }
    }

    #[test]
    fn unequal_scaling_keeps_the_first_field_that_is_on_and_says_so() {
        let mut moved = demonstration();
        moved.teaching.migration_velocity_m_s = Some(0.1);
        moved.electrical.voltage_v[0] = 0.0;
        moved.electrical.voltage_v[1] *= 0.5;
        let rebased = moved.rebased();
        assert!(
            (rebased.conditions.teaching.migration_velocity_m_s.unwrap() - 0.025).abs() < 1e-12
        );
        assert!(rebased.note.unwrap().contains("field 2"));
    }

    #[test]
    fn a_field_that_is_off_does_not_drift_and_nothing_divides_by_zero() {
        let mut off = demonstration();
        off.teaching.migration_velocity_m_s = Some(0.1);
        off.electrical.voltage_v = vec![0.0; 4];
        let rebased = off.rebased().conditions;
        assert_eq!(rebased.teaching.migration_velocity_m_s, Some(0.1));
        assert_eq!(rebased.teaching_migration_velocity_m_s(0, 0.0), Some(0.0));
        assert_eq!(
            rebased.teaching_migration_velocity_m_s(0, 45e3),
            Some(0.1),
            "nothing to scale from"
        );
    }

    #[test]
    fn a_field_that_is_held_back_keeps_the_velocity_it_really_has() {
        let mut moved = demonstration();
        moved.teaching.migration_velocity_m_s = Some(0.1);
        moved.electrical.voltage_v = vec![70e3; 4];
        let rebased = moved.rebased_with_drifts(&[0.0, 0.13, 0.13, 0.13]);
        assert_eq!(
            rebased.conditions.teaching.migration_velocity_m_s,
            Some(0.13)
        );
        assert_eq!(rebased.note, None);
        assert_eq!(
            rebased.conditions.reference.voltage_v,
            moved.electrical.voltage_v
        );
        assert!(moved.rebased_with_drifts(&[0.13, 0.14]).note.is_some());
    }
}
