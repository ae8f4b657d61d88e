//! Faults of a collector, one file and one row each: a change of its conditions that can be taken back.
//!
//! A fault writes no reading: voltages, currents, layers and penetration follow from the model under the changed
//! conditions. Its signs stand here in words, and a test holds them against the model.

mod air_leak;
#[cfg(test)]
mod alarm_tests;
mod close_clearance;
mod dead_short;
mod dusty_wires;
#[cfg(test)]
mod electrical_tests;
mod false_meter;
mod gas_distribution;
mod half_rectifier;
mod hard_rapping;
mod insulator_tracking;
mod lost_rapper;
#[cfg(test)]
mod plant_tests;
mod plugged_hopper;
mod resistive_ash;
mod supply_lost;
mod swinging_wire;

use ashlane_shared::{
    conditions::{Conditions, nearest},
    physics::PhysicsError,
    simulation::struck_field,
};

/// How hard a fault strikes, and where.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Struck {
    /// 0 (nothing) to 1 (as bad as the row says).
    pub severity: f64,
    /// The field that it strikes, from 0, where it strikes one.
    pub field: usize,
}

/// A fault.
#[derive(Clone, Copy, Debug)]
pub struct Fault {
    /// Its name on the command line.
    pub name: &'static str,
    /// Its row in the troubleshooting table.
    pub row: &'static str,
    /// What has happened.
    pub title: &'static str,
    /// What severity 1 means.
    pub at_full: &'static str,
    /// What the instruments show.
    pub signs: &'static str,
    /// The change.
    pub strike: fn(&mut Conditions, Struck) -> Result<(), PhysicsError>,
}

/// Every fault.
pub const FAULTS: &[Fault] = &[
    dead_short::FAULT,
    resistive_ash::GLOWING,
    resistive_ash::SPARKING,
    dusty_wires::FAULT,
    close_clearance::FAULT,
    swinging_wire::FAULT,
    plugged_hopper::FAULT,
    insulator_tracking::FAULT,
    air_leak::FAULT,
    hard_rapping::FAULT,
    lost_rapper::FAULT,
    gas_distribution::FAULT,
    supply_lost::FAULT,
    half_rectifier::FAULT,
    false_meter::FAULT,
];

/// A fault that is set: which, how hard, and when.
#[derive(Clone, Copy, Debug)]
pub struct SetFault {
    /// The fault.
    pub fault: &'static Fault,
    /// 0 to 1.
    pub severity: f64,
    /// From when on, s of the plant clock.
    pub from_s: f64,
    /// Until when, s of the plant clock; nothing where it stays.
    pub to_s: Option<f64>,
}

impl SetFault {
    /// Whether it holds at this time of the plant clock, s.
    #[must_use]
    pub fn holds_at(&self, time_s: f64) -> bool {
        self.from_s <= time_s && self.to_s.is_none_or(|to_s| time_s < to_s)
    }

    /// The conditions with the fault in them; the field that it strikes is drawn with the seed.
    ///
    /// # Errors
    /// A formula refused the conditions.
    pub fn strike(&self, conditions: &Conditions, seed: u64) -> Result<Conditions, PhysicsError> {
        let mut struck = conditions.clone();
        let place = Struck {
            severity: self.severity,
            field: struck_field(seed, conditions.collector.fields),
        };
        (self.fault.strike)(&mut struck, place)?;
        Ok(struck)
    }
}

/// Conditions with all of these faults in them that hold at this time of the plant clock, in their order.
///
/// They are struck anew from the sound conditions, so one that has ended leaves nothing behind.
///
/// # Errors
/// A formula refused the conditions.
pub fn struck_at(
    faults: &[SetFault],
    sound: &Conditions,
    seed: u64,
    time_s: f64,
) -> Result<Conditions, PhysicsError> {
    let mut holding = faults.iter().filter(|set| set.holds_at(time_s));
    holding.try_fold(sound.clone(), |struck, set| set.strike(&struck, seed))
}

