//! Checks the words of a picture, so that whoever renders it gets only what can be rendered.

use std::path::{Path, PathBuf};

use super::{
    Failure, Opened, field_index, open,
    place::{place, refused},
    words::PictureWords,
};
use ashlane_shared::conditions::nearest;

/// What can be shown: name, and what it is.
pub const VIEWS: [(&str, &str); 8] = [
    (
        "panel",
        "operator’s panel after a shift of 8 h on the plant clock: alarms, values, trends",
    ),
    (
        "cross-section",
        "across the gas: passages side by side, the gas over the face, hoppers",
    ),
    (
        "elevation",
        "the whole machine from the side, to scale, with dust, hoppers and readings",
    ),
    (
        "plan",
        "one gas passage from above, with its agreement strip",
    ),
    (
        "wire",
        "one wire between its plates: field, ion paths, current on the plates",
    ),
    (
        "grain",
        "one grain from inlet to plate: path, forces, charge, speed",
    ),
    (
        "energization",
        "electrical set of one field: kV and mA over time, sparks, readings",
    ),
    (WHOLE, "the whole window"),
];

/// The one view that is more than a line drawing.
const WHOLE: &str = "window";

/// Smallest and largest width and height, pixels.
pub const SIZE_LIMITS: ((u32, u32), (u32, u32)) = ((320, 240), (8192, 8192));

/// A picture to make.
#[derive(Clone, Debug)]
pub struct PictureWish {
    /// The sheet.
    pub opened: Opened,
    /// What to show, one of [`VIEWS`].
    pub view: &'static str,
    /// The field that a close look is at, from 0.
    pub field: usize,
    /// File to write.
    pub out: PathBuf,
    /// Width and height, pixels.
    pub size: (u32, u32),
    /// Whether to write a line drawing.
    pub svg: bool,
}

/// Checks what is asked for.
pub(super) fn picture(words: &PictureWords) -> Result<PictureWish, Failure> {
    let view = view(&words.view)?;
    if words.svg && view == WHOLE {
        return Err(Failure::Picture(format!(
            "the view \"{WHOLE}\" is no line drawing; leave --svg out, or name another view"
        )));
    }
    place(&words.out)?;
    ending(&words.out, words.svg)?;
    let opened = open::open(&words.sheet)?;
    let field = field_index(words.field, &opened)?;
    Ok(PictureWish {
        opened,
        view,
        field,
        out: words.out.clone(),
        size: words.size,
        svg: words.svg,
    })
}

fn view(name: &str) -> Result<&'static str, Failure> {
    let known = VIEWS.map(|(known, _)| known);
    known
        .into_iter()
        .find(|known| *known == name)
        .ok_or_else(|| {
            let near = nearest(name, known.into_iter())
                .map_or_else(String::new, |near| format!(" (did you mean \"{near}\"?)"));
            Failure::Picture(format!(
                "there is no view \"{name}\"{near}; there are {}",
                in_words(&known)
            ))
        })
}

/// "a, b and c".
fn in_words(names: &[&str]) -> String {
    match names {
        [first @ .., last] if !first.is_empty() => format!("{} and {last}", first.join(", ")),
        _ => names.concat(),
    }
}

/// Whether the name of the file goes with what is written into it.
fn ending(out: &Path, svg: bool) -> Result<(), Failure> {
    let ending = out.extension().map(std::ffi::OsStr::to_ascii_lowercase);
    let reason = match (svg, ending.as_ref().and_then(|ending| ending.to_str())) {
        (true, Some("svg")) | (false, Some("png")) => return Ok(()),
        (true, _) => "with --svg the name of the file ends in .svg",
        (false, Some("svg")) => "add --svg for a line drawing, or name a .png file",
        (false, _) => "the name of the file ends in .png",
    };
    Err(refused(out, reason))
}

/// Reads "1440x900".
pub(super) fn size(text: &str) -> Result<(u32, u32), String> {
    let ((least_width, least_height), (most_width, most_height)) = SIZE_LIMITS;
    let read = text
        .split_once(['x', 'X', '×'])
        .and_then(|(width, height)| Some((width.parse().ok()?, height.parse().ok()?)));
    read.filter(|(width, height)| {
        (least_width..=most_width).contains(width) && (least_height..=most_height).contains(height)
    })
    .ok_or_else(|| {
        format!(
            "write width and height in pixels such as 1440x900, {least_width}x{least_height} to {most_width}x{most_height}"
        )
    })
}

#[cfg(test)]
mod tests {
    use super::size;

    #[test]
    fn sizes_are_two_numbers_within_limits() {
        assert_eq!(size("1440x900"), Ok((1440, 900)));
        assert_eq!(size("320×240"), Ok((320, 240)));
        for wrong in ["1440", "1440x", "x900", "319x240", "320x8193", "-1x900", ""] {
            assert!(size(wrong).is_err(), "{wrong}");
        }
    }
}
