//! The ash silo: what was taken away, how coarse and how burnt out it is, and whether it brings or costs money.

use serde::Serialize;

use crate::{
    conditions::{AshStandard, Conditions, Kind},
    physics::{
        PhysicsError,
        fly_ash::{AshLimits, SIEVE_M, retained_share},
    },
};

/// The silo: all ash that has been taken away, mixed.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Silo {
    /// By size class, kg.
    kg: Vec<f64>,
    /// What of it would burn off, kg.
    burns_off_kg: f64,
    sold_kg: f64,
    disposed_kg: f64,
    money: f64,
}

/// Where ash goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum AshRoute {
    /// To whoever buys it for concrete.
    Sale,
    /// To a landfill, or with the water to a pond.
    Disposal,
}

/// The silo at one moment.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct AshReading {
    /// Ash taken away so far, kg.
    pub silo_kg: f64,
    /// Share of it that burns off, mixed by mass.
    pub loss_on_ignition: f64,
    /// Share of it that stays on a sieve of 45 µm.
    pub retained_45_um: f64,
    /// Where ash goes now; nothing before any was taken away.
    pub route: Option<AshRoute>,
    /// Sold so far, kg.
    pub sold_kg: f64,
    /// Disposed of so far, kg.
    pub disposed_kg: f64,
    /// What sale brought less what disposal cost so far, in the money of the site.
    pub money: f64,
}

impl Silo {
    pub(super) fn new(classes: usize) -> Self {
        Self {
            kg: vec![0.0; classes],
            burns_off_kg: 0.0,
            sold_kg: 0.0,
            disposed_kg: 0.0,
            money: 0.0,
        }
    }

    /// A load comes in and goes the way that the mix of the silo now allows.
    pub(super) fn take(
        &mut self,
        load_kg: &[f64],
        conditions: &Conditions,
        diameters_m: &[f64],
    ) -> Result<(), PhysicsError> {
        const KG_PER_TONNE: f64 = 1000.0;
        let ash = &conditions.ash;
        let taken_kg: f64 = load_kg.iter().sum();
        for (kg, more_kg) in self.kg.iter_mut().zip(load_kg) {
            *kg += more_kg;
        }
        self.burns_off_kg += ash.loss_on_ignition * taken_kg;
        let tonnes = taken_kg / KG_PER_TONNE;
        match self.route(conditions, diameters_m)? {
            Some(AshRoute::Sale) => {
                self.sold_kg += taken_kg;
                self.money += ash.sale_price_per_tonne * tonnes;
            }
            Some(AshRoute::Disposal) => {
                self.disposed_kg += taken_kg;
                self.money -= ash.disposal_price_per_tonne * tonnes;
            }
            None => {}
        }
        Ok(())
    }

    pub(super) fn reading(
        &self,
        conditions: &Conditions,
        diameters_m: &[f64],
    ) -> Result<AshReading, PhysicsError> {
        Ok(AshReading {
            silo_kg: self.total_kg(),
            loss_on_ignition: self.loss_on_ignition(),
            retained_45_um: retained_share(diameters_m, &self.kg, SIEVE_M)?,
            route: self.route(conditions, diameters_m)?,
            sold_kg: self.sold_kg,
            disposed_kg: self.disposed_kg,
            money: self.money,
        })
    }

    /// By the limits of the standard; the sludge of a wet collector is never sold.
    fn route(
        &self,
        conditions: &Conditions,
        diameters_m: &[f64],
    ) -> Result<Option<AshRoute>, PhysicsError> {
        if self.total_kg() <= 0.0 {
            return Ok(None);
        }
        let limits = limits(conditions.ash.standard);
        let retained = retained_share(diameters_m, &self.kg, SIEVE_M)?;
        let good = conditions.collector.kind == Kind::Dry
            && limits.allow(self.loss_on_ignition(), retained);
        Ok(Some(if good {
            AshRoute::Sale
        } else {
            AshRoute::Disposal
        }))
    }

    fn total_kg(&self) -> f64 {
        self.kg.iter().sum()
    }

    fn loss_on_ignition(&self) -> f64 {
        let total_kg = self.total_kg();
        if total_kg > 0.0 {
            self.burns_off_kg / total_kg
        } else {
            0.0
        }
    }
}

/// The numbers behind the name of a standard.
fn limits(standard: AshStandard) -> AshLimits {
    match standard {
        AshStandard::En450 => AshLimits::EN_450_1,
        AshStandard::AstmC618 => AshLimits::ASTM_C618,
    }
}
