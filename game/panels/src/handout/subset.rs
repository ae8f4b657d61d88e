//! A font with only the letters that a page needs: the same file, but the outlines of all other letters are left out.
//!
//! OpenType 1.9 (ISO/IEC 14496-22), for outlines in `glyf`. Numbers of letters stay, so that all but outlines can be copied;
//! tables that only join or move letters are dropped.

use std::collections::BTreeSet;

use ttf_parser::{Face, GlyphId, Tag};

/// Tables that are kept as they are, where the font has them.
const KEPT: [&[u8; 4]; 8] = [
    b"OS/2", b"cmap", b"cvt ", b"fpgm", b"hhea", b"hmtx", b"maxp", b"prep",
];
/// What all bytes of a font add up to, in words of four bytes.
const WHOLE_SUM: u32 = 0xB1B0_AFBA;
/// Where the header keeps the rest that is missing to that sum, and how offsets are written.
const HEAD_SUM: usize = 8;
const HEAD_OFFSETS: usize = 50;

/// The font with the outlines of these letters; nothing where its outlines are not in `glyf`.
pub(super) fn subset(data: &[u8], letters: &BTreeSet<char>) -> Option<Vec<u8>> {
    let face = Face::parse(data, 0).ok()?;
    let table = |tag: &[u8; 4]| face.raw_face().table(Tag::from_bytes(tag));
    let mut head = table(b"head")?.to_vec();
    let outlines = Outlines {
        data: table(b"glyf")?,
        offsets: offsets(table(b"loca")?, *head.get(HEAD_OFFSETS + 1)? == 1),
    };
    let mut wanted: BTreeSet<u16> = BTreeSet::from([0]);
    for letter in letters {
        outlines.take(
            face.glyph_index(*letter).unwrap_or(GlyphId(0)).0,
            &mut wanted,
        );
    }
    let (mut glyf, mut loca) = (Vec::new(), Vec::new());
    for glyph in 0..face.number_of_glyphs() {
        loca.extend(u32::try_from(glyf.len()).ok()?.to_be_bytes());
        if wanted.contains(&glyph) {
            glyf.extend(outlines.of(glyph)?);
            glyf.resize(glyf.len().next_multiple_of(4), 0);
        }
    }
    loca.extend(u32::try_from(glyf.len()).ok()?.to_be_bytes());
    head.get_mut(HEAD_OFFSETS..HEAD_OFFSETS + 2)?
        .copy_from_slice(&[0, 1]);
    head.get_mut(HEAD_SUM..HEAD_SUM + 4)?.fill(0);
    // Version 3: no names of letters.
    let mut post = table(b"post")?.get(..32)?.to_vec();
    post[..4].copy_from_slice(&[0, 3, 0, 0]);
    let mut tables: Vec<([u8; 4], Vec<u8>)> = KEPT
        .iter()
        .filter_map(|tag| Some((**tag, table(tag)?.to_vec())))
        .collect();
    tables.extend([
        (*b"glyf", glyf),
        (*b"head", head),
        (*b"loca", loca),
        (*b"post", post),
    ]);
    tables.sort();
    file(&tables)
}

/// Outlines of all letters, one after the other.
struct Outlines<'a> {
    data: &'a [u8],
    offsets: Vec<usize>,
}

impl<'a> Outlines<'a> {
    fn of(&self, glyph: u16) -> Option<&'a [u8]> {
        let at = usize::from(glyph);
        self.data
            .get(*self.offsets.get(at)?..*self.offsets.get(at + 1)?)
    }

    /// Takes a letter and those that it is put together of.
    fn take(&self, glyph: u16, wanted: &mut BTreeSet<u16>) {
        if wanted.insert(glyph) {
            for part in self.of(glyph).map(parts).unwrap_or_default() {
                self.take(part, wanted);
            }
        }
    }
}

/// The letters that a letter is put together of; none where it has an outline of its own.
fn parts(outline: &[u8]) -> Vec<u16> {
    const WIDE: u16 = 0x1;
    const SCALED: [(u16, usize); 3] = [(0x8, 2), (0x40, 4), (0x80, 8)];
    const MORE: u16 = 0x20;
    let word = |at: usize| {
        Some(u16::from_be_bytes([
            *outline.get(at)?,
            *outline.get(at + 1)?,
        ]))
    };
    let mut found = Vec::new();
    if word(0).is_none_or(|contours| contours < 0x8000) {
        return found;
    }
    let mut at = 10;
    while let (Some(flags), Some(glyph)) = (word(at), word(at + 2)) {
        found.push(glyph);
        if flags & MORE == 0 {
            break;
        }
        let scale = SCALED.iter().find(|(flag, _)| flags & flag != 0);
        at += 4 + if flags & WIDE != 0 { 4 } else { 2 } + scale.map_or(0, |(_, bytes)| *bytes);
    }
    found
}

