//! What an outcome leads to leaves something open.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "branch-ends-open",
    severity: Severity::Error,
    waivable: true,
    summary: "What an outcome leads to leaves something open",
    explain: "\
The sheet says what to do when the part is cracked, and stops half-way: the part is out and the next step goes \
on as if it were in.

What is done after `if …:` ends as it began, or with `stop`.",
    bad: "\
parts
    drum \"Drum\"

inspect drum \"rim\" as rim
    if cracked: remove drum from \"the shaft\"
",
    good: "\
parts
    drum \"Drum\"

inspect drum \"rim\" as rim
    if cracked: renew drum
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::BranchEndsOpen]).map(|broken| {
        let Broken { name, .. } = &broken;
        let text = format!("This way leaves `{name}` open, and the next step goes on as if it were not");
        broken.finding(
            RULE.id,
            &text,
            "",
            "Close what it opens in the same line, or end it with `stop \"…\"`",
        )
    }));
}
