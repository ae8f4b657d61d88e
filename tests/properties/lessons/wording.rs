//! Wording of the lessons: what is grounded is called so, and no efficiency stands without its penetration.

use ashlane_lessons::{
    catalog::lessons,
    engine::{Explain, Lesson, Question, Text, Work},
    prompts::PROMPTS,
};
use ashlane_shared::units::UnitSystem;

/// Every text that a learner reads, with the lesson it belongs to.
fn all_texts() -> Vec<(String, String)> {
    let lessons = lessons().expect("sound lessons");
    let taught = lessons.iter().flat_map(|lesson| {
        let id = &lesson.id;
        texts(lesson)
            .into_iter()
            .map(move |text| (id.clone(), text))
    });
    let asked = PROMPTS.iter().map(|prompt| {
        (
            "a question to explore with".to_owned(),
            prompt.question.to_owned(),
        )
    });
    taught.chain(asked).collect()
}

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
    all.extend(causes(lesson).map(Text::show_both));
    all
}

/// What is said to whoever names a cause of a case.
fn causes(lesson: &Lesson) -> impl Iterator<Item = &Text> {
    let works = lesson
        .segments
        .iter()
        .filter_map(|segment| segment.work.as_ref());
    let cases = works.filter_map(|work| match work {
        Work::Diagnosis(case) => Some(case),
        Work::Sequence(_) => None,
    });
    cases.flat_map(|case| case.causes.iter().map(|cause| &cause.text))
}

#[test]
fn nobody_is_let_in_and_no_limit_is_given_as_right() {
    // training.md 5.3: no green "safe to enter", no door that opens, no default trip limit.
    for lesson in lessons().expect("sound lessons") {
        for text in texts(&lesson) {
            let low = text.to_lowercase();
            for wrong in [
                "safe to enter",
                "you may enter",
                "open the door",
                "it is safe",
            ] {
                assert!(!low.contains(wrong), "{}: {wrong:?} in {text}", lesson.id);
            }
        }
        for segment in &lesson.segments {
            if let Some(Work::Sequence(exercise)) = &segment.work {
                assert!(exercise.site.source.contains("nvented"), "{}", segment.id);
                assert!(
                    exercise.site.source.contains("site's own"),
                    "{}",
                    segment.id
                );
            }
        }
    }
}

#[test]
fn the_words_are_those_of_the_trade() {
    for (place, text) in all_texts() {
        let low = text.to_lowercase();
        for wrong in [
            "positive plate",
            "a charge ",
            "charges move",
            "certified",
            "competent",
        ] {
            assert!(!low.contains(wrong), "{place}: {wrong:?} in {text}");
        }
    }
}

#[test]
fn penetration_stands_beside_every_efficiency() {
    for (place, text) in all_texts() {
        for paragraph in text.split("\n\n") {
            let low = paragraph.to_lowercase();
            let beside = low.contains("penetration") || low.contains("through");
            assert!(!low.contains("efficien") || beside, "{place}: {paragraph}");
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
