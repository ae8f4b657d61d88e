//! The fonts of a page, in the page: nothing is fetched when it is opened or printed.

use crate::fonts::{BOLD, REGULAR};

/// The rules that name the fonts, each with its data.
pub(super) fn faces(_page: &str) -> String {
    [(REGULAR, "normal"), (BOLD, "bold")]
        .into_iter()
        .map(|(data, weight)| face("Noto Sans", weight, data))
        .collect()
}

fn face(family: &str, weight: &str, data: &[u8]) -> String {
    format!(
        "@font-face {{ font-family: \"{family}\"; font-weight: {weight}; src: url(data:font/ttf;base64,{}) format(\"truetype\"); }}\n",
        base64(data)
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
    use super::base64;

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
