//! Field and ions in turn until they agree.

use std::sync::Arc;

use super::{
    CoronaSolution, Fineness, Geometry,
    ions::{March, march},
    mesh::Mesh,
    poisson::Poisson,
    solution::{Head, source_v},
};
use crate::physics::{
    PhysicsError,
    error::{not_negative, positive},
};

/// What a corona is besides its shape.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Corona {
    /// Mean field at the emitter while current flows, V/m, above 0: Peek's.
    pub onset_field_v_m: f64,
    /// Ion mobility b, m²/V/s, above 0.
    pub ion_mobility_m2_v_s: f64,
}

/// Rounds after which the solver gives up; ordinary states need five to twenty.
const MOST_ROUNDS: usize = 200;
/// Relative change of voltage and current in a round below which field and ions agree.
const AGREED: f64 = 1e-6;
/// Share of the current that may be missing or too much on the collector before a solution is refused.
const MOST_LOST: f64 = 0.02;
/// Current with which the first round of a wanted voltage starts, as a share of what the wire could give at most.
const FIRST_SHARE: f64 = 1e-6;

/// A solver for one shape in one gas.
///
/// `∇²φ = −(ρ_i+ρ_q)/ε₀`, `∇·(ρ_i b E) = 0`, mean field at the emitter `E₀`, even ion density around it.
///
/// # Source
/// `McDonald`, Smith, Spencer & Sparks 1977, J. Appl. Phys. 48:2231, for the equations; Kaptsov 1947 for the emitter. The
/// conformal grid and the march along the ion paths are computed.
///
/// # Validity
/// One sort of ions, no diffusion, no wind, thin wires. On the default grid the voltage at a given current is within
/// 0.05 % and the collected current within 0.2 % of the emitted one at working currents (`tests/published`).
#[derive(Clone, Debug)]
pub struct CoronaSolver<G> {
    geometry: G,
    corona: Corona,
    mesh: Arc<Mesh>,
    poisson: Poisson,
    scratch: Scratch,
    /// Charge of the dust at every node, C/m³; nothing in clean gas.
    dust_c_m3: Vec<f64>,
    /// How much the dust raises the onset, V.
    dust_rise_v: f64,
}

#[derive(Clone, Debug, Default)]
struct Scratch {
    march: March,
    /// 1/ρ of the ions, m³/C.
    inverse: Vec<f64>,
    source_v: Vec<f64>,
    potential_v: Vec<f64>,
}

/// What is held while field and ions settle.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Held {
    Current,
    Voltage(f64),
}

impl<G: Geometry> CoronaSolver<G> {
    /// A solver for clean gas.
    ///
    /// # Arguments
    /// * `geometry` – the shape.
    /// * `corona` – onset field and mobility.
    /// * `fineness` – intervals of the grid, at least 8 by 1.
    ///
    /// # Source
    /// As [`CoronaSolver`].
    ///
    /// # Validity
    /// As [`CoronaSolver`].
    ///
    /// # Errors
    /// A number outside its range.
    ///
    /// ```
    /// use ashlane_shared::physics::corona::{WireRow, onset, solver::{Corona, CoronaSolver, Fineness}};
    /// let row = WireRow::new(0.1143, 0.1524, 1.016e-3)?;
    /// let corona = Corona {
    ///     onset_field_v_m: onset::peek_field_v_m(1.016e-3, 1.0, 1.0),
    ///     ion_mobility_m2_v_s: 1.82e-4,
    /// };
    /// let solution = CoronaSolver::new(row, corona, Fineness::default())?.at_current(1e-4)?;
    /// assert!((solution.voltage_v / 40_422.0 - 1.0).abs() < 5e-4);
    /// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
    /// ```
    pub fn new(geometry: G, corona: Corona, fineness: Fineness) -> Result<Self, PhysicsError> {
        positive("onset_field_v_m", corona.onset_field_v_m)?;
        positive("ion_mobility_m2_v_s", corona.ion_mobility_m2_v_s)?;
        let mesh = Arc::new(Mesh::new(&geometry, fineness)?);
        let size = mesh.rows() * mesh.nodes;
        Ok(Self {
            poisson: Poisson::new(&mesh),
            scratch: Scratch {
                march: March::default(),
                inverse: vec![0.0; size],
                source_v: vec![0.0; size],
                potential_v: vec![0.0; size],
            },
            mesh,
            geometry,
            corona,
            dust_c_m3: Vec::new(),
            dust_rise_v: 0.0,
        })
    }

