//! The plant beside a drawn flight: while dust flies second by second, the flight lays it down and the plant keeps the
//! books, the layers and the time of the next blow.

use super::{Event, Fate, Plant, Rates, SEGMENTS_ALONG};
use crate::{
    physics::PhysicsError,
    simulation::{Account, Flown, Ledger},
};

/// Dust that a blow sent back into the gas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Returned {
    /// The field that was struck, 0 for the first.
    pub(crate) field: usize,
    /// Dust that is in the gas now, kg.
    pub(crate) back_kg: f64,
    /// What came off the plates; nothing where the wires were struck.
    pub(crate) sheet: Option<Sheet>,
}

/// What a blow brought down from the plates that are struck together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Sheet {
    /// Which plates, 0 for those that are struck first, and of how many such groups.
    pub(crate) group: usize,
    pub(crate) groups: usize,
    /// Dust that fell, kg: without what went back into the gas.
    pub(crate) fallen_kg: f64,
    /// How much thinner their layer is now, mean, m.
    pub(crate) lost_m: f64,
}

impl Rates {
    /// Rates of a collector that nobody has counted yet: no dust ends anywhere by them.
    pub(crate) fn unknown(fields: usize, classes: usize) -> Self {
        let nowhere = Fate {
            caught: vec![vec![0.0; classes]; fields],
            left: vec![0.0; classes],
            along: vec![[1.0 / SEGMENTS_ALONG as f64; SEGMENTS_ALONG]; fields],
        };
        Self {
            behind: vec![nowhere.clone(); fields],
            fresh: nowhere,
            diameters_m: vec![1e-6; classes],
            fields: Vec::new(),
        }
    }
}

impl Plant {
    /// Goes on for a time in which a flight, and not the rates, laid the dust; returns the blows of that time.
    ///
    /// # Errors
    /// A formula refused the state.
    pub(crate) fn fly(
        &mut self,
        duration_s: f64,
        flown: Flown,
    ) -> Result<Vec<Returned>, PhysicsError> {
        self.ledger
            .transfer(Account::Inlet, Account::Airborne, flown.entered_kg);
        let laid = Fate {
            caught: flown.caught_kg,
            left: flown.left_kg,
            along: self.worn.fresh.along.clone(),
        };
        self.settle(&laid, 1.0);
        let end_s = self.time_s + duration_s;
        let mut blows = Vec::new();
        while let Some((at_s, event)) = self.next_event(end_s) {
            self.time_s = at_s;
            blows.push(match event {
                Event::Look => {
                    self.look()?;
                    continue;
                }
                Event::Rap(field) => self.fell_from_plates(field)?,
                Event::RapWires(field) => {
                    let blow = self.strike_wires(field)?;
                    let back_kg = self.throw_off(field, &blow);
                    Returned {
                        field,
                        back_kg,
                        sheet: None,
                    }
                }
                Event::Empty(field) => {
                    self.empty(field)?;
                    continue;
                }
            });
        }
        self.time_s = end_s;
        Ok(blows)
    }

    /// The next plates of a field are struck.
    fn fell_from_plates(&mut self, field: usize) -> Result<Returned, PhysicsError> {
        let (group, groups) = (self.shafts[field].next_group(), self.shafts[field].groups());
        let before_m = self.layers[field].group_m(group)?;
        let blow = self.strike_plates(field)?;
        let back_kg = self.throw_off(field, &blow);
        Ok(Returned {
            field,
            back_kg,
            sheet: Some(Sheet {
                group,
                groups,
                fallen_kg: blow.kg.iter().sum::<f64>() - back_kg,
                lost_m: before_m - self.layers[field].group_m(group)?,
            }),
        })
    }

    /// Mean thickness of the layer on plates of a field that are struck together, m; the first group is 0.
    pub(crate) fn group_m(&self, field: usize, group: usize) -> Result<f64, PhysicsError> {
        self.layers[field].group_m(group)
    }

    /// What is airborne by the books becomes what a flight has in the gas: an excess has long been caught or has left,
    /// by the rates of fresh dust; what is missing came in.
    pub(crate) fn land(&mut self, flying_kg: f64) {
        let excess_kg = self.ledger.kg(Account::Airborne) - flying_kg;
        if excess_kg > 0.0 {
            let fate = self.worn.fresh.clone();
            self.settle(&fate, excess_kg);
        } else {
            self.ledger
                .transfer(Account::Inlet, Account::Airborne, -excess_kg);
        }
    }

    /// A clean collector goes on with the books of this one, of which nothing is left: layers and hoppers are taken away.
    pub(crate) fn replaced_by(&self, mut clean: Self) -> Self {
        for (from, to) in [
            (Account::Airborne, Account::Airborne),
            (Account::Layers, Account::TakenAway),
            (Account::Hoppers, Account::TakenAway),
            (Account::TakenAway, Account::TakenAway),
            (Account::Outlet, Account::Outlet),
        ] {
            clean
                .ledger
                .transfer(Account::Inlet, to, self.ledger.kg(from));
        }
        clean
    }

    /// While there is no collector to lay it in, what a flight caught is taken away.
    pub(crate) fn lay_nowhere(&mut self, flown: &Flown) {
        let caught_kg = flown.caught_kg.iter().flatten().sum();
        let left_kg = flown.left_kg.iter().sum();
        for (from, to, kg) in [
            (Account::Inlet, Account::Airborne, flown.entered_kg),
            (Account::Airborne, Account::TakenAway, caught_kg),
            (Account::Airborne, Account::Outlet, left_kg),
        ] {
            self.ledger.transfer(from, to, kg);
        }
    }

    /// The books, as bits for a digest: accounts, layers and hoppers.
    pub(crate) fn bits(&self) -> Vec<u64> {
        let ledger: &Ledger = &self.ledger;
        let layers = self.layers.iter().map(super::PlateLayer::total_kg);
        let rows = self.rows.iter().map(super::HopperRow::total_kg);
        let mut bits: Vec<u64> = layers.chain(rows).map(f64::to_bits).collect();
        bits.extend(ledger.values().iter().map(|value| value.to_bits()));
        bits.push(self.time_s.to_bits());
        bits
    }
}
