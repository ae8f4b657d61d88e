//! Reads an explanation: what holds, and one branch for every wrong option, each of which is a listed misconception.

use ashlane_shared::conditions::sheet::{Report, Trouble};

use super::section::{Section, unknown};
use crate::engine::{Branch, Explain, Kind, Misconception, Question};

const EXPLAIN_KEYS: [&str; 2] = ["right", "wrong"];
const WRONG_KEYS: [&str; 3] = ["option", "misconception", "text"];

/// The misconceptions of the lesson, and which of them have been used.
pub(super) struct Ideas<'m> {
    listed: &'m [Misconception],
    used: Vec<usize>,
}

impl<'m> Ideas<'m> {
    pub(super) fn new(listed: &'m [Misconception]) -> Self {
        Self {
            listed,
            used: Vec::new(),
        }
    }

    fn find(&mut self, section: &Section<'_>, report: &mut Report<'_>) -> Option<usize> {
        let name = section.string(report, "misconception", "a name from [misconceptions]")?;
        let found = self.listed.iter().position(|listed| listed.name == name);
        match found {
            Some(index) => self.used.push(index),
            None => {
                let known: Vec<&str> = self.listed.iter().map(|idea| idea.name.as_str()).collect();
                let message = unknown("misconception", name, &known);
                section.wrong(report, "misconception", message);
            }
        }
        found
    }

    /// Notes every misconception that no wrong option is.
    pub(super) fn all_used(&self, root: &Section<'_>, report: &mut Report<'_>) {
        // A question that could not be read hides its branches.
        if !report.is_clean() {
            return;
        }
        for (index, idea) in self.listed.iter().enumerate() {
            if !self.used.contains(&index) {
                let place = root
                    .item("misconceptions")
                    .and_then(|item| item.get(&idea.name)?.span());
                let message = "no wrong option is this misconception; use it or take it away";
                let trouble = Trouble::Clash(message.to_owned());
                report.value(format!("misconceptions.{}", idea.name), place, trouble);
            }
        }
    }
}

pub(super) fn explain(
    section: &Section<'_>,
    question: &Question,
    ideas: &mut Ideas<'_>,
    report: &mut Report<'_>,
) -> Option<Explain> {
    let explain = section.section(
        report,
        "explain",
        "right, and a branch for each wrong option",
    )?;
    explain.only(report, &EXPLAIN_KEYS);
    let right = explain.text(report, "right");
    let mut wrong: Vec<Branch> = Vec::new();
    let mut misread = false;
    for section in explain.sections(report, "wrong") {
        match branch(&section, question, ideas, report) {
            Some(branch) if wrong.iter().any(|other| other.option == branch.option) => {
                let message = "this option has a branch already; keep one of them";
                section.wrong(report, "option", message.to_owned());
            }
            Some(branch) => wrong.push(branch),
            None => misread = true,
        }
    }
    if !misread && !matches!(question.kind, Kind::ShortText { .. }) {
        for (index, option) in question.options.iter().enumerate() {
            let covered = wrong.iter().any(|branch| branch.option == index);
            if !question.is_right(index) && !covered {
                let path = explain.path_of("wrong");
                let message = format!(
                    "option \"{}\" is wrong and has no branch; add [[{path}]] with option = \"{}\"",
                    option.id, option.id
                );
                report.name(path, explain.place(), Trouble::Missing(message));
            }
        }
    }
    Some(Explain {
        right: right?,
        wrong,
    })
}

fn branch(
    section: &Section<'_>,
    question: &Question,
    ideas: &mut Ideas<'_>,
    report: &mut Report<'_>,
) -> Option<Branch> {
    section.only(report, &WRONG_KEYS);
    let misconception = ideas.find(section, report);
    let text = section.text(report, "text");
    let name = section.string(report, "option", "id of a wrong option")?;
    let option = question.options.iter().position(|option| option.id == name);
    match option {
        None => {
            let known: Vec<&str> = question
                .options
                .iter()
                .map(|option| option.id.as_str())
                .collect();
            section.wrong(report, "option", unknown("option", name, &known));
        }
        Some(option) if question.is_right(option) => {
            let message = "this option is right; it is explained by right = …";
            section.wrong(report, "option", message.to_owned());
        }
        Some(_) => {}
    }
    Some(Branch {
        option: option?,
        misconception: misconception?,
        text: text?,
    })
}
