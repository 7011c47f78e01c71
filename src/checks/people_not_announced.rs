//! A step needs somebody whom the header does not announce.
use super::{Rule, Subject};
use crate::model::document::Procedure;
use crate::model::prose::{Prose, Target};
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "people-not-announced",
    severity: Severity::Warning,
    waivable: true,
    summary: "A step needs a helper or a role that the header's `people:` leaves out",
    explain: "\
Work is planned from the head of the sheet. Half-way through, with a cover hanging on the hoist, it turns out that \
two people are needed and one is there.

The header's `people:` says how many do the work, and names by their labels the steps that need more: `people: 1, \
and a helper for [lift-off]`. A `role:` of a step (an electrician, an operator) stands there too.",
    bad: "\
parts
    cover \"Bearing cover\"

turn cover once
    people: 2
",
    good: "\
parts
    cover \"Bearing cover\"

turn cover once
    people: 1
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some(procedure) = subject.procedure() else { return };
    let Some(people) = &procedure.header.people else { return };
    let (mut said, mut helpers): (Vec<&str>, u32) = (Vec::new(), 0);
    let mut first = None;
    for step in procedure.steps() {
        if let Some(needs) = &step.people
            && count(needs) > count(people)
            && !announces(people, step.number)
        {
            helpers += 1;
            first = first.or(Some(needs.span));
        }
        if let Some(role) = &step.role
            && !said.contains(&role.as_str())
            && !people.source.to_lowercase().contains(role.value.to_lowercase().as_str())
        {
            said.push(role.as_str());
            let text = format!("The header does not say that this takes the role `{}`", role.value);
            let help = format!("Add to the header's `people:`: `{} for [label of the step]`", role.value);
            findings.push(finding(people, role.span, text).help(help));
        }
    }
    if let Some(at) = first {
        let more = match helpers - 1 {
            0 => String::new(),
            1 => ", and so does a later one".to_owned(),
            more => format!(", and so do {more} later ones"),
        };
        let text = format!("This step needs more people than the header announces for it{more}");
        let help =
            "Give the step a label and name it in the header: `people: 1, and a helper for [lift-off]`";
        findings.push(finding(people, at, text).help(help));
    }
}

fn finding(people: &Prose, at: crate::source::Span, text: String) -> Finding {
    Finding::new(RULE.id, at, text).label(people.span, "the work is planned from this line")
}

/// How many; 1 where no number leads.
pub(super) fn count(people: &Prose) -> u32 {
    let digits = people.source.trim_start().split(|c: char| !c.is_ascii_digit()).next().unwrap_or("");
    digits.parse().unwrap_or(1)
}

/// Whether the header says that more are needed: at this step, or without saying where.
fn announces(people: &Prose, step: u32) -> bool {
    let mut steps = steps_named(people).peekable();
    match steps.peek() {
        Some(_) => steps.any(|it| it == step),
        None => people.source.contains(char::is_alphabetic),
    }
}

/// The steps that the line names.
pub(super) fn steps_named(people: &Prose) -> impl Iterator<Item = u32> {
    people.references.iter().filter_map(|(_, target)| match target.value {
        Target::Step(step) => Some(step),
        Target::Thing(_) => None,
    })
}

/// The step of that number needs more than one, or somebody in particular.
pub(super) fn is_needed(procedure: &Procedure, people: &Prose, number: u32) -> bool {
    procedure.step(number).is_none_or(|step| {
        step.role.is_some() || step.people.as_ref().is_some_and(|needs| count(needs) > count(people))
    })
}
