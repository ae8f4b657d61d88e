//! What is due again: spaced repetition over days, as a function of the attempts and of today.
//!
//! Spacing a repetition helps more than repeating at once (Latimier et al. 2021, g = 0.74, training.md 6.8). How far
//! apart they lie is a teaching setting of our own without a source (training.md 1, J15): 1 day, 7 days, then 30 days
//! again and again. A repetition moves on when it was due and all of it was right; with something wrong it begins again
//! at a day. One made before it was due is practice: it moves nothing on.

use super::{Attempt, Attempts, Day, Record};

/// Days to the first, the second and every further repetition. Teaching setting, no source.
pub const INTERVALS_DAYS: [u32; 3] = [1, 7, 30];

/// A lesson to do again.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Due {
    /// The lesson.
    pub lesson: String,
    /// The day from which on it is due.
    pub since: Day,
    /// Days that lie between the repetition before and this one.
    pub after_days: u32,
    /// Steps that were wrong the last time.
    pub wrong_steps: Vec<String>,
}

/// How a learner stands with a lesson.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Nothing was done.
    NotBegun,
    /// Begun and not yet at its end.
    Begun,
    /// At its end; to be done again from this day on.
    Done {
        /// When it is due.
        again: Day,
    },
    /// To be done again.
    Due(Due),
}

/// Where a learner is on the way from one interval to the next.
#[derive(Clone, Copy, Debug)]
struct Stage {
    /// Which interval.
    interval: usize,
    /// When it is over.
    due: Day,
}

impl Stage {
    fn begin(day: Day, interval: usize) -> Self {
        Self {
            interval,
            due: day.plus(INTERVALS_DAYS[interval]),
        }
    }

    fn after(self, attempt: &Attempt) -> Self {
        if attempt.wrong_steps().next().is_some() {
            Self::begin(attempt.day, 0)
        } else if attempt.day >= self.due {
            Self::begin(
                attempt.day,
                (self.interval + 1).min(INTERVALS_DAYS.len() - 1),
            )
        } else {
            self
        }
    }
}

/// The stage after all finished attempts; nothing if there is none.
fn stage(attempts: &Attempts) -> Option<Stage> {
    let mut finished = attempts.finished();
    let first = Stage::begin(finished.next()?.day, 0);
    Some(finished.fold(first, Stage::after))
}

/// How a learner stands with a lesson.
#[must_use]
pub fn standing(record: Option<&Record>, today: Day) -> Standing {
    let Some(record) = record else {
        return Standing::NotBegun;
    };
    match stage(&record.attempts) {
        Some(stage) if stage.due <= today => {
            let last = record.attempts.finished().last();
            Standing::Due(Due {
                lesson: record.lesson.clone(),
                since: stage.due,
                after_days: INTERVALS_DAYS[stage.interval],
                wrong_steps: last
                    .map(|last| last.wrong_steps().map(str::to_owned).collect())
                    .unwrap_or_default(),
            })
        }
        Some(stage) => Standing::Done { again: stage.due },
        None if record.is_begun() => Standing::Begun,
        None => Standing::NotBegun,
    }
}

