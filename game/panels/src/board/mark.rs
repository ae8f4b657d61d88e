//! The mark of an alarm: a shape, a digit and a colour for each priority, all with a dark outline.

use ashlane_shared::alarms::Priority;

use crate::{
    drawing::{Anchor, Drawing, Item},
    theme::{Ink, SMALL},
};

/// Side of the square that a mark fills, with the bracket of one that nobody has acknowledged before it.
pub(super) const MARK: f32 = 24.0;
pub(super) const BRACKET: f32 = 7.0;

/// High: vermillion square, 1. Medium: orange triangle, 2. Low: yellow circle, 3. Before one that nobody has acknowledged
/// stands an open bracket; nothing ever blinks.
#[must_use]
pub fn mark_drawing(priority: Priority, is_unacknowledged: bool) -> Drawing {
    let mut drawing = Drawing::new([BRACKET + MARK, MARK]);
    let (left, right) = (BRACKET + 2.5, BRACKET + MARK - 2.5);
    let (top, foot) = (2.5, MARK - 2.5);
    let centre = [0.5 * (left + right), 0.5 * MARK];
    let edge = Ink::AlarmEdge;
    let digit = match priority {
        Priority::High => {
            drawing.rect([left, top], [right, foot], Ink::AlarmHigh, 1.0);
            let corners = [
                [left, top],
                [right, top],
                [right, foot],
                [left, foot],
                [left, top],
            ];
            drawing.line(corners, edge, 1.5);
            centre
        }
        Priority::Medium => {
            let corners = [
                [left - 2.0, foot + 0.5],
                [centre[0], 0.5],
                [right + 2.0, foot + 0.5],
            ];
            drawing.items.push(Item::Area {
                points: corners.to_vec(),
                ink: Ink::AlarmMedium,
                opacity: 1.0,
            });
            let [one, two, three] = corners;
            drawing.line([one, two, three, one], edge, 1.5);
            [centre[0], centre[1] + 3.5]
        }
        Priority::Low => {
            let radius = 0.5 * (right - left);
            drawing.dot(centre, radius, Ink::AlarmLow);
            drawing.items.push(Item::Ring {
                centre,
                radius,
                ink: edge,
                width: 1.5,
            });
            centre
        }
    };
    let number = priority.number().to_string();
    drawing.bold(digit, Anchor::Centre, number, SMALL, edge);
    if is_unacknowledged {
        let bracket = [[4.5, 1.0], [1.0, 1.0], [1.0, MARK - 1.0], [4.5, MARK - 1.0]];
        drawing.line(bracket, Ink::Text, 2.0);
    }
    drawing
}
