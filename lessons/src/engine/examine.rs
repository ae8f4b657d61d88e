//! Computes whether the checks of a lesson make sense, before anybody counts: the solver stands in for the count.
//!
//! A check that holds already before the change teaches nothing, and too few parcels cannot tell what it claims.

use ashlane_shared::{
    checks::{Verdict, find_formula, finite_mixing_penetration},
    conditions::{
        Conditions,
        sheet::{SheetErrors, SheetProblem, Trouble},
    },
    count::Counted,
    physics::PhysicsError,
    side_by_side,
};

use super::{
    Check, Lesson, Measured, Moment, Progress, Relation, Segment,
    measure::{
        Expected, Formulas, Instrument, PlantRuns, Read, RunOrder, judge, judge_reading, read_runs,
    },
};

/// Parcels with which the rates of a plant are counted here: enough to see what a check is about.
const FEW: usize = 20_000;
/// 3 σ may be at most so many times the stated tolerance.
const MOST_NOISE: f64 = 2.0;

/// Examines a lesson that was read; `name` stands for it in messages.
///
/// # Errors
/// Lists every check that does not make sense, with its line and what to do.
pub fn examine(name: &str, lesson: &Lesson) -> Result<(), SheetErrors> {
    let mut problems = Vec::new();
    let solved = Solved::of(lesson);
    for (index, segment) in lesson.segments.iter().enumerate() {
        let path = format!("segment {}", index + 1);
        if let Err(refused) = Progress::reaches(lesson, index) {
            let message = format!(
                "no learner gets to the end of this segment: {refused}; check its answer, free and change"
            );
            problems.push(problem(segment.line, path.clone(), message));
        }
        if let Err(error) = examine_segment(&path, (segment, lesson.seed), &solved, &mut problems) {
            let message = format!("this segment cannot be computed: {error}");
            problems.push(problem(segment.line, path, message));
        }
    }
    problems.sort_by_key(|problem| problem.line);
    if problems.is_empty() {
        Ok(())
    } else {
        Err(SheetErrors {
            file: name.to_owned(),
            problems,
            left_out: 0,
        })
    }
}

fn problem(line: Option<usize>, key: String, message: String) -> SheetProblem {
    SheetProblem {
        line,
        key,
        value: String::new(),
        trouble: Trouble::Clash(message),
    }
}

/// What a segment is before and after its change.
struct Stage<'s> {
    path: String,
    segment: &'s Segment,
    formulas: Formulas<'s>,
    /// Penetration by the solver, before and after; not a number where no check is about the whole count.
    solved: (f64, f64),
    runs: PlantRuns<'s>,
}

/// Penetrations by the solver, which takes long: moments that are alike are solved once, the others beside each other.
struct Solved<'l>(Vec<(&'l Conditions, Result<f64, PhysicsError>)>);

impl<'l> Solved<'l> {
    /// Solves every moment that a check of the whole count looks at.
    fn of(lesson: &'l Lesson) -> Self {
        let mut moments: Vec<&Conditions> = Vec::new();
        for segment in lesson.segments.iter().filter(|segment| is_whole(segment)) {
            for moment in [&segment.start, &segment.target] {
                if !moments.contains(&moment) {
                    moments.push(moment);
                }
            }
        }
        let solve = |moment| (moment, finite_mixing_penetration(moment));
        Self(side_by_side(&moments, |&moment| solve(moment)))
    }

    fn penetration(&self, conditions: &Conditions) -> Result<f64, PhysicsError> {
        let known = self.0.iter().find(|(known, _)| *known == conditions);
        known.map_or(Ok(f64::NAN), |(_, share)| share.clone())
    }
}

/// Whether a check of the segment is about the whole count.
fn is_whole(segment: &Segment) -> bool {
    let whole = |check: &Check| matches!(check.quantity.row().instrument, Instrument::WholeCount);
    segment.checks.iter().any(whole)
}

