//! A set that is asked for voltage gives neither voltage nor current.

use super::{Alarm, Place, Priority, Side, Sign, set_is_off};
use crate::units::Dimension;

/// A tenth of what is asked for and of what it may give. Teaching value, no source.
const NOTHING: f64 = 0.1;

/// The row: T17 of the troubleshooting table.
pub(super) const ALARM: Alarm = Alarm {
    key: "set-dead",
    name: "Set gives nothing",
    priority: Priority::Medium,
    place: Place::EachField,
    signs: &[
        Sign {
            instrument: "kilovolt meter",
            dimension: Dimension::Voltage,
            side: Side::Below,
            reading: |shown, field| Some(shown.fields.get(field)?.metered_v),
            set_point: |shown, field| Some(NOTHING * shown.fields.get(field)?.asked_v),
            dead_band: 0.5,
        },
        Sign {
            instrument: "milliammeter",
            dimension: Dimension::Current,
            side: Side::Below,
            reading: |shown, field| Some(shown.fields.get(field)?.metered_a),
            set_point: |shown, field| Some(NOTHING * shown.fields.get(field)?.limit_a),
            dead_band: 0.5,
        },
    ],
    source: "voltage that is asked for, current limit of the sheet; shares are teaching values, no source",
    consequence: "The field catches nothing; the fields behind it and their hoppers get its dust.",
    response: "Read the state of the set, its trip signs and the interlock chain at the panel. A trip on combustibles is \
        never bypassed. Off is not discharged. Work in the set or its cubicle is for qualified people, under your site’s \
        procedure.",
    by_design: set_is_off,
    said_by: &[],
};
