//! Where the drawing stands on the ladder of scales, and how it travels from one stand to another without a jump.
//!
//! Whoever sets the rung, the window of the plan or the eye of the elevation only says where to go: the drawing follows.

mod doors;
mod eye;
mod steps;

pub(crate) use doors::{Door, door, leads_nearer};
pub use eye::Eye;
pub(crate) use steps::{Turn, shortest_m, step_in, step_out, wire_at_m};

use crate::state::{PlanWindow, Rung, UiState};

/// How long a travel takes, s.
const TRAVEL_S: f32 = 0.7;
/// Longest step of a travel: a frame that took long does not skip it, s.
const LONGEST_STEP_S: f32 = 0.05;

/// A stand: the rung, and what it shows of the machine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stand {
    /// The rung.
    pub rung: Rung,
    /// Part of the passage, of the plan.
    pub window: PlanWindow,
    /// Part of the machine, of the elevation.
    pub eye: Eye,
}

impl Stand {
    /// Where the state wants the drawing to stand.
    #[must_use]
    pub fn of(state: &UiState) -> Self {
        Self {
            rung: state.rung,
            window: state.window,
            eye: state.eye,
        }
    }

    /// Part of the way from here to another stand of the same rung.
    fn towards(self, to: Self, share: f32) -> Self {
        Self {
            rung: to.rung,
            window: self.window.towards(to.window, share),
            eye: self.eye.towards(to.eye, share),
        }
    }
}

/// What is to be drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Shown {
    /// A stand, perhaps on the way to another one of the same rung.
    At(Stand),
    /// On the way from one rung to another.
    Between {
        /// Where it comes from.
        from: Stand,
        /// Where it goes.
        to: Stand,
        /// Share of the way, 0 to 1, slow at both ends.
        share: f32,
    },
}

/// The travel that is under way.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Zoom {
    /// Where the drawing stands or goes.
    at: Option<Stand>,
    /// Where it comes from, and the share of the time that has passed.
    travel: Option<(Stand, f32)>,
    /// Where on the screen the last stand was drawn: with other cautions and checks below it, the next has another place.
    pub(crate) rect: Option<egui::Rect>,
    /// Whether the keyboard was at the drawing when it set off.
    pub(crate) focused: bool,
    /// Turns of the wheel towards the next rung, points.
    pub(crate) turned: f32,
    /// Time at this rung, s: what is left of a turn that led here must not lead on.
    pub(crate) here_s: f32,
}

impl Zoom {
    /// Follows to where the drawing is wanted; `cut` goes there at once.
    pub fn follow(&mut self, wanted: Stand, passed_s: f32, cut: bool) -> Shown {
        self.here_s += passed_s;
        if self.at.is_none_or(|at| at.rung != wanted.rung) {
            (self.turned, self.here_s) = (0.0, 0.0);
        }
        let Some(at) = self.at.filter(|_| !cut) else {
            self.jump(wanted);
            return Shown::At(wanted);
        };
        if at != wanted {
            let from = self.present(at);
            *self = Self {
                at: Some(wanted),
                travel: Some((from, 0.0)),
                ..*self
            };
        }
        let Some((from, passed)) = self.travel else {
            return Shown::At(wanted);
        };
        let passed = passed + passed_s.min(LONGEST_STEP_S) / TRAVEL_S;
        if passed >= 1.0 {
            self.travel = None;
            return Shown::At(wanted);
        }
        self.travel = Some((from, passed));
        let share = eased(passed);
        if from.rung == wanted.rung {
            return Shown::At(from.towards(wanted, share));
        }
        Shown::Between {
            from,
            to: wanted,
            share,
        }
    }

    /// Stands there from now on, without a travel: the hand that drags is followed at once.
    pub(crate) fn jump(&mut self, to: Stand) {
        self.at = Some(to);
        self.travel = None;
    }

    /// Whether a travel is under way.
    #[must_use]
    pub fn is_travelling(&self) -> bool {
        self.travel.is_some()
    }

    /// What is mostly seen of a travel to `at`.
    fn present(&self, at: Stand) -> Stand {
        match self.travel {
            Some((from, passed)) if from.rung == at.rung => from.towards(at, eased(passed)),
            Some((from, passed)) if passed < 0.5 => from,
            _ => at,
        }
    }
}

