//! The numbers behind the figures and checks of a lesson as comma-separated values, in SI units.

use ashlane_lessons::engine::{CheckResult, NOTICE, PlayedLesson};
use ashlane_shared::{count::CountResult, theory::Theory};

use super::Handout;
use crate::csv::rows;

/// What a chart of one moment shows.
#[derive(Clone, Copy, Debug)]
pub struct Along<'a> {
    /// The count.
    pub count: &'a CountResult,
    /// The theory of the same conditions.
    pub theory: &'a Theory,
}

/// Head of the table.
const HEAD: &str = "segment,moment,quantity,place,measured,standard_error,finite_mixing,deutsch_anderson,laminar,formula";

/// All numbers: of each segment the charts before and after, where there are any, and the checks.
#[must_use]
pub fn data(handout: &Handout<'_>, moments: &[Option<[Along<'_>; 2]>]) -> String {
    let lesson = handout.lesson;
    let mut text = format!(
        "# {NOTICE}\n# {} {}: revision {}; SI units\n{HEAD}\n",
        lesson.id,
        lesson.title.replace(',', ";"),
        lesson.revision
    );
    for (index, segment) in lesson.segments.iter().enumerate() {
        if let Some(Some(both)) = moments.get(index) {
            for (moment, along) in ["before", "after"].into_iter().zip(both) {
                for row in rows(along.count, along.theory).lines() {
                    text.push_str(&format!("{},{moment},{row},\n", segment.id));
                }
            }
        }
        text.push_str(&checks(handout.played, index, &segment.id));
    }
    text
}

/// What was measured at the target, beside its formula.
fn checks(played: &PlayedLesson, index: usize, segment: &str) -> String {
    let step = played.steps.get(index);
    let reading = step.and_then(|step| step.reading.as_ref());
    let checks = reading
        .map(|reading| reading.checks.as_slice())
        .unwrap_or_default();
    let line = |check: &CheckResult| {
        let place = check
            .size_m
            .map_or_else(String::new, |size_m| size_m.to_string());
        format!(
            "{segment},check,{}_against_{},{place},{},{},,,,{}\n",
            check.quantity.name(),
            check.formula.formula,
            check.measured,
            check.standard_error,
            check.formula.value
        )
    };
    checks.iter().map(line).collect()
}
