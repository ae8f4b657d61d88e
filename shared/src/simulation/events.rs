//! What happened to the dust during a step: in one chunk of parcels, and in all of them by field and grain size.

use super::{
    chunk::Books,
    followed::{Seen, Watch},
    parcels::Parcel,
};

/// What happened to the mass in one chunk during a step.
#[derive(Debug, Default)]
pub(super) struct Events {
    pub(super) entered_kg: f64,
    pub(super) captured_kg: f64,
    pub(super) returned_kg: f64,
    pub(super) left_kg: f64,
    pub(super) stuck: Vec<Parcel>,
    pub(super) seen: Seen,
    /// Place in `stuck` of those that came back.
    came_back: Vec<usize>,
    /// Size class and mass of those that left, kg.
    gone: Vec<(u32, f64)>,
}

impl Events {
    /// Nothing has happened yet.
    pub(super) fn watching(watch: Watch) -> Self {
        Self {
            seen: Seen::watching(watch),
            ..Self::default()
        }
    }
}

impl Books for Events {
    fn entered(&mut self, parcel: &Parcel) {
        self.entered_kg += f64::from(parcel.mass_kg);
        self.seen.entered(parcel);
    }

    fn captured(&mut self, parcel: &Parcel) {
        self.captured_kg += f64::from(parcel.mass_kg);
        self.seen.captured(parcel);
        self.stuck.push(*parcel);
    }

    fn returned(&mut self, parcel: &Parcel) {
        self.returned_kg += f64::from(parcel.mass_kg);
        self.came_back.push(self.stuck.len() - 1);
    }

    fn left(&mut self, parcel: &Parcel) {
        let mass_kg = f64::from(parcel.mass_kg);
        self.left_kg += mass_kg;
        self.gone.push((parcel.class, mass_kg));
        self.seen.left(parcel);
    }
}

/// Books for dust of a rap: what comes into the gas is no fresh dust, and no grain to follow.
pub(super) struct OfRap<'a>(pub(super) &'a mut Events);

impl Books for OfRap<'_> {
    fn entered(&mut self, _: &Parcel) {}

    fn captured(&mut self, parcel: &Parcel) {
        self.0.captured(parcel);
    }

    fn returned(&mut self, parcel: &Parcel) {
        self.0.returned(parcel);
    }

    fn left(&mut self, parcel: &Parcel) {
        self.0.left(parcel);
    }
}

/// Where the dust of the drawn flight went, for whoever keeps the books of the whole collector.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Flown {
    /// Fresh dust, kg.
    pub(crate) entered_kg: f64,
    /// What stayed on the plates of each field in each class, kg.
    pub(crate) caught_kg: Vec<Vec<f64>>,
    /// What left in each class, kg.
    pub(crate) left_kg: Vec<f64>,
}

impl Flown {
    pub(super) fn nothing(fields: usize, classes: usize) -> Self {
        Self {
            entered_kg: 0.0,
            caught_kg: vec![vec![0.0; classes]; fields],
            left_kg: vec![0.0; classes],
        }
    }

    pub(super) fn add(&mut self, events: &Events) {
        self.entered_kg += events.entered_kg;
        let mut lay = |parcel: &Parcel, sign: f64| {
            let (field, class) = (parcel.field as usize, parcel.class as usize);
            self.caught_kg[field][class] += sign * f64::from(parcel.mass_kg);
        };
        events.stuck.iter().for_each(|parcel| lay(parcel, 1.0));
        for place in &events.came_back {
            lay(&events.stuck[*place], -1.0);
        }
        for (class, mass_kg) in &events.gone {
            self.left_kg[*class as usize] += mass_kg;
        }
    }
}
