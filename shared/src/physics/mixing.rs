//! How strongly the gas stirs the dust across a passage: by its own turbulence and by the wind of the ions.
//!
//! `D = 0.067 u* s + 0.05 u_e s N²/(N²+0.09)`, `N = js/(bρ_g u²)`, `u_e = √(js/(ρ_g b))`

/// Share of `u*·s` that turbulence gives as diffusivity. Source: from memory of Leonard, Mitchner & Self 1983.
const TURBULENT_SHARE: f64 = 0.067;
/// Share of `u_e·s` that the ionic wind gives. Common practice, no source.
const WIND_SHARE: f64 = 0.05;
/// Square of the wind number at which the ionic wind has half its effect. Common practice, no source.
const WIND_ONSET_SQUARED: f64 = 0.09;
/// Coefficient of the friction law. Source: Blasius 1913.
const BLASIUS_COEFFICIENT: f64 = 0.0791;
/// Reynolds number below which the flow in the passage is laminar. Source: textbook value for ducts.
const LAMINAR_REYNOLDS: f64 = 2300.0;

/// The gas in a passage.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PassageFlow {
    /// Mean velocity u along the plates, m/s, above 0.
    pub velocity_m_s: f64,
    /// Distance s from wire to plate, m, above 0.
    pub gap_m: f64,
    /// Density `ρ_g`, kg/m³, above 0.
    pub density_kg_m3: f64,
    /// Viscosity μ, Pa·s, above 0.
    pub viscosity_pa_s: f64,
}

/// The current through it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct IonCurrent {
    /// Mean current density j on the plates, A/m², 0 or more.
    pub density_a_m2: f64,
    /// Mobility b of the ions, m²/V/s, above 0.
    pub mobility_m2_v_s: f64,
}

/// Friction velocity u* at smooth plates, m/s.
///
/// `u* = u √(f/2)`, `f = 0.0791 Re^−¼` with Re on the hydraulic diameter 4s; below Re = 2300 laminar, `f = 24/Re`
///
/// # Arguments
/// * `flow` – the gas in the passage.
///
/// # Source
/// Blasius 1913, Forschungsarb. Ing. 131 (Fanning form); laminar: Poiseuille flow between plates.
///
/// # Validity
/// Smooth plates, Re 4000–100 000; stiffeners and wires add to it.
#[must_use]
pub fn friction_velocity_m_s(flow: &PassageFlow) -> f64 {
    let hydraulic_diameter_m = 4.0 * flow.gap_m;
    let reynolds =
        flow.density_kg_m3 * flow.velocity_m_s * hydraulic_diameter_m / flow.viscosity_pa_s;
    let friction = if reynolds < LAMINAR_REYNOLDS {
        24.0 / reynolds
    } else {
        BLASIUS_COEFFICIENT * reynolds.powf(-0.25)
    };
    flow.velocity_m_s * (0.5 * friction).sqrt()
}

/// Speed of the ionic wind `u_e`, m/s.
///
/// `u_e = √(js/(ρ_g b))`
///
/// # Arguments
/// * `flow` – the gas in the passage.
/// * `current` – the current through it.
///
/// # Source
/// Balance of the ions' push `jL/b` with the gas's dynamic pressure; from memory of Leonard, Mitchner & Self 1983.
///
/// # Validity
/// Order of magnitude.
///
/// ```
/// use ashlane_shared::physics::mixing::{IonCurrent, PassageFlow, ionic_wind_m_s};
/// let flow = PassageFlow { velocity_m_s: 1.0, gap_m: 0.15, density_kg_m3: 0.838, viscosity_pa_s: 2.38e-5 };
/// let current = IonCurrent { density_a_m2: 3e-4, mobility_m2_v_s: 2.2e-4 };
/// assert!((ionic_wind_m_s(&flow, &current) - 0.494).abs() < 1e-3);
/// ```
#[must_use]
pub fn ionic_wind_m_s(flow: &PassageFlow, current: &IonCurrent) -> f64 {
    (current.density_a_m2 * flow.gap_m / (flow.density_kg_m3 * current.mobility_m2_v_s)).sqrt()
}

/// How strong the ionic wind is beside the flow.
///
/// `N = js/(bρ_g u²) = (u_e/u)²`
///
/// # Arguments
/// * `flow` – the gas in the passage.
/// * `current` – the current through it.
///
/// # Source
/// Electrohydrodynamic number; from memory of Leonard, Mitchner & Self 1983.
///
/// # Validity
/// Definition.
#[must_use]
pub fn wind_number(flow: &PassageFlow, current: &IonCurrent) -> f64 {
    (ionic_wind_m_s(flow, current) / flow.velocity_m_s).powi(2)
}

/// Transverse eddy diffusivity D in a passage, m²/s.
///
/// `D = 0.067 u* s + 0.05 u_e s N²/(N²+0.09)`
///
/// # Arguments
/// * `flow` – the gas in the passage.
/// * `current` – the current through it.
///
/// # Source
/// First term from memory of Leonard, Mitchner & Self 1983; the blend with the wind is common practice, no source.
///
/// # Validity
/// Real collectors lie between 1e-3 and 1e-2 m²/s.
#[must_use]
pub fn eddy_diffusivity_m2_s(flow: &PassageFlow, current: &IonCurrent) -> f64 {
    let number_squared = wind_number(flow, current).powi(2);
    let wind = WIND_SHARE * ionic_wind_m_s(flow, current) * number_squared
        / (number_squared + WIND_ONSET_SQUARED);
    (TURBULENT_SHARE * friction_velocity_m_s(flow) + wind) * flow.gap_m
}

#[cfg(test)]
mod tests {
    use super::*;

    const FLOW: PassageFlow = PassageFlow {
        velocity_m_s: 1.0,
        gap_m: 0.15,
        density_kg_m3: 0.83519,
        viscosity_pa_s: 2.384_761e-5,
    };
    const OFF: IonCurrent = IonCurrent {
        density_a_m2: 0.0,
        mobility_m2_v_s: 2.2e-4,
    };

    #[test]
    fn an_empty_duct_stirs_as_the_specification_says() {
        // Specification section 10: u* ≈ 0.057 m/s, D = 5.75e-4 m²/s at u = 1, s = 0.15, 423 K; to the printed digits.
        let friction = friction_velocity_m_s(&FLOW);
        assert!((friction - 0.057).abs() < 0.5e-3, "{friction}");
        let diffusivity = eddy_diffusivity_m2_s(&FLOW, &OFF);
        assert!((diffusivity / 5.75e-4 - 1.0).abs() < 0.01, "{diffusivity}");
    }

    #[test]
    fn the_wind_takes_over_as_current_rises() {
        let at = |density_a_m2: f64| {
            eddy_diffusivity_m2_s(
                &FLOW,
                &IonCurrent {
                    density_a_m2,
                    ..OFF
                },
            )
        };
        assert!(
            (at(1e-6) / at(0.0) - 1.0).abs() < 1e-3,
            "a trace of current must not stir"
        );
        assert!(
            at(3e-4) > 1.5e-3 && at(3e-4) < 1e-2,
            "working current: {}",
            at(3e-4)
        );
    }

    #[test]
    fn slow_gas_rubs_as_poiseuille_says() {
        let slow = PassageFlow {
            velocity_m_s: 0.1,
            ..FLOW
        };
        let friction = friction_velocity_m_s(&slow);
        let exact = 0.1 * (12.0 / (0.83519 * 0.1 * 0.6 / 2.384_761e-5_f64)).sqrt();
        assert!((friction / exact - 1.0).abs() < 1e-12, "{friction}");
    }
}
