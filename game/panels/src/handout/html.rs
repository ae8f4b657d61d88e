//! Pieces of a printable page: escaped words, paragraphs, tables, equations; every piece is well-formed by itself.

use ashlane_lessons::engine::Text;

use crate::drawing::escaped;

/// An element with what is in it.
pub(super) fn tag(name: &str, inside: &str) -> String {
    format!("<{name}>{inside}</{name}>\n")
}

/// An element of a class.
pub(super) fn classed(name: &str, class: &str, inside: &str) -> String {
    format!("<{name} class=\"{class}\">{inside}</{name}>\n")
}

/// Words of a line; a number and its unit stay together.
pub(super) fn words(text: &str) -> String {
    escaped(text).replace(" %", "\u{a0}%")
}

/// A number with its unit as people write it: 5.7·10⁹ instead of 5.7e9.
pub(super) fn number(text: &str) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some(at) = rest.find('e') {
        let (before, after) = rest.split_at(at);
        let digits = after[1..].trim_start_matches('-');
        let end = digits.find(|sign: char| !sign.is_ascii_digit());
        let (power, left) = digits.split_at(end.unwrap_or(digits.len()));
        if power.is_empty() || !before.ends_with(|sign: char| sign.is_ascii_digit()) {
            out.push_str(before);
            out.push('e');
            rest = &after[1..];
            continue;
        }
        let alone = before.len() == 1 || before.ends_with(" 1") || before.ends_with("(1");
        out.push_str(if alone { &before[..at - 1] } else { before });
        out.push_str(if alone { "10" } else { "·10" });
        let minus = if after[1..].starts_with('-') {
            "⁻"
        } else {
            ""
        };
        out.push_str(minus);
        out.extend(power.chars().map(raised));
        rest = left;
    }
    words(&(out + rest))
}

/// A digit as an exponent.
fn raised(digit: char) -> char {
    const RAISED: [char; 10] = ['⁰', '¹', '²', '³', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹'];
    let place = digit.to_digit(10).unwrap_or(0) as usize;
    RAISED.get(place).copied().unwrap_or(digit)
}

/// Text with every quantity in both systems of units, as paragraphs.
pub(super) fn paragraphs(text: &Text) -> String {
    paragraphs_of(&text.show_both())
}

/// Text as paragraphs; an empty line begins a new one.
pub(super) fn paragraphs_of(text: &str) -> String {
    text.split("\n\n")
        .map(|text| tag("p", &words(text)))
        .collect()
}

/// Text with every quantity in both systems of units, in one line.
pub(super) fn line(text: &Text) -> String {
    words(&text.show_both().replace("\n\n", " "))
}

/// A table with its head; a column is to the right where its head begins with `>`.
pub(super) fn table(class: &str, head: &[&str], rows: &[Vec<String>]) -> String {
    let is_number = |column: usize| head.get(column).is_some_and(|name| name.starts_with('>'));
    let cell = |name: &str, column: usize, inside: &str| {
        let class = if is_number(column) {
            " class=\"number\""
        } else {
            ""
        };
        format!("<{name}{class}>{inside}</{name}>")
    };
    let titles: String = head
        .iter()
        .enumerate()
        .map(|(column, name)| cell("th", column, &words(name.trim_start_matches('>'))))
        .collect();
    let body: String = rows
        .iter()
        .map(|row| {
            let cells: String = row
                .iter()
                .enumerate()
                .map(|(column, inside)| cell("td", column, inside))
                .collect();
            tag("tr", &cells)
        })
        .collect();
    format!(
        "<table class=\"{class}\"><thead>{}</thead>\n<tbody>{body}</tbody></table>\n",
        tag("tr", &titles)
    )
}

/// Texts that are ticked.
pub(super) fn boxes(texts: impl Iterator<Item = String>, class: &str) -> String {
    let item = |text| {
        tag(
            "li",
            &format!("<span class=\"box\"></span><span>{text}</span>"),
        )
    };
    classed("ul", class, &texts.map(item).collect::<String>())
}

/// Lines to write on.
pub(super) fn lines(count: usize) -> String {
    classed("div", "lines", &"<i></i>".repeat(count))
}

/// An equation as it is typed, with indices low and exponents high.
pub(super) fn equation(text: &str) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some(at) = rest.find(['_', '^']) {
        let (before, after) = rest.split_at(at);
        out.push_str(&escaped(before));
        let name = if after.starts_with('_') { "sub" } else { "sup" };
        let (inside, left) = argument(&after[1..]);
        out.push_str(&format!("<{name}>{}</{name}>", equation(inside)));
        rest = left;
    }
    out + &escaped(rest)
}

/// What an index or an exponent takes in, and what is left: all within brackets, else letters and digits.
fn argument(text: &str) -> (&str, &str) {
    if !text.starts_with('(') {
        let end = text
            .find(|sign: char| !sign.is_alphanumeric())
            .unwrap_or(text.len());
        return text.split_at(end);
    }
    let mut depth = 0;
    for (at, sign) in text.char_indices() {
        depth += match sign {
            '(' => 1,
            ')' => -1,
            _ => 0,
        };
        if depth == 0 {
            return (&text[1..at], &text[at + 1..]);
        }
    }
    (text, "")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exponents_stand_high_with_all_that_is_in_their_brackets() {
        for (typed, shown) in [
            (
                "P = Σ f(d) e^(−w(d) A/Q)",
                "P = Σ f(d) e<sup>−w(d) A/Q</sup>",
            ),
            ("P ≥ LF^n", "P ≥ LF<sup>n</sup>"),
            (
                "P₂ = P₁^(2^k), k = 0.5",
                "P₂ = P₁<sup>2<sup>k</sup></sup>, k = 0.5",
            ),
            ("ln(d_eff/r)", "ln(d<sub>eff</sub>/r)"),
            ("a < b", "a &lt; b"),
        ] {
            assert_eq!(equation(typed), shown);
        }
    }

    #[test]
    fn powers_of_ten_are_written_as_people_write_them() {
        for (printed, written) in [
            ("1e8 Ω·m (1e10 Ω·cm)", "10⁸ Ω·m (10¹⁰ Ω·cm)"),
            ("5.682e9 Ω·m", "5.682·10⁹ Ω·m"),
            ("11e-12 kg", "11·10⁻¹² kg"),
            ("the same", "the same"),
            ("field 1, rest 5 e", "field 1, rest 5 e"),
        ] {
            assert_eq!(number(printed), written);
        }
    }

    #[test]
    fn a_table_says_which_columns_are_numbers() {
        let text = table(
            "fill",
            &["what", ">how much"],
            &[vec!["a".to_owned(), "1".to_owned()]],
        );
        assert!(
            text.contains("<th class=\"number\">how much</th>"),
            "{text}"
        );
        assert!(
            text.contains("<td>a</td><td class=\"number\">1</td>"),
            "{text}"
        );
    }
}
