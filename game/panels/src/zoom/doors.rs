//! What two rungs both show: its place on either drawing, so that one grows out of the other where it belongs.

use egui::{Rect, emath::RectTransform, pos2, vec2};

use super::{Stand, by_ratio, middle_share, steps::wire_at_m};
use crate::{
    drawing::Point,
    elevation::ElevationPlaces,
    grain,
    plan::PlanPlaces,
    section::{SectionView, above_legend, windowed},
    state::Rung,
    wire::WirePlaces,
};

/// Half the size of a grain on the drawing of the wire, points.
const GRAIN: f32 = 2.5;

/// The same thing on the farther and on the nearer drawing, points on the screen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Door {
    /// On the farther.
    pub(crate) outer: Rect,
    /// On the nearer.
    pub(crate) inner: Rect,
}

impl Door {
    /// Where it is when the nearer drawing has come so far, 0 to 1.
    pub(crate) fn at(&self, share: f32) -> Rect {
        let axis = |from: [f32; 2], to: [f32; 2]| {
            let (narrow, wide) = ((from[1] - from[0]).max(0.1), (to[1] - to[0]).max(0.1));
            let width = by_ratio(narrow, wide, share);
            let along = middle_share(narrow, wide, width, share);
            let middle = |ends: [f32; 2]| 0.5 * (ends[0] + ends[1]);
            let middle = middle(from) + along * (middle(to) - middle(from));
            (middle - 0.5 * width, middle + 0.5 * width)
        };
        let (outer, inner) = (self.outer, self.inner);
        let (left, right) = axis([outer.min.x, outer.max.x], [inner.min.x, inner.max.x]);
        let (top, bottom) = axis([outer.min.y, outer.max.y], [inner.min.y, inner.max.y]);
        Rect::from_min_max(pos2(left, top), pos2(right, bottom))
    }

    /// How the farther drawing lies then.
    pub(crate) fn farther(&self, share: f32) -> RectTransform {
        RectTransform::from_to(grown(self.outer), grown(self.at(share)))
    }

    /// How the nearer drawing lies then.
    pub(crate) fn nearer(&self, share: f32) -> RectTransform {
        RectTransform::from_to(grown(self.inner), grown(self.at(share)))
    }
}

/// A rectangle that is not empty.
fn grown(rect: Rect) -> Rect {
    Rect::from_center_size(rect.center(), rect.size().max(vec2(0.1, 0.1)))
}

/// How near a rung is.
fn nearness(rung: Rung) -> u8 {
    match rung {
        Rung::Elevation => 0,
        Rung::CrossSection | Rung::Board | Rung::Energization | Rung::Plan => 1,
        Rung::Wire => 2,
        Rung::Grain => 3,
    }
}

/// Whether the way from one rung to another leads nearer.
pub(crate) fn leads_nearer(from: Rung, to: Rung) -> bool {
    nearness(to) >= nearness(from)
}

/// The door between a farther and a nearer drawing, each in its own rectangle of the screen.
pub(crate) fn door(
    (farther, far_rect): (&Stand, Rect),
    (nearer, near_rect): (&Stand, Rect),
    section: &SectionView<'_>,
    field: usize,
) -> Door {
    let look = |rect: Rect| Look {
        section,
        field,
        size: rect.size().into(),
    };
    let places = look(near_rect).inside(nearer).and_then(|(inside, what)| {
        let outside = look(far_rect).outside(farther, nearer, what)?;
        Some((
            outside.translate(far_rect.min.to_vec2()),
            inside.translate(near_rect.min.to_vec2()),
        ))
    });
    let (outer, inner) = places.unwrap_or((far_rect, near_rect));
    Door { outer, inner }
}

/// What is shown through a door.
#[derive(Clone, Copy, Debug)]
enum What {
    /// A part of the passage, m along the gas, from plate to plate.
    Passage([f32; 2]),
    /// A grain.
    Grain([f32; 2]),
    /// The face of the fields.
    Face,
    /// The electrical set of a field.
    Set,
}

struct Look<'a, 'v> {
    section: &'a SectionView<'v>,
    field: usize,
    size: Point,
}