fn examine_segment(
    path: &str,
    (segment, seed): (&Segment, u64),
    solved: &Solved<'_>,
    problems: &mut Vec<SheetProblem>,
) -> Result<(), PhysicsError> {
    // Work proves itself through its own model when it is played.
    if segment.checks.is_empty() {
        return Ok(());
    }
    let mut formulas = Formulas::new(&segment.start, &segment.target);
    let (mut before, mut after) = (f64::NAN, f64::NAN);
    if is_whole(segment) {
        before = solved.penetration(&segment.start)?;
        after = solved.penetration(&segment.target)?;
        if let Some(solver) = find_formula("finite_mixing_penetration") {
            formulas.know(solver, Moment::Before, before);
            formulas.know(solver, Moment::After, after);
        }
    }
    let mut stage = Stage {
        path: path.to_owned(),
        segment,
        formulas,
        solved: (before, after),
        runs: PlantRuns::new(RunOrder {
            before: &segment.start,
            after: &segment.target,
            parcels: FEW,
            seed,
        }),
    };
    let checks = segment.checks.iter().enumerate();
    let holding: Vec<bool> = checks
        .map(|(index, check)| {
            stage
                .examine_check(index, check, problems)
                .unwrap_or_else(|error| {
                    // A size that the dust has not, or a formula that refuses, is told at its own line.
                    problems.push(problem(check.line, stage.path_of(index), error.to_string()));
                    false
                })
        })
        .collect();
    // A contrast to a formula may hold before, as long as it stands beside a check that does not.
    let all = holding.iter().all(|&holds| holds);
    for (index, check) in segment.checks.iter().enumerate() {
        let contrast = !matches!(check.relation, Relation::Equals | Relation::Between);
        if holding[index] && (all || !contrast) {
            let message = "this check holds already before the change, so that it shows nothing; change more, or check something else";
            problems.push(problem(
                check.line,
                stage.path_of(index),
                message.to_owned(),
            ));
        }
    }
    Ok(())
}

impl Stage<'_> {
    fn path_of(&self, check: usize) -> String {
        format!("{}.check {}", self.path, check + 1)
    }

    /// Whether a check holds already before the change; notes too few parcels.
    fn examine_check(
        &mut self,
        index: usize,
        check: &Check,
        problems: &mut Vec<SheetProblem>,
    ) -> Result<bool, PhysicsError> {
        let (before, after) = self.solved;
        let instrument = check.quantity.row().instrument;
        let whole = matches!(instrument, Instrument::WholeCount);
        let (start, end) = if whole {
            (zero(), zero())
        } else {
            self.readings(check)?
        };
        let expected = self.formulas.expected(check)?;
        let unchanged = if whole {
            judge(check, &expected, &exactly(before), &exactly(before))
        } else {
            judge_reading(check, &expected, without_chance(start))
        };
        let enough = if whole {
            more_parcels(check, &expected, (before, after))
        } else {
            more_for(check, stated_of(&expected), end.standard_error)
        };
        if let Some(parcels) = enough {
            let message = format!(
                "too few parcels: 3 σ is more than {MOST_NOISE} times the tolerance; count at least {parcels}"
            );
            let path = format!("{}.parcels", self.path_of(index));
            problems.push(problem(check.line, path, message));
        }
        Ok(unchanged.verdict == Verdict::Agree)
    }
}

impl Stage<'_> {
    /// What the instrument of a check would read at the start and at the target.
    fn readings(&mut self, check: &Check) -> Result<(Counted, Counted), PhysicsError> {
        let instrument = check.quantity.row().instrument;
        if instrument.runs() {
            let [start, mut end] = read_runs(check, &mut self.runs)?;
            end.standard_error *= (FEW as f64 / check.parcels as f64).sqrt();
            return Ok((start, end));
        }
        let read = |conditions| instrument.expected(conditions, check.size_m, check.parcels);
        Ok((read(&self.segment.start)?, read(&self.segment.target)?))
    }
}

/// Nothing, for what its own road tells.
fn zero() -> Counted {
    Counted {
        share: 0.0,
        standard_error: 0.0,
    }
}

/// What an instrument would read but for chance.
fn without_chance(read: Counted) -> Read {
    Read {
        before: None,
        measured: Counted {
            standard_error: 0.0,
            ..read
        },
        parcels: 0,
    }
}

/// A penetration without chance.
fn exactly(share: f64) -> Measured {
    Measured {
        penetration: Counted {
            share,
            standard_error: 0.0,
        },
        parcels: 0,
        seed: 0,
    }
}

/// Parcels that would do, where there are too few.
fn more_parcels(check: &Check, expected: &Expected, (before, after): (f64, f64)) -> Option<u64> {
    let parcels = check.parcels as f64;
    let counted = |share: f64| Counted {
        share,
        standard_error: (share * (1.0 - share) / parcels).sqrt(),
    };
    let noise = check
        .quantity
        .measured(counted(before), counted(after), expected.inlet_ratio);
    more_for(check, stated_of(expected), noise.standard_error)
}

/// The larger of the stated tolerances.
fn stated_of(expected: &Expected) -> f64 {
    let upper = expected.upper.as_ref().map_or(0.0, |upper| upper.stated);
    expected.lower.stated.max(upper)
}

/// Parcels that would do for a smaller error than this one.
fn more_for(check: &Check, stated: f64, standard_error: f64) -> Option<u64> {
    let excess = 3.0 * standard_error / (MOST_NOISE * stated);
    // σ falls as 1/√N; rounded up to a number people would write.
    (excess > 1.0 && excess.is_finite()).then(|| {
        let needed = check.parcels as f64 * excess * excess;
        let step = 10f64.powf(needed.log10().floor() - 1.0);
        ((needed / step).ceil() * step) as u64
    })
}
