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
    row("ρ", "resistivity of the layer, Ω·m; in a pressure the density of the gas, kg/m³"),
    row("h", "thickness of the layer, m"),
    row("ρ_v", "resistivity through the grains, Ω·m"),
    row("ρ_s", "resistivity along their surface, Ω·m"),
    row("ρ_a", "resistivity through the acid on them, Ω·m"),
    row("E_b", "field at which the layer breaks down, V/m"),
    row("V_b", "voltage at which the layer breaks down, V"),
    row("V_s", "voltage at which the field sparks, V"),
    row("ΔV", "voltage across the layer; in a sawtooth how far below the spark it starts again, V"),
    row("t_q", "time of quench and recovery, s"),
    row("R", "rate at which the set raises the voltage, V/s; with a temperature the gas constant, 8.314 J/(mol·K)"),
    row("T", "temperature, K; under a power how long a half cycle lasts, s"),
    row("I", "current, A"),
    row("Ī", "mean current, A"),
    row("j_limit", "current density that the sheet allows, A/m²"),
    row("H", "height of the plates, m"),
    row("W", "width of all passages together, m"),
    row("O₂", "oxygen in the dry gas, share by volume"),
    row("Q_out", "gas flow behind the leaks, m³/s"),
    row("T_air", "temperature of the air outside, K"),
    row("p", "pressure, Pa"),
    row("p_end", "pressure at the foot of the stack over that outside, Pa"),
    row("Δp", "loss of pressure, Pa"),
    row("ζ", "loss of a perforated plate, in dynamic pressures"),
    row("ζ₂", "loss of the outlet nozzle, in dynamic pressures"),
    row("ζ_duct", "loss of the outlet duct, in dynamic pressures"),
    row("v₁", "velocity in the inlet duct, m/s"),
    row("v₂", "velocity in the outlet duct, m/s"),
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

/// Letters that belong together: `w_k`, `ν_s`, `De`, `P₁`.
fn tokens(equation: &str) -> impl Iterator<Item = &str> {
    equation
        .split(|letter: char| !(letter.is_alphabetic() || is_below(letter)))
        .filter(|token| !token.is_empty())
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

    /// Words and signs of the equations that are no symbols.
    const WORDS: &str = "e ln max dv dd dw dν dτ π πε πμd Σ kV MV in with so of the row wires at wire rapping sneakage \
                         uneven loss gas and for πε₀ πε₀d \
                         friction out Pa SO₃ quadratic law half restart while it recovers";

    #[test]
    fn every_letter_of_every_equation_is_explained() {
        let mut unexplained = Vec::new();
        for formula in FORMULAS {
            for token in tokens(formula.equation) {
                let explained =
                    !known(token).is_empty() || WORDS.split_whitespace().any(|word| word == token);
                if !explained {
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
        assert_eq!(signs("w = qE Cc/(3πμd)"), ["w", "q", "E", "Cc"]);
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
