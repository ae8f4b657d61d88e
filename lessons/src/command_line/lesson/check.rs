//! `ashlane lesson check`: reads lessons and computes whether their checks make sense, without playing them.

use std::path::PathBuf;

use ashlane_shared::conditions::sheet::{SheetErrors, read_text};

use crate::{
    catalog::LESSONS,
    command_line::{FINE, Failure, Io, WRONG_INPUT},
    engine::{Lesson, examine, read_lesson},
};

pub(super) fn check(files: &[PathBuf], io: &mut Io<'_>) -> Result<u8, Failure> {
    let mut code = FINE;
    let mut passed = String::new();
    let mut note = |name: &str, checked: Result<Lesson, SheetErrors>, io: &mut Io<'_>| match checked
    {
        Ok(lesson) => passed.push_str(&format!(
            "{name}: fine: {} {}, {} segments\n",
            lesson.id,
            lesson.title,
            lesson.segments.len()
        )),
        Err(errors) => {
            io.tell(&errors.to_string());
            code = WRONG_INPUT;
        }
    };
    if files.is_empty() {
        for (name, text) in LESSONS {
            note(name, checked(name, text), io);
        }
    }
    for path in files {
        let name = path.display().to_string();
        let result = read_text(path).and_then(|text| checked(&name, &text));
        note(&name, result, io);
    }
    io.print(&passed)?;
    Ok(code)
}

fn checked(name: &str, text: &str) -> Result<Lesson, SheetErrors> {
    let lesson = read_lesson(name, text)?;
    examine(name, &lesson)?;
    Ok(lesson)
}
