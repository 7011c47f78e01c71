//! Thread locker, sealant or adhesive goes on a surface that was not cleaned.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "surface-not-clean",
    severity: Severity::Error,
    waivable: true,
    summary: "Thread locker, sealant or adhesive goes on a surface that was not cleaned",
    explain: "\
Locker on an oily thread never sets; the screw feels tight and backs out. What is disturbed is dirty until it is \
cleaned again.

Supplies declared `needs clean` or `thread-locker` are looked at; new parts count as clean.",
    bad: "\
parts
    screws \"Cover screw\"

supplies
    locker \"Thread locker\"  thread-locker

loosen screws
apply locker to screws
tighten screws finger tight
",
    good: "\
parts
    screws \"Cover screw\"

supplies
    locker \"Thread locker\"  thread-locker

loosen screws
clean screws; dry screws
apply locker to screws
tighten screws finger tight
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::NotClean]).map(|broken| {
        let Broken { name, other, .. } = &broken;
        let text = format!("`{other}` goes on `{name}`, which was not cleaned since it was last disturbed");
        broken.finding(RULE.id, &text, "last handled here", "Clean and dry it first")
    }));
}