/// Reads `NAME[:SEVERITY[@FROM[-TO]]]`, in hours.
///
/// # Errors
/// Says what is wrong and what to write instead.
pub fn read(text: &str) -> Result<SetFault, String> {
    let (rest, hours) = text
        .split_once('@')
        .map_or((text, "0"), |(rest, hours)| (rest, hours));
    let (name, severity) = rest.split_once(':').unwrap_or((rest, "1"));
    let fault = FAULTS
        .iter()
        .find(|fault| fault.name == name)
        .ok_or_else(|| {
            let near = nearest(name, FAULTS.iter().map(|fault| fault.name))
                .map_or_else(String::new, |near| format!("; did you mean \"{near}\"?"));
            format!("there is no fault \"{name}\"{near} `ashlane fault list` shows them all")
        })?;
    let number = |text: &str, high: f64, what: &str| {
        text.parse::<f64>()
            .ok()
            .filter(|number| (0.0..=high).contains(number))
            .ok_or_else(|| {
                format!("the {what} of \"{name}\" is a number from 0 to {high}, not \"{text}\"")
            })
    };
    let hour = |text: &str| Ok::<_, String>(3600.0 * number(text, 8784.0, "hour")?);
    let (from, to) = (hours.split_once('-')).map_or((hours, None), |(from, to)| (from, Some(to)));
    let severity = number(severity, 1.0, "severity")?;
    let (from_s, to_s) = (hour(from)?, to.map(hour).transpose()?);
    if to_s.is_some_and(|to_s| to_s <= from_s) {
        return Err(format!(
            "the last hour of \"{name}\" is no later than its first: write such as {name}:1@6-12"
        ));
    }
    Ok(SetFault {
        fault,
        severity,
        from_s,
        to_s,
    })
}

#[cfg(test)]
mod tests {
    use ashlane_shared::{
        conditions::{Mixing, demonstration},
        physics::gas_path::pressure::Station,
        simulation::{FieldState, GasAlong, electrics, gas_along},
        theory,
    };

    use super::*;

    fn struck(name: &str, severity: f64) -> (Conditions, Conditions) {
        let sound = demonstration();
        let set = read(&format!("{name}:{severity}")).expect("a fault");
        let ill = set.strike(&sound, 5).expect("possible");
        (sound, ill)
    }

    fn states(conditions: &Conditions) -> Vec<FieldState> {
        electrics(conditions).expect("fields").states.clone()
    }

    fn escaped(conditions: &Conditions) -> f64 {
        theory::solve(conditions).expect("possible").finite_mixing
    }

    #[test]
    fn a_fault_without_severity_changes_nothing_and_the_sound_collector_is_kept() {
        for fault in FAULTS {
            let (sound, ill) = struck(fault.name, 0.0);
            assert_eq!(sound, ill, "{}", fault.name);
            let (_, ill) = struck(fault.name, 1.0);
            assert_ne!(sound, ill, "{} changes nothing", fault.name);
            for text in [fault.title, fault.at_full, fault.signs] {
                assert!(text.len() > 10, "{}: {text:?}", fault.name);
            }
            assert!(fault.row.starts_with('T'));
        }
    }

    #[test]
    fn a_lost_supply_is_no_voltage_no_current_and_more_dust() {
        // Row T17: kV 0, mA 0, one set; opacity up (training.md 4; from memory of EPA operation manuals).
        let (sound, ill) = struck("supply-lost", 1.0);
        let (before, after) = (states(&sound), states(&ill));
        let dead: Vec<usize> = (0..4)
            .filter(|field| after[*field].voltage_v == 0.0)
            .collect();
        assert_eq!(dead.len(), 1, "{after:?}");
        assert_eq!(after[dead[0]].current_density_a_m2, 0.0);
        for field in (0..4).filter(|field| *field != dead[0]) {
            assert_eq!(after[field].voltage_v, before[field].voltage_v);
        }
        assert!(escaped(&ill) > 2.0 * escaped(&sound));
    }

    #[test]
    fn one_lost_field_of_four_lets_3_8_times_the_dust_through() {
        // physics.md 13: De = ln 200, P 0.5 % to e^(−3.974) = 1.88 % [computed from Deutsch's formula].
        let mut sound = demonstration();
        let sca_s_m = sound.specific_collection_area_s_m();
        sound.teaching.migration_velocity_m_s = Some(200.0_f64.ln() / sca_s_m);
        sound.teaching.mixing = Some(Mixing::Full);
        let set = read("supply-lost").expect("a fault");
        let ill = set.strike(&sound, 5).expect("possible");
        let deutsch = |conditions: &Conditions| {
            theory::limits(conditions)
                .expect("possible")
                .deutsch_anderson
        };
        assert!((deutsch(&sound) / 0.005 - 1.0).abs() < 1e-6);
        let ratio = deutsch(&ill) / deutsch(&sound);
        assert!(
            (ratio / (200.0_f64.ln() / 4.0).exp() - 1.0).abs() < 1e-6,
            "{ratio}"
        );
        assert!((ratio - 3.76).abs() < 0.01, "{ratio}");
    }

    #[test]
    fn bad_gas_distribution_leaves_the_meters_alone_and_lets_dust_through() {
        // Row T16: kV and mA as before, opacity up and steady.
        let (sound, ill) = struck("gas-distribution", 1.0);
        for (before, after) in states(&sound).iter().zip(&states(&ill)) {
            // The dust's own charge has the chance of its parcels, 2 % of each current: 2 σ of the ratio are 2·√2·2 %.
            assert_eq!(before.voltage_v, after.voltage_v);
            let ratio = after.current_density_a_m2 / before.current_density_a_m2;
            let chance = 2.0 * std::f64::consts::SQRT_2 * 0.02;
            assert!((ratio - 1.0).abs() < 0.15 + chance, "{ratio}");
        }
        assert!(escaped(&ill) > 1.3 * escaped(&sound));
    }

