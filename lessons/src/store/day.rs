//! A day of the calendar, handed in by whoever has a clock.

use std::{fmt, str::FromStr};

use serde::{Deserialize, Serialize};

/// Last year that is read.
const LAST_YEAR: u16 = 9999;

/// A day, written such as `2026-03-02`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Day {
    /// Days since 1 January 1970.
    since_1970: u32,
}

/// Not a day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("write a day from 1970-01-01 to 9999-12-31, such as 2026-03-02")]
pub struct WrongDay;

impl Day {
    /// A day of the calendar; nothing where there is no such day.
    #[must_use]
    pub fn new(year: u16, month: u8, day: u8) -> Option<Self> {
        let known = (1970..=LAST_YEAR).contains(&year) && (1..=12).contains(&month);
        if !known || day == 0 || day > days_of_month(year, month) {
            return None;
        }
        let months = (1..month).map(|month| u32::from(days_of_month(year, month)));
        let since_1970 =
            days_before(year) - days_before(1970) + months.sum::<u32>() + u32::from(day) - 1;
        Some(Self { since_1970 })
    }

    /// The day (UTC) of a time that a clock gives, s since 1970.
    #[must_use]
    pub fn of_unix_time(seconds: u64) -> Self {
        Self::of_number(u32::try_from(seconds / 86_400).unwrap_or(u32::MAX))
    }

    /// The day so many days later.
    #[must_use]
    pub fn plus(self, days: u32) -> Self {
        Self::of_number(self.since_1970.saturating_add(days))
    }

    /// The day of this number, or the last one.
    fn of_number(since_1970: u32) -> Self {
        Self {
            since_1970: since_1970.min(days_before(LAST_YEAR + 1) - days_before(1970) - 1),
        }
    }

    /// Days from another day to this one; 0 where that is later.
    #[must_use]
    pub fn days_since(self, other: Self) -> u32 {
        self.since_1970.saturating_sub(other.since_1970)
    }

    fn parts(self) -> (u16, u8, u8) {
        let mut left = self.since_1970;
        let mut year = 1970;
        while left >= u32::from(days_of_year(year)) {
            left -= u32::from(days_of_year(year));
            year += 1;
        }
        let mut month = 1;
        while left >= u32::from(days_of_month(year, month)) {
            left -= u32::from(days_of_month(year, month));
            month += 1;
        }
        (year, month, left as u8 + 1)
    }
}

fn is_leap(year: u16) -> bool {
    year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400))
}

fn days_of_year(year: u16) -> u16 {
    if is_leap(year) { 366 } else { 365 }
}

/// Days of all years before one.
fn days_before(year: u16) -> u32 {
    let past = u32::from(year) - 1;
    365 * past + past / 4 - past / 100 + past / 400
}

fn days_of_month(year: u16, month: u8) -> u8 {
    match month {
        2 if is_leap(year) => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

impl fmt::Display for Day {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (year, month, day) = self.parts();
        write!(out, "{year:04}-{month:02}-{day:02}")
    }
}

impl FromStr for Day {
    type Err = WrongDay;

    fn from_str(text: &str) -> Result<Self, WrongDay> {
        let parts: Vec<&str> = text.trim().split('-').collect();
        let [year, month, day] = parts.as_slice() else {
            return Err(WrongDay);
        };
        let plain = |part: &str, length: usize| {
            part.len() == length && part.bytes().all(|byte| byte.is_ascii_digit())
        };
        if !plain(year, 4) || !plain(month, 2) || !plain(day, 2) {
            return Err(WrongDay);
        }
        let read = (year.parse().ok(), month.parse().ok(), day.parse().ok());
        let (Some(year), Some(month), Some(day)) = read else {
            return Err(WrongDay);
        };
        Self::new(year, month, day).ok_or(WrongDay)
    }
}

impl TryFrom<String> for Day {
    type Error = WrongDay;

    fn try_from(text: String) -> Result<Self, WrongDay> {
        text.parse()
    }
}

impl From<Day> for String {
    fn from(day: Day) -> Self {
        day.to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_those_that_unix_counts() {
        // From `date -u -d DAY +%s` of GNU coreutils.
        for (text, seconds) in [
            ("1970-01-01", 0),
            ("2000-02-29", 951_782_400),
            ("2000-03-01", 951_868_800),
            ("2026-11-28", 1_795_824_000),
            ("2100-03-01", 4_107_542_400),
        ] {
            let day: Day = text.parse().expect(text);
            assert_eq!(day, Day::of_unix_time(seconds), "{text}");
            assert_eq!(day, Day::of_unix_time(seconds + 86_399), "{text}");
            assert_eq!(day.to_string(), text);
        }
        assert_eq!(Day::of_unix_time(u64::MAX).to_string(), "9999-12-31");
    }

    #[test]
    fn every_day_of_four_centuries_follows_the_one_before() {
        let mut day = Day::new(1970, 1, 1).expect("a day");
        for _ in 0..146_097 {
            let next = day.plus(1);
            assert_eq!(day.to_string().parse(), Ok(day));
            assert_eq!(next.days_since(day), 1);
            assert!(next.to_string() > day.to_string());
            day = next;
        }
        assert_eq!(day.to_string(), "2370-01-01");
    }

    #[test]
    fn what_is_no_day_is_refused() {
        for wrong in [
            "",
            "2026",
            "2026-02-29",
            "2100-02-29",
            "2026-13-01",
            "2026-00-01",
            "2026-01-00",
            "2026-04-31",
            "1969-12-31",
            "26-01-01",
            "2026-1-1",
            "+202-01-01",
            "2026-01-01-01",
        ] {
            assert_eq!(wrong.parse::<Day>(), Err(WrongDay), "{wrong:?}");
        }
    }
}
