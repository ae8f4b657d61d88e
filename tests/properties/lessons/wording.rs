//! Wording of the lessons: what is grounded is called so, and no efficiency stands without its penetration.

use ashlane_lessons::{
    catalog::lessons,
    engine::{Explain, Lesson, Question, Text},
};
use ashlane_shared::units::UnitSystem;

/// Every text of a lesson but its wrong options, which must state the misconception.
fn texts(lesson: &Lesson) -> Vec<String> {
    let mut found: Vec<&Text> = vec![&lesson.goal, &lesson.transfer.prose];
    found.extend(lesson.columns.iter().map(|column| &column.title));
    let ask = |question: &Question, explain: &Explain| {
        let mut texts = vec![question.ask.show_both(), explain.right.show_both()];
        texts.extend(explain.wrong.iter().map(|branch| branch.text.show_both()));
        let right = question.option_text(question.right);
        texts.extend(right.map(Text::show_both));
        texts
    };
    let mut all = ask(&lesson.transfer.predict, &lesson.transfer.explain);
    for segment in &lesson.segments {
        all.extend(ask(&segment.predict, &segment.explain));
        found.extend([&segment.prose, &segment.observe.task]);
    }
    all.extend(found.into_iter().map(Text::show_both));
    all
}

#[test]
fn the_words_are_those_of_the_trade() {
    for lesson in lessons().expect("sound lessons") {
        for text in texts(&lesson) {
            let low = text.to_lowercase();
            for wrong in [
                "positive plate",
                "a charge ",
                "charges move",
                "certified",
                "competent",
            ] {
                assert!(!low.contains(wrong), "{}: {wrong:?} in {text}", lesson.id);
            }
        }
    }
}

#[test]
fn penetration_stands_beside_every_efficiency() {
    for lesson in lessons().expect("sound lessons") {
        for text in texts(&lesson) {
            for paragraph in text.split("\n\n") {
                let low = paragraph.to_lowercase();
                assert!(
                    !low.contains("efficien")
                        || low.contains("penetration")
                        || low.contains("through"),
                    "{}: {paragraph}",
                    lesson.id
                );
            }
        }
    }
}

#[test]
fn lengths_areas_and_flows_are_read_in_both_systems() {
    for lesson in lessons().expect("sound lessons") {
        for segment in &lesson.segments {
            for text in [&segment.prose, &segment.observe.task, &segment.predict.ask] {
                let us = text.show(UnitSystem::Us);
                for metric in [" m ", " m,", " m.", " mm", " m²", " m³/s", " cm/s", " °C"] {
                    assert!(!us.contains(metric), "{}: {metric:?} in {us}", lesson.id);
                }
            }
        }
    }
}
