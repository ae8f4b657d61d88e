//! The gas in the stack is darker than it should be, in the mean of some minutes.

use super::{Alarm, Place, Priority, Side, Sign};
use crate::units::Dimension;

/// Mean opacity from one reading to the next. Teaching value, no source: the site's permit says what holds there.
const DARK: f64 = 0.1;

/// The row: "opacity ↑" of the troubleshooting table.
pub(super) const ALARM: Alarm = Alarm {
    key: "opacity",
    name: "Opacity high",
    priority: Priority::Medium,
    place: Place::Collector,
    signs: &[Sign {
        instrument: "opacity monitor",
        dimension: Dimension::Fraction,
        side: Side::Above,
        reading: |shown, _| shown.opacity,
        set_point: |_, _| Some(DARK),
        dead_band: 0.1,
    }],
    source: "teaching value, no source; your permit says what holds",
    consequence: "More dust than usual leaves by the stack.",
    response: "Compare kV, mA and sparks of every field with its neighbours and its baseline; set the time beside raps, \
        soot-blowing and load. Tell those whom your permit and your site’s procedure name.",
    by_design: |_, _| false,
    said_by: &[],
};