    /// The shape.
    #[must_use]
    pub fn geometry(&self) -> &G {
        &self.geometry
    }

    /// Onset field and mobility.
    #[must_use]
    pub fn corona(&self) -> &Corona {
        &self.corona
    }

    /// Puts charged dust into the gas, by its distance from the wire plane, the axis or the emitting plane.
    ///
    /// # Arguments
    /// * `charge_c_m3` – `ρ_q` at a distance in m, C/m³, finite.
    ///
    /// # Source
    /// Superposition in Poisson's equation.
    ///
    /// # Validity
    /// Dust that stands still against the ions.
    ///
    /// # Errors
    /// A charge that is not finite.
    pub fn fill_with_dust(&mut self, charge_c_m3: impl Fn(f64) -> f64) -> Result<(), PhysicsError> {
        let mesh = &self.mesh;
        let mut dust = Vec::with_capacity(mesh.rows() * mesh.nodes);
        for &p in &mesh.p {
            for node in 0..mesh.nodes {
                let depth_m = self.geometry.depth_m(p, node as f64 * mesh.step);
                let charge = charge_c_m3(depth_m);
                crate::physics::error::require(
                    charge.is_finite(),
                    "charge_c_m3",
                    charge,
                    "finite",
                )?;
                dust.push(charge);
            }
        }
        let sources: Vec<f64> = dust
            .iter()
            .zip(&mesh.around)
            .map(|(charge, stretch)| source_v(*stretch, *charge))
            .collect();
        self.dust_rise_v = rise_v(mesh, &sources);
        self.dust_c_m3 = dust;
        Ok(())
    }

    /// Takes all dust out of the gas.
    pub fn clean(&mut self) {
        self.dust_c_m3.clear();
        self.dust_rise_v = 0.0;
    }

    /// Voltage at which the corona starts with the dust that is in the gas, V.
    ///
    /// `V₀ = E₀ r_w ln(d_eff/r_w) + ΔV`, ΔV what the dust alone makes of the emitter
    ///
    /// # Source
    /// Superposition; Kaptsov 1947.
    ///
    /// # Validity
    /// As [`CoronaSolver`].
    #[must_use]
    pub fn onset_v(&self) -> f64 {
        self.emitter_pull_v() * self.geometry.emitter_p() + self.dust_rise_v
    }

    /// The state at a current.
    ///
    /// # Arguments
    /// * `current_a_m` – A per metre of wire (between planes per area, A/m²), 0 or more.
    ///
    /// # Source
    /// As [`CoronaSolver`].
    ///
    /// # Validity
    /// As [`CoronaSolver`].
    ///
    /// # Errors
    /// A current outside its range, or so large that the field would turn back.
    pub fn at_current(&mut self, current_a_m: f64) -> Result<CoronaSolution, PhysicsError> {
        self.at_current_from(current_a_m, None)
    }

    /// As [`Self::at_current`], starting from a state nearby, which saves rounds.
    ///
    /// # Errors
    /// As [`Self::at_current`].
    pub fn at_current_from(
        &mut self,
        current_a_m: f64,
        near: Option<&CoronaSolution>,
    ) -> Result<CoronaSolution, PhysicsError> {
        not_negative("current_a_m", current_a_m)?;
        if current_a_m == 0.0 {
            return Ok(self.without_ions(self.onset_v()));
        }
        self.settle(Held::Current, current_a_m, near)
    }

    /// The state at a voltage; below onset there is no current.
    ///
    /// # Arguments
    /// * `voltage_v` – V, 0 or more.
    ///
    /// # Source
    /// As [`CoronaSolver`].
    ///
    /// # Validity
    /// As [`CoronaSolver`].
    ///
    /// # Errors
    /// A voltage outside its range, or so large that the field would turn back.
    pub fn at_voltage(&mut self, voltage_v: f64) -> Result<CoronaSolution, PhysicsError> {
        self.at_voltage_from(voltage_v, None)
    }

