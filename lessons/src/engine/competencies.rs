//! What a new operator should know and be able to do; a lesson names the codes it serves.

/// One competency.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Competency {
    /// Its code: K knowledge, S skill, A attitude and safety.
    pub code: &'static str,
    /// What it is about.
    pub statement: &'static str,
}

const fn row(code: &'static str, statement: &'static str) -> Competency {
    Competency { code, statement }
}

/// Every competency.
// One row a line, so that it reads as the table it is.
#[rustfmt::skip]
pub const COMPETENCIES: &[Competency] = &[
    row("K1", "order of the parts along the gas, and why the casing is under suction"),
    row("K2", "what in-leakage does to temperature, oxygen, volume and ash"),
    row("K3", "the parts and what each is for"),
    row("K4", "onset of the corona, and the voltage–current curve"),
    row("K5", "field charging, diffusion charging, and charge against size"),
    row("K6", "balance of electric force and drag on a grain"),
    row("K7", "Deutsch–Anderson, and penetration as the number to think in"),
    row("K8", "effects of gas velocity, voltage, plate spacing and number of fields"),
    row("K9", "fractional efficiency, its penetration, and the sizes caught worst"),
    row("K10", "resistivity of the dust layer, and what changes it"),
    row("K11", "back corona and how it looks on the meters"),
    row("K12", "the T/R set, its readings and its limits"),
    row("K13", "the trade-off of rapping"),
    row("K14", "sneakage, hopper sweepage and gas distribution"),
    row("K15", "hoppers as funnels, and why the first row fills fastest"),
    row("K16", "where the ash goes, and what decides it"),
    row("K17", "wet collectors"),
    row("S1", "reading kV, mA, sparks and power of each field as a pattern"),
    row("S2", "start-up and shut-down order with the reason for each step"),
    row("S3", "following trends and telling process causes from equipment causes"),
    row("S4", "diagnosis: pattern, causes, checks from safest and cheapest, decision"),
    row("S5", "answering the loss of a field"),
    row("S6", "logging the shift"),
    row("A1", "stored charge belongs to the site's procedure"),
    row("A2", "sparks light combustible gas"),
    row("A3", "permit spaces"),
    row("A4", "hot, free-flowing ash"),
    row("A5", "ozone, dust, falls, moving equipment, hot surfaces"),
    row("A6", "the site's procedure and its licensed people come first; stop when unsure"),
];

/// Themes of the catalog, each with the codes it gathers, in the order they are best learnt.
pub const THEMES: &[(&str, &[&str])] = &[
    ("The gas and the parts", &["K1", "K2", "K3", "K14"]),
    ("Corona and charging", &["K4", "K5"]),
    ("Motion and efficiency", &["K6", "K7", "K8", "K9"]),
    ("Dust layer and electrical set", &["K10", "K11", "K12"]),
    ("Cleaning, water and ash", &["K13", "K15", "K16", "K17"]),
    (
        "Running the collector safely",
        &[
            "S1", "S2", "S3", "S4", "S5", "S6", "A1", "A2", "A3", "A4", "A5", "A6",
        ],
    ),
];

/// The theme that a code belongs to.
#[must_use]
pub fn theme_of(code: &str) -> &'static str {
    let found = THEMES.iter().find(|(_, codes)| codes.contains(&code));
    found.map_or("Other lessons", |(theme, _)| theme)
}

/// The row of a code.
#[must_use]
pub fn find_competency(code: &str) -> Option<&'static Competency> {
    COMPETENCIES.iter().find(|row| row.code == code)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_competency_has_one_theme() {
        for row in COMPETENCIES {
            let themes = THEMES.iter().filter(|(_, codes)| codes.contains(&row.code));
            assert_eq!(themes.count(), 1, "{}", row.code);
        }
        let gathered: usize = THEMES.iter().map(|(_, codes)| codes.len()).sum();
        assert_eq!(gathered, COMPETENCIES.len());
    }
}
