//! `ashlane lesson list`: what there is to learn, and how a learner stands with it.

use crate::{
    catalog,
    command_line::{
        FINE, Failure, Io,
        here::today,
        table::{Side, Table},
        words::ListWords,
    },
    engine::{Lesson, NOTICE},
    store::{Day, Record, Standing, Store, standing},
};

pub(super) fn list(words: &ListWords, io: &mut Io<'_>) -> Result<u8, Failure> {
    let lessons = catalog::lessons()?;
    let Some(learner) = &words.learner else {
        io.print(&format!("{}\n{NOTICE}\n", table(&lessons, None)))?;
        return Ok(FINE);
    };
    let store = Store::chosen(words.data.as_deref())?;
    let (records, troubles) = store.records(learner)?;
    for trouble in troubles {
        io.tell(&trouble.to_string());
    }
    let day = words.on.unwrap_or_else(today);
    let table = table(&lessons, Some((&records, day)));
    io.print(&format!(
        "Learner {learner} on {day}\n\n{table}\n{NOTICE}\n"
    ))?;
    Ok(FINE)
}

fn table(lessons: &[Lesson], learner: Option<(&[Record], Day)>) -> String {
    let mut columns = vec![
        ("id", Side::Left),
        ("title", Side::Left),
        ("minutes", Side::Right),
        ("competencies", Side::Left),
    ];
    columns.extend(learner.map(|_| ("learner", Side::Left)));
    let mut table = Table::new(&columns).indented(0);
    for lesson in lessons {
        let codes: Vec<&str> = lesson.competencies.iter().map(|row| row.code).collect();
        let mut cells = vec![
            lesson.id.clone(),
            lesson.title.clone(),
            lesson.minutes.to_string(),
            codes.join(", "),
        ];
        cells.extend(learner.map(|(records, day)| stands(&lesson.id, records, day)));
        table.row(cells);
    }
    table.text()
}

/// How a learner stands with a lesson, in words.
fn stands(lesson: &str, records: &[Record], day: Day) -> String {
    let record = records.iter().find(|record| record.lesson == lesson);
    match standing(record, day) {
        Standing::NotBegun => String::new(),
        Standing::Begun => "begun".to_owned(),
        Standing::Done { again } => format!("done, again from {again}"),
        Standing::Due(due) => format!("due since {}", due.since),
    }
}
