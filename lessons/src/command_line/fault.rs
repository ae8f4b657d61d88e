//! `ashlane fault list`: what an instructor can do to a collector, and how it shows.

use super::{
    FINE, Failure, Io,
    table::{Side, Table},
    words::FaultWord,
};
use crate::{
    engine::NOTICE,
    faults::{FAULTS, Fault},
};

/// Widest text of a cell, characters.
const WIDEST: usize = 38;

pub(super) fn fault(word: &FaultWord, io: &mut Io<'_>) -> Result<u8, Failure> {
    let FaultWord::List = word;
    let signs: Vec<String> = FAULTS
        .iter()
        .map(|fault| format!("  {}\n    {}\n", fault.name, fault.signs))
        .collect();
    io.print(&format!(
        "{}\nHow they show\n{}\n{NOTICE}\n",
        table(FAULTS),
        signs.concat()
    ))?;
    Ok(FINE)
}

fn table(faults: &[Fault]) -> String {
    let mut table = Table::new(&[
        ("row", Side::Left),
        ("name", Side::Left),
        ("what", Side::Left),
        ("severity 1", Side::Left),
    ])
    .indented(0);
    for fault in faults {
        let (what, severity) = (lines(fault.title), lines(fault.at_full));
        for line in 0..what.len().max(severity.len()) {
            let first = |text: &str| {
                if line == 0 {
                    text.to_owned()
                } else {
                    String::new()
                }
            };
            let of = |lines: &[String]| lines.get(line).cloned().unwrap_or_default();
            table.row([
                first(fault.row),
                first(fault.name),
                of(&what),
                of(&severity),
            ]);
        }
    }
    table.text()
}

/// A text in lines of whole words.
fn lines(text: &str) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in text.split_whitespace() {
        match lines.last_mut() {
            Some(line) if line.is_empty() => line.push_str(word),
            Some(line) if line.chars().count() + 1 + word.chars().count() <= WIDEST => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_of_a_fault_stands_in_the_table_and_no_line_is_too_long() {
        let text = table(FAULTS);
        assert!(
            text.lines().all(|line| line.chars().count() <= 110),
            "{text}"
        );
        for fault in FAULTS {
            for told in [fault.title, fault.at_full] {
                assert_eq!(lines(told).join(" "), told);
                assert!(
                    lines(told).iter().all(|line| text.contains(line.as_str())),
                    "{text}"
                );
            }
        }
    }
}
