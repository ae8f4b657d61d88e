//! One alarm of one place: in which state it is, and what brings it into another.

/// The state of an alarm, by the names of ANSI/ISA-18.2-2016 (from memory of its state diagram).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum AlarmState {
    /// Nothing is wrong.
    #[default]
    Normal,
    /// Something is wrong, and nobody has said that he knows.
    Unacknowledged,
    /// Something is wrong, and somebody knows.
    Acknowledged,
    /// It was wrong and is right again, and nobody has said that he knows.
    ReturnedUnacknowledged,
    /// An operator has put it aside for a time.
    Shelved {
        /// Until this time of the plant, s.
        until_s: f64,
    },
    /// The present operation makes it meaningless.
    SuppressedByDesign,
    /// It is taken out for maintenance.
    OutOfService,
}

impl AlarmState {
    /// As words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Normal => "normal",
            Self::Unacknowledged => "unacknowledged",
            Self::Acknowledged => "acknowledged",
            Self::ReturnedUnacknowledged => "returned to normal, unacknowledged",
            Self::Shelved { .. } => "shelved",
            Self::SuppressedByDesign => "suppressed by design",
            Self::OutOfService => "out of service",
        }
    }

    /// Whether it is on the list of what is wrong or was.
    #[must_use]
    pub const fn is_announced(self) -> bool {
        matches!(
            self,
            Self::Unacknowledged | Self::Acknowledged | Self::ReturnedUnacknowledged
        )
    }

    /// Whether somebody still has to say that he knows.
    #[must_use]
    pub const fn is_unacknowledged(self) -> bool {
        matches!(self, Self::Unacknowledged | Self::ReturnedUnacknowledged)
    }

    /// Whether it is kept from the list whatever the instruments show.
    #[must_use]
    pub const fn is_hidden(self) -> bool {
        matches!(
            self,
            Self::Shelved { .. } | Self::SuppressedByDesign | Self::OutOfService
        )
    }
}

/// What an alarm remembers.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Memory {
    /// Whether the reading is on the wrong side of its set-point, with its dead band.
    pub(super) beyond: bool,
    /// Whether somebody has to say that he knows.
    unanswered: bool,
    shelved_until_s: Option<f64>,
    suppressed: bool,
    out_of_service: bool,
}

impl Memory {
    pub(super) fn state(&self) -> AlarmState {
        if self.out_of_service {
            return AlarmState::OutOfService;
        }
        if self.suppressed {
            return AlarmState::SuppressedByDesign;
        }
        if let Some(until_s) = self.shelved_until_s {
            return AlarmState::Shelved { until_s };
        }
        match (self.beyond, self.unanswered) {
            (true, true) => AlarmState::Unacknowledged,
            (true, false) => AlarmState::Acknowledged,
            (false, true) => AlarmState::ReturnedUnacknowledged,
            (false, false) => AlarmState::Normal,
        }
    }

    /// The reading went beyond its set-point or came back; returns whether this calls somebody.
    pub(super) fn read(&mut self, beyond: bool) -> bool {
        let rises = beyond && !self.beyond;
        self.beyond = beyond;
        let calls = rises && !self.state().is_hidden();
        self.unanswered |= calls;
        calls
    }

    pub(super) fn acknowledge(&mut self) {
        self.unanswered = false;
    }

    pub(super) fn shelve(&mut self, until_s: f64) {
        self.change(|memory| memory.shelved_until_s = Some(until_s));
    }

    /// Back from the shelf; returns whether this calls somebody.
    pub(super) fn unshelve(&mut self) -> bool {
        self.change(|memory| memory.shelved_until_s = None)
    }

    /// Whether its time on the shelf is over.
    pub(super) fn is_due(&self, time_s: f64) -> bool {
        self.shelved_until_s
            .is_some_and(|until_s| until_s <= time_s)
    }

    /// Whether the operation makes it meaningless from now on; returns whether this calls somebody.
    pub(super) fn suppress(&mut self, suppressed: bool) -> bool {
        self.change(|memory| memory.suppressed = suppressed)
    }

    /// Whether it is out for maintenance from now on; returns whether this calls somebody.
    pub(super) fn take_out(&mut self, out: bool) -> bool {
        self.change(|memory| memory.out_of_service = out)
    }

    /// What is hidden has nothing to be answered; what comes back and is still wrong calls anew.
    fn change(&mut self, how: impl FnOnce(&mut Self)) -> bool {
        let was_hidden = self.state().is_hidden();
        how(self);
        let is_hidden = self.state().is_hidden();
        if is_hidden {
            self.unanswered = false;
        }
        let calls = was_hidden && !is_hidden && self.beyond;
        self.unanswered |= calls;
        calls
    }
}
