//! What the letters in the equations mean: one row a symbol.

/// A symbol of an equation.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Symbol {
    /// As it is written.
    pub sign: &'static str,
    /// What it means, with its unit.
    pub meaning: &'static str,
}

const fn row(sign: &'static str, meaning: &'static str) -> Symbol {
    Symbol { sign, meaning }
}

/// Every symbol.
// One row a line, so that it reads as the table it is.
#[rustfmt::skip]
pub const SYMBOLS: &[Symbol] = &[
    row("P", "penetration, the share of the dust that gets through; of a set its power, W"),
    row("P₁", "penetration before"),
    row("P₂", "penetration after"),
    row("w", "migration velocity, m/s"),
    row("w_k", "migration velocity of the stretched exponential, m/s"),
    row("k", "exponent of the stretched exponential, 0.5"),
    row("A", "collecting area, m²"),
    row("Q", "gas flow, m³/s"),
    row("n", "number of fields in series; of perforated plates; with R the dry gas, mol/s"),
    row("f", "share of the dust of a size; with ν the part of diffusion; of a sawtooth sparks a second"),
    row("d", "diameter of a grain, m"),
    row("De", "Deutsch number wA/Q"),
    row("v", "gas velocity, m/s; in a spread the velocity over its mean; L/v is the treatment time"),
    row("g", "share of the face with a velocity; in m g the acceleration of gravity, 9.81 m/s²"),
    row("LF", "loss factor of a field"),
    row("S", "sneakage, share of the gas past a field"),
    row("RR", "share of the caught dust that comes back"),
    row("V", "voltage, V"),
    row("V₀", "onset voltage, V"),
    row("E", "electric field strength, V/m"),
    row("E₀", "field at the wire at onset, V/m"),
    row("E_g", "field that ionises, V/m"),
    row("j", "current density on the plate, A/m²"),
    row("b", "ion mobility, m²/(V·s)"),
    row("c", "distance from wire to wire, m"),
    row("s", "distance from wire to plate, m"),
    row("r", "radius of the wire, m"),
    row("d_eff", "effective radius of the outer electrode, m"),
    row("m", "roughness of the wire, 0 to 1; in m g the mass of the grain, kg"),
    row("δ", "gas density over that of air at 20 °C and 1 atm"),
    row("q", "charge of a grain, C"),
    row("ν", "charge of the grain as a pure number"),
    row("ν_s", "that of the saturation charge"),
    row("τ", "charging time, s; with ν the time as a pure number"),
    row("t", "time, s"),
    row("ε₀", "permittivity of vacuum, 8.854·10⁻¹² F/m"),
    row("ε_r", "permittivity of the grain over that of vacuum"),
    row("Cc", "slip factor of Cunningham"),
    row("μ", "viscosity of the gas, Pa·s"),
    row("L", "length of the fields, m"),
    row("u", "gas velocity, m/s"),
    row("C", "concentration of dust, kg/m³"),
    row("D", "eddy diffusivity, m²/s"),
    row("x", "distance along the gas, m; of a leak the air over the gas that came in, both dry"),
    row("y", "distance across the gap, m"),
    row("Re", "Reynolds number of the grain"),
    row("ρ_g", "density of the gas, kg/m³"),
    row("i", "number of the field, from 1"),
    row("p_c", "share of the dust between the plates of a field that gets through: e^(−w A/(n Q))"),
    row("p_S", "share of all dust that gets through a field where nothing comes back"),
    row("p_f", "share of all dust that gets through a field, with what comes back"),
    row("ṁ", "ash that falls into a row of hoppers, kg/s"),
    row("V_alarm", "volume of a row of hoppers up to the level alarm, m³"),
    row("V_brim", "volume of a row of hoppers up to the brim, m³"),
    row("ρ_a", "density of the ash in the hopper, kg/m³"),
    row("m₁", "ash of the first time, kg"),
    row("m₂", "ash of the second time, kg"),
    row("x₁", "share of the first ash that burns off"),
    row("x₂", "share of the second ash that burns off"),
    row("h", "thickness of the layer, m"),
    row("Δh", "what grows on a plate between two blows, m"),
    row("η", "share of all dust that comes to lie in the field"),
    row("ρ_b", "density of the layer, kg/m³"),
    row("N", "blows within one puff"),
    row("φ", "share of the layer that a blow takes off"),
    row("m_g", "dust on the plates that are struck together, kg"),
    row("t_p", "duration of a puff, s"),
    row("M", "molar mass of water, 0.018015 kg/mol"),
    row("W", "share of water vapour in the gas, by volume"),
    row("p", "pressure of the gas, Pa"),
    row("R", "gas constant, 8.314 J/(mol·K)"),
    row("T₁", "temperature of the gas before the water, K"),
    row("T₂", "temperature of the gas behind the water, K"),
    row("y₁", "moles of vapour to a mole of dry gas before the water"),
    row("y₂", "the same behind the water, where the gas holds no more"),
    row("c_g", "molar heat of the dry gas, 30.8 J/(mol·K)"),
    row("c_v", "molar heat of water vapour, 34 J/(mol·K)"),
    row("L_v", "heat that evaporates a mole of water, J/mol"),
    row("Q_b", "water that is blown down, m³/s"),
    row("ρ", "resistivity of the layer, Ω·m"),
    row("ΔV", "voltage that the layer takes, V"),
    row("I", "current of the field, A"),
    row("P_e", "power that the field takes, W"),
    row("t_h", "duration of a half cycle of the line, s"),
    row("O", "opacity, the share of the light that does not come through"),
    row("k_e", "light that the dust takes away, m²/kg: 3 Q_ext/(2 ρ_p d) of its grains"),
    row("C₂", "concentration of dust in the stack, kg/m³"),
    row("L_s", "way of the light through the stack, 5 m"),
    row("E_b", "field at which the layer breaks, V/m"),
    row("V_b", "mean voltage at which the layer breaks, V"),
    row("ρ_v", "resistivity of the volume of the ash, Ω·m"),
    row("ρ_s", "that of the surface of its grains, Ω·m"),
    row("T", "temperature, K; over a waveform its period, s"),
    row("t_q", "time without voltage after a spark, s"),
    row("V_s", "voltage of the spark, V"),
    row("j_limit", "current limit of the set over the plates, A/m²"),
    row("V_m", "mean voltage, V"),
    row("I_m", "mean current, A"),
    row("H", "height of the plates, m"),
    row("O₂", "oxygen in the dry gas, share by volume"),
    row("Q_out", "gas flow behind the leak, m³/s"),
    row("T_air", "temperature of the air outside, K"),
    row("Δp", "loss of total pressure, Pa"),
    row("v₁", "gas velocity in the inlet duct, m/s"),
    row("v₂", "gas velocity in the outlet duct, m/s"),
    row("ζ", "loss coefficient of a distribution plate"),
    row("ζ₂", "loss coefficient of the outlet nozzle"),
    row("ζ_duct", "loss coefficient of the outlet duct"),
    row("p_end", "pressure at the stack over that outside, Pa"),
];