/// Where each outline begins, and where the last ends.
fn offsets(loca: &[u8], is_long: bool) -> Vec<usize> {
    if is_long {
        let words = loca.as_chunks::<4>().0;
        words
            .iter()
            .map(|word| u32::from_be_bytes(*word) as usize)
            .collect()
    } else {
        let words = loca.as_chunks::<2>().0;
        words
            .iter()
            .map(|word| 2 * usize::from(u16::from_be_bytes(*word)))
            .collect()
    }
}

/// Sum of a table in words of four bytes.
fn sum(data: &[u8]) -> u32 {
    data.chunks(4).fold(0, |sum: u32, chunk| {
        let mut word = [0; 4];
        word[..chunk.len()].copy_from_slice(chunk);
        sum.wrapping_add(u32::from_be_bytes(word))
    })
}

/// A font file of these tables, which are in the order of their tags.
fn file(tables: &[([u8; 4], Vec<u8>)]) -> Option<Vec<u8>> {
    let count = u16::try_from(tables.len()).ok()?;
    let power = count.ilog2();
    let range = 16 * (1_u16 << power);
    let mut out = vec![0, 1, 0, 0];
    for word in [count, range, u16::try_from(power).ok()?, 16 * count - range] {
        out.extend(word.to_be_bytes());
    }
    let mut at = out.len() + 16 * tables.len();
    let mut head_at = 0;
    for (tag, data) in tables {
        out.extend(tag);
        for word in [
            sum(data),
            u32::try_from(at).ok()?,
            u32::try_from(data.len()).ok()?,
        ] {
            out.extend(word.to_be_bytes());
        }
        if tag == b"head" {
            head_at = at;
        }
        at += data.len().next_multiple_of(4);
    }
    for (_, data) in tables {
        out.extend(data);
        out.resize(out.len().next_multiple_of(4), 0);
    }
    let rest = WHOLE_SUM.wrapping_sub(sum(&out)).to_be_bytes();
    out.get_mut(head_at + HEAD_SUM..head_at + HEAD_SUM + 4)?
        .copy_from_slice(&rest);
    Some(out)
}

#[cfg(test)]
mod tests {
    use ttf_parser::OutlineBuilder;

    use super::*;
    use crate::fonts::REGULAR;

    /// Counts the points of an outline.
    #[derive(Default)]
    struct Points(usize);

    impl OutlineBuilder for Points {
        fn move_to(&mut self, _: f32, _: f32) {
            self.0 += 1;
        }
        fn line_to(&mut self, _: f32, _: f32) {
            self.0 += 1;
        }
        fn quad_to(&mut self, _: f32, _: f32, _: f32, _: f32) {
            self.0 += 1;
        }
        fn curve_to(&mut self, _: f32, _: f32, _: f32, _: f32, _: f32, _: f32) {
            self.0 += 1;
        }
        fn close(&mut self) {}
    }

    fn points(face: &Face<'_>, letter: char) -> usize {
        let mut points = Points::default();
        let glyph = face.glyph_index(letter).expect("a letter of the font");
        face.outline_glyph(glyph, &mut points);
        points.0
    }

    #[test]
    fn wanted_letters_keep_their_outlines_and_widths_and_all_others_lose_theirs() {
        let wanted = BTreeSet::from(['A', 'ö', 'µ', '₂']);
        let small = subset(REGULAR, &wanted).expect("outlines in glyf");
        assert!(small.len() < REGULAR.len() / 3, "{} bytes", small.len());
        let (before, after) = (
            Face::parse(REGULAR, 0).expect("the font"),
            Face::parse(&small, 0).expect("the smaller font"),
        );
        for letter in &wanted {
            // ö is put together of two others.
            assert!(points(&after, *letter) > 0, "{letter}");
            assert_eq!(
                points(&before, *letter),
                points(&after, *letter),
                "{letter}"
            );
        }
        assert_eq!(points(&after, 'B'), 0);
        let wide = |face: &Face<'_>| face.glyph_hor_advance(face.glyph_index('A').expect("A"));
        assert_eq!(wide(&before), wide(&after));
        assert_eq!(
            sum(&small),
            WHOLE_SUM,
            "what the format asks of a whole file"
        );
    }
}
