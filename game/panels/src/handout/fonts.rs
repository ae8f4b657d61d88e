//! The fonts of a page, in the page: nothing is fetched when it is opened or printed.

use std::collections::BTreeSet;

use egui::FontDefinitions;
use ttf_parser::Face;

use super::subset::subset;
use crate::fonts::{BOLD, REGULAR};

/// Fonts of egui that stand in, one behind the other, for signs that ours lacks: the family in a page, and its name.
const BEHIND: [(&str, &str); 2] = [
    ("Ashlane signs", "Ubuntu-Light"),
    ("Ashlane arrows", "Hack"),
];

/// The rules that name the fonts, each with the letters that this page needs.
pub(super) fn faces(page: &str) -> String {
    // What the style adds by itself is plain letters and digits.
    let letters: BTreeSet<char> = page
        .chars()
        .chain(' '..='~')
        .filter(|sign| !sign.is_control())
        .collect();
    let mut rules: String = [(REGULAR, "normal"), (BOLD, "bold")]
        .into_iter()
        .map(|(data, weight)| face("Noto Sans", weight, data, &letters))
        .collect();
    let mut missing = lacking(REGULAR, letters);
    let others = FontDefinitions::default().font_data;
    for (family, name) in BEHIND {
        let Some(data) = others.get(name).filter(|_| !missing.is_empty()) else {
            continue;
        };
        let still = lacking(&data.font, missing.clone());
        let here: BTreeSet<char> = missing.difference(&still).copied().collect();
        if !here.is_empty() {
            rules.push_str(&face(family, "normal", &data.font, &here));
        }
        missing = still;
    }
    rules
}

/// Those letters that a font has not.
fn lacking(font: &[u8], letters: BTreeSet<char>) -> BTreeSet<char> {
    let Ok(face) = Face::parse(font, 0) else {
        return letters;
    };
    letters
        .into_iter()
        .filter(|letter| face.glyph_index(*letter).is_none())
        .collect()
}

fn face(family: &str, weight: &str, data: &[u8], letters: &BTreeSet<char>) -> String {
    let small = subset(data, letters).unwrap_or_else(|| data.to_vec());
    format!(
        "@font-face {{ font-family: \"{family}\"; font-weight: {weight}; src: url(data:font/ttf;base64,{}) format(\"truetype\"); }}\n",
        base64(&small)
    )
}

/// RFC 4648, section 4.
fn base64(data: &[u8]) -> String {
    const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::with_capacity(data.len().div_ceil(3) * 4);
    for group in data.chunks(3) {
        let byte = |index: usize| u32::from(group.get(index).copied().unwrap_or(0));
        let bits = byte(0) << 16 | byte(1) << 8 | byte(2);
        for index in 0..4 {
            text.push(if index <= group.len() {
                char::from(LETTERS[(bits >> (18 - 6 * index) & 63) as usize])
            } else {
                '='
            });
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_sign_of_a_formula_is_in_one_of_the_fonts() {
        let signs: BTreeSet<char> = ashlane_shared::checks::FORMULAS
            .iter()
            .flat_map(|formula| formula.equation.chars().chain(formula.validity.chars()))
            .chain("→ ± − ≥ ½ · “”".chars())
            .collect();
        let others = FontDefinitions::default().font_data;
        let left = BEHIND
            .iter()
            .fold(lacking(REGULAR, signs), |left, (_, name)| {
                lacking(&others[*name].font, left)
            });
        assert!(left.is_empty(), "{left:?}");
        assert_eq!(faces("a − b → c").matches("@font-face").count(), 4);
        assert_eq!(faces("abc").matches("@font-face").count(), 2);
    }

    #[test]
    fn base64_is_that_of_the_standard() {
        // RFC 4648, section 10.
        for (data, text) in [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg=="),
            ("foobar", "Zm9vYmFy"),
        ] {
            assert_eq!(base64(data.as_bytes()), text);
        }
    }
}