/// Every lesson that is due today, the one that has waited longest first.
#[must_use]
pub fn due<'r>(records: impl IntoIterator<Item = &'r Record>, today: Day) -> Vec<Due> {
    let mut due: Vec<Due> = records
        .into_iter()
        .filter_map(|record| match standing(Some(record), today) {
            Standing::Due(due) => Some(due),
            _ => None,
        })
        .collect();
    due.sort_by(|one, other| (one.since, &one.lesson).cmp(&(other.since, &other.lesson)));
    due
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::{Answer, Given, Outcome};

    fn day(text: &str) -> Day {
        text.parse().expect("a day")
    }

    fn attempt(text: &str, finished: bool, right: bool) -> Attempt {
        let step = Outcome {
            step: "first".to_owned(),
            given: Given {
                answer: Answer::Number(1.0),
                confidence: None,
            },
            right: Some(right),
            misconception: None,
        };
        Attempt {
            day: day(text),
            revision: 1,
            finished,
            steps: vec![step],
            competencies: Vec::new(),
        }
    }

    fn record(lesson: &str, attempts: &[(&str, bool, bool)]) -> Record {
        let mut record = Record::new(lesson, 1);
        for &(day, finished, right) in attempts {
            record.attempts.add(attempt(day, finished, right));
        }
        record
    }

    /// The day on which it is due, and after how many days.
    fn next(attempts: &[(&str, bool, bool)]) -> (String, u32) {
        let record = record("L5", attempts);
        let due = standing(Some(&record), day("2099-01-01"));
        let Standing::Due(due) = due else {
            panic!("never due: {due:?}")
        };
        // The day before it is not.
        let before = (0..).map(|days| day("2026-01-01").plus(days));
        let last_free = before
            .take_while(|&today| today < due.since)
            .last()
            .expect("a day before");
        let again = Standing::Done { again: due.since };
        assert_eq!(standing(Some(&record), last_free), again);
        (due.since.to_string(), due.after_days)
    }

    #[test]
    fn repetitions_lie_1_7_and_30_days_apart() {
        let (first, second, third, fourth) =
            ("2026-03-01", "2026-03-02", "2026-03-10", "2026-04-09");
        let all = [first, second, third, fourth].map(|day| (day, true, true));
        assert_eq!(next(&all[..1]), ("2026-03-02".to_owned(), 1));
        assert_eq!(next(&all[..2]), ("2026-03-09".to_owned(), 7));
        assert_eq!(next(&all[..3]), ("2026-04-09".to_owned(), 30));
        assert_eq!(next(&all), ("2026-05-09".to_owned(), 30));
    }

    #[test]
    fn what_is_wrong_begins_again_and_what_is_early_moves_nothing() {
        let right = |day| (day, true, true);
        // Wrong in the first try is what predictions are for.
        assert_eq!(
            next(&[("2026-03-01", true, false)]),
            ("2026-03-02".to_owned(), 1)
        );
        let wrong = [
            right("2026-03-01"),
            right("2026-03-02"),
            ("2026-03-09", true, false),
        ];
        assert_eq!(next(&wrong), ("2026-03-10".to_owned(), 1));
        let early = [
            right("2026-03-01"),
            right("2026-03-02"),
            right("2026-03-05"),
        ];
        assert_eq!(next(&early), ("2026-03-09".to_owned(), 7));
        let wrong_early = [
            right("2026-03-01"),
            right("2026-03-02"),
            ("2026-03-05", true, false),
        ];
        assert_eq!(next(&wrong_early), ("2026-03-06".to_owned(), 1));
        // Broken off is no repetition.
        let broken = [right("2026-03-01"), ("2026-03-02", false, true)];
        assert_eq!(next(&broken), ("2026-03-02".to_owned(), 1));
        // A clock that was set back.
        assert_eq!(
            next(&[right("2026-03-05"), right("2026-03-01")]),
            ("2026-03-06".to_owned(), 1)
        );
    }

    #[test]
    fn the_longest_wait_comes_first_with_what_was_wrong() {
        let records = [
            record("L2", &[("2026-03-04", true, true)]),
            record("L3", &[("2026-03-02", true, false)]),
            record("L4", &[("2026-03-05", true, true)]),
            record("L5", &[("2026-03-01", false, true)]),
            record("L6", &[]),
        ];
        let due = due(&records, day("2026-03-05"));
        let found: Vec<(&str, &[String])> = due
            .iter()
            .map(|due| (due.lesson.as_str(), due.wrong_steps.as_slice()))
            .collect();
        assert_eq!(found, [("L3", &["first".to_owned()][..]), ("L2", &[][..])]);
        let today = day("2026-03-05");
        assert_eq!(standing(Some(&records[3]), today), Standing::Begun);
        assert_eq!(standing(Some(&records[4]), today), Standing::NotBegun);
        assert_eq!(standing(None, today), Standing::NotBegun);
    }
}