    /// As [`Self::at_voltage`], starting from a state nearby, which saves rounds.
    ///
    /// # Errors
    /// As [`Self::at_voltage`].
    pub fn at_voltage_from(
        &mut self,
        voltage_v: f64,
        near: Option<&CoronaSolution>,
    ) -> Result<CoronaSolution, PhysicsError> {
        not_negative("voltage_v", voltage_v)?;
        if voltage_v <= self.onset_v() {
            return Ok(self.without_ions(voltage_v));
        }
        let most_a_m = self.current_per_charge() * self.onset_charge_c_m3();
        let first = near
            .map(|near| near.current_a_m)
            .filter(|current| *current > 0.0)
            .unwrap_or(FIRST_SHARE * most_a_m);
        self.settle(Held::Voltage(voltage_v), first, near)
    }

    /// Current that arrives on the collector, A/m: equal to that of the emitter but for the grid.
    ///
    /// `i = ∮ ρ_i b E dl`
    ///
    /// # Source
    /// Conservation of charge.
    ///
    /// # Validity
    /// As [`CoronaSolver`].
    #[must_use]
    pub fn collected_current_a_m(&self, solution: &CoronaSolution) -> f64 {
        let flow: f64 = solution
            .collector()
            .map(|(_, share, slope_v, ions_c_m3)| share * slope_v * ions_c_m3)
            .sum();
        flow * self.geometry.span() * self.geometry.copies() * self.corona.ion_mobility_m2_v_s
    }

    /// `E₀ |dz/dζ|` at the emitter, V.
    fn emitter_pull_v(&self) -> f64 {
        self.corona.onset_field_v_m * self.geometry.emitter_scale_m()
    }

    /// Current per ion charge at the emitter, A/m per C/m³: `i = ρ_w b E₀` times the circumference.
    fn current_per_charge(&self) -> f64 {
        self.emitter_pull_v()
            * self.corona.ion_mobility_m2_v_s
            * self.geometry.span()
            * self.geometry.copies()
    }

    /// The ion charge at the emitter that would double the field over the emitter's own scale, C/m³.
    fn onset_charge_c_m3(&self) -> f64 {
        crate::physics::constants::VACUUM_PERMITTIVITY_F_M * self.corona.onset_field_v_m
            / self.geometry.emitter_scale_m()
    }

    /// The state at a voltage where no ions flow, whatever the field at the emitter.
    pub(crate) fn without_ions(&mut self, voltage_v: f64) -> CoronaSolution {
        let size = self.scratch.source_v.len();
        self.scratch.source_v.fill(0.0);
        add_dust(&self.mesh, &self.dust_c_m3, &mut self.scratch.source_v);
        let Scratch {
            source_v,
            potential_v,
            ..
        } = &mut self.scratch;
        self.poisson
            .solve(&self.mesh, source_v, voltage_v, potential_v);
        let head = Head {
            voltage_v,
            onset_v: self.onset_v(),
            current_a_m: 0.0,
            rounds: 1,
        };
        let potential_v = self.scratch.potential_v.clone();
        let source_v = &self.scratch.source_v;
        CoronaSolution::new(&self.mesh, head, potential_v, vec![0.0; size], source_v)
    }

    /// The first field: a state nearby, or the shape alone with the dust.
    fn begin(&mut self, near: Option<&CoronaSolution>) {
        match near {
            Some(near) if near.potential_v.len() == self.scratch.potential_v.len() => {
                self.scratch.potential_v.copy_from_slice(&near.potential_v);
            }
            _ => {
                self.without_ions(self.onset_v());
            }
        }
    }

