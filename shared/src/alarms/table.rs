//! The list of all alarms: those that others refer to come first.

use super::{Alarm, field_short, hopper_level, opacity, oxygen_rise, set_dead, voltage_low};

/// Every kind of alarm.
pub const ALARMS: &[Alarm] = &[
    field_short::ALARM,
    set_dead::ALARM,
    hopper_level::ALARM,
    opacity::ALARM,
    voltage_low::ALARM,
    oxygen_rise::ALARM,
];

/// The kind of this key.
#[must_use]
pub fn find_alarm(key: &str) -> Option<&'static Alarm> {
    ALARMS.iter().find(|alarm| alarm.key == key)
}
