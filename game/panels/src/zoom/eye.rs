//! Which part of the machine the elevation shows: a middle, and how many times larger than the whole.

use super::{by_ratio, middle_share};

/// Part of the machine that is shown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Eye {
    /// Middle of the part, m along the gas and over the bottom edge of the plates; of the whole machine it says nothing.
    pub centre_m: [f32; 2],
    /// How many times larger than the whole machine it is drawn, 1 to [`Eye::MOST`].
    pub times: f32,
}

impl Eye {
    /// The whole machine.
    pub const WHOLE: Self = Self {
        centre_m: [0.0, 0.0],
        times: 1.0,
    };
    /// Largest.
    pub const MOST: f32 = 24.0;

    /// Larger (factor above 1) or smaller round a fixed place.
    #[must_use]
    pub fn zoomed(self, factor: f32, about_m: [f32; 2]) -> Self {
        let times = (self.times * factor).clamp(1.0, Self::MOST);
        let nearer = self.times / times;
        let middle = |axis: usize| about_m[axis] + (self.centre_m[axis] - about_m[axis]) * nearer;
        Self {
            centre_m: [0, 1].map(middle),
            times,
        }
    }

    /// Part of the way to another part.
    #[must_use]
    pub(super) fn towards(self, to: Self, share: f32) -> Self {
        let times = by_ratio(self.times, to.times, share);
        let along = middle_share(1.0 / self.times, 1.0 / to.times, 1.0 / times, share);
        let middle =
            |axis: usize| self.centre_m[axis] + along * (to.centre_m[axis] - self.centre_m[axis]);
        Self {
            centre_m: [0, 1].map(middle),
            times,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_zoom_keeps_the_place_under_the_pointer() {
        let eye = Eye {
            centre_m: [4.0, 5.0],
            times: 2.0,
        };
        let near = eye.zoomed(3.0, [6.0, 4.0]);
        assert_eq!(near.times, 6.0);
        // The distance from the middle, in points, is the same before and after.
        for axis in [0, 1] {
            let about = [6.0, 4.0][axis];
            let before = (about - eye.centre_m[axis]) * eye.times;
            let after = (about - near.centre_m[axis]) * near.times;
            assert!((before - after).abs() < 1e-4, "{before} {after}");
        }
        assert_eq!(eye.zoomed(1e-3, [6.0, 4.0]).times, 1.0);
        assert_eq!(eye.zoomed(1e3, [6.0, 4.0]).times, Eye::MOST);
    }
}
