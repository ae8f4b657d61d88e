//! The code of a learner: letters that say nothing about anybody, and notice when they are mistyped.

use std::{fmt, str::FromStr};

use serde::{Deserialize, Serialize};

use super::StoreError;

/// No vowels, so that no words come out; none that look like another letter or a figure.
const LETTERS: &[u8; 19] = b"BCDFGHJKMNPQRSTVWXZ";
/// Letters of a code; the last one checks the others.
const LENGTH: usize = 8;
/// Letters before the hyphen.
const HALF: usize = LENGTH / 2;

/// A learner, known by a code such as `BCDF-GHJB`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Learner(String);

/// Not the code of a learner.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum WrongCode {
    /// Not eight letters, or letters that codes have not.
    #[error(
        "a learner code is eight letters such as BCDF-GHJB, without vowels; check what was written down"
    )]
    NoCode,
    /// The last letter does not fit the others.
    #[error(
        "this learner code is mistyped: its last letter does not fit the others; check every letter"
    )]
    Mistyped,
}

impl Learner {
    /// Makes a code by chance.
    ///
    /// # Errors
    /// The machine has no random numbers.
    pub fn new_code() -> Result<Self, StoreError> {
        let count = LETTERS.len() as u64;
        // The remainder favours some letters by less than one part in 10¹⁷.
        let mut number = getrandom::u64().map_err(|_none| StoreError::NoChance)?;
        let places: [usize; LENGTH - 1] = std::array::from_fn(|_| {
            let place = (number % count) as usize;
            number /= count;
            place
        });
        Ok(Self::of_places(&places))
    }

    /// Its letters.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }

    fn of_places(places: &[usize]) -> Self {
        let check = check_place(places);
        let mut code = String::with_capacity(LENGTH + 1);
        for (index, &place) in places.iter().chain([&check]).enumerate() {
            if index == HALF {
                code.push('-');
            }
            code.push(char::from(LETTERS[place % LETTERS.len()]));
        }
        Self(code)
    }
}

/// Weighted sum modulo the number of letters, a prime: one wrong letter or two neighbours swapped change it.
fn check_place(places: &[usize]) -> usize {
    let weighted = places.iter().enumerate();
    weighted
        .map(|(index, place)| (index + 2) * place)
        .sum::<usize>()
        % LETTERS.len()
}

impl FromStr for Learner {
    type Err = WrongCode;

    /// Reads a code, whatever the case of its letters and with or without its hyphen.
    fn from_str(text: &str) -> Result<Self, WrongCode> {
        let mut places = Vec::with_capacity(LENGTH);
        for letter in text.trim().bytes().filter(|byte| !b"- ".contains(byte)) {
            let upper = letter.to_ascii_uppercase();
            let place = LETTERS.iter().position(|&known| known == upper);
            places.push(place.ok_or(WrongCode::NoCode)?);
        }
        match places.split_last() {
            Some((&check, rest)) if rest.len() == LENGTH - 1 => {
                if check_place(rest) == check {
                    Ok(Self::of_places(rest))
                } else {
                    Err(WrongCode::Mistyped)
                }
            }
            _ => Err(WrongCode::NoCode),
        }
    }
}

impl TryFrom<String> for Learner {
    type Error = WrongCode;

    fn try_from(text: String) -> Result<Self, WrongCode> {
        text.parse()
    }
}

impl From<Learner> for String {
    fn from(learner: Learner) -> Self {
        learner.0
    }
}

impl fmt::Display for Learner {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_differ_and_are_read_however_they_are_written() {
        let mut seen: Vec<Learner> = Vec::new();
        for _ in 0..200 {
            let learner = Learner::new_code().expect("random numbers");
            let code = learner.as_str().to_owned();
            assert_eq!(code.len(), 9, "{code}");
            for written in [
                code.clone(),
                code.to_lowercase(),
                code.replace('-', ""),
                format!(" {} ", code.replace('-', " ")),
            ] {
                assert_eq!(written.parse(), Ok(learner.clone()), "{written}");
            }
            assert!(!seen.contains(&learner), "{code} twice");
            seen.push(learner);
        }
    }

    #[test]
    fn one_wrong_letter_and_two_swapped_ones_are_noticed() {
        let code: Learner = "BCDF-GHJB".parse().expect("the code of the messages");
        let letters: Vec<char> = code.as_str().replace('-', "").chars().collect();
        for place in 0..LENGTH {
            for &other in LETTERS {
                let mut wrong = letters.clone();
                wrong[place] = char::from(other);
                let text: String = wrong.iter().collect();
                let read = text.parse::<Learner>();
                assert_eq!(read.is_ok(), wrong == letters, "{text}");
            }
            if place > 0 {
                let mut wrong = letters.clone();
                wrong.swap(place - 1, place);
                let text: String = wrong.iter().collect();
                assert_eq!(text.parse::<Learner>(), Err(WrongCode::Mistyped), "{text}");
            }
        }
    }

    #[test]
    fn what_is_no_code_is_no_path_either() {
        for wrong in [
            "",
            "B",
            "../../etc",
            "BCDF-GHJ",
            "BCDF-GHJBP",
            "AEIO-UAEI",
            "BCDF/GHJB",
            "BCDFGHJ\0",
        ] {
            assert_eq!(
                wrong.parse::<Learner>(),
                Err(WrongCode::NoCode),
                "{wrong:?}"
            );
        }
    }
}
