//! The ash in a row of hoppers stands at the level probe.

use super::{Alarm, Place, Priority, Side, Sign};
use crate::{plant::ALARM_LEVEL, units::Dimension};

/// The row: T8 of the troubleshooting table.
pub(super) const ALARM: Alarm = Alarm {
    key: "hopper-level",
    name: "Hopper level high",
    priority: Priority::Medium,
    place: Place::EachField,
    signs: &[Sign {
        instrument: "level probe",
        dimension: Dimension::Fraction,
        side: Side::Above,
        reading: |shown, field| shown.fields.get(field)?.hopper_level,
        set_point: |_, _| Some(ALARM_LEVEL),
        dead_band: 0.05,
    }],
    source: "where the model has its level probe; a teaching value, no source",
    consequence: "The ash rises to the frame and shorts the field.",
    response: "Look at the emptying log, the heater, the conveying line and the row behind. Act before the ash is at the \
        frame. Nobody stands in front of a hopper door or enters; poking and emptying by hand only as your site’s procedure \
        says.",
    by_design: |_, _| false,
    said_by: &[],
};
