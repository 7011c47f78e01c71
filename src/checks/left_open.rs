//! Something is opened and not closed again.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "left-open",
    severity: Severity::Warning,
    waivable: true,
    summary: "Something is opened and not closed again",
    explain: "\
A vent left open floods the floor when the pump is filled; a cover left open takes in dirt. What is opened is \
closed before the end.

Where it stays open on purpose the header says so: `leaves: \"vent open\"`, `leaves: \"pump drained\"`.",
    bad: "\
parts
    vent-valve \"Vent valve\"

open vent-valve by 1/2 turn
",
    good: "\
parts
    vent-valve \"Vent valve\"

open vent-valve by 1/2 turn
close vent-valve
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::LeftOpen]).map(|broken| {
        let Broken { name, .. } = &broken;
        let text = format!("`{name}` is opened here and never closed");
        broken.finding(RULE.id, &text, "", format!("Add `close {name}`, or say in `leaves:` that it is open"))
    }));
}
