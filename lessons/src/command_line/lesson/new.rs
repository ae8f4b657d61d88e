//! `ashlane lesson new`: a lesson that works already, with a comment on each key, for its author to change.

use std::{
    fs::{self, File},
    io::{ErrorKind, Write},
    path::PathBuf,
};

use ashlane_shared::{
    checks::FORMULAS,
    conditions::{PARTS, sheet::SaveError},
};

use crate::{
    command_line::{FINE, Failure, Io, place, words::NewWords},
    engine::{CAUTIONS, COMPETENCIES, LAYERS, LESSON_VIEWS, QUANTITIES, RELATIONS},
};

const TEMPLATE: &str = include_str!("template.toml");
/// Name and file of the template, which its author replaces.
const NAME: &str = "my-lesson";
/// Begins a line that a list takes the place of.
const LIST: &str = "#=";
/// Longest line of a list of words.
const WIDTH: usize = 110;

pub(super) fn new(words: &NewWords, io: &mut Io<'_>) -> Result<u8, Failure> {
    let path = words
        .out
        .clone()
        .unwrap_or_else(|| PathBuf::from(format!("{}.toml", words.name)));
    place::place(&path)?;
    let shown = path.display().to_string();
    write_new(path, &template(&words.name, &shown))?;
    io.print(&format!(
        "{shown}: written, a lesson that works; change it, then: ashlane lesson check {shown}\n"
    ))?;
    Ok(FINE)
}

/// Writes a file that is not there yet.
fn write_new(path: PathBuf, text: &str) -> Result<(), Failure> {
    let mut file = match File::create_new(&path) {
        Ok(file) => file,
        Err(error) if error.kind() == ErrorKind::AlreadyExists => {
            let reason = "there is a file of this name already, which stays as it is; take another name, or say where with --out";
            return Err(place::refused(&path, reason));
        }
        Err(source) => return Err(SaveError { path, source }.into()),
    };
    let written = file
        .write_all(text.as_bytes())
        .and_then(|()| file.sync_all());
    written.map_err(|source| {
        // Half a lesson helps nobody; the error is the one to tell.
        drop(fs::remove_file(&path));
        SaveError { path, source }.into()
    })
}

/// The template under another name, with what may be written where it is wanted.
fn template(name: &str, file: &str) -> String {
    let lines = TEMPLATE.lines().map(|line| match line.strip_prefix(LIST) {
        Some(list) => rows(list),
        None => {
            line.replace(&format!("{NAME}.toml"), file)
                .replace(NAME, name)
                + "\n"
        }
    });
    lines.collect()
}

/// The rows of a list, as comments.
fn rows(list: &str) -> String {
    let explained = |rows: &mut dyn Iterator<Item = (&str, &str)>| {
        let rows: Vec<(&str, &str)> = rows.collect();
        let width = rows.iter().map(|(name, _)| name.len()).max().unwrap_or(0);
        let line = |(name, what): &(&str, &str)| format!("#   {name:width$}  {what}\n");
        rows.iter().map(line).collect::<String>()
    };
    match list {
        "competencies" => explained(&mut COMPETENCIES.iter().map(|row| (row.code, row.statement))),
        "cautions" => explained(&mut CAUTIONS.iter().map(|row| (row.code, row.hazard))),
        "views" => explained(&mut LESSON_VIEWS.iter().copied()),
        "layers" => explained(&mut LAYERS.iter().copied()),
        "quantities" => explained(&mut QUANTITIES.iter().map(|row| (row.name, row.title))),
        "formulas" => explained(&mut FORMULAS.iter().map(|row| (row.name, row.title))),
        "relations" => words(RELATIONS.iter().map(|(name, _)| *name)),
        "parts" => words(PARTS.iter().map(|part| part.key)),
        other => format!("# {other}\n"),
    }
}

/// Words one after the other, as comments that are not too long.
fn words<'w>(words: impl Iterator<Item = &'w str>) -> String {
    let mut lines = vec![String::from("#  ")];
    for word in words {
        if lines
            .last()
            .is_some_and(|line| line.len() + word.len() > WIDTH)
        {
            lines.push(String::from("#  "));
        }
        if let Some(line) = lines.last_mut() {
            line.push(' ');
            line.push_str(word);
        }
    }
    lines.join("\n") + "\n"
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::{examine, read_lesson};

    #[test]
    fn the_template_names_all_that_may_be_written_and_is_a_lesson() {
        let text = template("dust-at-night", "night.toml");
        assert!(!text.contains(NAME) && !text.contains(LIST), "{text}");
        assert!(text.contains("lesson check night.toml"));
        let listed = |name: &str| {
            let is_row = |line: &str| {
                let mut words = line.strip_prefix("#   ").unwrap_or("").split_whitespace();
                words.any(|word| word == name)
            };
            assert!(text.lines().any(is_row), "{name} is not explained");
        };
        COMPETENCIES.iter().for_each(|row| listed(row.code));
        CAUTIONS.iter().for_each(|row| listed(row.code));
        LESSON_VIEWS.iter().for_each(|(name, _)| listed(name));
        LAYERS.iter().for_each(|(name, _)| listed(name));
        QUANTITIES.iter().for_each(|row| listed(row.name));
        FORMULAS.iter().for_each(|row| listed(row.name));
        RELATIONS.iter().for_each(|(name, _)| listed(name));
        PARTS.iter().for_each(|part| listed(part.key));
        for line in text.lines() {
            assert!(line.chars().count() <= 120, "{line}");
        }
        let lesson = read_lesson("night.toml", &text).unwrap_or_else(|errors| panic!("{errors}"));
        assert_eq!(lesson.id, "dust-at-night");
        assert_eq!(examine("night.toml", &lesson), Ok(()));
    }
}
