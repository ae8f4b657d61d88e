//! There is more oxygen behind the collector than before it: air leaks in.

use super::{Alarm, Place, Priority, Side, Sign};
use crate::units::Dimension;

/// Rise of the dry oxygen from inlet duct to outlet duct, share by volume. Teaching value, no source.
const RISE: f64 = 0.01;

/// The row: T10 of the troubleshooting table.
pub(super) const ALARM: Alarm = Alarm {
    key: "oxygen-rise",
    name: "Oxygen rises through the collector",
    priority: Priority::Low,
    place: Place::Collector,
    signs: &[Sign {
        instrument: "oxygen, outlet less inlet",
        dimension: Dimension::Fraction,
        side: Side::Above,
        reading: |shown, _| Some(shown.oxygen_out? - shown.oxygen_in?),
        set_point: |_, _| Some(RISE),
        dead_band: 0.2,
    }],
    source: "teaching value, no source",
    consequence: "Cold corners, sticky ash and corrosion; more gas through the plates and the fan.",
    response: "Check the oxygen meters against each other and the outlet temperature against its trend; note where air could \
        come in, at doors, valves and joints, for those whom your site’s procedure names. A door may pull or slam.",
    by_design: |_, _| false,
    said_by: &[],
};
