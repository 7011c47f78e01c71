//! Who did the work signs for it.
use super::{Rule, Subject};
use crate::model::Action;
use crate::report::{Finding, Severity};
use crate::source::Text;

pub static RULE: Rule = Rule {
    id: "same-signer",
    severity: Severity::Warning,
    waivable: true,
    summary: "The one who did the work signs for it",
    explain: "\
A signature is a second pair of eyes. Who has just done the work sees what was meant, not what is there.

The role of a `hold` is not the `role:` of a step that it signs for, from the last `hold` or the head of the \
section on, nor the one person the header's `people:` names first. Have somebody else sign.",
    bad: "\
procedure EX-001 \"Look at the lead\"
    revision:   A, 2026-11-02
    equipment:  F40 transfer pump
    models:     F40
    source:     manual \"F40 workshop manual, issue 7\"
    time:       30 min
    people:     1, and an electrician for [lead-off]
    outcome:    Make sure of a lead before the work begins.
    requires:   none
    afterwards: none
    leaves:     none

parts none
tools none
supplies none

check \"make sure that the lead is off\" as lead-off
    if not ok: stop \"Take the lead off.\"
    role: electrician
hold electrician \"The lead is off.\"
",
    good: "\
procedure EX-001 \"Look at the lead\"
    revision:   A, 2026-11-02
    equipment:  F40 transfer pump
    models:     F40
    source:     manual \"F40 workshop manual, issue 7\"
    time:       30 min
    people:     1, and an electrician for [lead-off]
    outcome:    Make sure of a lead before the work begins.
    requires:   none
    afterwards: none
    leaves:     none

parts none
tools none
supplies none

check \"make sure that the lead is off\" as lead-off
    if not ok: stop \"Take the lead off.\"
    role: electrician
hold supervisor \"The lead is off.\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let Some(procedure) = subject.procedure() else { return };
    if !subject.contents.steering.iter().any(|(_, action)| matches!(action, Action::Hold(_))) {
        return;
    }
    for section in &procedure.sections {
        let mut doers: Vec<&Text> = Vec::new();
        for step in &section.steps {
            let hold = step.actions.iter().find_map(|action| match action {
                Action::Hold(hold) => Some(hold),
                _ => None,
            });
            let Some(hold) = hold else {
                doers.extend(&step.role);
                continue;
            };
            let role = &hold.role;
            let text = format!("`{}` signs for work of their own", role.value);
            let help = "Name somebody else who looks and signs";
            if let Some(doer) = doers.iter().rev().find(|doer| is_same(doer.as_str(), role.as_str())) {
                let finding = Finding::new(RULE.id, role.span, text);
                findings.push(finding.label(doer.span, "did this step").help(help));
            } else if let Some(people) =
                procedure.header.people.as_ref().filter(|people| leads(&people.source, role.as_str()))
            {
                let finding = Finding::new(RULE.id, role.span, text);
                findings.push(finding.label(people.span, "does the work").help(help));
            }
            doers.clear();
        }
    }
}

fn is_same(one: &str, other: &str) -> bool {
    one.eq_ignore_ascii_case(other)
}

/// Whether `people:` names the role alone or first: `1 electrician`.
fn leads(people: &str, role: &str) -> bool {
    let first = people.split(',').next().unwrap_or("");
    first.split_whitespace().any(|word| is_same(word, role))
}
