//! The words of the trade in our own words, with what else they are called, and which of them a text uses.

/// A term.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Term {
    /// The term that the program uses.
    pub term: &'static str,
    /// What it means.
    pub meaning: &'static str,
    /// What it is called elsewhere.
    pub also: &'static str,
    /// Small letters by which a text shows that it uses it, one or another.
    found_by: &'static str,
}

const fn row(
    term: &'static str,
    meaning: &'static str,
    also: &'static str,
    found_by: &'static str,
) -> Term {
    Term {
        term,
        meaning,
        also,
        found_by,
    }
}

/// Every term, along the way of the gas, the charge and the dust.
// One row a line, so that it reads as the table it is.
#[rustfmt::skip]
pub const GLOSSARY: &[Term] = &[
    row("Electrostatic precipitator (ESP)", "Device that charges dust in a gas and moves it by an electric field to plates", "precipitator, electrofilter (EU), E-filter, dry/wet ESP, WESP", "precipitator|collector"),
    row("Collecting electrode", "Grounded surface that catches the dust", "plate, collecting plate, collector curtain", "plate"),
    row("Discharge electrode", "High-voltage wire, rod or spiked mast that makes the corona", "emitting electrode, emitter, wire, DE", "wire|discharge electrode"),
    row("Gas passage", "Space between two neighbouring plates", "duct, lane, gas channel", "passage"),
    row("Plate spacing", "Distance between plates of one passage", "duct width, passage width", "plate spacing"),
    row("Field", "Stretch of the collector in the gas direction with its own supply; the other meaning is always written “electric field strength”", "electrical field, zone, stage", "fields|one field|first field|second field|third field|last field|every field|each field"),
    row("Bus section", "Smallest part that can be energized alone", "electrical section, cell", "bus section"),
    row("Chamber", "Part of the casing with separate gas flow", "pass, stream", "chamber"),
    row("Casing", "Gas-tight shell", "shell, housing", "casing"),
    row("Inlet nozzle", "Spreading piece from duct to casing", "inlet plenum, evase, diffuser", "nozzle"),
    row("Perforated distribution plate", "Holed sheet that evens the flow", "distribution screen, gas screen", "distribution plate|perforated"),
    row("Turning vanes", "Blades that turn gas in a bend without swirl", "guide vanes", "turning vane"),
    row("Baffle", "Sheet that blocks gas from going around the field", "anti-sneakage baffle, hopper baffle", "baffle"),
    row("Sneakage", "Gas that goes around the charged zone", "bypass, by-pass flow", "sneak|slips past|goes around"),
    row("Hopper sweepage", "Gas passing through a hopper and picking up ash", "hopper bypass", "sweepage|through the hopper"),
    row("Hopper", "Funnel below a field that guides ash to removal", "trough, pyramid, ash hopper", "hopper"),
    row("Ash handling", "Removal, transport and storage of ash", "evacuation, conveying, dedusting", "ash removal|evacuat|conveyor"),
    row("Insulator compartment", "Heated, purged box round a support insulator; the hot roof is the gas-tight floor it stands on; the penthouse is a walk-in room over the whole roof", "insulator box; penthouse; hot roof", "insulator compartment|penthouse|insulator heater"),
    row("Support insulator", "Part that carries the high-voltage frame and keeps it off ground", "post or cone insulator", "insulator"),
    row("High-voltage frame", "Grid that holds the discharge electrodes", "suspension frame, mast frame", "high-voltage frame"),
    row("T/R set", "Transformer with rectifier giving high-voltage DC", "TR, HV set, rectifier, HVDC unit", "t/r|transformer|the sets|a set |the set "),
    row("Secondary voltage / current", "Output of the T/R set to the field (kV, mA)", "field kV/mA, DC volts/amps", "kv|milliamp|kilovolt"),
    row("Corona", "Glow of ionised gas close to a high-voltage wire", "corona discharge", "corona"),
    row("Onset voltage", "Voltage where corona starts", "inception, starting voltage", "onset"),
    row("Sparkover", "Sudden breakdown across the gap, short", "spark, flashover", "spark"),
    row("Arc", "Breakdown that keeps burning until current is cut", "power arc", " arc"),
    row("V-I curve", "Current against voltage for a field; air load (no gas flow) or gas load", "CVC, voltage-current characteristic", "current against voltage|v-i|v–i"),
    row("Field charging", "Charge from ions driven along field lines; governs larger dust", "bombardment charging", "field alone|lines of the electric field|along its lines"),
    row("Diffusion charging", "Charge from random ion motion; governs fine dust", "thermal charging", "random motion|at random"),
    row("Migration velocity", "Speed of a charged particle towards the plate; “effective” when worked back from tests", "drift velocity, w, ω, precipitation rate", "migration velocit"),
    row("Specific collection area (SCA)", "Plate area per gas flow", "specific collecting area, SCA", "specific collect"),
    row("Treatment time", "Time gas spends in the fields", "residence time", "treatment time|stays in the|gas takes"),
    row("Aspect ratio", "Length of the fields over their height", "L/H", "aspect ratio"),
    row("Collection efficiency", "Share of dust mass caught", "η, removal efficiency", "efficien"),
    row("Penetration", "Share of dust mass that gets through; 1 − efficiency", "slip, emission ratio", "penetration"),
    row("Fractional efficiency", "Efficiency at one particle size", "grade efficiency", "by size|each size|single size"),
    row("Resistivity", "How strongly the dust layer resists current, Ω·cm", "dust or ash resistivity", "resistiv"),
    row("Back corona", "Breakdown inside a resistive layer, sending ions of the wrong sign back", "back discharge, reverse ionisation, reverse corona", "back corona"),
    row("Space charge", "Charge held by dust and ions in the gap, which reduces current", "ion/dust space charge", "space charge|hold charge|holds charge"),
    row("Corona quenching", "Current suppressed by very dense fine dust", "corona suppression", "corona quench"),
    row("Rapping", "Striking or shaking electrodes to free the layer", "knocking, hammering, vibrating, dedusting", "rapping|rapped|hammer"),
    row("Rapper", "Device that raps: falling hammer, gravity-impact, vibrator", "hammer, electromagnetic drop rod, vibrator", "rapper"),
    row("Reentrainment", "Caught dust returning to the gas", "re-entrainment, rapping loss", "reentrain|comes back|gives dust back|gives back"),
    row("Gas conditioning", "Adding SO₃, NH₃, water or alkali to change resistivity", "FGC, conditioning", "conditioning"),
    row("Opacity", "Share of light blocked by the plume or duct gas", "smoke density, obscuration", "opacity"),
    row("In-leakage", "Air drawn in through leaks because the casing is under suction", "false air, tramp air, infiltration", "in-leakage|air in|leak"),
    row("ID fan", "Induced-draught fan that pulls gas through", "induced draft fan", "fan"),
    row("Acid dew point", "Temperature where acid condenses", "sulphuric acid dew point", "dew point"),
    row("LOI", "Mass lost when ash is burned out; measure of unburned carbon", "loss on ignition, UBC, carbon in ash", "unburned|loi "),
    row("Key interlock", "Keys that can be taken and used only in a set order", "captive-key, trapped-key", "interlock|key exchange"),
    row("Grounding", "Connecting to earth to hold at zero potential", "earthing", "ground"),
    row("Intermittent energization", "Supplying some half-waves only to limit current in resistive layers", "pulse blocking, charge ratio control", "intermittent"),
    row("Ground switch", "Switch that ties a bus section to ground", "earthing switch", "ground switch"),
    row("Bus duct", "Guarded high-voltage conductor from the set to the roof", "bus bar duct", "bus duct"),
    row("Firing angle", "Point in the half-wave at which the thyristors let current through", "phase angle", "firing angle"),
    row("Primary voltage, current", "Line-side readings of the set", "primary V, A", "primary"),
    row("Air load", "V–I test in air, no gas flow", "air-load test", "air load|air-load"),
    row("Stabiliser", "Insulated guide that keeps the lower frame from swinging", "lower frame insulator", "stabiliser"),
    row("Anvil", "Piece on the plate edge that takes the hammer's blow", "strike block", "anvil"),
    row("Level probe", "Sensor for ash level in a hopper", "level detector", "level probe"),
    row("Arc quench", "Time with the voltage off after a spark or arc; not corona quenching", "deionisation time", "quench"),
];

/// The terms that a text uses, in the order of the glossary.
#[must_use]
pub fn terms_in(text: &str) -> Vec<&'static Term> {
    let text = text.to_lowercase();
    let is_used = |term: &&Term| term.found_by.split('|').any(|words| text.contains(words));
    GLOSSARY.iter().filter(is_used).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_term_is_there_once_and_is_found_by_its_words() {
        for (index, row) in GLOSSARY.iter().enumerate() {
            assert!(
                !row.meaning.is_empty() && !row.found_by.is_empty(),
                "{}",
                row.term
            );
            assert!(GLOSSARY[..index].iter().all(|other| other.term != row.term));
            for words in row.found_by.split('|') {
                assert_eq!(words, words.to_lowercase(), "{}", row.term);
                assert!(terms_in(words).contains(&row), "{}", row.term);
            }
        }
    }

    #[test]
    fn a_text_has_the_terms_that_it_uses() {
        let terms = terms_in("The penetration of four Fields, with sneakage.");
        let names: Vec<&str> = terms.iter().map(|row| row.term).collect();
        assert_eq!(names, ["Field", "Sneakage", "Penetration"]);
        assert!(terms_in("Nothing of the kind.").is_empty());
    }
}
