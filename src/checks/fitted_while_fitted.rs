//! A part is fitted that is on already.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "fitted-while-fitted",
    severity: Severity::Warning,
    waivable: true,
    summary: "A part is fitted that is on already",
    explain: "\
Either the step that takes it off is missing, or the wrong part is named.

Where the procedure starts with the part in hand, declare it so: `starts off`.",
    bad: "\
parts
    cover \"Bearing cover\"
    shaft \"Pump shaft\"

install cover on shaft
",
    good: "\
parts
    cover \"Bearing cover\"  starts off
    shaft \"Pump shaft\"

install cover on shaft
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::FittedWhileFitted]).map(|broken| {
        let Broken { name, .. } = &broken;
        let text = format!("`{name}` is on the machine already");
        let help = "Add the step that takes it off, or declare it `starts off`";
        let finding = broken.finding(RULE.id, &text, "it went on here", help);
        let from_start =
            broken.breach.since.is_none().then(|| broken.declaration(broken.breach.what)).flatten();
        broken.labelled(finding, from_start, "on from the start, as declared here")
    }));
}