/// Slow at both ends.
fn eased(passed: f32) -> f32 {
    let passed = passed.clamp(0.0, 1.0);
    passed * passed * (3.0 - 2.0 * passed)
}

/// Between two positive numbers by their ratio.
fn by_ratio(from: f32, to: f32, share: f32) -> f32 {
    from * (to / from).powf(share)
}

/// How far the middle has come when the width has come to `width`: the place that does not move stays the same.
fn middle_share(from: f32, to: f32, width: f32, share: f32) -> f32 {
    if (to - from).abs() > 1e-3 * from {
        (width - from) / (to - from)
    } else {
        share
    }
}

impl PlanWindow {
    /// Part of the way to another window: as a zoom round the place that does not move.
    #[must_use]
    pub(crate) fn towards(self, to: Self, share: f32) -> Self {
        let length_m = by_ratio(self.length_m, to.length_m, share);
        let along = middle_share(self.length_m, to.length_m, length_m, share);
        Self {
            start_m: self.start_m + along * (to.start_m - self.start_m),
            length_m,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stand(rung: Rung, start_m: f32, length_m: f32) -> Stand {
        Stand {
            rung,
            window: PlanWindow { start_m, length_m },
            eye: Eye::WHOLE,
        }
    }

    /// The shown windows on the way.
    fn way(from: Stand, to: Stand) -> Vec<Shown> {
        let mut zoom = Zoom::default();
        assert_eq!(zoom.follow(from, 0.0, false), Shown::At(from));
        let mut way = Vec::new();
        for _ in 0..200 {
            way.push(zoom.follow(to, 1.0 / 60.0, false));
            if !zoom.is_travelling() {
                return way;
            }
        }
        panic!("it never arrives");
    }

    #[test]
    fn a_window_glides_in_small_steps_and_keeps_the_place_that_does_not_move() {
        let (from, to) = (stand(Rung::Plan, 0.0, 12.0), stand(Rung::Plan, 3.0, 3.0));
        let way = way(from, to);
        assert!(way.len() > 20, "{} frames", way.len());
        assert_eq!(way.last(), Some(&Shown::At(to)));
        let mut before = from.window;
        for shown in way {
            let Shown::At(Stand { window, .. }) = shown else {
                panic!("another rung: {shown:?}")
            };
            // 0 at the left edge before, 4 m: the same share of both windows, so it must not move.
            let share = |window: PlanWindow| (4.0 - window.start_m) / window.length_m;
            assert!((share(window) - 1.0 / 3.0).abs() < 1e-4, "{window:?}");
            let ratio = before.length_m / window.length_m;
            assert!((0.999..1.12).contains(&ratio), "a jump by {ratio}");
            before = window;
        }
    }

    #[test]
    fn between_rungs_the_way_is_one_of_small_steps_and_a_cut_has_none() {
        let (from, to) = (
            stand(Rung::Elevation, 0.0, 3.0),
            stand(Rung::Plan, 0.0, 3.0),
        );
        let mut before = 0.0;
        for shown in way(from, to) {
            let share = match shown {
                Shown::Between { share, .. } => share,
                Shown::At(stand) => {
                    assert_eq!(stand, to);
                    1.0
                }
            };
            assert!(
                share > before && share - before < 0.06,
                "{before} to {share}"
            );
            before = share;
        }
        let mut zoom = Zoom::default();
        zoom.follow(from, 0.0, true);
        assert_eq!(zoom.follow(to, 1.0 / 60.0, true), Shown::At(to));
    }

    #[test]
    fn who_changes_the_mind_on_the_way_goes_on_from_what_is_seen() {
        let (from, to) = (stand(Rung::Plan, 0.0, 12.0), stand(Rung::Plan, 0.0, 3.0));
        let mut zoom = Zoom::default();
        zoom.follow(from, 0.0, false);
        let mut seen = from;
        for _ in 0..20 {
            if let Shown::At(stand) = zoom.follow(to, 1.0 / 60.0, false) {
                seen = stand;
            }
        }
        let Shown::At(next) = zoom.follow(from, 1.0 / 60.0, false) else {
            panic!("the same rung")
        };
        let ratio = next.window.length_m / seen.window.length_m;
        assert!((0.9..1.1).contains(&ratio), "{seen:?} to {next:?}");
    }
}
