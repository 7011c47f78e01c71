//! A part is taken off that is off already.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "removed-twice",
    severity: Severity::Warning,
    waivable: true,
    summary: "A part is taken off that is off already",
    explain: "\
One of the two lines is wrong: the part meant is another, or the step between that fits it is missing.

The reader stands before a machine on which the part is not, and looks for it.",
    bad: "\
parts
    cover \"Bearing cover\"  stays off

remove cover from \"the housing\"
remove cover from \"the housing\"
",
    good: "\
parts
    cover \"Bearing cover\"  stays off

remove cover from \"the housing\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::RemovedTwice]).map(|broken| {
        let Broken { name, .. } = &broken;
        let text = format!("`{name}` is off already");
        broken.finding(
            RULE.id,
            &text,
            "it came off here",
            "Take the line out, or name the part that is meant",
        )
    }));
}
