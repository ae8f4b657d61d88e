//! Parses TOML; on a broken line notes it, blanks it and goes on, so that one slip does not hide the others.

use std::ops::Range;

use toml_edit::Document;

use super::{problem::Trouble, report::Report};

/// Broken lines after which reading on is of no use.
const MOST_BROKEN: usize = 20;
/// Larger texts are parsed once; a wrong file is not worth more.
const LARGEST_RETRIED: usize = 64 << 10;

/// The document without its broken lines, and whether it had none; nothing if it cannot be read at all.
///
/// Every broken line is noted in the report.
#[must_use]
pub fn parse(text: &str, report: &mut Report<'_>) -> (Option<Document<String>>, bool) {
    let mut rest = text.to_owned();
    let mut whole = true;
    for _ in 0..MOST_BROKEN {
        let error = match Document::parse(rest.clone()) {
            Ok(document) => return (Some(document), whole),
            Err(error) => error,
        };
        let place = error.span().unwrap_or(0..0);
        if error.message().starts_with("duplicate key") {
            report.name(
                path_at(&rest, place.clone()),
                Some(place.clone()),
                Trouble::Duplicate,
            );
        } else {
            whole = false;
            let line = line_at(&rest, place.start).trim().to_owned();
            report.name(
                line,
                Some(place.clone()),
                Trouble::Syntax(error.message().to_owned()),
            );
        }
        if rest.len() > LARGEST_RETRIED || !blank_line(&mut rest, place.start) {
            break;
        }
    }
    (None, false)
}

/// Start of the line at `byte`; trouble at the very end belongs to the last line with text.
fn line_start(text: &str, byte: usize) -> usize {
    let byte = byte.min(text.trim_end().len());
    text.get(..byte)
        .and_then(|before| before.rfind('\n'))
        .map_or(0, |end| end + 1)
}

/// The line at `byte`.
fn line_at(text: &str, byte: usize) -> &str {
    text.get(line_start(text, byte)..)
        .and_then(|rest| rest.lines().next())
        .unwrap_or_default()
}

/// Dotted path of the name at `place`: with the section above it, unless it is a section itself.
fn path_at(text: &str, place: Range<usize>) -> String {
    let start = line_start(text, place.start);
    let name = text.get(place).unwrap_or_default();
    let above = text
        .get(..start)
        .unwrap_or_default()
        .lines()
        .rev()
        .find(|line| is_section(line));
    match above
        .map(|line| line.trim().trim_start_matches('['))
        .and_then(|line| line.split(']').next())
    {
        Some(section) if !is_section(line_at(text, start)) => format!("{section}.{name}"),
        _ => name.to_owned(),
    }
}

/// Overwrites the line at `byte` and all that belongs to it with spaces; false when nothing was left of it.
fn blank_line(text: &mut String, byte: usize) -> bool {
    let start = line_start(text, byte);
    let Some(lines) = text.get(start..) else {
        return false;
    };
    let section = lines.lines().next().is_some_and(is_section);
    let mut end = start;
    for (index, line) in lines.split_inclusive('\n').enumerate() {
        // Without their heading the keys of a section would seem to belong to the one above.
        if index > 0 && (is_section(line) || (!section && begins_anew(line))) {
            break;
        }
        end += line.len();
    }
    let Some(broken) = text.get(start..end) else {
        return false;
    };
    if broken.trim().is_empty() {
        return false;
    }
    // Bytes and line breaks keep their places, so that later messages name the right line.
    let blank: String = broken
        .bytes()
        .map(|byte| if byte == b'\n' { '\n' } else { ' ' })
        .collect();
    text.replace_range(start..end, &blank);
    true
}

/// Whether a line is a section heading.
fn is_section(line: &str) -> bool {
    let rest = line.trim().strip_prefix('[');
    rest.is_some_and(|rest| {
        rest.starts_with(|sign: char| sign.is_alphabetic() || sign == '[') && !rest.contains('"')
    })
}

/// Whether a line is empty, a comment or `name = …`, and so no continuation of the one before.
fn begins_anew(line: &str) -> bool {
    let line = line.trim();
    let is_name = |text: &str| {
        let text = text.trim();
        !text.is_empty()
            && text
                .chars()
                .all(|sign| sign.is_alphanumeric() || matches!(sign, '_' | '-' | '.'))
    };
    line.is_empty()
        || line.starts_with('#')
        || line.split_once('=').is_some_and(|(name, _)| is_name(name))
}
