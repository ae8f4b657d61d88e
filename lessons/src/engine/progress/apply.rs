//! Applies commands: each either changes the progress as it should or is refused and changes nothing.

use ashlane_shared::{
    conditions::{Conditions, Key, Mixing, Value, check, keys},
    physics::PhysicsError,
};

use super::{Command, Given, Phase, Progress, Refused, start};
use crate::engine::{Change, Confidence, Judged, Lesson, Reading, Segment, WorkAct};

/// A slider does not hit a value exactly; half a per cent is near enough, and the plan counts at the exact target.
const NEAR: f64 = 0.005;

impl Progress {
    /// Applies a command.
    ///
    /// # Errors
    /// Why it is refused; nothing has changed then.
    pub fn apply(&mut self, lesson: &Lesson, command: Command) -> Result<(), Refused> {
        if !matches!(command, Command::Resume | Command::Restart) {
            self.awake()?;
        }
        match command {
            Command::Answer(given) => self.answer(lesson, given),
            Command::Lock => self.lock(lesson),
            Command::Change(wanted) => self.change(lesson, &wanted),
            Command::Act(act) => self.act(lesson, act),
            Command::Measured(reading) => self.measured(lesson, *reading),
            Command::Next => self.next(lesson),
            Command::Back => self.back(lesson),
            Command::Pause => {
                self.paused = true;
                Ok(())
            }
            Command::Resume => {
                self.paused = false;
                Ok(())
            }
            Command::Restart => {
                *self = Self::new(lesson);
                Ok(())
            }
        }
    }

    /// Whether the model answer and the change of a segment lead to its measurement.
    pub(in crate::engine) fn reaches(lesson: &Lesson, segment: usize) -> Result<(), Refused> {
        let mut progress = Self::new(lesson);
        progress.go(lesson, segment);
        let there = lesson.segments.get(segment).ok_or(Refused::NoSuchStep)?;
        let given = Given {
            answer: there.predict.model_answer(),
            confidence: Some(Confidence::Sure),
        };
        progress.apply(lesson, Command::Answer(given))?;
        progress.apply(lesson, Command::Lock)?;
        if there.work.is_none() {
            progress.apply(lesson, Command::Change(Box::new(there.target.clone())))?;
        }
        if let Some(work) = &there.work {
            let acts = work.model_acts(&there.start);
            let impossible = |error: PhysicsError| Refused::Impossible(error.to_string());
            for act in acts.map_err(impossible)? {
                progress.apply(lesson, Command::Act(act))?;
            }
        }
        progress.plan(lesson).map(drop)
    }

    fn answer(&mut self, lesson: &Lesson, given: Given) -> Result<(), Refused> {
        let step = self.steps.get_mut(self.at).ok_or(Refused::NoSuchStep)?;
        if step.locked {
            return Err(Refused::Locked);
        }
        lesson
            .question(self.at)
            .judge(&given.answer)
            .map_err(Refused::NoAnswer)?;
        step.given = Some(given);
        Ok(())
    }

    fn lock(&mut self, lesson: &Lesson) -> Result<(), Refused> {
        let step = self.steps.get_mut(self.at).ok_or(Refused::NoSuchStep)?;
        if step.locked {
            return Err(Refused::Locked);
        }
        let given = step.given.as_ref().ok_or(Refused::AnswerFirst)?;
        if lesson.question(self.at).confidence && given.confidence.is_none() {
            return Err(Refused::ConfidenceFirst);
        }
        step.locked = true;
        Ok(())
    }

    fn change(&mut self, lesson: &Lesson, wanted: &Conditions) -> Result<(), Refused> {
        if self.phase(lesson) == Phase::Predict {
            return Err(Refused::PredictFirst);
        }
        let segment = lesson
            .segments
            .get(self.at)
            .ok_or(Refused::NothingToMeasure)?;
        let mut changed = self.conditions.clone();
        // In the order of the sheet: the number of fields before the lists that have one entry a field.
        let is_free = |key: &&Key| segment.free.iter().any(|free| free.path == key.path);
        for key in keys().filter(is_free) {
            match key.get(wanted) {
                Some(value) => key
                    .set(&mut changed, &value)
                    .map_err(|refusal| Refused::Impossible(format!("{}: {refusal}", key.path)))?,
                None => key.clear(&mut changed),
            }
        }
        only_free(segment, &changed, wanted)?;
        check(&changed).map_err(|objections| {
            let texts: Vec<String> = objections.iter().map(ToString::to_string).collect();
            Refused::Impossible(texts.join("; "))
        })?;
        self.conditions = changed;
        Ok(())
    }

