//! Work on paper: a case that is read from the key, acts of the board put into order, and letters that can be read.

use ashlane_lessons::{
    diagnosis::{ACTIONS, CHECKS, find_action},
    engine::{Segment, Work},
};

use crate::handout::{all, plain, shown};

#[test]
fn a_case_can_be_worked_on_paper_and_its_key_reads_the_machine() {
    let made = all().iter().find(|made| made.lesson.id == "L17");
    let made = made.expect("the lesson of the cases");
    let (handout, key) = (plain(&made.handout), plain(&made.key));
    let work = |segment: &Segment| segment.work.clone();
    let Some(Work::Diagnosis(case)) = made.lesson.segments.iter().find_map(work) else {
        panic!("no case");
    };
    for check in CHECKS {
        assert!(handout.contains(check.name) && key.contains(check.name));
    }
    for action in ACTIONS {
        assert!(handout.contains(action.name), "{}", action.name);
    }
    let mut places: Vec<(usize, &str)> = Vec::new();
    for cause in &case.causes {
        let place = handout.find(cause.fault.title);
        places.push((place.expect("every cause is offered"), cause.fault.title));
        for text in shown(&cause.text) {
            assert!(key.contains(&text) && !handout.contains(&text), "{text}");
        }
    }
    // By the alphabet, so that no place is that of the true one.
    places.sort_unstable();
    assert!(places.is_sorted_by_key(|(_, title)| *title), "{places:?}");
    // The needle of field 2 shows half; nothing else has moved but what is reckoned from it.
    for told in ["42 · 20.5 · 40 · 39 kV", "2 down", "this is it"] {
        assert!(key.contains(told), "{told}");
    }
    let Some(action) = find_action(case.solution.action) else {
        panic!("no action");
    };
    assert!(key.contains(&format!("First action: {}", action.name)));
}

#[test]
fn acts_of_the_board_are_ordered_by_the_learner_and_the_key_defers_to_the_site() {
    let made = all().iter().find(|made| made.lesson.id == "L18");
    let made = made.expect("the lesson of the board");
    let leaves: Vec<String> = made.handout.split("<section").map(plain).collect();
    let boards: Vec<&String> = leaves
        .iter()
        .filter(|leaf| leaf.contains("at the sequence board"))
        .collect();
    assert_eq!(boards.len(), made.lesson.segments.len());
    let key = plain(&made.key);
    let defers = "the site's own order replaces it";
    for (segment, leaf) in made.lesson.segments.iter().zip(boards) {
        let Some(Work::Sequence(exercise)) = &segment.work else {
            panic!("{} has no board", segment.id);
        };
        let words: Vec<&str> = exercise
            .site
            .order
            .iter()
            .map(|stage| stage.words())
            .collect();
        let answer = words.join(" → ");
        assert!(key.contains(&answer), "the key lacks {answer}");
        assert!(!plain(&made.handout).contains(&answer));
        let at = |word: &&str| leaf.rfind(*word).expect("an act on the leaf");
        let mut listed = words.clone();
        listed.sort_unstable();
        assert!(listed.is_sorted_by_key(at), "{}: {listed:?}", segment.id);
        assert!(leaf.contains(defers), "{}", segment.id);
    }
    let told = key.matches(defers).count();
    assert_eq!(told, made.lesson.segments.len(), "beside every order");
    // How it stands at the beginning: the manager waits with no field on, and the week-end begins with all of them.
    let handout = plain(&made.handout);
    for told in ["insulator heaters, fields 1 to 4", "20 K (36 °F) above"] {
        assert!(handout.contains(told), "{told}");
    }
}

/// Sizes of letters in points: those of the style, and those of figures as wide as they are printed.
fn sizes_pt(page: &str) -> Vec<f32> {
    let number =
        |text: &str, end: &str| -> Option<f32> { text.split(end).next()?.trim().parse().ok() };
    let (style, body) = page.split_once("</style>").expect("a style");
    let sized = ["font-size:", "font:"]
        .into_iter()
        .flat_map(|name| style.split(name).skip(1));
    let mut sizes: Vec<f32> = sized.filter_map(|rest| number(rest, "pt")).collect();
    let figures = body.split("<div style=\"width: ").skip(1);
    for figure in figures {
        let wide_mm = number(figure, "mm").expect("a width");
        let box_of = figure.split("viewBox=\"0 0 ").nth(1).expect("a drawing");
        let wide = number(box_of, " ").expect("its width");
        let drawing = figure.split("</svg>").next().unwrap_or_default();
        let letters = drawing.split("font-size=\"").skip(1);
        let letters = letters.filter_map(|rest| number(rest, "\""));
        sizes.extend(letters.map(|size| size * wide_mm / wide / 25.4 * 72.0));
    }
    sizes
}

#[test]
fn no_letter_is_smaller_than_seven_points() {
    for made in all() {
        for page in [&made.handout, &made.key] {
            let sizes = sizes_pt(page);
            assert!(sizes.len() > 20, "{}: {sizes:?}", made.lesson.id);
            let least = sizes.iter().copied().fold(f32::INFINITY, f32::min);
            // A hundredth for rounding.
            assert!(least > 6.99, "{}: {least} pt", made.lesson.id);
        }
    }
}
