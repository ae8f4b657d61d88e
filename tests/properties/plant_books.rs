//! The plant clock's books: whatever is done to a collector, and in whatever order, every kilogram is in an account.

use std::sync::OnceLock;

use ashlane_lessons::faults::{self, FAULTS};
use ashlane_shared::{
    conditions::{Conditions, Kind, Mixing, demonstration},
    plant::{Plant, Rates},
    simulation::Account,
};
use proptest::prelude::*;

/// The demonstration with one drift for all, sound and with each fault, and the rates of each.
fn machines() -> &'static [(Conditions, Rates)] {
    static MACHINES: OnceLock<Vec<(Conditions, Rates)>> = OnceLock::new();
    MACHINES.get_or_init(|| {
        let mut sound = demonstration();
        sound.teaching.migration_velocity_m_s = Some(0.08);
        sound.teaching.mixing = Some(Mixing::Full);
        let worn = worn(&sound);
        let mut wet = sound.clone();
        wet.collector.kind = Kind::Wet;
        wet.defects[2].dry_share = 0.2;
        let ill = FAULTS.iter().map(|fault| {
            let set = faults::read(fault.name).expect("a fault");
            set.strike(&sound, 1).expect("possible")
        });
        let all: Vec<Conditions> = [sound.clone(), worn, wet].into_iter().chain(ill).collect();
        all.into_iter()
            .map(|conditions| {
                let rates = Rates::count(&conditions, 6000, 1, |_| true)
                    .expect("possible")
                    .expect("to its end");
                (conditions, rates)
            })
            .collect()
    })
}

/// Everything about rapping and hoppers that can be wrong, on thin layers.
fn worn(sound: &Conditions) -> Conditions {
    let mut worn = sound.clone();
    for defects in &mut worn.defects {
        defects.lost_blow = 0.6;
        defects.uncleaned_wires = 0.5;
        defects.bridged = 0.7;
    }
    worn.teaching.thin_layer_m = Some(0.002);
    worn.rapping.hammer_mass_kg = Some(6.0);
    worn.rapping.hammer_drop_m = Some(0.5);
    worn.rapping.shaft_speed_per_s = 0.2 / 60.0;
    worn
}

/// Something that is done to a collector.
#[derive(Clone, Debug)]
enum Deed {
    Run(f64),
    Change(usize),
    RapNow(usize),
    Read,
}

fn deed() -> impl Strategy<Value = Deed> {
    prop_oneof![
        (0.0..40.0_f64).prop_map(|hours| Deed::Run(3600.0 * hours)),
        (0..FAULTS.len() + 3).prop_map(Deed::Change),
        (0..4_usize).prop_map(Deed::RapNow),
        Just(Deed::Read),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn inlet_is_the_sum_of_all_accounts_after_any_deeds(deeds in prop::collection::vec(deed(), 1..24)) {
        let (sound, rates) = &machines()[0];
        let mut plant = Plant::new(sound, rates.clone()).expect("possible");
        let (mut emitted_kg, mut read_at_s) = (0.0, 0.0);
        let mut present = sound;
        for deed in deeds {
            match deed {
                Deed::Run(time_s) => plant.run(time_s).expect("possible"),
                Deed::Change(machine) => {
                    // What left under the old conditions is read before they change.
                    emitted_kg += read_kg(&mut plant, present, &mut read_at_s);
                    let (conditions, rates) = &machines()[machine];
                    plant.change(conditions, rates.clone()).expect("the same machine");
                    present = conditions;
                }
                Deed::RapNow(field) => plant.rap_now(field).expect("a field"),
                Deed::Read => emitted_kg += read_kg(&mut plant, present, &mut read_at_s),
            }
            let ledger = plant.ledger();
            prop_assert!(ledger.imbalance() <= 1e-9, "{ledger:?}");
            // Nothing flies on the plant clock: what came in has been caught or has left.
            let flying_kg = ledger.kg(Account::Airborne).abs();
            prop_assert!(flying_kg <= 1e-9 * ledger.kg(Account::Inlet).max(1.0), "{ledger:?}");
            for account in [Account::Layers, Account::Hoppers, Account::TakenAway, Account::Outlet] {
                prop_assert!(ledger.kg(account) >= -1e-6, "{account:?}: {ledger:?}");
            }
        }
        emitted_kg += read_kg(&mut plant, present, &mut read_at_s);
        let booked_kg = plant.ledger().kg(Account::Outlet);
        prop_assert!((emitted_kg - booked_kg).abs() <= 1e-9 * booked_kg.max(1.0), "{emitted_kg} and {booked_kg} kg");
        // Layers, hoppers and silo hold by place and by size what the books say.
        let reading = plant.reading().expect("possible");
        let fields = reading.fields.iter();
        let ash = &reading.ash;
        for (held_kg, account) in [
            (fields.clone().map(|field| field.layer_kg).sum::<f64>(), Account::Layers),
            (fields.map(|field| field.hopper_kg).sum(), Account::Hoppers),
            (ash.silo_kg, Account::TakenAway),
            (ash.sold_kg + ash.disposed_kg, Account::TakenAway),
        ] {
            let booked_kg = plant.ledger().kg(account);
            let inlet_kg = plant.ledger().kg(Account::Inlet).max(1.0);
            prop_assert!((held_kg - booked_kg).abs() <= 1e-9 * inlet_kg, "{account:?}: {held_kg} and {booked_kg} kg");
        }
    }
}

/// Dust that a reading says has left since the one before, kg: its mean load times the gas of that time.
fn read_kg(plant: &mut Plant, conditions: &Conditions, read_at_s: &mut f64) -> f64 {
    let reading = plant.reading().expect("possible");
    let gas_m3 = conditions.gas.flow_m3_s * (reading.time_s - *read_at_s);
    *read_at_s = reading.time_s;
    reading.emission_kg_m3 * gas_m3
}
