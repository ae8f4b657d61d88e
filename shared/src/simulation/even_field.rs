//! One grain of any size, charged and moved by the simulator's own step between two plane plates: the textbook's even
//! field, against which closed forms of charge and speed can be held.

use super::{
    Motion, Parcel, Parcels, Passage, Stirring,
    chunk::become_grain,
    electrics,
    field_map::FieldMaps,
    noise_block::NoiseStream,
    step::{TIME_STEP_S, step},
    streams::Purpose,
};
use crate::{
    conditions::Conditions,
    physics::{
        PhysicsError,
        charging::Exposure,
        constants::{ELEMENTARY_CHARGE_C, VACUUM_PERMITTIVITY_F_M},
    },
};

/// Longest flight, s.
const LONGEST_S: f64 = 60.0;

/// The same field strength and the same ions everywhere.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EvenField {
    /// Field strength, V/m.
    pub field_v_m: f64,
    /// Current density on the plates, A/m².
    pub current_density_a_m2: f64,
}

impl EvenField {
    /// The mean field of the first field and the mean current density on its plates.
    ///
    /// `E = V/s`, `j = i/(2c)`
    ///
    /// # Errors
    /// The solver refused the conditions, or no current flows.
    pub fn of_first_field(conditions: &Conditions) -> Result<Self, PhysicsError> {
        let solved = electrics(conditions)?;
        let (Some(state), Some(wires)) = (solved.states.first(), solved.fields.first()) else {
            return Err(no_current());
        };
        let field = Self {
            field_v_m: state.gap_v() / conditions.gap_m(),
            current_density_a_m2: wires.plate_current_a_m2(),
        };
        if field.field_v_m > 0.0 && field.current_density_a_m2 > 0.0 {
            Ok(field)
        } else {
            Err(no_current())
        }
    }

    /// Field and ions as charging knows them: `N₀ = j/(ebE)`.
    #[must_use]
    pub fn exposure(&self, conditions: &Conditions) -> Exposure {
        Exposure::of_current(
            self.current_density_a_m2,
            self.field_v_m,
            conditions.ion_mobility_m2_v_s(),
        )
    }
}

fn no_current() -> PhysicsError {
    PhysicsError::Impossible {
        reason: "no current flows in the first field, so that no grain is charged".to_owned(),
    }
}

/// A grain after one more step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EvenPoint {
    /// Time since it entered, s.
    pub time_s: f64,
    /// Charge, elementary charges.
    pub charge_e: f64,
    /// Speed towards the plate in the step that ends now, m/s.
    pub speed_m_s: f64,
}

/// Flies one grain in an even field, one point a step, with the charging law of the conditions.
///
/// # Arguments
/// * `diameter_m` – d, m, above 0.
/// * `duration_s` – s, above 0, up to 60.
///
/// # Errors
/// The solver refused the conditions, or a number is out of its range.
pub fn fly_in_even_field(
    conditions: &Conditions,
    field: &EvenField,
    (diameter_m, duration_s): (f64, f64),
) -> Result<Vec<EvenPoint>, PhysicsError> {
    if !(diameter_m > 0.0 && duration_s > 0.0 && duration_s <= LONGEST_S) {
        return Err(PhysicsError::OutOfRange {
            argument: "duration_s",
            value: duration_s,
            allowed: "above 0, up to 60 s, for a grain of more than 0 m",
        });
    }
    let passage = even_passage(conditions, field)?;
    let mut parcel = Parcel {
        along_m: 0.0,
        across_m: 0.0,
        height_m: 0.0,
        velocity_m_s: 0.0,
        charge: 0.0,
        diameter_m: 0.0,
        mass_kg: 0.0,
        edge_m: 1e9,
        owed_s: 0.0,
        gust_offset: 0.0,
        exposed: 1.0,
        charge_per_field: 0.0,
        charging_constant: 0.0,
        mobility: 0.0,
        reynolds_per_velocity: 0.0,
        fixed_drift_m_s: 0.0,
        field: 0,
        class: 0,
        way: 0,
        identity: 0,
        outcome: 0,
    };
    become_grain(&passage, &mut parcel, diameter_m);
    let electrons = passage.grain(diameter_m).electrons_per_charge;
    let mut alone = Parcels::default();
    alone.push(&parcel);
    let mut unused = NoiseStream::new(0, 0, Purpose::Tracers);
    let steps = (duration_s / TIME_STEP_S).round().max(1.0) as u32;
    let mut points = Vec::with_capacity(steps as usize);
    for number in 1..=steps {
        step(&passage, &mut alone, &mut unused, 0.0);
        let mut moved = alone.get(0);
        points.push(EvenPoint {
            time_s: f64::from(number) * TIME_STEP_S,
            charge_e: f64::from(moved.charge) * electrons,
            speed_m_s: f64::from(moved.across_m.abs()) / TIME_STEP_S,
        });
        // Back to the middle, where single precision is finest; the field is the same there.
        moved.across_m = 0.0;
        alone.set(0, &moved);
    }
    Ok(points)
}

