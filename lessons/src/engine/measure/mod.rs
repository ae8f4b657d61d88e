//! What is measured: counts of many parcels before and after the change, and each check with its formula and verdict.
//!
//! A [`Plan`] is plain data: whoever has threads runs its two counts and hands the results back for a [`Reading`].

mod instruments;
mod instruments_of_the_gas_path;
mod instruments_of_the_set;
mod plant_instruments;
mod plant_run;
mod quantity;
mod stack;
mod verdict;

use ashlane_shared::{
    checks::{Formula, OnPlant, Verdict},
    conditions::Conditions,
    count::{CountResult, Counted},
    physics::PhysicsError,
};
use serde::{Deserialize, Serialize};

use super::{Check, Moment, Segment, Work, WorkAct, WorkResult};

pub(super) use instruments::Instrument;
pub(super) use plant_run::{PlantRuns, RunOrder};
pub use quantity::{QUANTITIES, Quantity, QuantityRow};
pub use verdict::{Bound, CheckResult, RELATIONS, Relation};
pub(super) use verdict::{Expected, Read, judge, judge_reading};

/// Parcels of the count before, where no check needs it: enough to show.
const SHOWN_BEFORE: usize = 50_000;
/// Parcels of a count that no check needs.
const SHOWN: usize = 2_000;

/// One count to run.
#[derive(Clone, Debug, PartialEq)]
pub struct CountOrder {
    /// Conditions to count under.
    pub conditions: Conditions,
    /// Parcels to fly.
    pub parcels: usize,
    /// Seed.
    pub seed: u64,
}

/// The counts of one segment, and what to do with them.
#[derive(Clone, Debug)]
pub struct Plan {
    /// The segment.
    pub segment: String,
    /// At the start.
    pub before: CountOrder,
    /// At the target.
    pub after: CountOrder,
    checks: Vec<Check>,
    work: Option<(Work, Vec<WorkAct>)>,
}

/// A counted penetration with what it was counted from.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Measured {
    /// Penetration and its standard error.
    pub penetration: Counted,
    /// Parcels counted.
    pub parcels: u64,
    /// Seed of the count.
    pub seed: u64,
}

/// The outcome of a segment: number, formula, N, ± and tolerance together.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reading {
    /// The segment it belongs to.
    pub segment: String,
    /// At the start.
    pub before: Measured,
    /// At the target.
    pub after: Measured,
    /// Every check.
    pub checks: Vec<CheckResult>,
    /// What came of the work, where the segment has one.
    #[serde(default)]
    pub work: Option<WorkResult>,
}

impl Reading {
    /// Whether every check agrees.
    #[must_use]
    pub fn agrees(&self) -> bool {
        self.checks
            .iter()
            .all(|check| check.verdict == Verdict::Agree)
            && self.work.as_ref().is_none_or(WorkResult::agrees)
    }

    /// Whether a check looks at counted dust, so that its penetration is worth showing.
    #[must_use]
    pub fn is_about_dust(&self) -> bool {
        let counts = |check: &CheckResult| check.quantity.row().instrument.counts();
        self.checks.iter().any(counts)
    }
}

impl Plan {
    /// The plan of a segment; before and after are independent, so each has its own seed.
    pub(super) fn new(segment: &Segment, seed: u64, acts: &[WorkAct]) -> Self {
        let most = |checks: &mut dyn Iterator<Item = &Check>| {
            let flown = checks.filter(|check| check.quantity.row().instrument.counts());
            flown.map(|check| check.parcels).max().unwrap_or(0)
        };
        let parcels = most(&mut segment.checks.iter()).max(SHOWN);
        let needed = most(
            &mut segment
                .checks
                .iter()
                .filter(|check| check.quantity.needs_before()),
        );
        Self {
            segment: segment.id.clone(),
            before: CountOrder {
                conditions: segment.start.clone(),
                parcels: needed.max(parcels.min(SHOWN_BEFORE)),
                seed,
            },
            after: CountOrder {
                conditions: segment.target.clone(),
                parcels,
                seed: seed.wrapping_add(1),
            },
            checks: segment.checks.clone(),
            work: (segment.work.clone()).map(|work| (work, acts.to_vec())),
        }
    }

