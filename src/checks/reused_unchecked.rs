//! A part goes back that may only after a check.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "reused-unchecked",
    severity: Severity::Error,
    waivable: true,
    summary: "A part goes back that may only after a check",
    explain: "\
A locking nut whose drag is gone turns off its stud.

A part declared `reuse-if` is looked at or measured between coming off and going back, and the sheet says what \
was found.",
    bad: "\
parts
    nut \"Locking nut\"  reuse-if \"the drag torque is 2 N.m or more\"

remove nut from \"the stud\"
install nut on \"the stud\"
",
    good: "\
parts
    nut \"Locking nut\"  reuse-if \"the drag torque is 2 N.m or more\"

remove nut from \"the stud\"
inspect nut \"drag on the stud\" as nut-check
    if it turns free: renew nut
install nut on \"the stud\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::ReusedUnchecked]).map(|broken| {
        let Broken { name, .. } = &broken;
        let text = format!("`{name}` goes back without the check that it may");
        broken.finding(
            RULE.id,
            &text,
            "it came off here",
            format!("Add `inspect {name} \"…\"` or `measure {name} \"…\"` before it"),
        )
    }));
}
