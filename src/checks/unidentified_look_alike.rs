//! A part that is easily mistaken for another is fitted unseen.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "unidentified-look-alike",
    severity: Severity::Error,
    waivable: true,
    summary: "A part that is easily mistaken for another is fitted unseen",
    explain: "\
Two covers, one port apart, lie on the same bench.

A part that `looks-like` another is told apart in the procedure before it is fitted: `identify cover \"no flush \
port\"`.",
    bad: "\
parts
    cover   \"Cover, plain\"      starts off, looks-like cover-s by \"no flush port\"
    cover-s \"Cover, with port\"  starts off

install cover on \"the housing\"
clean cover-s
",
    good: "\
parts
    cover   \"Cover, plain\"      starts off, looks-like cover-s by \"no flush port\"
    cover-s \"Cover, with port\"  starts off

identify cover \"no flush port\"
install cover on \"the housing\"
clean cover-s
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::Unidentified]).map(|broken| {
        let Broken { name, other, .. } = &broken;
        let text = format!("`{name}` is fitted without a look whether it is `{other}`");
        broken.finding(RULE.id, &text, "", format!("Add `identify {name} \"…\"` before it"))
    }));
}
