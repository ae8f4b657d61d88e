//! The printed pages: whole, well-formed, with every part, nothing fetched, no answer before its question.

use std::sync::OnceLock;

use ashlane_lessons::{
    catalog,
    diagnosis::Evidence,
    engine::{CountOrder, Kind, Lesson, NOTICE_LONG, Segment, Text, Work, play},
};
use ashlane_panels::{
    drawing::{Anchor, Drawing},
    elevation::blank_drawing,
    handout::{
        Along, Blank, Figure, Figures, Handout, Worked, blank_page, data, figure_size,
        handout_page, key_page, names_page,
    },
    theme::{Ink, SMALL},
};
use ashlane_shared::{
    count::{Count, CountResult},
    theory::{self, Theory},
    units::{Dimension, UnitSystem, format},
};

use crate::support::demonstration_backdrop;

/// Parcels of a count here: the pages only have to have numbers.
const FEW: usize = 6000;

/// A lesson played with few parcels, and its pages.
pub(crate) struct Made {
    pub(crate) lesson: Lesson,
    pub(crate) handout: String,
    pub(crate) key: String,
    worked: Option<Worked>,
    data: String,
}

/// Every lesson of the catalog, made once.
/// Lessons of every kind of view, question and check; all of them would take minutes.
const CHOSEN: [&str; 9] = ["L2", "L3", "L5", "L9", "L11", "L12", "L14", "L17", "L18"];
/// The one case of L17 that is played here: each runs several machines for hours of the plant.
const CASE: &str = "one-needle";

pub(crate) fn all() -> &'static [Made] {
    static MADE: OnceLock<Vec<Made>> = OnceLock::new();
    MADE.get_or_init(|| {
        let lessons = catalog::lessons().expect("the lessons of the program");
        let chosen = |lesson: &Lesson| CHOSEN.contains(&lesson.id.as_str());
        let chosen = lessons.into_iter().filter(chosen);
        chosen.map(|lesson| made(with_one_case(lesson))).collect()
    })
}

fn with_one_case(mut lesson: Lesson) -> Lesson {
    let is_case = |segment: &Segment| matches!(segment.work, Some(Work::Diagnosis(_)));
    (lesson.segments).retain(|segment| !is_case(segment) || segment.id == CASE);
    lesson
}

fn made(lesson: Lesson) -> Made {
    let mut counts: Vec<CountResult> = Vec::new();
    let mut count = |order: &CountOrder| {
        let mut count = Count::new(&order.conditions, FEW, order.seed)?;
        count.run(|_| true);
        counts.push(count.result());
        Ok(count.result())
    };
    let played = play(&lesson, &mut count).expect("a lesson that can be played");
    let figures: Vec<Figures> = lesson
        .segments
        .iter()
        .map(|segment| match &segment.work {
            None => Figures {
                before: Some(figure(segment.look.view)),
                after: Some(figure(segment.look.view)),
            },
            // The program draws the machine for the first work of a lesson only.
            Some(_) => Figures {
                before: is_first_work(&lesson, segment).then(|| figure("panel")),
                after: None,
            },
        })
        .collect();
    let worked = Worked::of(&lesson);
    let handout = Handout {
        lesson: &lesson,
        played: &played,
        figures,
        worked: worked.clone(),
        evidence: lesson.segments.iter().map(evidence).collect(),
    };
    let (page, key) = (handout_page(&handout), key_page(&handout));
    let data = table(&handout, &counts);
    Made {
        handout: page,
        key,
        worked,
        data,
        lesson,
    }
}

fn is_first_work(lesson: &Lesson, segment: &Segment) -> bool {
    let first = lesson.segments.iter().find(|one| one.work.is_some());
    first.is_some_and(|first| first.id == segment.id)
}

/// What the machine of a case shows.
fn evidence(segment: &Segment) -> Option<Evidence> {
    match &segment.work {
        Some(Work::Diagnosis(case)) => {
            Some(Evidence::of(case, &segment.start).expect("a machine that runs"))
        }
        _ => None,
    }
}

/// A drawing of the size that the program makes, with its letters.
fn figure(view: &str) -> Figure {
    let mut drawing = Drawing::new(figure_size(view));
    drawing.rect([1.0, 1.0], drawing.size, Ink::Rule, 0.2);
    drawing.text([9.0, 20.0], Anchor::Left, "a label", SMALL, Ink::Text);
    Figure {
        drawing,
        caption: "Before the change. A caption of a length that a caption usually has, and more."
            .to_owned(),
    }
}

