//! A lesson as it is after reading: typed, checked, complete.

use ashlane_shared::{
    checks::Formula,
    conditions::{Conditions, Key, Part, Value},
};

use super::{Caution, Competency, Quantity, Question, Relation, Text, Work};

/// A lesson.
#[derive(Clone, Debug)]
pub struct Lesson {
    /// Short name that never changes, such as `L5`.
    pub id: String,
    /// Rises with every change of the content.
    pub revision: u32,
    /// What changed last.
    pub change: String,
    /// Title.
    pub title: String,
    /// What the learner can do afterwards.
    pub goal: Text,
    /// Time it takes, minutes.
    pub minutes: u32,
    /// Competencies it serves.
    pub competencies: Vec<&'static Competency>,
    /// Cautions to show.
    pub cautions: Vec<&'static Caution>,
    /// Wrong ideas that it corrects.
    pub misconceptions: Vec<Misconception>,
    /// Seed of all counts.
    pub seed: u64,
    /// Versions of the collector that segments look at.
    pub columns: Vec<Column>,
    /// What is done, in order.
    pub segments: Vec<Segment>,
    /// The question at the end, in another setting.
    pub transfer: Transfer,
}

/// A wrong idea.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Misconception {
    /// Its name in the file.
    pub name: String,
    /// The idea, in the words of those who hold it.
    pub statement: String,
}

/// One version of the collector: ideal, or with everything in.
#[derive(Clone, Debug)]
pub struct Column {
    /// Its name in the file.
    pub name: String,
    /// What it is, for people; names the model.
    pub title: Text,
    /// What it is told.
    pub conditions: Conditions,
}

/// One round of predict, observe, explain.
#[derive(Clone, Debug)]
pub struct Segment {
    /// Line of the file.
    pub line: Option<usize>,
    /// Its name in the file.
    pub id: String,
    /// Title.
    pub title: String,
    /// What to read first.
    pub prose: Text,
    /// Where to look.
    pub look: Look,
    /// Which column it looks at.
    pub column: usize,
    /// Conditions at its start.
    pub start: Conditions,
    /// Conditions that the observation asks for.
    pub target: Conditions,
    /// Controls that may be moved; all others are locked.
    pub free: Vec<&'static Key>,
    /// The question before.
    pub predict: Question,
    /// What to change.
    pub observe: Observe,
    /// What is worked at instead of moving controls, if anything is.
    pub work: Option<Work>,
    /// What is measured and compared.
    pub checks: Vec<Check>,
    /// What is said after.
    pub explain: Explain,
}

/// Where to look.
#[derive(Clone, Debug, Default)]
pub struct Look {
    /// View, one of the lesson views.
    pub view: &'static str,
    /// Part of the machine, if one is meant.
    pub part: Option<&'static Part>,
    /// Whether the part is highlighted.
    pub highlight: bool,
    /// Layers of the drawing that are on; nothing leaves them as they are.
    pub layers: Option<Vec<&'static str>>,
}

/// What to change.
#[derive(Clone, Debug)]
pub struct Observe {
    /// The task in words.
    pub task: Text,
    /// Controls to move, all of them free.
    pub changes: Vec<Change>,
}

/// One control from one value to another.
#[derive(Clone, Debug)]
pub struct Change {
    /// The control.
    pub key: &'static Key,
    /// What it says at the start.
    pub from: Value,
    /// What it should say.
    pub to: Value,
}

/// When a formula is evaluated.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Moment {
    /// At the start of the segment.
    Before,
    /// At the target.
    After,
}

/// A time on the plant clock.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// How long the plant runs under the conditions of the start, s.
    pub settle_s: f64,
    /// How long it then runs under those of the target, and is read, s.
    pub time_s: f64,
}

/// One measured quantity against one formula, or between two.
#[derive(Clone, Debug)]
pub struct Check {
    /// Line of the file.
    pub line: Option<usize>,
    /// What is measured.
    pub quantity: Quantity,
    /// How it should lie to the formula.
    pub relation: Relation,
    /// The formula.
    pub formula: &'static Formula,
    /// The other formula where it should lie between two.
    pub upper: Option<&'static Formula>,
    /// Conditions at which the formulas are evaluated.
    pub formula_at: Moment,
    /// Stated tolerance, share of the formula's value; of an efficiency that of the penetration.
    pub tolerance: f64,
    /// Diameter of the grain, m; nothing where all dust has one diameter, or none is meant.
    pub size_m: Option<f64>,
    /// How long the plant runs, where it does.
    pub span: Option<Span>,
    /// The field that is meant, from 0, where one is.
    pub field: Option<usize>,
    /// Parcels that are counted at least; 0 where nothing is counted.
    pub parcels: usize,
}

/// What is said when the answer is out.
#[derive(Clone, Debug)]
pub struct Explain {
    /// To everybody.
    pub right: Text,
    /// To those who chose a wrong option: one for each.
    pub wrong: Vec<Branch>,
}

/// What is said about one wrong option.
#[derive(Clone, Debug)]
pub struct Branch {
    /// The option.
    pub option: usize,
    /// The misconception that it is.
    pub misconception: usize,
    /// What to say.
    pub text: Text,
}

/// The question at the end.
#[derive(Clone, Debug)]
pub struct Transfer {
    /// Title.
    pub title: String,
    /// The new setting.
    pub prose: Text,
    /// The question.
    pub predict: Question,
    /// What is said after.
    pub explain: Explain,
}

impl Lesson {
    /// Rounds and the transfer question.
    #[must_use]
    pub fn steps(&self) -> usize {
        self.segments.len() + 1
    }

    /// The question of a step; the last step is the transfer.
    #[must_use]
    pub fn question(&self, step: usize) -> &Question {
        self.segments
            .get(step)
            .map_or(&self.transfer.predict, |segment| &segment.predict)
    }

    /// What is said after a step.
    #[must_use]
    pub fn explain(&self, step: usize) -> &Explain {
        self.segments
            .get(step)
            .map_or(&self.transfer.explain, |segment| &segment.explain)
    }
}

impl Explain {
    /// The branch of a wrong option.
    #[must_use]
    pub fn branch(&self, option: usize) -> Option<&Branch> {
        self.wrong.iter().find(|branch| branch.option == option)
    }
}