impl Look<'_, '_> {
    /// The thing on the nearer drawing, and what it is.
    fn inside(&self, stand: &Stand) -> Option<(Rect, What)> {
        let whole = Rect::from_min_size(pos2(0.0, 0.0), self.size.into());
        match stand.rung {
            Rung::Plan => {
                let places = self.plan(stand);
                let along = [
                    stand.window.start_m,
                    stand.window.start_m + stand.window.length_m,
                ];
                Some((rect([places.min, places.max]), What::Passage(along)))
            }
            Rung::Wire => {
                let view = self.section.wire.as_ref()?;
                let places = WirePlaces::new(view, self.size);
                let half_m = 0.5 * view.field.row().pitch_m() as f32;
                let at_m = wire_at_m(self.section.plan.conditions, self.field, stand.window);
                let what = What::Passage([at_m - half_m, at_m + half_m]);
                Some((rect([places.min, places.max]), what))
            }
            Rung::Grain => {
                let view = self.section.grain.as_ref()?;
                let now = view.now()?;
                let lens = grain::lens(view, self.size)?;
                let place = [now.along_m as f32, now.across_m as f32];
                Some((rect(lens), What::Grain(place)))
            }
            Rung::CrossSection => Some((whole, What::Face)),
            Rung::Energization => Some((whole, What::Set)),
            Rung::Elevation | Rung::Board => None,
        }
    }

    /// The same on the farther drawing.
    fn outside(&self, stand: &Stand, inner: &Stand, what: What) -> Option<Rect> {
        match (stand.rung, what) {
            (Rung::Elevation, what) => Some(self.seen_from_side(stand, what)),
            (Rung::Plan, What::Passage([from_m, to_m])) => {
                let places = self.plan(stand);
                let gap_m = places.gap_m;
                Some(rect([
                    places.point(from_m, gap_m),
                    places.point(to_m, -gap_m),
                ]))
            }
            (Rung::Plan, What::Grain([along_m, across_m])) => {
                let places = self.plan(stand);
                Some(about(places.point(along_m, across_m)))
            }
            (Rung::Wire, What::Grain([along_m, across_m])) => {
                let view = self.section.wire.as_ref()?;
                let places = WirePlaces::new(view, self.size);
                let at_m = wire_at_m(self.section.plan.conditions, self.field, inner.window);
                let half_m = 0.5 * view.field.row().pitch_m() as f32;
                let x_m = (along_m - at_m).clamp(-half_m, half_m);
                Some(about(places.point(f64::from(x_m), f64::from(across_m))))
            }
            _ => None,
        }
    }

    fn seen_from_side(&self, stand: &Stand, what: What) -> Rect {
        let view = &self.section.elevation;
        let measures = crate::elevation::Measures::new(view.conditions, view.hoppers, view.gas);
        let places = ElevationPlaces::new(measures, self.size, stand.eye);
        let total_m = self.section.plan.conditions.length_m();
        let [top, bottom] = places.space();
        let x = |along_m: f32| places.grain(f64::from(along_m) / total_m, 0.0)[0];
        match what {
            What::Passage([from_m, to_m]) => rect([[x(from_m), top[1]], [x(to_m), bottom[1]]]),
            What::Grain([along_m, _]) => about([x(along_m), 0.5 * (top[1] + bottom[1])]),
            What::Face => {
                let x = places.grain(0.0, 0.0)[0];
                rect([[x, top[1]], [x + 4.0 * places.way(), bottom[1]]])
            }
            What::Set => rect(crate::elevation::set_corners(&places, self.field)),
        }
    }

    fn plan(&self, stand: &Stand) -> PlanPlaces {
        let view = windowed(self.section, stand);
        PlanPlaces::new(&view, above_legend(&view, self.size))
    }
}

fn rect([one, other]: [Point; 2]) -> Rect {
    Rect::from_two_pos(one.into(), other.into())
}

fn about(at: Point) -> Rect {
    Rect::from_center_size(at.into(), vec2(2.0 * GRAIN, 2.0 * GRAIN))
}