    /// One act at the work of the segment; one that is not possible leaves nothing.
    fn act(&mut self, lesson: &Lesson, act: WorkAct) -> Result<(), Refused> {
        match self.phase(lesson) {
            Phase::Predict => return Err(Refused::PredictFirst),
            Phase::Observe => {}
            Phase::Explain | Phase::Done => return Err(Refused::Locked),
        }
        let segment = lesson.segments.get(self.at);
        let (segment, work) = segment
            .and_then(|segment| Some((segment, segment.work.as_ref()?)))
            .ok_or(Refused::NothingToMeasure)?;
        let step = self.steps.get_mut(self.at).ok_or(Refused::NoSuchStep)?;
        step.acts.push(act);
        if let Err(why) = work.left(&segment.start, &step.acts) {
            step.acts.pop();
            return Err(Refused::Impossible(why));
        }
        Ok(())
    }

    fn measured(&mut self, lesson: &Lesson, reading: Reading) -> Result<(), Refused> {
        // The same conditions as for handing the plan out.
        let plan = self.plan(lesson)?;
        if plan.segment != reading.segment {
            return Err(Refused::OtherSegment);
        }
        let step = self.steps.get_mut(self.at).ok_or(Refused::NoSuchStep)?;
        step.reading = Some(reading);
        Ok(())
    }

    fn next(&mut self, lesson: &Lesson) -> Result<(), Refused> {
        match self.phase(lesson) {
            Phase::Done => Err(Refused::NoSuchStep),
            Phase::Predict | Phase::Observe => Err(Refused::NotFinished),
            Phase::Explain => {
                self.go(lesson, self.at + 1);
                Ok(())
            }
        }
    }

    fn back(&mut self, lesson: &Lesson) -> Result<(), Refused> {
        let before = self.at.checked_sub(1).ok_or(Refused::NoSuchStep)?;
        self.go(lesson, before);
        Ok(())
    }

    /// Looks at another step; one that was measured shows what was measured.
    pub(super) fn go(&mut self, lesson: &Lesson, step: usize) {
        let measured = self
            .steps
            .get(step)
            .is_some_and(|step| step.reading.is_some());
        self.conditions = match lesson.segments.get(step) {
            Some(segment) if measured => segment.target.clone(),
            _ => start(lesson, step),
        };
        self.at = step;
    }

    /// What the task still wants.
    pub(super) fn left_to_change<'s>(&self, segment: &'s Segment) -> Vec<&'s Change> {
        let changes = segment.observe.changes.iter();
        changes.filter(|change| !self.has_reached(change)).collect()
    }

    /// Whether a control is where the task wants it.
    pub(super) fn has_reached(&self, change: &Change) -> bool {
        let now = change.key.get(&self.conditions);
        now.is_some_and(|now| is_near(&now, &change.to))
    }

    /// The option that the answer of a step fell into.
    pub(super) fn option_of(&self, lesson: &Lesson, step: usize) -> Option<usize> {
        let given = self.steps.get(step)?.given.as_ref()?;
        match lesson.question(step).judge(&given.answer) {
            Ok(Judged::Option(option)) => Some(option),
            Ok(Judged::NotJudged) | Err(_) => None,
        }
    }
}

/// Refuses when something differs that is not free.
fn only_free(segment: &Segment, changed: &Conditions, wanted: &Conditions) -> Result<(), Refused> {
    let same = |key: &&'static Key| match (key.get(changed), key.get(wanted)) {
        (Some(now), Some(wish)) => now.same_as(&wish),
        (now, wish) => now.is_none() && wish.is_none(),
    };
    let Some(key) = keys().find(|key| !same(key)) else {
        return Ok(());
    };
    let free: Vec<&str> = segment.free.iter().map(|key| key.path).collect();
    Err(Refused::ControlLocked {
        key: key.path.to_owned(),
        free: free.join(", "),
    })
}

/// Whether a control is where it should be, as far as a hand can tell.
fn is_near(now: &Value, wanted: &Value) -> bool {
    let near = |a: f64, b: f64| (a - b).abs() <= NEAR * b.abs();
    match (now, wanted) {
        (Value::Number(a), Value::Number(b))
        | (Value::Mixing(Mixing::Diffusivity(a)), Value::Mixing(Mixing::Diffusivity(b))) => {
            near(*a, *b)
        }
        (Value::PerField(a), Value::PerField(b)) => {
            a.len() == b.len() && a.iter().zip(b).all(|(&a, &b)| near(a, b))
        }
        _ => now.same_as(wanted),
    }
}
