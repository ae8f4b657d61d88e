//! The drawing on its way from one rung of the ladder to another: the nearer grows out of its place on the farther.

use egui::{Rect, Ui, emath::RectTransform, vec2};

use super::{Room, SectionView, Seen};
use crate::{
    board, cross_section,
    drawing::{Drawing, Point, paint_placed},
    elevation::{self, ElevationPlaces, ElevationView, Measures},
    energization, grain,
    plan::{Legend, PlanPlaces, PlanView, plan_drawing},
    state::{PlanWindow, Rung, UiState},
    wire,
    zoom::{Door, Stand, door, leads_nearer},
};

/// What a stand shows in a drawing of this size, without the engine's dust.
pub(crate) fn figure(section: &SectionView<'_>, stand: &Stand, size: Point) -> Drawing {
    let nothing = || Drawing::new(size);
    match stand.rung {
        Rung::Elevation => elevation::drawing(&eyed(section, stand), size),
        Rung::CrossSection => cross_section::drawing(&section.cross_section, size),
        Rung::Board => board::drawing(&section.board, size),
        Rung::Plan => {
            let view = windowed(section, stand);
            plan_drawing(&view, above_legend(&view, size))
        }
        Rung::Wire => {
            let view = section.wire.as_ref();
            view.map_or_else(nothing, |view| wire::drawing(view, size))
        }
        Rung::Grain => {
            let view = section.grain.as_ref();
            view.map_or_else(nothing, |view| grain::drawing(view, size))
        }
        Rung::Energization => {
            let view = section.energization.as_ref();
            view.map_or_else(nothing, |view| energization::drawing(view, size))
        }
    }
}

/// The elevation as this stand sees it.
pub(super) fn eyed<'a>(section: &SectionView<'a>, stand: &Stand) -> ElevationView<'a> {
    ElevationView {
        eye: stand.eye,
        ..section.elevation
    }
}

/// The plan as this stand sees it.
pub(crate) fn windowed<'a>(section: &SectionView<'a>, stand: &Stand) -> PlanView<'a> {
    let total_m = section.plan.conditions.length_m() as f32;
    PlanView {
        window: stand.window.within(total_m),
        ..section.plan
    }
}

/// Size of the plan without its legend.
pub(crate) fn above_legend(view: &PlanView<'_>, size: Point) -> Point {
    let legend = Legend::from(view).height(size[0]);
    [size[0], (size[1] - legend).max(120.0)]
}

/// Paints the way between two stands; the engine draws dust into the returned room.
pub(super) fn travel_ui(
    ui: &Ui,
    section: &SectionView<'_>,
    state: &UiState,
    (from, to, share): (&Stand, &Stand, f32),
    rect: Rect,
) -> Room {
    let before = (from, state.zoom.rect.unwrap_or(rect));
    let (farther, nearer, share) = if leads_nearer(from.rung, to.rung) {
        (before, (to, rect), share)
    } else {
        ((to, rect), before, 1.0 - share)
    };
    let door = door(farther, nearer, section, state.field);
    let painter = ui.painter_at(rect);
    let between = |low: f32, high: f32| smooth((share - low) / (high - low));
    let parts = [
        (
            farther,
            door.farther(share),
            1.0 - between(0.35, 0.8),
            1.0 - between(0.0, 0.3),
        ),
        (
            nearer,
            door.nearer(share),
            between(0.3, 0.75),
            between(0.7, 1.0),
        ),
    ];
    for ((stand, of), lies, lines, words) in parts {
        if lines > 0.0 {
            let drawing = figure(section, stand, of.size().into());
            let place = |[x, y]: Point| lies.transform_pos(of.min + vec2(x, y)).into();
            paint_placed(&drawing, &painter, state.theme, place, (lines, words));
        }
    }
    let way = Way {
        section,
        farther,
        nearer,
        door,
        share,
    };
    Room {
        drawing: Some(rect),
        ..way.dust()
    }
}

fn smooth(share: f32) -> f32 {
    let share = share.clamp(0.0, 1.0);
    share * share * (3.0 - 2.0 * share)
}

/// A way between two stands, each with its rectangle on the screen, so far gone towards the nearer.
struct Way<'a, 'v> {
    section: &'a SectionView<'v>,
    farther: (&'a Stand, Rect),
    nearer: (&'a Stand, Rect),
    door: Door,
    share: f32,
}

impl Way<'_, '_> {
    /// Where the whole passage lies with its dust, how far it has tipped over, and how much of the dust is there.
    fn dust(&self) -> Room {
        let here = |rect: Rect, lies: RectTransform| {
            Rect::from_min_max(lies.transform_pos(rect.min), lies.transform_pos(rect.max))
        };
        let (farther, nearer) = (self.door.farther(self.share), self.door.nearer(self.share));
        let (passage, turned) = match (self.farther.0.rung, self.nearer.0.rung) {
            (Rung::Elevation, Rung::Plan) => (here(self.passage(self.nearer), nearer), self.share),
            (Rung::Elevation, _) => (here(self.space(), farther), 0.0),
            (Rung::Plan, _) => (here(self.passage(self.farther), farther), 1.0),
            _ => return Room::default(),
        };
        let stays = self.nearer.0.rung == Rung::Plan;
        Room {
            passage: Some(passage),
            seen: Seen {
                window: self.whole(),
                turned,
                dust: if stays { 1.0 } else { 1.0 - self.share },
            },
            ..Room::default()
        }
    }

    fn whole(&self) -> PlanWindow {
        PlanWindow {
            start_m: 0.0,
            length_m: self.section.plan.conditions.length_m() as f32,
        }
    }

    /// The space between the plates over all fields on the drawing of the plan, most of it beyond its edges.
    fn passage(&self, (stand, rect): (&Stand, Rect)) -> Rect {
        let view = windowed(self.section, stand);
        let places = PlanPlaces::new(&view, above_legend(&view, rect.size().into()));
        Rect::from_two_pos(
            places.point(0.0, places.gap_m).into(),
            places.point(self.whole().length_m, -places.gap_m).into(),
        )
        .translate(rect.min.to_vec2())
    }

    /// The space where dust flies on the drawing of the elevation.
    fn space(&self) -> Rect {
        let view = &self.section.elevation;
        let measures = Measures::new(view.conditions, view.hoppers, view.gas);
        let (stand, rect) = self.farther;
        let places = ElevationPlaces::new(measures, rect.size().into(), stand.eye);
        let [min, max] = places.space();
        Rect::from_two_pos(min.into(), max.into()).translate(rect.min.to_vec2())
    }
}
