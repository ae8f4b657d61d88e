//! `ashlane simulate`: one count through the whole collector, beside the theory.

mod ash;
mod gas;
mod json;
mod plant;
mod report;
mod tables;

use ashlane_shared::{
    checks::{Agreement, Verdict, agreement},
    conditions::Conditions,
    count::{Count, CountResult, Emission, emission},
    physics::PhysicsError,
    simulation::{GasAlong, gas_along},
    theory::{self, Theory},
    with_threads,
};

use super::{
    CHECK_FAILED, FINE, Failure, Io, Opened, counting, open, output::GoOn, words::SimulateWords,
};

pub(super) use report::report;

/// What to count.
#[derive(Clone, Copy, Debug)]
pub(super) struct Request {
    pub(super) parcels: usize,
    pub(super) seed: u64,
    pub(super) threads: Option<usize>,
}

/// A finished count with the theory of the same conditions.
#[derive(Clone, Debug)]
pub(super) struct Simulated {
    name: String,
    conditions: Conditions,
    seed: u64,
    count: CountResult,
    theory: Theory,
    agreement: Agreement,
    gas_along: GasAlong,
    /// How even the gas is and what the collector takes, in words.
    gas_path: String,
    emission: Emission,
}

pub(super) fn simulate(words: &SimulateWords, io: &mut Io<'_>) -> Result<u8, Failure> {
    let mut opened = open::open(&words.sheet)?;
    if let Some(hours) = words.hours {
        return plant::plant(words, hours, &opened, io);
    }
    for set in &words.faults {
        if set.from_s > 0.0 || set.to_s.is_some() {
            return Err(Failure::Plant(format!(
                "--fault {}: an hour is of the plant clock; add --hours, or leave the hour out",
                set.fault.name
            )));
        }
        opened.name += &format!(", fault {} of severity {}", set.fault.name, set.severity);
        let conditions = &mut opened.sheet.conditions;
        *conditions = set
            .strike(conditions, words.seed)
            .map_err(|error| Failure::Physics {
                name: opened.name.clone(),
                error,
            })?;
    }
    let request = Request {
        parcels: words.parcels,
        seed: words.seed,
        threads: words.threads,
    };
    let simulated = Simulated::new(&opened, &request, (io.err_is_terminal, io.go_on))?;
    let text = if words.json {
        json::json(&simulated)?
    } else {
        report(&simulated)
    };
    io.print(&text)?;
    Ok(simulated.exit_code())
}

impl Simulated {
    /// Counts and solves.
    pub(super) fn new(
        opened: &Opened,
        request: &Request,
        (err_is_terminal, go_on): (bool, GoOn<'_>),
    ) -> Result<Self, Failure> {
        let conditions = &opened.sheet.conditions;
        let impossible = |error: PhysicsError| Failure::Physics {
            name: opened.name.clone(),
            error,
        };
        let prepared = Count::new(conditions, request.parcels, request.seed).map_err(impossible)?;
        let theory = theory::solve(conditions).map_err(impossible)?;
        let bar =
            counting::bar(err_is_terminal, conditions, request.parcels).map_err(impossible)?;
        let count = with_threads(request.threads, || {
            counting::run_while(prepared, &bar, go_on)
        })?;
        let count = count.ok_or(Failure::Cancelled)?;
        let gas_along = gas_along(conditions).map_err(impossible)?;
        Ok(Self {
            name: opened.name.clone(),
            conditions: conditions.clone(),
            seed: request.seed,
            gas_path: gas::gas_path(conditions, &gas_along, request.seed).map_err(impossible)?,
            gas_along,
            emission: emission(conditions, &count).map_err(impossible)?,
            agreement: agreement(&count, &theory),
            count,
            theory,
        })
    }

    /// 1 if count and solver disagree.
    pub(super) fn exit_code(&self) -> u8 {
        match self.agreement.verdict {
            Verdict::Agree => FINE,
            Verdict::Disagree => CHECK_FAILED,
        }
    }

    /// Share of the inlet mass that all fields caught.
    fn caught(&self) -> f64 {
        let fields = self.count.by_field.iter();
        fields.map(|field| field.collected).sum()
    }

    /// Plate area of one field, m².
    fn field_area_m2(&self) -> f64 {
        self.conditions.collecting_area_m2() / self.conditions.collector.fields as f64
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_count_that_disagrees_ends_with_exit_code_one() {
        let opened = open::demonstration().expect("the demonstration");
        let request = Request {
            parcels: 20_000,
            seed: 1,
            threads: None,
        };
        let mut simulated = Simulated::new(&opened, &request, (false, &|| true)).expect("possible");
        assert_eq!(simulated.exit_code(), FINE);
        assert!(report(&simulated).contains("agree"));
        simulated.theory.finite_mixing *= 2.0;
        simulated.agreement = agreement(&simulated.count, &simulated.theory);
        assert_eq!(simulated.exit_code(), CHECK_FAILED);
        assert!(report(&simulated).contains("DISAGREE"));
        assert!(
            json::json(&simulated)
                .expect("finite")
                .contains("\"disagree\"")
        );
    }
}
