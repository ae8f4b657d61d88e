//! Dust of one size across the gap as three moments of its charge: mass, mass × charge, mass × charge².
//!
//! Grains of one size at one place differ in charge because they came by different ways, and the highly charged leave
//! first. Each moment drifts with the charge that carries it, ⟨q⟩, ⟨q²⟩/⟨q⟩ and ⟨q³⟩/⟨q²⟩.
//! Nearly all grains have the charge that the ordinary field gives, and a few much more, from passing close to a wire:
//! a floor with an exponential tail above it, fitted to mean and variance, stands for the shape.

/// Moments in every cell.
#[derive(Clone, Debug)]
pub(super) struct Dust {
    pub(super) mass: Vec<f64>,
    charge: Vec<f64>,
    square: Vec<f64>,
}

/// Mean and variance of the charge at one place.
#[derive(Clone, Copy, Debug)]
pub(super) struct Spread {
    pub(super) mean_c: f64,
    pub(super) variance_c2: f64,
}

impl Dust {
    /// A unit of uncharged dust spread evenly.
    pub(super) fn uncharged(cells: usize) -> Self {
        Self {
            mass: vec![1.0; cells],
            charge: vec![0.0; cells],
            square: vec![0.0; cells],
        }
    }

    pub(super) fn moments(&mut self) -> [&mut Vec<f64>; 3] {
        [&mut self.mass, &mut self.charge, &mut self.square]
    }

    /// Each moment added up by `share`.
    pub(super) fn shares(&self, share: impl Fn(&[f64]) -> f64) -> [f64; 3] {
        [share(&self.mass), share(&self.charge), share(&self.square)]
    }

    pub(super) fn scale(&mut self, factor: f64) {
        for values in self.moments() {
            values.iter_mut().for_each(|value| *value *= factor);
        }
    }

    pub(super) fn add_evenly(&mut self, amounts: [f64; 3]) {
        for (values, amount) in self.moments().into_iter().zip(amounts) {
            values.iter_mut().for_each(|value| *value += amount);
        }
    }

    /// Mean and variance of the charge in a cell.
    pub(super) fn spread(&self, cell: usize) -> Spread {
        let mass = self.mass[cell];
        if mass <= 0.0 {
            return Spread {
                mean_c: 0.0,
                variance_c2: 0.0,
            };
        }
        let mean_c = self.charge[cell] / mass;
        Spread {
            mean_c,
            variance_c2: (self.square[cell] / mass - mean_c * mean_c).max(0.0),
        }
    }

    pub(super) fn set(&mut self, cell: usize, spread: Spread) {
        let mass = self.mass[cell];
        self.charge[cell] = mass * spread.mean_c;
        self.square[cell] = mass * (spread.mean_c * spread.mean_c + spread.variance_c2);
    }
}

impl Spread {
    /// Mean and variance after every charge has become `later_c` of itself: the two points of the Gauss–Laguerre rule
    /// stand for the tail (Abramowitz & Stegun 1964, table 25.9, n = 2).
    pub(super) fn mapped(self, later_c: impl Fn(f64) -> f64) -> Self {
        const ROOT_2: f64 = std::f64::consts::SQRT_2;
        let deviation_c = self.variance_c2.sqrt().min(self.mean_c);
        if deviation_c <= 1e-3 * self.mean_c || self.mean_c <= 0.0 {
            return Self {
                mean_c: later_c(self.mean_c),
                variance_c2: self.variance_c2,
            };
        }
        let low_c = later_c(self.mean_c - (ROOT_2 - 1.0) * deviation_c);
        let high_c = later_c(self.mean_c + (ROOT_2 + 1.0) * deviation_c);
        let few = 0.25 * (2.0 - ROOT_2);
        let mean_c = (1.0 - few) * low_c + few * high_c;
        Self {
            mean_c,
            variance_c2: few * (1.0 - few) * (high_c - low_c) * (high_c - low_c),
        }
    }

    /// Mean and variance halfway through a change.
    pub(super) fn halfway_to(self, later: Self) -> Self {
        Self {
            mean_c: 0.5 * (self.mean_c + later.mean_c),
            variance_c2: 0.5 * (self.variance_c2 + later.variance_c2),
        }
    }

    /// The charge whose drift carries a moment away: ⟨q⟩, ⟨q²⟩/⟨q⟩ and ⟨q³⟩/⟨q²⟩, with ⟨(q−⟨q⟩)³⟩ = 2σ³ of the tail.
    pub(super) fn leaving_c(&self, moment: usize) -> f64 {
        let (mean, variance) = (self.mean_c, self.variance_c2);
        if mean <= 0.0 {
            return 0.0;
        }
        let square = mean * mean + variance;
        match moment {
            0 => mean,
            1 => square / mean,
            _ => (mean * (square + 2.0 * variance) + 2.0 * variance * variance.sqrt()) / square,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_leaving_charges_are_those_of_a_floor_with_an_exponential_tail() {
        // Floor 3, tail of mean 2: ⟨q⟩ = 5, ⟨q²⟩ = 29, ⟨q³⟩ = 27 + 54 + 72 + 48 = 201 (moments k!·2^k of the tail).
        let spread = Spread {
            mean_c: 5.0,
            variance_c2: 4.0,
        };
        for (moment, expected) in [(0, 5.0), (1, 29.0 / 5.0), (2, 201.0 / 29.0)] {
            let got = spread.leaving_c(moment);
            assert!(
                (got - expected).abs() < 1e-12,
                "moment {moment}: {got} not {expected}"
            );
        }
    }

    #[test]
    fn a_straight_map_keeps_mean_and_variance_exactly() {
        let mapped = Spread {
            mean_c: 3.0,
            variance_c2: 1.5,
        }
        .mapped(|charge| 2.0 * charge + 1.0);
        assert!(
            (mapped.mean_c - 7.0).abs() < 1e-12 && (mapped.variance_c2 - 6.0).abs() < 1e-12,
            "{mapped:?}"
        );
    }
}
