//! How large everything is and where it stands, m: from the sheet where it says so, else by common practice.
//!
//! Along the gas x is 0 where the plates of the first field begin; heights are over the bottom edge of the plates.

use ashlane_shared::{
    conditions::{Conditions, FanPosition, GasDirection},
    physics::gas_path::pressure::Station,
    plant::{HopperState, ROOM_M},
    simulation::GasAlong,
};

use crate::zoom::Eye;

/// Walkway between two fields and before the first, m; common practice, no source.
const WALKWAY_M: f64 = 0.9;
/// From the upper edge of the plates to the hot roof: hanger beams and high-voltage frame, m; common practice, no source.
const UPPER_M: f64 = 1.3;
/// From the lower edge of the plates to the lower high-voltage frame, m; common practice, no source.
pub(crate) const LOWER_FRAME_M: f64 = 0.35;
/// Slope of the nozzle walls from the axis, as height over length; common practice, no source.
const NOZZLE_SLOPE: f64 = 1.0;
/// From the hopper outlets to the ground: airlock, conveyor and headroom, m; common practice, no source.
const HEADROOM_M: f64 = 3.2;
/// Gas speed in ducts where nobody has worked it out yet, m/s; common practice, no source.
const DUCT_M_S: f64 = 15.0;
/// Gas speed in the stack, m/s; common practice, no source.
const STACK_M_S: f64 = 17.0;
/// Diameter of the fan's wheel over the side of the duct; common practice, no source.
const WHEEL: f64 = 0.85;
/// How far the scroll of a fan reaches from its axis, in radii of the wheel; common practice, no source.
pub(super) const SCROLL: f64 = 1.63;
/// From the fan's axis to where its inlet box begins, in radii of the wheel; drawn so long, no source.
pub(super) const INLET_BOX: f64 = 2.9;
/// Height of a fan's scroll over the ground, m; common practice, no source.
const FOOT_M: f64 = 0.4;
/// Width of the air heater or gas cooler, and duct between it and what it leads to, m; drawn so, no source.
const HEATER_M: (f64, f64) = (2.6, 0.8);
/// So much longer is the outlet duct that leads straight to the stack, m; drawn so, no source.
const TO_STACK_M: f64 = 2.6;
/// Straight duct before and behind the nozzles, m; drawn so long, no source.
pub(super) const DUCT_M: f64 = 3.0;

/// The measures of one machine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measures {
    /// Fields, and the length of each.
    pub fields: usize,
    /// Length of the plates of a field, m.
    pub field_m: f64,
    /// Height of the plates, m.
    pub plate_m: f64,
    /// Walkway between two fields, m.
    pub walkway_m: f64,
    /// Height of the hot roof, m.
    pub roof_m: f64,
    /// Height of the brims of the hoppers, m; below 0.
    pub brim_m: f64,
    /// Depth of the hoppers, m.
    pub hopper_m: f64,
    /// Side of a square duct, m.
    pub duct_m: f64,
    /// Length of a nozzle, m.
    pub nozzle_m: f64,
    /// Inner diameter of the stack, m.
    pub stack_m: f64,
    /// Diameter of the fan's wheel, m.
    pub fan_m: f64,
    /// The fan stands before the collector.
    pub pushes: bool,
    /// The gas runs from right to left on the drawing.
    pub mirrored: bool,
}

impl Measures {
    /// The measures of a machine.
    #[must_use]
    pub fn new(conditions: &Conditions, hoppers: &[HopperState], gas: Option<&GasAlong>) -> Self {
        let collector = &conditions.collector;
        let (flow_m3_s, speed_m_s) = gas
            .and_then(|gas| gas.at(Station::InletDuct))
            .map_or((conditions.gas.flow_m3_s, DUCT_M_S), |duct| {
                (duct.flow_m3_s, duct.velocity_m_s)
            });
        let duct_m = (flow_m3_s / speed_m_s.max(1.0)).sqrt();
        let brim_m = -(LOWER_FRAME_M + ROOM_M);
        let roof_m = collector.plate_height_m + UPPER_M;
        Self {
            fields: collector.fields,
            field_m: collector.field_length_m,
            plate_m: collector.plate_height_m,
            walkway_m: WALKWAY_M,
            roof_m,
            brim_m,
            hopper_m: hoppers.first().map_or(3.0, |row| row.height_m),
            duct_m,
            nozzle_m: (0.5 * (roof_m - brim_m - duct_m) / NOZZLE_SLOPE).max(1.0),
            stack_m: (4.0 * conditions.gas.flow_m3_s / (std::f64::consts::PI * STACK_M_S)).sqrt(),
            fan_m: WHEEL * duct_m,
            pushes: conditions.appearance.fan == FanPosition::Upstream,
            mirrored: conditions.appearance.gas_direction == GasDirection::RightToLeft,
        }
    }