/// A passage of still gas without gusts and mixing, whose plates stand so far apart that they stop nothing.
fn even_passage(conditions: &Conditions, field: &EvenField) -> Result<Passage, PhysicsError> {
    let mut passage = Passage::new(conditions)?;
    passage.motion = Motion::Charged(conditions.teaching.charging);
    passage.stirring = Stirring::None;
    passage.gusts = None;
    passage.parabolic = false;
    passage.gap_m *= 10.0;
    let ions_c_m3 = ELEMENTARY_CHARGE_C * field.exposure(conditions).ion_density_per_m3;
    let charging_per_s = ions_c_m3 * conditions.ion_mobility_m2_v_s() / VACUUM_PERMITTIVITY_F_M;
    let mut maps = FieldMaps::new(conditions.collector.wire_spacing_m, conditions.gap_m());
    let nodes = maps.nodes(|_, _| ());
    maps.push(&nodes, 1.0, |()| (0.0, field.field_v_m, charging_per_s));
    passage.maps = maps;
    Ok(passage)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::conditions::{Charging, demonstration};

    /// training.md 3.2, L3, by hand: εr = 5, 150 °C, 3 kV/cm, 20 nA/cm², 10 s.
    const EVEN: EvenField = EvenField {
        field_v_m: 3e5,
        current_density_a_m2: 2e-4,
    };

    #[test]
    fn the_step_charges_grains_as_the_table_of_the_lessons_says() {
        for (diameter_m, charge_e, speed_m_s) in [
            (0.1e-6, 12.0, 0.106),
            (1e-6, 210.0, 0.0568),
            (5e-6, 3215.0, 0.145),
            (10e-6, 11_943.0, 0.262),
        ] {
            let points = fly_in_even_field(&demonstration(), &EVEN, (diameter_m, 10.0));
            let last = *points.expect("possible").last().expect("steps");
            // The table has three digits, and Stokes' drag alone, which is 2.9 % less for the largest grain.
            assert!(
                (last.charge_e / charge_e - 1.0).abs() < 0.005,
                "{diameter_m}: {last:?}"
            );
            assert!(
                (last.speed_m_s / speed_m_s - 1.0).abs() < 0.03,
                "{diameter_m}: {last:?}"
            );
        }
    }

    #[test]
    fn half_the_saturation_charge_is_there_after_four_permittivities_field_over_current() {
        let mut conditions = demonstration();
        conditions.teaching.charging = Charging::Field;
        let points = fly_in_even_field(&conditions, &EVEN, (5e-6, 10.0)).expect("possible");
        let tau_s = 4.0 * VACUUM_PERMITTIVITY_F_M * EVEN.field_v_m / EVEN.current_density_a_m2;
        for point in points.iter().step_by(60) {
            let saturation_e = point.charge_e * (1.0 + tau_s / point.time_s);
            let end = points.last().expect("steps");
            let at_end_e = end.charge_e * (1.0 + tau_s / end.time_s);
            assert!((saturation_e / at_end_e - 1.0).abs() < 1e-3, "{point:?}");
        }
    }

    #[test]
    fn what_cannot_be_flown_is_refused() {
        for wrong in [(0.0, 1.0), (1e-6, 0.0), (1e-6, 61.0), (f64::NAN, 1.0)] {
            assert!(fly_in_even_field(&demonstration(), &EVEN, wrong).is_err());
        }
        let mut off = demonstration();
        off.electrical.voltage_v = vec![0.0; 4];
        assert!(EvenField::of_first_field(&off).is_err());
    }
}
