//! What belongs to the site: its order of stages and its limits. There is no default for any of it.

/// A stage of a start-up or a shut-down.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Stage {
    /// Insulator heaters are on.
    Heaters,
    /// Ash removal runs.
    AshRemoval,
    /// Rappers run.
    Rappers,
    /// Gas is moved until the purge is complete.
    Purge,
    /// The fire burns and is stable.
    Fire,
    /// Fields are energized, one after the other.
    Energize,
    /// Fields are switched off, that of the inlet first.
    DeEnergize,
    /// The fire is out.
    FireOut,
    /// Rappers and ash removal run on until plates and hoppers are clean, then stop.
    CleanOut,
    /// The machine goes to the permit holder.
    HandOver,
}

impl Stage {
    /// Name in lesson files and stage.
    pub const ALL: [(&str, Self); 10] = [
        ("heaters", Self::Heaters),
        ("ash-removal", Self::AshRemoval),
        ("rappers", Self::Rappers),
        ("purge", Self::Purge),
        ("fire", Self::Fire),
        ("energize", Self::Energize),
        ("de-energize", Self::DeEnergize),
        ("fire-out", Self::FireOut),
        ("clean-out", Self::CleanOut),
        ("hand-over", Self::HandOver),
    ];

    /// As words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Heaters => "insulator heaters on",
            Self::AshRemoval => "ash removal on",
            Self::Rappers => "rappers on",
            Self::Purge => "purge complete",
            Self::Fire => "fire stable",
            Self::Energize => "fields energized, one after the other",
            Self::DeEnergize => "fields off, that of the inlet first",
            Self::FireOut => "fire out",
            Self::CleanOut => "rappers and ash removal run on, then stop",
            Self::HandOver => "hand over to the permit holder",
        }
    }
}

/// Settings of a site. A lesson that needs them says where they come from, and whether they are invented.
#[derive(Clone, Debug, PartialEq)]
pub struct SiteSettings {
    /// Where order and limits come from, shown beside them.
    pub source: String,
    /// The site's own order.
    pub order: Vec<Stage>,
    /// Combustibles above which no field may be on, share by volume.
    pub combustibles: f64,
    /// Volume changes of a complete purge.
    pub volume_changes: f64,
    /// Time a fire burns before it counts as stable, s.
    pub stable_s: f64,
    /// How far insulators are above the dew point before a field goes on, K.
    pub above_dew_k: f64,
}