    /// Where the plates of a field begin, m.
    #[must_use]
    pub fn field_at_m(&self, field: usize) -> f64 {
        field as f64 * (self.field_m + self.walkway_m)
    }

    /// Where the plates of the last field end, m.
    #[must_use]
    pub fn end_m(&self) -> f64 {
        self.field_at_m(self.fields.saturating_sub(1)) + self.field_m
    }

    /// Both end walls of the casing, m.
    pub(crate) fn walls_m(&self) -> (f64, f64) {
        (-self.walkway_m, self.end_m() + self.walkway_m)
    }

    /// Height of the middle of the ducts, m.
    pub(super) fn axis_m(&self) -> f64 {
        0.5 * (self.roof_m + self.brim_m)
    }

    /// Height of the beams that the plates hang from, m; common practice, no source.
    pub(crate) fn beam_m(&self) -> f64 {
        self.plate_m + 0.45
    }

    /// Height of the ground, m.
    pub(crate) fn ground_m(&self) -> f64 {
        self.brim_m - self.hopper_m - HEADROOM_M
    }

    /// Where the middle of the rising inlet duct stands, m.
    pub(super) fn riser_at_m(&self) -> f64 {
        self.walls_m().0 - self.nozzle_m - DUCT_M - 0.5 * self.duct_m
    }

    /// Where the middle of the stack stands, m.
    pub(super) fn stack_at_m(&self) -> f64 {
        let before_m = if self.pushes {
            self.walls_m().1 + self.nozzle_m + DUCT_M + TO_STACK_M
        } else {
            self.fan_at_m() + 1.3 * self.wheel_m() + 1.5
        };
        before_m + 0.5 * self.stack_m
    }

    /// Where the middle of the fan stands, m.
    pub(super) fn fan_at_m(&self) -> f64 {
        if self.pushes {
            // Its outlet leads straight up into the riser.
            self.riser_at_m() + 0.5 * self.duct_m - SCROLL * self.wheel_m()
        } else {
            self.walls_m().1 + self.nozzle_m + DUCT_M + 0.5 * self.duct_m
        }
    }

    /// Radius of the fan's wheel, m.
    pub(super) fn wheel_m(&self) -> f64 {
        0.5 * self.fan_m
    }

    /// Height of the fan's axis, m.
    pub(super) fn fan_height_m(&self) -> f64 {
        self.ground_m() + FOOT_M + SCROLL * self.wheel_m()
    }

    /// The air heater or gas cooler that the gas comes from: left, bottom, right, top, m.
    pub(super) fn heater_m(&self) -> [f64; 4] {
        let (right_m, middle_m) = if self.pushes {
            let reach_m = INLET_BOX * self.wheel_m();
            (self.fan_at_m() - reach_m - HEATER_M.1, self.fan_height_m())
        } else {
            let half_m = 0.5 * self.duct_m;
            let foot_m = self.ground_m() + 0.8;
            (self.riser_at_m() - half_m - HEATER_M.1, foot_m + half_m)
        };
        let half_m = 0.5 * self.duct_m + 0.3;
        [
            right_m - HEATER_M.0,
            middle_m - half_m,
            right_m,
            middle_m + half_m,
        ]
    }

    /// The whole machine, with its middle.
    pub(crate) fn whole_eye(&self) -> Eye {
        let [left, bottom, right, top] = self.extent_m();
        Eye {
            centre_m: [0.5 * (left + right) as f32, 0.5 * (bottom + top) as f32],
            ..Eye::WHOLE
        }
    }

    /// Left, bottom, right, top of all that is drawn, m.
    pub(super) fn extent_m(&self) -> [f64; 4] {
        [
            self.heater_m()[0] - 0.5,
            self.ground_m() - 0.4,
            self.stack_at_m() + 0.5 * self.stack_m + 0.6,
            self.roof_m + 3.4,
        ]
    }
}
