//! A temporary tool, plug or support stays in the machine.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::model::Name;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "left-in",
    severity: Severity::Error,
    waivable: true,
    summary: "A temporary tool, plug or support stays in the machine",
    explain: "\
A rag in an intake, a locking pin in a flywheel, a prop under a table: what was put in for the work has to come \
out before the machine runs. Tools declared `temporary` are counted in and out, and a part that is `support`ed \
is released or set down.

Add the step that takes it out. Where it stays on purpose, the header says so: `leaves: \"machine on stands\"`.",
    bad: "\
parts
    trailer \"Trailer\"

tools
    chocks \"Wheel chock\"  x2  temporary

put chocks under trailer
clean trailer
",
    good: "\
parts
    trailer \"Trailer\"

tools
    chocks \"Wheel chock\"  x2  temporary

put chocks under trailer
clean trailer
remove chocks from trailer
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::LeftIn]).map(|broken| {
        let Broken { name, .. } = &broken;
        let (text, help) = match broken.breach.what {
            Name::Part(_) => (
                format!("`{name}` is supported here and never released"),
                format!(
                    "Add `release {name}`, declare what supports it `temporary` and take it out, or say in `leaves:` that it stays"
                ),
            ),
            _ => (
                format!("`{name}` goes in here and is never taken out"),
                "Add the step that removes it, or say in `leaves:` that it stays".to_owned(),
            ),
        };
        broken.finding(RULE.id, &text, "", help)
    }));
}
