//! A whole page: style, fonts and body in one file, and figures on paper.

use super::{
    Figure, fonts,
    html::{classed, tag, words},
};
use crate::drawing::{Drawing, escaped, svg_on_paper};

/// How a page looks, on paper first.
const STYLE: &str = include_str!("page.css");

/// Figures narrower than this are not blown up to the whole width, points.
const NARROW: f32 = 600.0;

/// A page with everything in it.
pub(super) fn document(title: &str, body: &str) -> String {
    let style = fonts::faces(body) + STYLE;
    format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n\
         <meta name=\"viewport\" content=\"width=device-width\"/>\n<title>{}</title>\n\
         <style>\n{style}</style>\n</head>\n<body>\n{body}</body>\n</html>\n",
        escaped(title)
    )
}

/// A figure with what is said below it.
pub(super) fn figure(figure: &Figure) -> String {
    let class = if figure.drawing.size[0] < NARROW {
        "narrow"
    } else {
        "wide"
    };
    let drawing = svg_on_paper(&figure.drawing, &figure.caption);
    classed(
        "figure",
        class,
        &(drawing + &tag("figcaption", &words(&figure.caption))),
    )
}

/// A wide drawing on a leaf that is turned on its side.
pub(super) fn on_its_side(drawing: &Drawing, title: &str) -> String {
    classed("figure", "side", &svg_on_paper(drawing, title))
}
