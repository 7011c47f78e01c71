//! A mark is made and never used.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "mark-never-used",
    severity: Severity::Warning,
    waivable: true,
    summary: "A mark is made and never used",
    explain: "\
A mark costs a minute and promises that something will be set by it.

If nothing is, either the step that aligns is missing or the mark is not needed.",
    bad: "\
parts
    belt \"Drive belt\"

mark belt as turning-way
",
    good: "\
parts
    belt \"Drive belt\"

mark belt as turning-way
remove belt from \"the pulleys\"
align belt at turning-way; install belt on \"the pulleys\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::MarkNeverUsed]).map(|broken| {
        let Broken { name, .. } = &broken;
        let text = format!("The mark on `{name}` is never used");
        broken.finding(RULE.id, &text, "", "Add the step that aligns by it, or take the mark out")
    }));
}
