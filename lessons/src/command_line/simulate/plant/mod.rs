//! `simulate --hours`: the same collector on the plant clock, with layers, raps and hoppers, as a table over time.

mod csv;
mod phases;
mod report;
mod sections;

use ashlane_shared::{
    checks::LongRun,
    conditions::Conditions,
    physics::PhysicsError,
    plant::{Plant, PlantReading, Rates},
    simulation::{Account, GasAlong, Ledger, gas_along},
    theory,
};
use serde::Serialize;

use crate::{
    command_line::{
        CHECK_FAILED, FINE, Failure, GoOn, Io, Opened, output::one_object, place::place,
        words::SimulateWords,
    },
    engine::NOTICE,
    faults::SetFault,
};
use phases::{Phase, counted, phases};
use sections::{Sections, sections};

const HOUR_S: f64 = 3600.0;
/// Most rows of the table over time.
const MOST_ROWS: f64 = 100_000.0;

/// A run on the plant clock.
#[derive(Serialize)]
pub(super) struct PlantRun<'s> {
    notice: &'static str,
    conditions: &'s Conditions,
    faults: Vec<SetTo>,
    parcels: usize,
    seed: u64,
    hours: f64,
    check: LongRun,
    mass_kg: Mass,
    mass_relative_error: f64,
    #[serde(flatten)]
    sections: Sections,
    gas_path: GasAlong,
    readings: Vec<PlantReading>,
}

/// A fault that was set.
#[derive(Serialize)]
struct SetTo {
    name: &'static str,
    severity: f64,
    from_s: f64,
    to_s: Option<f64>,
}

impl SetTo {
    fn new(set: &SetFault) -> Self {
        Self {
            name: set.fault.name,
            severity: set.severity,
            from_s: set.from_s,
            to_s: set.to_s,
        }
    }
}

#[derive(Serialize)]
struct Mass {
    inlet: f64,
    airborne: f64,
    layers: f64,
    hoppers: f64,
    taken_away: f64,
    outlet: f64,
}

/// Runs the plant clock.
pub(super) fn plant(
    words: &SimulateWords,
    hours: f64,
    opened: &Opened,
    io: &mut Io<'_>,
) -> Result<u8, Failure> {
    let every_s = words.every_s.unwrap_or(hours * HOUR_S / 24.0);
    let rows = (hours * HOUR_S / every_s).ceil();
    if rows > MOST_ROWS {
        return Err(Failure::Plant(format!(
            "--every: {hours} hours would give {rows} rows, at most {MOST_ROWS} are written; take a longer time"
        )));
    }
    if let Some(path) = &words.csv {
        place(path)?;
    }
    let conditions = &opened.sheet.conditions;
    let impossible = |error: PhysicsError| Failure::Physics {
        name: opened.name.clone(),
        error,
    };
    let phases = phases(words, conditions).map_err(impossible)?;
    let counted = counted(words, phases, io)?.map_err(impossible)?;
    let run = run(words, (hours, every_s), (conditions, counted), io.go_on).map_err(impossible)?;
    let run = run.ok_or(Failure::Cancelled)?;
    if let Some(path) = &words.csv {
        csv::write(path, &run.readings)?;
    }
    let text = if words.json {
        one_object(&run)?
    } else {
        report::report(&run, opened)
    };
    io.print(&text)?;
    Ok(if run.check.agrees { FINE } else { CHECK_FAILED })
}

/// Runs the clock; nothing where it was cancelled.
fn run<'s>(
    words: &SimulateWords,
    (hours, every_s): (f64, f64),
    (conditions, phases): (&'s Conditions, Vec<Phase<Rates>>),
    go_on: GoOn<'_>,
) -> Result<Option<PlantRun<'s>>, PhysicsError> {
    let end_s = hours * HOUR_S;
    let mut phases = phases
        .into_iter()
        .take_while(|phase| phase.from_s <= end_s)
        .peekable();
    let Some(first) = phases.next() else {
        return Err(PhysicsError::WrongLength {
            argument: "phases",
            got: 0,
            expected: 1,
        });
    };
    let mut last = (first.conditions.clone(), first.rates.clone());
    let mut plant = Plant::new(&first.conditions, first.rates)?;
    let mut readings = vec![plant.reading()?];
    while plant.time_s() < end_s {
        let until_s = (plant.time_s() + every_s).min(end_s);
        while let Some(phase) = phases.next_if(|phase| phase.from_s < until_s) {
            plant.run(phase.from_s - plant.time_s())?;
            plant.change(&phase.conditions, phase.rates.clone())?;
            last = (phase.conditions, phase.rates);
        }
        plant.run(until_s - plant.time_s())?;
        if !go_on() {
            return Ok(None);
        }
        readings.push(plant.reading()?);
    }
    let (present, rates) = last;
    let sections = match readings.last() {
        Some(reading) => sections(reading, &present, &rates),
        None => Sections::default(),
    };
    Ok(Some(PlantRun {
        notice: NOTICE,
        conditions,
        faults: words.faults.iter().map(SetTo::new).collect(),
        parcels: words.parcels,
        seed: words.seed,
        hours,
        check: LongRun::new(&present, &rates, words.parcels, &theory::solve(&present)?),
        mass_kg: mass(plant.ledger()),
        mass_relative_error: plant.ledger().imbalance(),
        sections,
        gas_path: gas_along(&present)?,
        readings,
    }))
}

fn mass(ledger: &Ledger) -> Mass {
    Mass {
        inlet: ledger.kg(Account::Inlet),
        airborne: ledger.kg(Account::Airborne),
        layers: ledger.kg(Account::Layers),
        hoppers: ledger.kg(Account::Hoppers),
        taken_away: ledger.kg(Account::TakenAway),
        outlet: ledger.kg(Account::Outlet),
    }
}