    /// Reads the finished counts of `before` and `after`.
    ///
    /// # Errors
    /// A formula refused the conditions.
    pub fn read(&self, before: &CountResult, after: &CountResult) -> Result<Reading, PhysicsError> {
        let counts = (before, after);
        let measured = |order: &CountOrder, count: &CountResult| Measured {
            penetration: count.penetration,
            parcels: count.parcels,
            seed: order.seed,
        };
        let (before, after) = (measured(&self.before, before), measured(&self.after, after));
        let mut formulas = Formulas::new(&self.before.conditions, &self.after.conditions);
        let mut runs = PlantRuns::new(self.run_order());
        let mut checks = Vec::with_capacity(self.checks.len());
        for check in &self.checks {
            let expected = formulas.expected(check)?;
            let instrument = check.quantity.row().instrument;
            checks.push(if let Instrument::WholeCount = instrument {
                judge(check, &expected, &before, &after)
            } else if let Instrument::Plant(_) = instrument {
                let [start, end] = read_runs(check, &mut runs)?;
                let read = Read {
                    before: Some(start.share).filter(|before| before.is_finite()),
                    measured: end,
                    parcels: check.parcels as u64,
                };
                judge_reading(check, &expected, read)
            } else {
                let (start, end) = (&self.before.conditions, &self.after.conditions);
                let read = Read {
                    before: Some(instrument.read(start, check.size_m, counts.0)?.share),
                    measured: instrument.read(end, check.size_m, counts.1)?,
                    parcels: if instrument.counts() {
                        after.parcels
                    } else {
                        0
                    },
                };
                judge_reading(check, &expected, read)
            });
        }
        let work = self.work.as_ref();
        let conditions = &self.before.conditions;
        let work = work.map(|(work, acts)| work.result(conditions, acts));
        Ok(Reading {
            work: work.transpose()?,
            segment: self.segment.clone(),
            before,
            after,
            checks,
        })
    }

    /// How the plant clock runs, where a check reads it.
    fn run_order(&self) -> RunOrder<'_> {
        let read = (self.checks.iter()).filter(|check| check.quantity.row().instrument.runs());
        RunOrder {
            before: &self.before.conditions,
            after: &self.after.conditions,
            parcels: read.map(|check| check.parcels).max().unwrap_or(1),
            seed: self.before.seed,
        }
    }
}

/// What a check reads off a plant without the change, and off one with it.
pub(super) fn read_runs(
    check: &Check,
    runs: &mut PlantRuns<'_>,
) -> Result<[Counted; 2], PhysicsError> {
    let impossible = || PhysicsError::Impossible {
        reason: "this check has no time on the plant clock".to_owned(),
    };
    let Instrument::Plant(read) = check.quantity.row().instrument else {
        return Err(impossible());
    };
    let field = check.field.unwrap_or(0);
    let [start, end] = runs.both(check.span.ok_or_else(impossible)?)?;
    Ok([read(start, field)?, read(end, field)?])
}

/// A formula, the moment it is evaluated at, and the diameter it is asked for.
type Asked = (&'static str, Moment, Option<f64>);

/// Formulas at the start and at the target, each computed once.
pub(super) struct Formulas<'a> {
    before: &'a Conditions,
    after: &'a Conditions,
    known: Vec<(Asked, f64)>,
}

impl<'a> Formulas<'a> {
    pub(super) fn new(before: &'a Conditions, after: &'a Conditions) -> Self {
        Self {
            before,
            after,
            known: Vec::new(),
        }
    }

    /// What a formula gives at a moment, for a diameter where it needs one.
    pub(super) fn value(
        &mut self,
        formula: &'static Formula,
        at: Moment,
        size_m: Option<f64>,
    ) -> Result<f64, PhysicsError> {
        let asked = (formula.name, at, size_m);
        let known = self.known.iter().find(|(known, _)| *known == asked);
        if let Some(&(_, value)) = known {
            return Ok(value);
        }
        let conditions = match at {
            Moment::Before => self.before,
            Moment::After => self.after,
        };
        let value = formula.value(conditions, size_m)?;
        self.known.push((asked, value));
        Ok(value)
    }

    /// Takes over what a formula without a diameter is known to give.
    pub(super) fn know(&mut self, formula: &'static Formula, at: Moment, value: f64) {
        self.known.push(((formula.name, at, None), value));
    }

    /// What a check expects.
    pub(super) fn expected(&mut self, check: &Check) -> Result<Expected, PhysicsError> {
        let lower = self.one(check, check.formula)?;
        let upper = match check.upper {
            Some(formula) => Some(self.one(check, formula)?),
            None => None,
        };
        Ok(Expected {
            lower,
            upper,
            inlet_ratio: self.inlet_ratio(),
        })
    }

    /// Dust that enters at the target over that at the start.
    fn inlet_ratio(&self) -> f64 {
        self.after.inlet_mass_kg_s() / self.before.inlet_mass_kg_s()
    }

    /// The quantity of a check, by one formula.
    fn one(&mut self, check: &Check, formula: &'static Formula) -> Result<Bound, PhysicsError> {
        let at = match check.span {
            Some(span) if formula.needs_plant() => formula.value_on_plant(&OnPlant {
                before: self.before,
                settle_s: span.settle_s,
                conditions: match check.formula_at {
                    Moment::Before => self.before,
                    Moment::After => self.after,
                },
                time_s: span.time_s,
                field: check.field.unwrap_or(0),
            })?,
            _ => self.value(formula, check.formula_at, check.size_m)?,
        };
        let before = if check.quantity.needs_before() {
            self.value(formula, Moment::Before, check.size_m)?
        } else {
            at
        };
        Ok(Bound {
            formula: formula.name.to_owned(),
            value: check.quantity.of(before, at, self.inlet_ratio()),
            stated: (check.tolerance * check.quantity.scale(before, at, self.inlet_ratio())).abs(),
        })
    }
}
