//! The words of the trade, each with what it means here and what others call it.
//!
//! Meanings are in our own words; the terms are those that operators, makers and handbooks use (common practice, no
//! source).

use std::ops::Range;

/// One term.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Term {
    /// The term as this program uses it.
    pub name: &'static str,
    /// What it means.
    pub meaning: &'static str,
    /// Other names of it, by region or maker, separated by commas or semicolons; empty where there is none.
    pub also: &'static str,
}

const fn row(name: &'static str, meaning: &'static str, also: &'static str) -> Term {
    Term {
        name,
        meaning,
        also,
    }
}

/// Every term.
// One row a line, so that it reads as the table it is.
#[rustfmt::skip]
pub const GLOSSARY: &[Term] = &[
    row("Electrostatic precipitator (ESP)", "Device that charges dust in a gas and moves it by an electric field to plates", "precipitator, electrofilter (EU), E-filter, dry/wet ESP, WESP"),
    row("Collecting electrode", "Grounded surface that catches the dust", "plate, collecting plate, collector curtain"),
    row("Discharge electrode", "High-voltage wire, rod or spiked mast that makes the corona", "emitting electrode, emitter, wire, DE"),
    row("Gas passage", "Space between two neighbouring plates", "duct, lane, gas channel"),
    row("Plate spacing", "Distance between plates of one passage", "duct width, passage width"),
    row("Field", "Stretch of the collector in the gas direction with its own supply; the other meaning is always written \"electric field strength\"", "electrical field, zone, stage"),
    row("Bus section", "Smallest part that can be energized alone", "electrical section, cell"),
    row("Chamber", "Part of the casing with separate gas flow", "pass, stream"),
    row("Casing", "Gas-tight shell", "shell, housing"),
    row("Inlet nozzle", "Spreading piece from duct to casing", "inlet plenum, evase, diffuser"),
    row("Perforated distribution plate", "Holed sheet that evens the flow", "distribution screen, gas screen"),
    row("Turning vanes", "Blades that turn gas in a bend without swirl", "guide vanes"),
    row("Baffle", "Sheet that blocks gas from going around the field", "anti-sneakage baffle, hopper baffle"),
    row("Sneakage", "Gas that goes around the charged zone", "bypass, by-pass flow"),
    row("Hopper sweepage", "Gas passing through a hopper and picking up ash", "hopper bypass"),
    row("Hopper", "Funnel below a field that guides ash to removal", "trough, pyramid, ash hopper"),
    row("Ash handling", "Removal, transport and storage of ash", "evacuation, conveying, dedusting"),
    row("Insulator compartment", "Heated, purged box round a support insulator; the hot roof is the gas-tight floor it stands on; the penthouse is a walk-in room over the whole roof", "insulator box; penthouse; hot roof"),
    row("Support insulator", "Part that carries the high-voltage frame and keeps it off ground", "post or cone insulator"),
    row("High-voltage frame", "Grid that holds the discharge electrodes", "suspension frame, mast frame"),
    row("T/R set", "Transformer with rectifier giving high-voltage DC", "TR, HV set, rectifier, HVDC unit"),
    row("Secondary voltage and current", "Output of the T/R set to the field (kV, mA)", "field kV/mA, DC volts/amps"),
    row("Corona", "Glow of ionised gas close to a high-voltage wire", "corona discharge"),
    row("Onset voltage", "Voltage where corona starts", "inception, starting voltage"),
    row("Sparkover", "Sudden breakdown across the gap, short", "spark, flashover"),
    row("Arc", "Breakdown that keeps burning until current is cut", "power arc"),
    row("V–I curve", "Current against voltage for a field; air load (no gas flow) or gas load", "CVC, voltage-current characteristic"),
    row("Field charging", "Charge from ions driven along field lines; governs larger dust", "bombardment charging"),
    row("Diffusion charging", "Charge from random ion motion; governs fine dust", "thermal charging"),
    row("Migration velocity", "Speed of a charged particle towards the plate; \"effective\" when worked back from tests", "drift velocity, w, ω, precipitation rate"),
    row("Specific collection area (SCA)", "Plate area per gas flow", "specific collecting area, SCA"),
    row("Treatment time", "Time gas spends in the fields", "residence time"),
    row("Aspect ratio", "Length of the fields over their height", "L/H"),
    row("Collection efficiency", "Share of dust mass caught", "η, removal efficiency"),
    row("Penetration", "Share of dust mass that gets through; 1 − efficiency", "slip, emission ratio"),
    row("Fractional efficiency", "Efficiency at one particle size", "grade efficiency"),
    row("Resistivity", "How strongly the dust layer resists current, Ω·cm", "dust or ash resistivity"),
    row("Back corona", "Breakdown inside a resistive layer, sending ions of the wrong sign back", "back discharge, reverse ionisation, reverse corona"),
    row("Space charge", "Charge held by dust and ions in the gap, which reduces current", "ion/dust space charge"),
    row("Corona quenching", "Current suppressed by very dense fine dust", "corona suppression"),
    row("Rapping", "Striking or shaking electrodes to free the layer", "knocking, hammering, vibrating, dedusting"),
    row("Rapper", "Device that raps: falling hammer, gravity-impact, vibrator", "hammer, electromagnetic drop rod, vibrator"),
    row("Reentrainment", "Caught dust returning to the gas", "re-entrainment, rapping loss"),
    row("Gas conditioning", "Adding SO₃, NH₃, water or alkali to change resistivity", "FGC, conditioning"),
    row("Opacity", "Share of light blocked by the plume or duct gas", "smoke density, obscuration"),
    row("In-leakage", "Air drawn in through leaks because the casing is under suction", "false air, tramp air, infiltration"),
    row("ID fan", "Induced-draught fan that pulls gas through", "induced draft fan"),
    row("Acid dew point", "Temperature where acid condenses", "sulphuric acid dew point"),
    row("LOI", "Mass lost when ash is burned out; measure of unburned carbon", "loss on ignition, UBC, carbon in ash"),
    row("Key interlock", "Keys that can be taken and used only in a set order", "captive-key, trapped-key"),
    row("Grounding", "Connecting to earth to hold at zero potential", "earthing"),
    row("Intermittent energization", "Supplying some half-waves only to limit current in resistive layers", "pulse blocking, charge ratio control"),
    row("Ground switch", "Switch that ties a bus section to ground", "earthing switch"),
    row("Bus duct", "Guarded high-voltage conductor from the set to the roof", "bus bar duct"),
    row("Firing angle", "Point in the half-wave at which the thyristors let current through", "phase angle"),
    row("Primary voltage and current", "Line-side readings of the set", "primary V, A"),
    row("Air load", "V–I test in air, no gas flow", "air-load test"),
    row("Stabiliser", "Insulated guide that keeps the lower frame from swinging", "lower frame insulator"),
    row("Anvil", "Piece on the plate edge that takes the hammer's blow", "strike block"),
    row("Level probe", "Sensor for ash level in a hopper", "level detector"),
    row("Arc quench", "Time with the voltage off after a spark or arc (corona quenching is another thing)", "deionisation time"),
];

