//! The cautions, one row each: shown where the hazard is, never as steps that could be followed.
//!
//! None of them is a procedure: each says what can hurt, and defers to the site.

/// One caution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Caution {
    /// Its code.
    pub code: &'static str,
    /// The hazard.
    pub hazard: &'static str,
    /// What to say about it.
    pub text: &'static str,
}

const fn row(code: &'static str, hazard: &'static str, text: &'static str) -> Caution {
    Caution { code, hazard, text }
}

/// Every caution.
// One row a line, so that it reads as the table it is.
#[rustfmt::skip]
pub const CAUTIONS: &[Caution] = &[
    row("C1", "stored charge", "The frame and cable can hold a dangerous charge after the set is off. Off is not discharged. Isolation, key exchange, fixed ground, proof of no voltage and a ground kept in place belong to your site's procedure and its authorised people. Grounding one bus section does not ground its neighbour; charge can return, so the ground stays on."),
    row("C2", "key interlock", "The keys force an order; they do not make the inside safe by themselves. A door that opens without its key is a defect: report it and stop."),
    row("C3", "look-alike compartments", "Check the name on this compartment, not the one next to it."),
    row("C4", "combustible gas, CO", "Sparks are normal inside and can light gas. High voltage stays off while the fire is unstable, CO is above the site limit, or the purge is not complete. A trip on combustibles is never bypassed."),
    row("C5", "fire in ash or plates", "Carbon-rich ash can smoulder. Follow the site's action for a rising outlet temperature."),
    row("C6", "permit-required confined space", "Casing, ducts, penthouse and hoppers can have bad air, sloping walls, moving parts and no easy way out. Only permitted entry under the site's procedure."),
    row("C7", "hot, free-flowing ash", "Ash can run like water and stay hot for a long time. It can bridge and let go with no warning. No one stands in front of an opening hopper door or enters a hopper with ash above."),
    row("C8", "rodding and pounding", "Poke holes and strike plates are for trained people with the right protection; compacting ash makes the plug worse."),
    row("C9", "falls and dropped objects", "Roof, penthouse, scaffolds and open floors are at height. Site fall protection applies. Tools are tethered."),
    row("C10", "rappers and drives", "Hammers, drives, conveyors, fans and rotary valves start by themselves. They are touched only under the site's isolation."),
    row("C11", "ozone", "Corona in air makes ozone, most of all in air-load tests. Ventilation before entry belongs to the site's rules. Limits: OSHA 0.1 ppm over 8 h; NIOSH ceiling 0.1 ppm; IDLH 5 ppm."),
    row("C12", "breathing dust, skin and eyes", "Ash may hold silica, metals, lime or acid. Use the site's respiratory and skin protection."),
    row("C13", "hot surfaces, pressure, suction", "The casing may be hot; doors under suction can pull or slam."),
    row("C14", "electrical room", "Arc flash and shock exist at the low-voltage side too. Panel work is for qualified people."),
    row("C15", "nuclear level gauges, stored oil", "Some hoppers have sealed sources; T/R sets may hold oil. Local rules apply."),
    row("C16", "wet collectors", "Water and high voltage together; slips; acid or caustic; backflow."),
    row("C17", "stress on the learner", "A case may be paused at any time."),
    row("C18", "falling ash", "Ash slabs on plates, beams and ledges come down without warning on people below; open hoppers lie below the fields."),
    row("C19", "air on smouldering ash", "Opening a door feeds it; water on hot ash in a closed hopper makes steam and gas. Site action only."),
    row("C20", "blow-back", "Pressurised ash lines and aerated hoppers blow hot ash out when opened."),
    row("C21", "wet collectors of plastic burn", "No water, no high voltage."),
    row("C22", "toxic gas, noise, old oil", "Toxic gases beside oxygen and flammables; hearing protection at hammers; old set oil may hold PCB."),
];

/// The row of a code.
#[must_use]
pub fn find_caution(code: &str) -> Option<&'static Caution> {
    CAUTIONS.iter().find(|row| row.code == code)
}