    fn settle(
        &mut self,
        held: Held,
        first_current_a_m: f64,
        near: Option<&CoronaSolution>,
    ) -> Result<CoronaSolution, PhysicsError> {
        self.begin(near);
        let onset_v = self.onset_v();
        let per_charge = self.current_per_charge();
        let (mut current_a_m, mut voltage_v) = (first_current_a_m, 0.0);
        for rounds in 1..=MOST_ROUNDS {
            let rise_v = self.round(per_charge / current_a_m)?;
            // Held voltage: so much more charge of the same shape would give it.
            let (factor, next_v) = match held {
                Held::Current => (1.0, onset_v + rise_v),
                Held::Voltage(wanted_v) => ((wanted_v - onset_v) / rise_v, wanted_v),
            };
            self.close(factor, next_v);
            let change = (next_v - voltage_v).abs() / next_v + (factor - 1.0).abs();
            voltage_v = next_v;
            if !change.is_finite() {
                break;
            }
            if change < AGREED {
                let head = Head {
                    voltage_v,
                    onset_v,
                    current_a_m,
                    rounds,
                };
                return self.conserving(self.solution(head));
            }
            // i ∝ V(V−V₀) makes ln i grow 2−V₀/V times as fast as ln(V−V₀).
            current_a_m *= factor.powf(2.0 - onset_v / next_v);
        }
        Err(PhysicsError::Impossible {
            reason: format!(
                "field and ions did not settle at {voltage_v:.0} V; the corona starts at {onset_v:.0} V"
            ),
        })
    }

    /// The solution if what leaves the emitter arrives on the collector: the grid's own measure of what it can do.
    fn conserving(&self, solution: CoronaSolution) -> Result<CoronaSolution, PhysicsError> {
        let lost = self.collected_current_a_m(&solution) / solution.current_a_m - 1.0;
        if lost.abs() > MOST_LOST {
            return Err(PhysicsError::Impossible {
                reason: format!(
                    "the field at {:.0} V is too uneven for the solver's grid; the corona starts at {:.0} V",
                    solution.voltage_v, solution.onset_v
                ),
            });
        }
        Ok(solution)
    }

    /// Ions in the present field, and the voltage that they add, V.
    fn round(&mut self, emitter_inverse: f64) -> Result<f64, PhysicsError> {
        let Scratch {
            march: scratch,
            inverse,
            source_v: sources,
            potential_v,
        } = &mut self.scratch;
        march(
            &self.mesh,
            potential_v,
            &self.dust_c_m3,
            emitter_inverse,
            scratch,
            inverse,
        )?;
        for ((source, stretch), inverse) in sources
            .iter_mut()
            .zip(&self.mesh.around)
            .zip(inverse.iter())
        {
            *source = source_v(*stretch, 1.0 / inverse);
        }
        Ok(rise_v(&self.mesh, sources))
    }

    /// The field of `factor` times the ions, and the dust.
    fn close(&mut self, factor: f64, voltage_v: f64) {
        let Scratch {
            source_v,
            potential_v,
            ..
        } = &mut self.scratch;
        for source in source_v.iter_mut() {
            *source *= factor;
        }
        add_dust(&self.mesh, &self.dust_c_m3, source_v);
        self.poisson
            .solve(&self.mesh, source_v, voltage_v, potential_v);
    }

    fn solution(&self, head: Head) -> CoronaSolution {
        let ions_c_m3 = self
            .scratch
            .inverse
            .iter()
            .map(|inverse| 1.0 / inverse)
            .collect();
        let potential_v = self.scratch.potential_v.clone();
        let source_v = &self.scratch.source_v;
        CoronaSolution::new(&self.mesh, head, potential_v, ions_c_m3, source_v)
    }
}

/// What a source adds to the emitter's voltage while its mean field stays: `∫ p S dp`, S its mean along ψ.
fn rise_v(mesh: &Mesh, sources: &[f64]) -> f64 {
    sources
        .chunks(mesh.nodes)
        .enumerate()
        .map(|(row, sources)| mesh.p[row] * mesh.height(row) * mesh.mean(sources))
        .sum()
}

fn add_dust(mesh: &Mesh, dust_c_m3: &[f64], sources: &mut [f64]) {
    for ((source, stretch), charge) in sources.iter_mut().zip(&mesh.around).zip(dust_c_m3) {
        *source += source_v(*stretch, *charge);
    }
}