/// Other words of our own texts that mean a term.
const ALSO_WRITTEN: &[(&str, &str)] = &[
    ("spark", "Sparkover"),
    ("efficiency", "Collection efficiency"),
    ("collecting plate", "Collecting electrode"),
    ("discharge wire", "Discharge electrode"),
    ("precipitator", "Electrostatic precipitator (ESP)"),
    ("SCA", "Specific collection area (SCA)"),
    ("earthing", "Grounding"),
];

/// A term that is not looked for in texts: they mean the electric field as often as a stretch of the collector.
const TWO_MEANINGS: &str = "Field";

impl Term {
    /// The name without what stands in brackets behind it.
    #[must_use]
    pub fn short(&self) -> &'static str {
        let end = self.name.find(" (").unwrap_or(self.name.len());
        &self.name[..end]
    }

    /// Whether it holds this text in its name, its meaning or its other names; an empty text is in all.
    #[must_use]
    pub fn holds(&self, text: &str) -> bool {
        let wanted = text.trim().to_lowercase();
        let texts = [self.name, self.meaning, self.also];
        texts
            .iter()
            .any(|text| text.to_lowercase().contains(&wanted))
    }
}

/// The term of this name.
#[must_use]
pub fn find_term(name: &str) -> Option<&'static Term> {
    GLOSSARY.iter().find(|term| {
        term.name.eq_ignore_ascii_case(name) || term.short().eq_ignore_ascii_case(name)
    })
}

