//! Makes unit spellings comparable: `m³/s`, `m^3/s` and `m3 / s` are one unit.

/// A spelling with Unicode signs turned to ASCII, carets dropped, and spaces read as products.
pub(super) fn plain(spelling: &str) -> String {
    let mut text = String::with_capacity(spelling.len());
    for sign in spelling.trim().chars() {
        match sign {
            '⁰' => text.push('0'),
            '¹' => text.push('1'),
            '²' => text.push('2'),
            '³' => text.push('3'),
            '⁴' => text.push('4'),
            '⁻' | '−' | '‐' | '‑' => text.push('-'),
            // The micro sign and the Greek letter look alike.
            '\u{b5}' | '\u{3bc}' => text.push('u'),
            // So do the ohm sign and the Greek letter.
            '\u{2126}' | '\u{3a9}' => text.push_str("ohm"),
            '·' | '⋅' | '•' | '∙' | '×' | '*' => text.push('.'),
            'º' | '˚' => text.push('°'),
            '℃' => text.push_str("°C"),
            '℉' => text.push_str("°F"),
            '″' | '”' => text.push('"'),
            '^' => {}
            space if space.is_whitespace() => text.push(' '),
            other => text.push(other),
        }
    }
    spaces_as_products(&text)
}

/// Drops spaces beside `/ . ( )` and reads any other run of spaces as a product.
fn spaces_as_products(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut space = false;
    for sign in text.chars() {
        if sign == ' ' {
            space = true;
            continue;
        }
        let joins = |sign: char| matches!(sign, '/' | '.' | '(' | ')');
        if space && !joins(sign) && !out.is_empty() && !out.ends_with(joins) {
            out.push('.');
        }
        space = false;
        out.push(sign);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::plain;

    #[test]
    fn different_hands_write_the_same_unit() {
        for (typed, expected) in [
            ("m³/s", "m3/s"),
            ("m^3 / s", "m3/s"),
            ("Ω·cm", "ohm.cm"),
            ("\u{2126} cm", "ohm.cm"),
            ("\u{3bc}A/ft²", "uA/ft2"),
            ("m² V⁻¹ s⁻¹", "m2.V-1.s-1"),
            ("ft²/1000\u{a0}acfm", "ft2/1000.acfm"),
            ("℃", "°C"),
            ("  ", ""),
        ] {
            assert_eq!(plain(typed), expected, "{typed:?}");
        }
    }
}
