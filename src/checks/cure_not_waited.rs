//! A supply is loaded before it has set.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "cure-not-waited",
    severity: Severity::Error,
    waivable: true,
    summary: "A supply is loaded before it has set",
    explain: "\
An adhesive that bears load before its time creeps, and the joint is weaker for good.

A supply with a `cure` time needs that much waiting, `wait 24 h`, before the machine is started or put under \
pressure, and before the end.",
    bad: "\
parts
    gasket \"Cover gasket\"

supplies
    sealant \"Sealant\"  cure 2 h at 20 degC

apply sealant to gasket
",
    good: "\
parts
    gasket \"Cover gasket\"

supplies
    sealant \"Sealant\"  cure 2 h at 20 degC

apply sealant to gasket
wait 2 h
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::CureNotWaited]).map(|broken| {
        let Broken { name, .. } = &broken;
        let text = format!("`{name}` has no time to set");
        broken.finding(RULE.id, &text, "it went on here", "Add a `wait` of its cure time")
    }));
}