/// Where terms stand in a text, in order: each only where it stands first, the longest of those at one place.
#[must_use]
pub fn mentions(text: &str) -> Vec<(Range<usize>, &'static Term)> {
    // Only ASCII letters change, so that places stay what they are.
    let lower = text.to_ascii_lowercase();
    let mut found: Vec<(Range<usize>, &'static Term)> = Vec::new();
    for (word, term) in words() {
        let word = word.to_ascii_lowercase();
        found.extend(places(&lower, &word).map(|place| (place, term)));
    }
    found.sort_by_key(|(place, _)| (place.start, usize::MAX - place.end));
    let mut kept: Vec<(Range<usize>, &'static Term)> = Vec::new();
    let mut end = 0;
    for (place, term) in found {
        let known = kept.iter().any(|(_, other)| *other == term);
        if place.start < end {
            continue;
        }
        end = place.end;
        if !known {
            kept.push((place, term));
        }
    }
    kept
}

/// Every word that means a term.
fn words() -> impl Iterator<Item = (&'static str, &'static Term)> {
    let named = GLOSSARY
        .iter()
        .filter(|term| term.name != TWO_MEANINGS)
        .map(|term| (term.short(), term));
    let also = ALSO_WRITTEN
        .iter()
        .filter_map(|(word, name)| Some((*word, find_term(name)?)));
    named.chain(also)
}

/// Whole words, and their plural in s.
fn places<'t>(lower: &'t str, word: &'t str) -> impl Iterator<Item = Range<usize>> + 't {
    let is_letter = |letter: Option<char>| letter.is_some_and(char::is_alphanumeric);
    lower.match_indices(word).filter_map(move |(start, _)| {
        let mut end = start + word.len();
        if lower[end..].starts_with('s') {
            end += 1;
        }
        let before = lower[..start].chars().next_back();
        let after = lower[end..].chars().next();
        (!is_letter(before) && before != Some('-') && !is_letter(after)).then_some(start..end)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_term_is_explained_once_and_found_by_its_name() {
        for (index, term) in GLOSSARY.iter().enumerate() {
            assert!(!term.meaning.is_empty(), "{}", term.name);
            assert_eq!(find_term(term.name), Some(term));
            assert_eq!(find_term(&term.short().to_uppercase()), Some(term));
            let twice = GLOSSARY[..index]
                .iter()
                .any(|other| other.short() == term.short());
            assert!(!twice, "{} twice", term.name);
        }
        for (word, name) in ALSO_WRITTEN {
            assert!(find_term(name).is_some(), "{word} means {name}");
            assert!(find_term(word).is_none(), "{word} is a term itself");
        }
    }

    #[test]
    fn terms_are_found_where_they_stand_first_and_the_longest_wins() {
        let text = "The high-voltage frame hangs free; sparks and corona. Corona quenching: SCA 66 µm? Corona.";
        let found = mentions(text);
        let told: Vec<(&str, &str)> = found
            .iter()
            .map(|(place, term)| (&text[place.clone()], term.name))
            .collect();
        assert_eq!(
            told,
            [
                ("high-voltage frame", "High-voltage frame"),
                ("sparks", "Sparkover"),
                ("corona", "Corona"),
                ("Corona quenching", "Corona quenching"),
                ("SCA", "Specific collection area (SCA)"),
            ]
        );
    }

    #[test]
    fn parts_of_other_words_are_no_terms() {
        for text in [
            "in the field",
            "battlefields",
            "the archive",
            "sparkled",
            "µ-arc",
            "rappersx",
        ] {
            assert!(mentions(text).is_empty(), "{text}");
        }
        assert!(find_term("Hopper").expect("a term").holds(" FUNNEL "));
        assert!(!find_term("Hopper").expect("a term").holds("corona"));
    }
}
