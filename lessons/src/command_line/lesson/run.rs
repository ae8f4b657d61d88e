//! `ashlane lesson run`: plays model answers and every wrong answer, and compares what is measured with the formulas.

use std::path::Path;

use ashlane_shared::{
    conditions::sheet::{read_text, write_atomically},
    count::Count,
};

use super::{json::json, report::report};
use crate::{
    catalog,
    check_table::check_table,
    command_line::{CHECK_FAILED, FINE, Failure, Io, counting, place::place, words::RunWords},
    engine::{CountOrder, Lesson, PlayedLesson, play, read_lesson},
};

pub(super) fn run(words: &RunWords, io: &mut Io<'_>) -> Result<u8, Failure> {
    if let Some(path) = &words.table {
        place(path)?;
    }
    let lessons = match &words.lesson {
        Some(id) => vec![find(id)?],
        None => catalog::lessons()?,
    };
    let mut played = Vec::with_capacity(lessons.len());
    for lesson in lessons {
        let outcome = played_through(&lesson, io.err_is_terminal)?;
        played.push((lesson, outcome));
    }
    if let Some(path) = &words.table {
        write_atomically(path, check_table(&played))?;
    }
    let text = if words.json {
        json(&played)?
    } else {
        report(&played)
    };
    io.print(&text)?;
    let agree = played.iter().all(|(_, outcome)| outcome.agrees());
    Ok(if agree { FINE } else { CHECK_FAILED })
}

/// A lesson of the catalog by its id, or one in a file.
pub(in crate::command_line) fn find(id: &str) -> Result<Lesson, Failure> {
    let lessons = catalog::lessons()?;
    if let Some(lesson) = catalog::find(&lessons, id) {
        return Ok(lesson.clone());
    }
    let path = Path::new(id);
    if path.exists() || id.ends_with(".toml") {
        return Ok(read_lesson(id, &read_text(path)?)?);
    }
    Err(Failure::NoSuchLesson {
        id: id.to_owned(),
        nearest: catalog::nearest_id(&lessons, id).map(str::to_owned),
    })
}

fn played_through(lesson: &Lesson, err_is_terminal: bool) -> Result<PlayedLesson, Failure> {
    let mut count = |order: &CountOrder| {
        let prepared = Count::new(&order.conditions, order.parcels, order.seed)?;
        let bar = counting::bar(err_is_terminal, &order.conditions, order.parcels)?;
        Ok(counting::run(prepared, &bar))
    };
    play(lesson, &mut count).map_err(|error| Failure::Play {
        id: lesson.id.clone(),
        error,
    })
}
