//! The header announces somebody whom no step needs.
use super::people_not_announced::{is_needed, steps_named};
use super::{Rule, Subject};
use crate::model::prose::Target;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "people-never-needed",
    severity: Severity::Warning,
    waivable: true,
    summary: "The header announces a helper or a role for a step that does not ask for one",
    explain: "\
A helper is called from another job, stands by, and is not needed; or the step once said that two must lift, and \
the line was lost.

Each step that the header's `people:` names has a `people:` or a `role:` of its own, so that whoever reads only the \
step knows. A helper announced without a step needs at least one step with `people: 2`.",
    bad: "\
procedure EX-001 \"Take the cover off\"
    revision:   A, 2026-11-02
    equipment:  F40 transfer pump
    models:     F40
    source:     manual \"F40 workshop manual, issue 7\"
    time:       30 min
    people:     1, and a helper for [turned]
    outcome:    Turn a cover without marking its face.
    requires:   none
    afterwards: none
    leaves:     none

tools none
supplies none

parts
    cover \"Bearing cover\"

turn cover once as turned
",
    good: "\
procedure EX-001 \"Take the cover off\"
    revision:   A, 2026-11-02
    equipment:  F40 transfer pump
    models:     F40
    source:     manual \"F40 workshop manual, issue 7\"
    time:       30 min
    people:     1, and a helper for [turned]
    outcome:    Turn a cover without marking its face.
    requires:   none
    afterwards: none
    leaves:     none

tools none
supplies none

parts
    cover \"Bearing cover\"

turn cover once as turned
    people: 2
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some(procedure) = subject.procedure() else { return };
    let Some(people) = procedure.header.people.as_ref().filter(|_| !subject.has_lost_lines()) else { return };
    let help = "Add `people: 2` or `role: …` under the step, or take it out of the header";
    for (name, target) in &people.references {
        if let Target::Step(step) = target.value
            && !is_needed(procedure, people, step)
        {
            let text = format!("The header announces somebody for `{name}`, and that step asks for nobody");
            findings.push(Finding::new(RULE.id, target.span, text).help(help));
        }
    }
    let helper = people.source.to_lowercase().contains("helper") && steps_named(people).next().is_none();
    if helper && !procedure.steps().any(|step| step.people.is_some() || step.role.is_some()) {
        let text = "The header announces a helper, and no step asks for one".to_owned();
        findings.push(
            Finding::new(RULE.id, people.span, text).help("Add `people: 2` under the step that needs two"),
        );
    }
}
