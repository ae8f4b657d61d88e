//! The conditions over the hours: sound, with faults, and sound again, each with the rates that were counted for it.

use ashlane_shared::{conditions::Conditions, physics::PhysicsError, plant::Rates, with_threads};

use crate::{
    command_line::{Failure, Io, counting, words::SimulateWords},
    faults::struck_at,
};

/// Conditions that hold from a time on, with their rates once they are counted.
pub(super) struct Phase<R> {
    pub(super) from_s: f64,
    pub(super) conditions: Conditions,
    pub(super) rates: R,
}

/// The conditions from each time on at which a fault begins or ends.
pub(super) fn phases(
    words: &SimulateWords,
    conditions: &Conditions,
) -> Result<Vec<Phase<()>>, PhysicsError> {
    let begins = words.faults.iter().map(|set| set.from_s);
    let ends = words.faults.iter().filter_map(|set| set.to_s);
    let mut times_s: Vec<f64> = begins.chain(ends).chain([0.0]).collect();
    times_s.sort_by(f64::total_cmp);
    times_s.dedup();
    let phase = |from_s: f64| {
        let struck = struck_at(&words.faults, conditions, words.seed, from_s)?;
        Ok(Phase {
            from_s,
            conditions: struck,
            rates: (),
        })
    };
    times_s.into_iter().map(phase).collect()
}

/// Counts the rates of every phase, with a bar where somebody waits; conditions that come back are not counted again.
pub(super) fn counted(
    words: &SimulateWords,
    phases: Vec<Phase<()>>,
    io: &Io<'_>,
) -> Result<Result<Vec<Phase<Rates>>, PhysicsError>, Failure> {
    let (err_is_terminal, go_on) = (io.err_is_terminal, io.go_on);
    let count = || {
        let mut counted: Vec<Phase<Rates>> = Vec::with_capacity(phases.len());
        for phase in phases {
            let known = counted
                .iter()
                .find(|known| known.conditions == phase.conditions);
            let rates = match known {
                Some(known) => Some(known.rates.clone()),
                None => {
                    let bar = counting::bar(err_is_terminal, &phase.conditions, words.parcels)?;
                    let rates =
                        Rates::count(&phase.conditions, words.parcels, words.seed, |share| {
                            counting::show(&bar, share);
                            go_on()
                        })?;
                    bar.finish_and_clear();
                    rates
                }
            };
            let Some(rates) = rates else {
                return Ok(None);
            };
            counted.push(Phase {
                from_s: phase.from_s,
                conditions: phase.conditions,
                rates,
            });
        }
        Ok(Some(counted))
    };
    match with_threads(words.threads, count)? {
        Ok(Some(counted)) => Ok(Ok(counted)),
        Ok(None) => Err(Failure::Cancelled),
        Err(error) => Ok(Err(error)),
    }
}
