//! A set gives all the current that it may and next to no voltage: its field is shorted.

use super::{Alarm, Place, Priority, Side, Sign, set_is_off};
use crate::units::Dimension;

/// A fifth of the voltage that is asked for. Teaching value, no source.
const GONE: f64 = 0.2;
/// Share of the current limit that counts as at the limit. Teaching value, no source.
const AT_LIMIT: f64 = 0.95;

/// The row: T1 of the troubleshooting table.
pub(super) const ALARM: Alarm = Alarm {
    key: "field-short",
    name: "Field shorted",
    priority: Priority::High,
    place: Place::EachField,
    signs: &[
        Sign {
            instrument: "kilovolt meter",
            dimension: Dimension::Voltage,
            side: Side::Below,
            reading: |shown, field| Some(shown.fields.get(field)?.metered_v),
            set_point: |shown, field| Some(GONE * shown.fields.get(field)?.asked_v),
            dead_band: 0.5,
        },
        Sign {
            instrument: "milliammeter",
            dimension: Dimension::Current,
            side: Side::Above,
            reading: |shown, field| Some(shown.fields.get(field)?.metered_a),
            set_point: |shown, field| Some(AT_LIMIT * shown.fields.get(field)?.limit_a),
            dead_band: 0.1,
        },
    ],
    source: "current limit of the sheet; shares are teaching values, no source",
    consequence: "The field catches nothing; ash that is up to the frame fuses, and the next row of hoppers gets more.",
    response: "Read the hopper level, the state of key and ground switch and the insulator alarms first. No restart while \
        the level is high, alarmed or unknown, while a ground switch is unproven, or after an insulator alarm. Call those \
        whom your site’s procedure names; it decides what comes next.",
    by_design: set_is_off,
    said_by: &[],
};