/// The symbols that stand in an equation, in its order.
#[must_use]
pub fn symbols_in(equation: &str) -> Vec<&'static Symbol> {
    let mut found: Vec<&Symbol> = Vec::new();
    for token in tokens(equation) {
        for symbol in known(token) {
            if !found.contains(&symbol) {
                found.push(symbol);
            }
        }
    }
    found
}

/// Words, units and numbers of the equations that are no symbols.
const WORDS: &str = "e ln max Σ Π kV MV in with so of the row wires at wire rapping sneakage uneven loss gas and for \
                     sold price disposed cost evaporated recycled spray washed plates \
                     quadratic law half restart while it recovers out friction Pa SO₃ by";
/// Steps of integrals and slopes: the d is none of a diameter.
const STEPS: [&str; 7] = ["dv", "dd", "dw", "dν", "dτ", "dy", "dt"];

/// Letters that belong together: `w_k`, `ν_s`, `De`, `P₁`; no words, and no π, which everybody knows.
fn tokens(equation: &str) -> impl Iterator<Item = &str> {
    equation
        .split(|letter: char| letter == 'π' || !(letter.is_alphabetic() || is_below(letter)))
        .filter(|token| !token.is_empty())
        .filter(|token| !WORDS.split_whitespace().any(|word| word == *token))
        .map(|token| match STEPS.contains(&token) {
            true => &token[1..],
            false => token,
        })
}

fn is_below(letter: char) -> bool {
    letter == '_' || ('₀'..='₉').contains(&letter)
}

/// The symbol, or the letters of a product that is written without a dot.
fn known(token: &str) -> Vec<&'static Symbol> {
    let whole = |sign: &str| SYMBOLS.iter().find(|symbol| symbol.sign == sign);
    if let Some(symbol) = whole(token) {
        return vec![symbol];
    }
    let mut rest = token;
    let mut found = Vec::new();
    while !rest.is_empty() {
        let longest = SYMBOLS
            .iter()
            .filter(|symbol| rest.starts_with(symbol.sign))
            .max_by_key(|symbol| symbol.sign.len());
        let Some(symbol) = longest else {
            return Vec::new();
        };
        found.push(symbol);
        rest = &rest[symbol.sign.len()..];
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::FORMULAS;

    #[test]
    fn every_letter_of_every_equation_is_explained() {
        let mut unexplained = Vec::new();
        for formula in FORMULAS {
            for token in tokens(formula.equation) {
                if known(token).is_empty() {
                    unexplained.push(token);
                }
            }
        }
        assert!(unexplained.is_empty(), "{unexplained:?}");
    }

    #[test]
    fn symbols_come_in_the_order_of_the_equation_each_once() {
        let signs = |equation| -> Vec<&str> {
            symbols_in(equation)
                .iter()
                .map(|symbol| symbol.sign)
                .collect()
        };
        assert_eq!(
            signs("P = e^(−w A/(n Q)), P₂ = P₁²"),
            ["P", "w", "A", "n", "Q", "P₂", "P₁"]
        );
        assert_eq!(signs("w = qE Cc/(3πμd)"), ["w", "q", "E", "Cc", "μ", "d"]);
        // Neither a word nor a unit nor a step is made of symbols.
        assert_eq!(signs("P = 6.59·10⁸ V^(−5.46) %, V in kV"), ["P", "V"]);
        assert_eq!(signs("τ = ∫ dw/dd, 3 MV/m"), ["τ", "w", "d", "m"]);
    }

    #[test]
    fn every_symbol_has_one_meaning() {
        for (index, symbol) in SYMBOLS.iter().enumerate() {
            assert!(
                SYMBOLS[..index]
                    .iter()
                    .all(|other| other.sign != symbol.sign),
                "{} twice",
                symbol.sign
            );
        }
    }
}
