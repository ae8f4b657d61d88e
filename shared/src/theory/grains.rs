//! The dust as a short list of grains that stand for their neighbours, sorted into the classes of the count.

use crate::{
    physics::{PhysicsError, efficiency::SizeDistribution, quadrature::gauss_legendre},
    simulation::Passage,
};

/// Grains per class.
const PER_CLASS: usize = 2;

/// One grain of the list.
#[derive(Clone, Copy, Debug)]
pub(super) struct GrainShare {
    pub(super) diameter_m: f64,
    /// Share of the inlet mass.
    pub(super) inlet: f64,
    /// Share of the mass that returns from the plates.
    pub(super) returned: f64,
    /// Class of the count.
    pub(super) class: usize,
}

/// All grains.
#[derive(Clone, Debug)]
pub(super) struct Grains {
    pub(super) list: Vec<GrainShare>,
    pub(super) classes: usize,
}

impl Grains {
    pub(super) fn new(passage: &Passage) -> Result<Self, PhysicsError> {
        let classes = passage.sizes.classes();
        let Some((inlet, returned)) = passage.sizes.distributions() else {
            let diameter_m = passage.sizes.median_m();
            let single = GrainShare {
                diameter_m,
                inlet: 1.0,
                returned: 1.0,
                class: 0,
            };
            return Ok(Self {
                list: vec![single],
                classes,
            });
        };
        let edges = passage.sizes.edges_m();
        let list = (0..classes)
            .flat_map(|class| grains_of_class(inlet, returned, edges, class))
            .collect();
        Ok(Self { list, classes })
    }

    /// Share of the inlet mass in each class.
    pub(super) fn inlet_by_class(&self) -> Vec<f64> {
        let mut shares = vec![0.0; self.classes];
        for grain in &self.list {
            shares[grain.class] += grain.inlet;
        }
        shares
    }
}

/// Gauss's points in cumulative mass, so that each stands for a known share of the class; the end classes are open.
fn grains_of_class(
    inlet: &SizeDistribution,
    returned: &SizeDistribution,
    edges: &[f64],
    class: usize,
) -> Vec<GrainShare> {
    let last = edges.len() - 2;
    let below = |dust: &SizeDistribution| {
        if class == 0 {
            0.0
        } else {
            dust.cumulative(edges[class])
        }
    };
    let above = |dust: &SizeDistribution| {
        if class == last {
            1.0
        } else {
            dust.cumulative(edges[class + 1])
        }
    };
    let (low, high) = (below(inlet), above(inlet));
    let returned_share = (above(returned) - below(returned)).max(0.0);
    if high - low <= 0.0 {
        let diameter_m = (edges[class] * edges[class + 1]).sqrt();
        return vec![GrainShare {
            diameter_m,
            inlet: 0.0,
            returned: returned_share,
            class,
        }];
    }
    gauss_legendre(PER_CLASS, low, high)
        .into_iter()
        .map(|(cumulative, weight)| GrainShare {
            diameter_m: inlet.quantile_m(cumulative),
            inlet: weight,
            returned: returned_share * weight / (high - low),
            class,
        })
        .collect()
}
