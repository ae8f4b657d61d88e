//! The efficiency formulas of the textbooks, each the truth under its own assumption about mixing.
//!
//! Deutsch `P = e^(−De)`; laminar `P = max(0, 1−De)`; Matts & Öhnfeldt `P = exp[−(w_k·SCA)^k]`;
//! mixing along the gas `P = exp{(uL/2D₁)[1−√(1+4D₁w/(su²))]}`; always `De = w·SCA = wL/(us)`.

/// Number that decides how much is caught: how often the dust could cross the gap while the gas passes.
///
/// `De = w·SCA = wL/(us)`
///
/// # Arguments
/// * `drift_m_s` – migration velocity w, m/s, 0 or more.
/// * `specific_collection_area_s_m` – SCA = A/Q, s/m, 0 or more.
///
/// # Source
/// Anderson 1919, Deutsch 1922 (Ann. Phys. 373:335).
///
/// # Validity
/// Definition.
#[must_use]
pub fn deutsch_number(drift_m_s: f64, specific_collection_area_s_m: f64) -> f64 {
    drift_m_s * specific_collection_area_s_m
}

/// Penetration with perfect mixing across the gap.
///
/// `P = e^(−De)`
///
/// # Arguments
/// * `deutsch` – De, 0 or more.
///
/// # Source
/// Anderson 1919, Deutsch 1922 (Ann. Phys. 373:335).
///
/// # Validity
/// Péclet number 0; with finite mixing less dust escapes.
///
/// ```
/// use ashlane_shared::physics::efficiency::limits::{deutsch, deutsch_number};
/// let efficiency = 1.0 - deutsch(deutsch_number(0.05, 5000.0 / 50.0));
/// assert!((efficiency - 0.993262).abs() < 1e-6);
/// ```
#[must_use]
pub fn deutsch(deutsch: f64) -> f64 {
    (-deutsch).exp()
}

/// Collecting area that a penetration needs by Deutsch's law, m².
///
/// `A = −(Q/w) ln P`
///
/// # Arguments
/// * `penetration` – P, above 0 to 1.
/// * `drift_m_s` – effective migration velocity w, m/s, above 0.
/// * `flow_m3_s` – gas flow Q, m³/s, 0 or more.
///
/// # Source
/// Deutsch 1922, solved for A.
///
/// # Validity
/// As [`deutsch`].
///
/// ```
/// use ashlane_shared::physics::efficiency::limits::needed_area_m2;
/// // Cooper & Alley, Air Pollution Control: A Design Approach, Ex. 5.1 (from memory of it): 5216 m².
/// let area = needed_area_m2(0.02, 6.0 / 60.0, 8000.0 / 60.0);
/// assert!((area - 5216.0).abs() < 0.5);
/// ```
#[must_use]
pub fn needed_area_m2(penetration: f64, drift_m_s: f64, flow_m3_s: f64) -> f64 {
    -(flow_m3_s / drift_m_s) * penetration.ln()
}

/// Penetration without any mixing.
///
/// `P = max(0, 1−De)`, for any velocity profile
///
/// # Arguments
/// * `deutsch` – De, 0 or more.
///
/// # Source
/// Integral along the trajectories, computed.
///
/// # Validity
/// Laminar flow, dust entering with the gas.
///
/// ```
/// use ashlane_shared::physics::efficiency::limits::laminar;
/// assert!((laminar(0.5) - 0.5).abs() < 1e-15);
/// ```
#[must_use]
pub fn laminar(deutsch: f64) -> f64 {
    (1.0 - deutsch).max(0.0)
}

/// Penetration of dust of many sizes by the stretched exponential of the trade.
///
/// `P = exp[−(w_k·SCA)^k]`
///
/// # Arguments
/// * `effective_number` – `w_k·SCA`, 0 or more.
/// * `exponent` – k, above 0 to 1, about 0.5 for fly ash; 1 is Deutsch's law.
///
/// # Source
/// Matts & Öhnfeldt 1963, SF Review 6/7; k from memory of it.
///
/// # Validity
/// A fit: `w_k` holds near the SCA it was measured at.
///
/// ```
/// use ashlane_shared::physics::efficiency::limits::matts_ohnfeldt;
/// assert!((matts_ohnfeldt(40.0, 0.5) / 1.791763e-3 - 1.0).abs() < 1e-6);
/// ```
#[must_use]
pub fn matts_ohnfeldt(effective_number: f64, exponent: f64) -> f64 {
    (-effective_number.powf(exponent)).exp()
}

/// A passage for mixing along the gas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LongPassage {
    /// Gas velocity u, m/s, above 0.
    pub velocity_m_s: f64,
    /// Length L, m, 0 or more.
    pub length_m: f64,
    /// Distance s from wire to plate, m, above 0.
    pub gap_m: f64,
}

/// Penetration with perfect mixing across and some mixing along the gas.
///
/// `P = exp{(uL/2D₁)[1−√(1+4D₁w/(su²))]}`
///
/// # Arguments
/// * `passage` – velocity, length, gap.
/// * `drift_m_s` – w, m/s, 0 or more.
/// * `diffusivity_m2_s` – D₁ along the gas, m²/s, 0 or more; 0 is Deutsch's law.
///
/// # Source
/// Steady plug flow with axial dispersion and loss w/s, decaying solution, computed.
///
/// # Validity
/// Long passage: the outlet does not act back.
///
/// ```
/// use ashlane_shared::physics::efficiency::limits::{LongPassage, longitudinal_mixing};
/// let passage = LongPassage { velocity_m_s: 1.0, length_m: 8.0, gap_m: 0.15 };
/// assert!((longitudinal_mixing(&passage, 0.08, 0.1) / 1.723929e-2 - 1.0).abs() < 1e-6);
/// ```
#[must_use]
pub fn longitudinal_mixing(passage: &LongPassage, drift_m_s: f64, diffusivity_m2_s: f64) -> f64 {
    let velocity = passage.velocity_m_s;
    let deutsch = drift_m_s * passage.length_m / (velocity * passage.gap_m);
    let spread = 4.0 * diffusivity_m2_s * drift_m_s / (passage.gap_m * velocity * velocity);
    // 1−√(1+x) written as −x/(1+√(1+x)): no difference of near numbers, and D₁ = 0 is allowed.
    (-2.0 * deutsch / (1.0 + (1.0 + spread).sqrt())).exp()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn mixing_along_the_gas_lets_more_escape() {
        let passage = LongPassage {
            velocity_m_s: 1.0,
            length_m: 8.0,
            gap_m: 0.15,
        };
        let none = longitudinal_mixing(&passage, 0.08, 0.0);
        assert!(
            (none / deutsch(0.08 * 8.0 / 0.15) - 1.0).abs() < 1e-14,
            "{none}"
        );
        assert!(
            longitudinal_mixing(&passage, 0.08, 0.5) > none,
            "mixing must not help"
        );
    }

    #[test]
    fn laminar_flow_beats_every_other_law() {
        for number in [0.1, 0.5, 1.0, 3.0] {
            assert!(laminar(number) < deutsch(number), "{number}");
        }
    }
}
