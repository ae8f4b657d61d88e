//! Where a lesson may point, and the notice that stands everywhere.

/// The short notice: always visible.
pub const NOTICE: &str = "Teaching model. Not a procedure.";

/// The long notice: once a session, in handouts and in every exported record.
pub const NOTICE_LONG: &str = "This program teaches how an electrostatic precipitator behaves. It does not know your plant. It is not a procedure, a permit, a risk assessment or proof of competence to work on equipment. Isolation, grounding, gas testing, entry, lifting and electrical work are done only under your site's written procedures, by people your employer has authorised and the law requires to be qualified or licensed, and to the codes in force where you are. Where this program and your site differ, your site is right. If in doubt, stop and ask.";

/// What a segment may look at: name, and what it is.
pub const LESSON_VIEWS: [(&str, &str); 10] = [
    ("panel", "the readings board"),
    ("cross-section", "the section across the gas"),
    ("elevation", "the whole machine from the side"),
    ("plan", "one gas passage from above"),
    ("wire", "one wire between its plates"),
    ("grain", "one grain, followed from the inlet on"),
    ("energization", "the electrical set of the first field"),
    ("along", "chart of penetration along the length"),
    ("by_size", "chart of penetration by size"),
    (
        "agreement",
        "the strip that compares count, solver and formula",
    ),
];

/// What a drawing may show on top: name, and what it is.
pub const LAYERS: [(&str, &str); 3] = [
    ("labels", "names of the parts"),
    ("field_map", "map of the electric field strength"),
    ("tracers", "marks that move with the gas"),
];
