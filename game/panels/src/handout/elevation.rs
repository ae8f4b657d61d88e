//! A machine whose labels are left blank, to be filled in, and the page with the names for the trainer.

use ashlane_lessons::engine::NOTICE;

use super::{
    html::{classed, tag, words},
    paper::{Leaf, document},
    reference::notice,
};
use crate::drawing::{Drawing, svg_on_paper};

/// A machine with numbered blanks.
#[derive(Clone, Debug)]
pub struct Blank {
    /// The drawing.
    pub drawing: Drawing,
    /// The name that belongs into each blank, the first into number 1.
    pub names: Vec<String>,
    /// Which machine it is.
    pub title: String,
}

/// The page to fill in.
#[must_use]
pub fn blank_page(blank: &Blank) -> String {
    let ask = format!(
        "Write the names of the {} parts that the lines point at. {NOTICE} It shows the parts, not how to reach them.",
        blank.names.len()
    );
    let body = head(blank, "Name the parts", &ask)
        + &classed("div", "names", "<span>Name</span><span>Date</span>")
        + &figure(
            blank,
            "whole",
            "The machine from the side, its labels left blank",
        );
    document(
        &format!("{}: name the parts", blank.title),
        &body,
        Leaf::OnItsSide,
    )
}

/// The page with the names.
#[must_use]
pub fn names_page(blank: &Blank) -> String {
    let names: String = blank
        .names
        .iter()
        .map(|name| tag("li", &words(name)))
        .collect();
    let ask = "For the trainer; keep it apart from the sheet that is filled in.";
    let body = head(blank, "Names of the parts", ask)
        + &classed("ol", "parts", &names)
        + &notice()
        + &figure(
            blank,
            "next",
            "The machine from the side, with the numbers of its labels",
        );
    document(
        &format!("{}: names of the parts", blank.title),
        &body,
        Leaf::OnItsSide,
    )
}

fn figure(blank: &Blank, class: &str, title: &str) -> String {
    classed("figure", class, &svg_on_paper(&blank.drawing, title))
}

fn head(blank: &Blank, title: &str, ask: &str) -> String {
    let inside = tag("h1", &words(&format!("{title} · {}", blank.title)))
        + &classed("p", "faint", &words(ask));
    tag("header", &inside)
}
