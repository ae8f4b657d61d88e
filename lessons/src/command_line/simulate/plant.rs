//! `simulate --hours`: the same collector on the plant clock, with layers, raps and hoppers, as a table over time.

use std::path::Path;

use ashlane_shared::{
    checks::LongRun,
    conditions::{Conditions, sheet::write_atomically},
    physics::PhysicsError,
    plant::{Plant, PlantReading, Rates},
    simulation::{Account, Ledger},
    theory, with_threads,
};
use serde::Serialize;

use super::{ash::ash, tables::plant_table};
use crate::{
    command_line::{
        CHECK_FAILED, FINE, Failure, Io, Opened, counting,
        numbers::{percent_short, thousands},
        output::one_object,
        place::place,
        words::SimulateWords,
    },
    engine::NOTICE,
    faults::SetFault,
};

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
    pub(super) readings: Vec<PlantReading>,
}

/// A fault that was set.
#[derive(Serialize)]
struct SetTo {
    name: &'static str,
    severity: f64,
    from_s: f64,
}

impl SetTo {
    fn new(set: &SetFault) -> Self {
        Self {
            name: set.fault.name,
            severity: set.severity,
            from_s: set.from_s,
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
    let counted = counted(words, &phases, io.err_is_terminal)?.map_err(impossible)?;
    let run = run(words, hours, every_s, (conditions, counted)).map_err(impossible)?;
    if let Some(path) = &words.csv {
        write(path, &run.readings)?;
    }
    let text = if words.json {
        one_object(&run)?
    } else {
        report(&run, opened)
    };
    io.print(&text)?;
    Ok(if run.check.agrees { FINE } else { CHECK_FAILED })
}

/// Conditions that hold from a time on, with their rates once they are counted.
struct Phase<R> {
    from_s: f64,
    conditions: Conditions,
    rates: R,
}

/// The conditions from each time on at which a fault begins.
fn phases(words: &SimulateWords, conditions: &Conditions) -> Result<Vec<Phase<()>>, PhysicsError> {
    let mut times_s: Vec<f64> = words.faults.iter().map(|set| set.from_s).collect();
    times_s.push(0.0);
    times_s.sort_by(f64::total_cmp);
    times_s.dedup();
    let phase = |from_s: f64| {
        let begun = words.faults.iter().filter(|set| set.from_s <= from_s);
        let struck = begun.clone().try_fold(conditions.clone(), |struck, set| {
            set.strike(&struck, words.seed)
        });
        Ok(Phase {
            from_s,
            conditions: struck?,
            rates: (),
        })
    };
    times_s.into_iter().map(phase).collect()
}

/// Counts the rates of every phase, with a bar where somebody waits.
fn counted(
    words: &SimulateWords,
    phases: &[Phase<()>],
    err_is_terminal: bool,
) -> Result<Result<Vec<Phase<Rates>>, PhysicsError>, Failure> {
    let count = || {
        let mut counted = Vec::with_capacity(phases.len());
        for phase in phases {
            let conditions = &phase.conditions;
            let bar = counting::bar(err_is_terminal, conditions, words.parcels)?;
            let rates = Rates::count(conditions, words.parcels, words.seed, |share| {
                counting::show(&bar, share);
                true
            })?;
            bar.finish_and_clear();
            counted.extend(rates.map(|rates| Phase {
                from_s: phase.from_s,
                conditions: conditions.clone(),
                rates,
            }));
        }
        Ok(counted)
    };
    Ok(with_threads(words.threads, count)?)
}

fn run<'s>(
    words: &SimulateWords,
    hours: f64,
    every_s: f64,
    (conditions, phases): (&'s Conditions, Vec<Phase<Rates>>),
) -> Result<PlantRun<'s>, PhysicsError> {
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
        readings.push(plant.reading()?);
    }
    let (present, rates) = last;
    Ok(PlantRun {
        notice: NOTICE,
        conditions,
        faults: words.faults.iter().map(SetTo::new).collect(),
        parcels: words.parcels,
        seed: words.seed,
        hours,
        check: LongRun::new(&present, &rates, words.parcels, &theory::solve(&present)?),
        mass_kg: mass(plant.ledger()),
        mass_relative_error: plant.ledger().imbalance(),
        readings,
    })
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

fn report(run: &PlantRun<'_>, opened: &Opened) -> String {
    // What is left of rounding is nothing.
    let tonnes = |kg: f64| format!("{:.3} t", kg.round().max(0.0) / 1e3);
    let mass = &run.mass_kg;
    let word = if run.check.agrees {
        "agree"
    } else {
        "DISAGREE"
    };
    format!(
        "{} ({}), {} h on the plant clock\n{NOTICE}\n\n{}\n\
         {}{}Long run as it stands at the end: {} % penetration ({} % efficiency) by the counted rates with their raps, {} % by the solver with a steady loss: {word} within {} %.\n\
         N = {}, seed {}. Plates are struck group by group; layers do not act on the voltage yet.\n\
         mg/m³ of gas as it is; opacity in a stack of 5 m (invented).\n{}\n\
         Mass balance: in {}, on the plates {}, in the hoppers {}, taken away {}, out {}.\n\
         The books are off by {:.0e} of the inlet.\n",
        run.conditions.title,
        opened.name,
        run.hours,
        plant_table(&run.readings),
        layers(run.readings.last()),
        faults(&run.faults),
        percent_short(run.check.by_rates),
        percent_short(1.0 - run.check.by_rates),
        percent_short(run.check.finite_mixing),
        percent_short(run.check.tolerance),
        thousands(run.parcels as u64),
        run.seed,
        ash(run.conditions, &run.readings),
        tonnes(mass.inlet),
        tonnes(mass.layers),
        tonnes(mass.hoppers),
        tonnes(mass.taken_away),
        tonnes(mass.outlet),
        run.mass_relative_error,
    )
}

/// What the current does in the layers at the end.
fn layers(reading: Option<&PlantReading>) -> String {
    let fields = reading.map(|reading| reading.fields.as_slice());
    let words: Vec<String> = fields
        .unwrap_or_default()
        .iter()
        .enumerate()
        .map(|(field, layer)| {
            let back = if layer.back_corona {
                ", BACK CORONA"
            } else {
                ""
            };
            format!(
                "field {} {:.2} kV/cm and {:.2} kV{back}",
                field + 1,
                layer.layer_field_v_m / 1e5,
                layer.layer_drop_v / 1e3
            )
        })
        .collect();
    format!(
        "In the layers at the end (E = jρ): {}.\n",
        words.join(" · ")
    )
}

/// A line for every fault.
fn faults(set: &[SetTo]) -> String {
    let line = |fault: &SetTo| {
        format!(
            "Fault {} of severity {} from hour {} on.\n",
            fault.name,
            fault.severity,
            fault.from_s / HOUR_S
        )
    };
    set.iter().map(line).collect()
}

/// Writes the whole table over time or nothing.
fn write(path: &Path, readings: &[PlantReading]) -> Result<(), Failure> {
    Ok(write_atomically(path, csv(readings))?)
}

fn csv(readings: &[PlantReading]) -> String {
    let fields = readings.first().map_or(0, |reading| reading.fields.len());
    let mut text =
        "time_s,penetration,emission_kg_m3,opacity,peak_opacity,silo_kg,money".to_owned();
    for field in 1..=fields {
        text += &format!(
            ",layer_m_{field},layer_kg_{field},layer_drop_v_{field},hopper_kg_{field},hopper_level_{field},hopper_alarm_s_{field},thickest_m_{field},wire_coating_m_{field}"
        );
    }
    text.push('\n');
    for reading in readings {
        text += &format!(
            "{},{:.6e},{:.6e},{:.6e},{:.6e},{:.6e},{:.2}",
            reading.time_s,
            reading.penetration,
            reading.emission_kg_m3,
            reading.opacity,
            reading.peak_opacity,
            reading.ash.silo_kg,
            reading.ash.money
        );
        for field in &reading.fields {
            text += &format!(
                ",{:.6e},{:.6e},{:.1},{:.6e},{:.6},{:.1},{:.6e},{:.6e}",
                field.layer_m,
                field.layer_kg,
                field.layer_drop_v,
                field.hopper_kg,
                field.hopper_level,
                field.hopper_alarm_s,
                field.thickest_m,
                field.wire_coating_m
            );
        }
        text.push('\n');
    }
    text
}