    #[test]
    fn an_air_leak_cools_the_gas_adds_flow_and_raises_the_spark_voltage() {
        // Row T10: temperature down, oxygen up, kV slightly up in cooler gas, opacity up.
        let (sound, ill) = struck("air-leak", 1.0);
        assert!(ill.gas.temperature_k < sound.gas.temperature_k - 5.0);
        assert!(ill.gas.flow_m3_s > 1.02 * sound.gas.flow_m3_s);
        // No dust comes in with the air.
        let dust_kg_s = |conditions: &Conditions| conditions.inlet_mass_kg_s();
        assert!((dust_kg_s(&ill) / dust_kg_s(&sound) - 1.0).abs() < 1e-9);
        let (before, after) = (states(&sound), states(&ill));
        assert!(after[0].spark_v > before[0].spark_v);
        assert!(escaped(&ill) > escaped(&sound));
    }

    #[test]
    fn an_air_leak_shows_at_the_stations_behind_it_and_leaves_those_before_it_alone() {
        let (sound, ill) = struck("air-leak", 1.0);
        let along = |conditions: &Conditions| gas_along(conditions).expect("possible");
        let (before, after) = (along(&sound), along(&ill));
        let oxygen =
            |along: &GasAlong, station: Station| along.at(station).expect("a station").oxygen_dry;
        let kelvin = |along: &GasAlong, station: Station| {
            along.at(station).expect("a station").temperature_k
        };
        // physics.md 13: 15.5 % air takes oxygen from 6 to 8 %.
        assert!((oxygen(&after, Station::InletDuct) - 0.06).abs() < 1e-12);
        assert!((oxygen(&after, Station::OutletDuct) - 0.08).abs() < 1e-12);
        let (inlet, outlet) = (Station::InletDuct, Station::OutletDuct);
        assert!((kelvin(&after, inlet) - kelvin(&before, inlet)).abs() < 1e-6);
        assert!(kelvin(&after, outlet) < kelvin(&before, outlet) - 5.0);
        assert!(after.fan_power_w > before.fan_power_w);
        assert!(after.oxygen_balance_error < 1e-9);
    }

    #[test]
    fn hard_rapping_shows_in_the_dust_alone() {
        // Row T13: kV, mA and sparks as before, sharp regular spikes of opacity.
        let (sound, ill) = struck("hard-rapping", 1.0);
        assert_eq!(sound.electrical, ill.electrical);
        assert!(ill.rapping.reentrained > 1.5 * sound.rapping.reentrained);
        assert!(escaped(&ill) > 1.2 * escaped(&sound));
    }

    #[test]
    fn faults_hold_in_their_order_and_leave_nothing_behind() {
        let sound = demonstration();
        let set: Vec<SetFault> = [
            "hard-rapping:1@2-8",
            "air-leak:0.5@4-6",
            "hard-rapping:0.5@5",
        ]
        .map(|text| read(text).expect("a fault"))
        .to_vec();
        let at = |hour: f64| struck_at(&set, &sound, 5, 3600.0 * hour).expect("possible");
        let acceleration =
            |hour: f64| at(hour).rapping.acceleration_m_s2 / sound.rapping.acceleration_m_s2;
        assert_eq!(at(0.0), sound);
        assert_eq!([2.0, 4.0, 5.0, 8.0].map(acceleration), [2.0, 2.0, 3.0, 1.5]);
        assert!(at(4.0).gas.in_leakage.inlet > 0.0);
        assert_eq!(at(6.0).gas, sound.gas, "the leak is mended to the last bit");
        let ended = struck_at(&set[..2], &sound, 5, 3600.0 * 8.0).expect("possible");
        assert_eq!(ended, sound);
    }

    #[test]
    fn what_is_written_wrong_is_told_with_what_was_meant() {
        let set = read("air-leak:0.5@6").expect("a fault");
        assert_eq!(
            (set.fault.name, set.severity, set.from_s),
            ("air-leak", 0.5, 21_600.0)
        );
        for (text, says) in [
            ("air-leek", "did you mean \"air-leak\"?"),
            ("air-leak:2", "0 to 1"),
            ("air-leak:much", "not \"much\""),
            ("air-leak:1@-3", "hour"),
            ("air-leak:1@6-", "hour"),
            ("air-leak:1@6-6", "no later than its first"),
            ("", "fault list"),
        ] {
            let told = read(text).expect_err(text);
            assert!(told.contains(says), "{text}: {told}");
        }
    }
}
