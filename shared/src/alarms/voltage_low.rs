//! The kilovolt meter of one set shows far less than those of the other fields.

use super::{Alarm, Place, Priority, Side, Sign, set_is_off};
use crate::units::Dimension;

/// Share of the middle of the other fields. Teaching value, no source.
const FAR_BELOW: f64 = 0.75;

/// The row: T27 of the troubleshooting table. Close clearance, insulator tracking and half a rectifier (T6, T9, T26) lower
/// the voltage too, but at full severity by less than this share.
pub(super) const ALARM: Alarm = Alarm {
    key: "voltage-low",
    name: "kV far below the other fields",
    priority: Priority::Low,
    place: Place::EachField,
    signs: &[Sign {
        instrument: "kilovolt meter",
        dimension: Dimension::Voltage,
        side: Side::Below,
        reading: |shown, field| Some(shown.fields.get(field)?.metered_v),
        set_point: |shown, field| Some(FAR_BELOW * shown.middle_of_others_v(field)?),
        dead_band: 0.05,
    }],
    source: "the other fields that are on; the share is a teaching value, no source",
    consequence: "The field catches less, if its meter is right.",
    response: "Compare mA, sparks, primary side and opacity before you believe one meter; look at hopper level and insulator \
        heater. What needs the inside waits for an outage under your site’s procedure.",
    by_design: set_is_off,
    said_by: &["field-short", "set-dead"],
};
