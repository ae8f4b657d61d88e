//! The bare counts of a batch: whole numbers, so that their sum does not depend on the order of adding.

use crate::simulation::{Books, Parcel, Parcels, Way};

/// Stations along the collector at which the airborne mass is counted, per field.
pub(crate) const STATIONS_PER_FIELD: usize = 12;

/// Counts of one or more chunks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Tally {
    /// Parcels that entered.
    pub(crate) entered: u64,
    /// Parcels that left the last field.
    pub(crate) left: u64,
    /// Parcels still in flight when the count gave up on them; they are in `left` too.
    pub(crate) stranded: u64,
    /// Steps times parcels flown.
    pub(crate) parcel_steps: u64,
    pub(crate) entered_by_class: Vec<u64>,
    pub(crate) left_by_class: Vec<u64>,
    pub(crate) captured_by_field: Vec<u64>,
    /// The same by class too: all classes of the first field, then those of the next.
    pub(crate) captured_by_field_and_class: Vec<u64>,
    pub(crate) returned_by_field: Vec<u64>,
    /// Parcels that went around the charged zone of each field: over the top, through the hoppers.
    pub(crate) sneaked_by_field: Vec<[u64; 2]>,
    /// Parcels taken from the gas between two stations, less those given back.
    pub(crate) removed_along: Vec<i64>,
    stations_per_m: StationScale,
}

/// Stations per metre, compared by its bits so that tallies can be compared.
#[derive(Clone, Copy, Debug)]
struct StationScale(f64);

impl PartialEq for StationScale {
    fn eq(&self, other: &Self) -> bool {
        self.0.to_bits() == other.0.to_bits()
    }
}

impl Eq for StationScale {}

impl Tally {
    pub(crate) fn new(fields: usize, classes: usize, length_m: f64) -> Self {
        let stations = fields * STATIONS_PER_FIELD;
        Self {
            entered: 0,
            left: 0,
            stranded: 0,
            parcel_steps: 0,
            entered_by_class: vec![0; classes],
            left_by_class: vec![0; classes],
            captured_by_field: vec![0; fields],
            captured_by_field_and_class: vec![0; fields * classes],
            returned_by_field: vec![0; fields],
            sneaked_by_field: vec![[0; 2]; fields],
            removed_along: vec![0; stations],
            stations_per_m: StationScale(stations as f64 / length_m),
        }
    }

    /// A tally of the same shape with nothing in it.
    pub(crate) fn empty(&self) -> Self {
        Self {
            entered: 0,
            left: 0,
            stranded: 0,
            parcel_steps: 0,
            entered_by_class: vec![0; self.entered_by_class.len()],
            left_by_class: vec![0; self.left_by_class.len()],
            captured_by_field: vec![0; self.captured_by_field.len()],
            captured_by_field_and_class: vec![0; self.captured_by_field_and_class.len()],
            returned_by_field: vec![0; self.returned_by_field.len()],
            sneaked_by_field: vec![[0; 2]; self.sneaked_by_field.len()],
            removed_along: vec![0; self.removed_along.len()],
            stations_per_m: self.stations_per_m,
        }
    }

    /// Adds the counts of another chunk.
    pub(crate) fn add(&mut self, other: &Self) {
        self.entered += other.entered;
        self.left += other.left;
        self.stranded += other.stranded;
        self.parcel_steps += other.parcel_steps;
        add_each(&mut self.entered_by_class, &other.entered_by_class);
        add_each(&mut self.left_by_class, &other.left_by_class);
        add_each(&mut self.captured_by_field, &other.captured_by_field);
        add_each(
            &mut self.captured_by_field_and_class,
            &other.captured_by_field_and_class,
        );
        add_each(&mut self.returned_by_field, &other.returned_by_field);
        for (sums, more) in self
            .sneaked_by_field
            .iter_mut()
            .zip(&other.sneaked_by_field)
        {
            add_each(sums, more);
        }
        for (sum, more) in self.removed_along.iter_mut().zip(&other.removed_along) {
            *sum += more;
        }
    }

    /// Books parcels that never arrived as having left: the count errs towards more dust.
    pub(crate) fn book_the_rest(&mut self, parcels: &Parcels) {
        for parcel in parcels.iter() {
            self.left(&parcel);
            self.stranded += 1;
        }
    }

    fn station(&self, along_m: f32) -> usize {
        let station = (f64::from(along_m) * self.stations_per_m.0).max(0.0) as usize;
        station.min(self.removed_along.len() - 1)
    }
}

fn add_each(sums: &mut [u64], more: &[u64]) {
    for (sum, more) in sums.iter_mut().zip(more) {
        *sum += more;
    }
}

impl Books for Tally {
    fn entered(&mut self, parcel: &Parcel) {
        self.entered += 1;
        self.entered_by_class[parcel.class as usize] += 1;
    }

    fn captured(&mut self, parcel: &Parcel) {
        self.captured_by_field[parcel.field as usize] += 1;
        let classes = self.entered_by_class.len();
        self.captured_by_field_and_class
            [parcel.field as usize * classes + parcel.class as usize] += 1;
        let station = self.station(parcel.along_m);
        self.removed_along[station] += 1;
    }

    fn returned(&mut self, parcel: &Parcel) {
        self.returned_by_field[parcel.field as usize] += 1;
        // It comes back at the edge, that is before the first station of the next field.
        let next = (parcel.field as usize + 1) * STATIONS_PER_FIELD - 1;
        self.removed_along[next] -= 1;
    }

    fn left(&mut self, parcel: &Parcel) {
        self.left += 1;
        self.left_by_class[parcel.class as usize] += 1;
    }

    fn sneaked(&mut self, parcel: &Parcel) {
        let through_hopper = usize::from(parcel.way == Way::Hopper as u32);
        self.sneaked_by_field[parcel.field as usize][through_hopper] += 1;
    }
}
