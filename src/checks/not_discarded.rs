//! A single-use part comes off and is not discarded.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "not-discarded",
    severity: Severity::Warning,
    waivable: true,
    summary: "A single-use part comes off and is not discarded",
    explain: "\
The old gasket that lies beside the new one goes back in, once in a dozen times.

A single-use part is thrown away in the step that takes it off, before the new one is unpacked.",
    bad: "\
parts
    gasket \"Cover gasket\"  single-use

remove gasket from \"the housing\"
install new gasket on \"the housing\"
",
    good: "\
parts
    gasket \"Cover gasket\"  single-use

remove gasket from \"the housing\"; discard gasket
install new gasket on \"the housing\"
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::NotDiscarded]).map(|broken| {
        let Broken { name, .. } = &broken;
        let text = format!("`{name}` is single-use and is not discarded when it comes off");
        broken.finding(RULE.id, &text, "a new one goes in here", format!("Add `; discard {name}`"))
    }));
}
