//! `ashlane lesson run`: plays model answers and every wrong answer, and compares what is measured with the formulas.

use std::path::Path;

use ashlane_shared::{
    conditions::sheet::{read_text, write_atomically},
    count::Count,
    side_by_side,
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
    let played = match <[Lesson; 1]>::try_from(lessons) {
        Ok([lesson]) => {
            let outcome = played_through(&lesson, io.err_is_terminal)?;
            vec![(lesson, outcome)]
        }
        Err(lessons) => all_played(lessons, io.err_is_terminal)?,
    };
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

/// Plays lessons beside each other; what comes of them does not depend on it.
fn all_played(
    lessons: Vec<Lesson>,
    err_is_terminal: bool,
) -> Result<Vec<(Lesson, PlayedLesson)>, Failure> {
    let bar = counting::bar_of_lessons(err_is_terminal, lessons.len());
    // The later ones take longest, so they begin first.
    let backwards: Vec<Lesson> = lessons.into_iter().rev().collect();
    let outcomes = side_by_side(&backwards, |lesson| {
        let outcome = played_through(lesson, false);
        bar.inc(1);
        outcome
    });
    bar.finish_and_clear();
    let both = backwards.into_iter().zip(outcomes).rev();
    both.map(|(lesson, outcome)| Ok((lesson, outcome?)))
        .collect()
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lessons_played_beside_each_other_keep_their_order_and_their_numbers() {
        let template = include_str!("template.toml");
        let mut lessons = vec![read_lesson("template", template).expect("a sound template"); 3];
        for (lesson, id) in lessons.iter_mut().zip(["a", "b", "c"]) {
            id.clone_into(&mut lesson.id);
        }
        lessons[1].seed += 1;
        let alone: Vec<_> = lessons
            .iter()
            .map(|lesson| played_through(lesson, false).expect("it can be played"))
            .collect();
        let together = all_played(lessons, false).expect("they can be played");
        let ids: Vec<_> = together.iter().map(|(lesson, _)| &lesson.id).collect();
        assert_eq!(ids, ["a", "b", "c"]);
        let readings = |played: &PlayedLesson| -> Vec<_> {
            let steps = played.steps.iter();
            steps.map(|step| step.reading.clone()).collect()
        };
        for ((_, beside), alone) in together.iter().zip(&alone) {
            assert_eq!(readings(beside), readings(alone));
        }
        assert_ne!(readings(&alone[0]), readings(&alone[1]));
    }
}
