//! The plates are struck too hard: the dust comes off as a cloud instead of a sheet.

use super::{Fault, Struck};
use ashlane_shared::{conditions::Conditions, physics::PhysicsError};

/// The most of the dislodged dust that may go back into the gas.
const MOST: f64 = 0.6;

/// The row.
pub(super) const FAULT: Fault = Fault {
    name: "hard-rapping",
    row: "T13",
    title: "Rapping too hard: the dust comes off as a cloud instead of a sheet.",
    at_full: "twice the acceleration, and twice the share that goes back into the gas (invented)",
    signs: "kV, mA and sparks as before; sharp, regular spikes of opacity in the rhythm of the raps.",
    strike,
};

fn strike(conditions: &mut Conditions, struck: Struck) -> Result<(), PhysicsError> {
    let rapping = &mut conditions.rapping;
    let factor = 1.0 + struck.severity;
    rapping.acceleration_m_s2 *= factor;
    // Hammers that are described decide about the acceleration: it goes with the root of their energy.
    if let Some(mass_kg) = &mut rapping.hammer_mass_kg {
        *mass_kg *= factor * factor;
    }
    rapping.reentrained = (rapping.reentrained * factor).min(MOST);
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use ashlane_shared::{
        conditions::demonstration,
        physics::rapping::{ReferenceBlow, blow_energy_j, peak_acceleration_m_s2},
    };

    #[test]
    fn hammers_that_are_described_strike_twice_as_hard_too() {
        let mut conditions = demonstration();
        conditions.rapping.hammer_mass_kg = Some(8.0);
        conditions.rapping.hammer_drop_m = Some(0.6);
        let acceleration_m_s2 = |conditions: &Conditions| {
            let rapping = &conditions.rapping;
            let mass_kg = rapping.hammer_mass_kg.expect("a hammer");
            let energy_j = blow_energy_j(mass_kg, rapping.hammer_drop_m.expect("a drop"));
            peak_acceleration_m_s2(energy_j.expect("a blow"), &ReferenceBlow::TEACHING)
                .expect("a plate")
        };
        let before = acceleration_m_s2(&conditions);
        let full = Struck {
            severity: 1.0,
            field: 0,
        };
        strike(&mut conditions, full).expect("possible");
        let ratio = acceleration_m_s2(&conditions) / before;
        assert!((ratio - 2.0).abs() < 1e-12, "{ratio}");
        assert!((conditions.rapping.acceleration_m_s2 - 3000.0).abs() < 1e-9);
    }
}
