//! `ashlane lesson list`: what there is to learn.

use crate::{
    catalog,
    command_line::{
        FINE, Failure, Io,
        table::{Side, Table},
    },
    engine::{Lesson, NOTICE},
};

pub(super) fn list(io: &mut Io<'_>) -> Result<u8, Failure> {
    let lessons = catalog::lessons()?;
    io.print(&format!("{}\n{NOTICE}\n", table(&lessons)))?;
    Ok(FINE)
}

fn table(lessons: &[Lesson]) -> String {
    let mut table = Table::new(&[
        ("id", Side::Left),
        ("title", Side::Left),
        ("minutes", Side::Right),
        ("competencies", Side::Left),
    ])
    .indented(0);
    for lesson in lessons {
        let codes: Vec<&str> = lesson.competencies.iter().map(|row| row.code).collect();
        table.row([
            lesson.id.clone(),
            lesson.title.clone(),
            lesson.minutes.to_string(),
            codes.join(", "),
        ]);
    }
    table.text()
}