fn table(handout: &Handout<'_>, counts: &[CountResult]) -> String {
    let theories: Vec<[Theory; 2]> = handout
        .lesson
        .segments
        .iter()
        .take(1)
        .map(|segment| {
            [&segment.start, &segment.target].map(|at| theory::solve(at).expect("possible"))
        })
        .collect();
    let moments: Vec<Option<[Along<'_>; 2]>> = theories
        .iter()
        .zip(counts.as_chunks::<2>().0)
        .map(|(theory, count)| {
            let along = |index: usize| Along {
                count: &count[index],
                theory: &theory[index],
            };
            Some([along(0), along(1)])
        })
        .collect();
    data(handout, &moments)
}

/// Words of a page as they stand between its tags.
pub(crate) fn plain(page: &str) -> String {
    let mut text = String::new();
    let mut inside = false;
    for sign in page.chars() {
        match sign {
            '<' => inside = true,
            '>' => inside = false,
            sign if !inside => text.push(sign),
            _ => {}
        }
    }
    let text = text
        .replace('\u{a0}', " ")
        .replace("&lt;", "<")
        .replace("&gt;", ">");
    text.replace("&amp;", "&")
}

/// Paragraphs of a text as a page shows them.
pub(crate) fn shown(text: &Text) -> Vec<String> {
    text.show_both().split("\n\n").map(str::to_owned).collect()
}

/// Every element is closed by its own name, and in order.
fn well_formed(page: &str) {
    let body = page.strip_prefix("<!DOCTYPE html>\n").expect("a doctype");
    let mut open: Vec<&str> = Vec::new();
    for piece in body.split('<').skip(1) {
        let (tag, _) = piece
            .split_once('>')
            .unwrap_or_else(|| panic!("a tag that is not closed: {piece}"));
        if let Some(name) = tag.strip_prefix('/') {
            assert_eq!(open.pop(), Some(name), "closes what is not open");
        } else if !tag.ends_with('/') {
            let name = tag.split_whitespace().next().expect("a name");
            assert_eq!(tag.matches('"').count() % 2, 0, "{tag}");
            open.push(name);
        }
    }
    assert!(open.is_empty(), "{open:?}");
    let amps = page.matches('&').count();
    let known = ["&lt;", "&gt;", "&amp;"].map(|known| page.matches(known).count());
    assert_eq!(amps, known.iter().sum::<usize>(), "a bare & in the page");
}

#[test]
fn pages_are_well_formed_and_fetch_nothing() {
    for made in all() {
        for page in [&made.handout, &made.key] {
            well_formed(page);
            let links = page.matches("http").count();
            assert_eq!(
                links,
                page.matches("xmlns=\"http://www.w3.org/2000/svg\"").count()
            );
            assert_eq!(
                page.matches("url(").count(),
                page.matches("url(data:font/ttf;base64,").count()
            );
            for loads in ["src=", "href", "@import", "<script", "<link", "<img"] {
                assert!(!page.contains(loads), "{} has {loads}", made.lesson.id);
            }
            assert!(
                page.len() < 600_000,
                "{}: {} bytes",
                made.lesson.id,
                page.len()
            );
        }
    }
}

#[test]
fn every_handout_has_all_its_parts() {
    for made in all() {
        let (lesson, text) = (&made.lesson, plain(&made.handout));
        let has = |what: &str| assert!(text.contains(what), "{} has no “{what}”", lesson.id);
        for title in [
            "After this lesson you can",
            "My reasons",
            "Predict",
            "A worked example",
            "US customary",
            "Where the formulas come from",
            "Explain",
            "Words",
            "Cautions",
            NOTICE_LONG,
        ] {
            has(title);
        }
        assert!(
            made.handout.matches("<dt>").count() >= 3,
            "{} has no words",
            lesson.id
        );
        shown(&lesson.goal).iter().for_each(|text| has(text));
        for step in 0..lesson.steps() {
            shown(&lesson.question(step).ask)
                .iter()
                .for_each(|text| has(text));
        }
        for segment in &lesson.segments {
            shown(&segment.prose).iter().for_each(|text| has(text));
            for check in &segment.checks {
                has(check.formula.source);
            }
        }
        lesson.cautions.iter().for_each(|caution| has(caution.text));
        assert_eq!(
            made.handout.matches("class=\"step\"").count(),
            lesson.steps()
        );
        let drawn = |segment: &&Segment| segment.work.is_none() || is_first_work(lesson, segment);
        assert_eq!(
            made.handout.matches("<svg xmlns").count(),
            lesson.segments.iter().filter(drawn).count()
        );
        if let Some(worked) = &made.worked {
            has("Observe");
            let sign = worked.symbols.first();
            sign.iter().for_each(|sign| has(sign.name));
        }
    }
}

#[test]
fn answers_and_explanations_stand_in_the_key_and_not_in_the_handout() {
    for made in all() {
        let (lesson, id) = (&made.lesson, &made.lesson.id);
        let (handout, key) = (plain(&made.handout), plain(&made.key));
        for step in 0..lesson.steps() {
            let explain = lesson.explain(step);
            let told = explain.wrong.iter().map(|branch| &branch.text);
            for text in told.chain([&explain.right]).flat_map(shown) {
                assert!(key.contains(&text), "{id}: the key lacks “{text}”");
                assert!(!handout.contains(&text), "{id}: the handout tells “{text}”");
            }
            for idea in &explain.wrong {
                let idea = &lesson.misconceptions[idea.misconception].statement;
                assert!(key.contains(idea.as_str()), "{id}: the key lacks “{idea}”");
            }
        }
        for segment in &lesson.segments {
            for text in shown(&segment.observe.task) {
                assert!(
                    key.contains(&text) && !handout.contains(&text),
                    "{id}: {text}"
                );
            }
        }
        let checks = lesson.segments.iter().map(|segment| segment.checks.len());
        let verdicts = key.matches("agree").count() + key.matches("DISAGREE").count();
        assert!(verdicts >= checks.sum(), "{id}");
    }
}

#[test]
fn nothing_on_a_page_is_left_empty_that_should_be_filled_by_the_program() {
    for made in all() {
        for page in [&made.handout, &made.key] {
            let id = &made.lesson.id;
            assert!(
                !page.contains("<tbody></tbody>"),
                "{id} has a table of no rows"
            );
            assert!(
                !plain(page).contains("What changes: ."),
                "{id} changes nothing"
            );
            assert!(
                !page.contains("<dl></dl>") && !page.contains("<p></p>"),
                "{id}"
            );
            let headings = page.split("<h2>").skip(1);
            for (heading, rest) in headings.filter_map(|part| part.split_once("</h2>")) {
                assert!(
                    !rest.trim_start().starts_with("<h2>"),
                    "{id}: nothing below “{heading}”"
                );
            }
        }
    }
}

#[test]
fn no_leaf_tells_the_number_that_it_asks_for() {
    for made in all() {
        let leaves: Vec<String> = made.handout.split("class=\"step\">").map(plain).collect();
        for step in 0..made.lesson.steps() {
            let question = made.lesson.question(step);
            let Kind::Number(entry) = &question.kind else {
                continue;
            };
            for option in &question.options {
                let text = option.text.show_both();
                assert!(
                    !leaves[step + 1].contains(&text),
                    "{}: {text}",
                    made.lesson.id
                );
            }
            let model = format(entry.model, entry.dimension, UnitSystem::Si);
            let words: Vec<&str> = leaves[step + 1].split_whitespace().collect();
            let model: Vec<&str> = model.split_whitespace().collect();
            let told = words.windows(model.len()).any(|words| words == model);
            assert!(
                !told || entry.dimension == Dimension::Number,
                "{}: {model:?}",
                made.lesson.id
            );
            // The example is worked where the answer is still open.
            let right = &entry.ranges[question.right];
            let told = |worked: &Worked| {
                worked.formula.gives == entry.dimension && right.holds(worked.value_si)
            };
            assert!(
                !made.worked.as_ref().is_some_and(told),
                "{} works out step {step}",
                made.lesson.id
            );
        }
    }
}

#[test]
fn the_data_are_a_table_of_numbers() {
    for made in all() {
        let mut rows = made.data.lines().filter(|row| !row.starts_with('#'));
        let head: Vec<&str> = rows.next().expect("a head").split(',').collect();
        assert_eq!(head.len(), 10);
        let mut checks = 0;
        for row in rows {
            let cells: Vec<&str> = row.split(',').collect();
            assert_eq!(cells.len(), head.len(), "{row}");
            checks += usize::from(cells[1] == "check");
            for cell in &cells[3..] {
                assert!(cell.is_empty() || cell.parse::<f64>().is_ok(), "{row}");
            }
        }
        let wanted = made
            .lesson
            .segments
            .iter()
            .map(|segment| segment.checks.len());
        assert_eq!(checks, wanted.sum::<usize>(), "{}", made.lesson.id);
    }
}

#[test]
fn the_sheet_to_fill_in_has_no_names_and_the_key_has_them_all() {
    let blank = blank();
    let (sheet, key) = (blank_page(&blank), names_page(&blank));
    well_formed(&sheet);
    well_formed(&key);
    assert!(blank.names.len() >= 10, "{:?}", blank.names);
    for (index, name) in blank.names.iter().enumerate() {
        let name = name.split(':').next().unwrap_or_default();
        assert!(!plain(&sheet).contains(name), "the sheet tells {name}");
        assert!(plain(&key).contains(name), "the key lacks {name}");
        assert!(
            sheet.contains(&format!(">{}</text>", index + 1)),
            "no number {}",
            index + 1
        );
    }
    assert!(plain(&key).contains(NOTICE_LONG));
}

/// The demonstration collector with blanks.
pub(crate) fn blank() -> Blank {
    let view = crate::elevation::view(demonstration_backdrop(), UnitSystem::Si);
    let (drawing, names) = blank_drawing(&view, [1000.0, 600.0]);
    Blank {
        drawing,
        names,
        title: "Demonstration collector".to_owned(),
    }
}
