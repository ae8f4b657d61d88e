//! All alarms of a collector: they look at the instruments and do what the operator says, and keep what changed.

use super::{ALARMS, Alarm, AlarmState, Instruments, Place, Priority, find_alarm, state::Memory};

/// Shortest and longest time on the shelf, minutes of the plant: a shift of 12 h at most, so that nothing stays there
/// unseen. Teaching value, no source.
pub const SHELF_MINUTES: (f64, f64) = (1.0, 720.0);
/// Changes that are kept.
const MOST_CHANGES: usize = 500;
const MINUTE_S: f64 = 60.0;

/// Which alarm, and where.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Tag {
    /// Key of its kind.
    pub key: &'static str,
    /// The field, 0 for the first; nothing for the whole collector.
    pub field: Option<usize>,
}

impl Tag {
    /// Its name for people.
    #[must_use]
    pub fn name(&self) -> String {
        let name = find_alarm(self.key).map_or(self.key, |alarm| alarm.name);
        match self.field {
            Some(field) => format!("{name}, field {}", field + 1),
            None => name.to_owned(),
        }
    }
}

/// What an operator may ask.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AlarmCommand {
    /// He knows of this one.
    Acknowledge(Tag),
    /// He knows of all that are on the list.
    AcknowledgeAll,
    /// The horn is to be quiet; nothing is acknowledged by that.
    Silence,
    /// Put aside for so long.
    Shelve {
        /// Which one.
        tag: Tag,
        /// Minutes of the plant, [`SHELF_MINUTES`].
        minutes: f64,
    },
    /// Back from the shelf.
    Unshelve(Tag),
    /// Out of service for maintenance.
    TakeOut(Tag),
    /// Back in service.
    PutBack(Tag),
}

/// Why a command was refused; nothing is changed then.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum AlarmError {
    /// No such alarm, or no such field.
    #[error("there is no alarm \"{}\"; the alarms are those of the list", .0.name())]
    Unknown(Tag),
    /// Too short or too long on the shelf.
    #[error("an alarm cannot be shelved for {minutes} minutes; give {} to {}", SHELF_MINUTES.0, SHELF_MINUTES.1)]
    Minutes {
        /// What was wanted.
        minutes: f64,
    },
}

/// One alarm of one place, as it is now.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Which one.
    pub tag: Tag,
    /// How urgent it is.
    pub priority: Priority,
    /// Its state.
    pub state: AlarmState,
    /// Whether its readings are beyond their set-points, shown or not.
    pub beyond: bool,
    /// When it called last, s of the plant; nothing where it never did.
    pub called_s: Option<f64>,
}

/// A change of state.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Change {
    /// When, s of the plant.
    pub time_s: f64,
    /// Which alarm.
    pub tag: Tag,
    /// Its state before.
    pub from: AlarmState,
    /// Its state since.
    pub to: AlarmState,
}

#[derive(Clone, Debug, PartialEq)]
struct Kept {
    tag: Tag,
    memory: Memory,
    called_s: Option<f64>,
}

/// All alarms of a collector.
///
/// The same instruments and commands in the same order give the same states and changes; no clock but the plant's is read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Annunciator {
    shown: Instruments,
    kept: Vec<Kept>,
    changes: Vec<Change>,
    horn: bool,
}

impl Annunciator {
    /// Looks at the instruments. A time that went back is a collector that was started anew, another number of fields
    /// another collector: both begin without any alarm.
    pub fn look(&mut self, shown: &Instruments) {
        let others = shown.fields.len() != self.shown.fields.len();
        if others || shown.time_s < self.shown.time_s || self.kept.is_empty() {
            *self = Self::of(shown.fields.len());
        }
        self.shown = shown.clone();
        for index in 0..self.kept.len() {
            self.look_at(index, shown);
        }
        self.horn &= self
            .kept
            .iter()
            .any(|kept| kept.memory.state().is_unacknowledged());
    }

    fn of(fields: usize) -> Self {
        let places = |alarm: &Alarm| match alarm.place {
            Place::EachField => (0..fields).map(Some).collect(),
            Place::Collector => vec![None],
        };
        let tags = ALARMS.iter().flat_map(|alarm| {
            let key = alarm.key;
            places(alarm)
                .into_iter()
                .map(move |field| Tag { key, field })
        });
        Self {
            kept: tags
                .map(|tag| Kept {
                    tag,
                    memory: Memory::default(),
                    called_s: None,
                })
                .collect(),
            ..Self::default()
        }
    }

    fn look_at(&mut self, index: usize, shown: &Instruments) {
        let tag = self.kept[index].tag;
        let Some(alarm) = find_alarm(tag.key) else {
            return;
        };
        let field = tag.field.unwrap_or(0);
        let said = self.kept[..index].iter().any(|other| {
            other.tag.field == tag.field
                && alarm.said_by.contains(&other.tag.key)
                && other.memory.beyond
        });
        let suppressed = said || (alarm.by_design)(shown, field);
        let time_s = self.shown.time_s;
        self.change(index, |memory| {
            let mut calls = false;
            // What becomes meaningless is hidden before it is read, what becomes meaningful again is read before it is shown.
            if suppressed {
                memory.suppress(true);
            }
            if let Some(beyond) = alarm.is_beyond(shown, field, memory.beyond) {
                calls |= memory.read(beyond);
            }
            if !suppressed {
                calls |= memory.suppress(false);
            }
            if memory.is_due(time_s) {
                calls |= memory.unshelve();
            }
            calls
        });
    }

    /// Does what the operator says, at the time of the last look.
    ///
    /// # Errors
    /// No such alarm, a time on the shelf that is not possible.
    pub fn apply(&mut self, command: AlarmCommand) -> Result<(), AlarmError> {
        match command {
            AlarmCommand::AcknowledgeAll => {
                for index in 0..self.kept.len() {
                    self.tell(index, Memory::acknowledge);
                }
            }
            AlarmCommand::Silence => self.horn = false,
            AlarmCommand::Acknowledge(tag) => self.tell(self.find(tag)?, Memory::acknowledge),
            AlarmCommand::Shelve { tag, minutes } => {
                let index = self.find(tag)?;
                if !(SHELF_MINUTES.0..=SHELF_MINUTES.1).contains(&minutes) {
                    return Err(AlarmError::Minutes { minutes });
                }
                let until_s = self.shown.time_s + MINUTE_S * minutes;
                self.tell(index, |memory| memory.shelve(until_s));
            }
            AlarmCommand::Unshelve(tag) => self.change(self.find(tag)?, Memory::unshelve),
            AlarmCommand::TakeOut(tag) => {
                self.change(self.find(tag)?, |memory| memory.take_out(true));
            }
            AlarmCommand::PutBack(tag) => {
                self.change(self.find(tag)?, |memory| memory.take_out(false));
            }
        }
        self.horn &= self
            .kept
            .iter()
            .any(|kept| kept.memory.state().is_unacknowledged());
        Ok(())
    }

    fn find(&self, tag: Tag) -> Result<usize, AlarmError> {
        let found = self.kept.iter().position(|kept| kept.tag == tag);
        found.ok_or(AlarmError::Unknown(tag))
    }

    fn tell(&mut self, index: usize, what: impl FnOnce(&mut Memory)) {
        self.change(index, |memory| {
            what(memory);
            false
        });
    }

    /// Changes one alarm and keeps what became of it; `what` tells whether it calls.
    fn change(&mut self, index: usize, what: impl FnOnce(&mut Memory) -> bool) {
        let kept = &mut self.kept[index];
        let from = kept.memory.state();
        if what(&mut kept.memory) {
            kept.called_s = Some(self.shown.time_s);
            self.horn = true;
        }
        let to = kept.memory.state();
        if from != to {
            if self.changes.len() >= MOST_CHANGES {
                self.changes.remove(0);
            }
            self.changes.push(Change {
                time_s: self.shown.time_s,
                tag: kept.tag,
                from,
                to,
            });
        }
    }

    /// Every alarm of every place, in the order of the table.
    pub fn points(&self) -> impl Iterator<Item = Point> + '_ {
        self.kept.iter().map(|kept| Point {
            tag: kept.tag,
            priority: find_alarm(kept.tag.key).map_or(Priority::Low, |alarm| alarm.priority),
            state: kept.memory.state(),
            beyond: kept.memory.beyond,
            called_s: kept.called_s,
        })
    }

    /// What is wrong or was and nobody has said that he knows: the highest first, of the same priority the newest.
    #[must_use]
    pub fn announced(&self) -> Vec<Point> {
        let mut list: Vec<Point> = self
            .points()
            .filter(|point| point.state.is_announced())
            .collect();
        list.sort_by(|one, other| {
            let newest = other
                .called_s
                .unwrap_or(0.0)
                .total_cmp(&one.called_s.unwrap_or(0.0));
            one.priority.cmp(&other.priority).then(newest)
        });
        list
    }

    /// How many of a priority are on that list.
    #[must_use]
    pub fn count(&self, priority: Priority) -> usize {
        let list = self.points().filter(|point| point.state.is_announced());
        list.filter(|point| point.priority == priority).count()
    }

    /// What is kept from the list: shelved, suppressed by design, out of service.
    #[must_use]
    pub fn hidden(&self) -> Vec<Point> {
        self.points()
            .filter(|point| point.state.is_hidden())
            .collect()
    }

    /// Whether the horn sounds.
    #[must_use]
    pub fn horn(&self) -> bool {
        self.horn
    }

    /// The instruments as they were at the last look.
    #[must_use]
    pub fn shown(&self) -> &Instruments {
        &self.shown
    }

    /// The last changes, oldest first.
    #[must_use]
    pub fn changes(&self) -> &[Change] {
        &self.changes
    }
}
