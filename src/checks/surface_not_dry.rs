//! Thread locker, sealant or adhesive goes on a surface that was not dried.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "surface-not-dry",
    severity: Severity::Error,
    waivable: true,
    summary: "Thread locker, sealant or adhesive goes on a surface that was not dried",
    explain: "\
Solvent left in the threads thins the locker until it does not hold.

After cleaning, the surface is dried before anything goes on that needs it dry.",
    bad: "\
parts
    screws \"Cover screw\"

supplies
    locker \"Thread locker\"  thread-locker

clean screws
apply locker to screws
",
    good: "\
parts
    screws \"Cover screw\"

supplies
    locker \"Thread locker\"  thread-locker

clean screws; dry screws
apply locker to screws
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::NotDry]).map(|broken| {
        let Broken { name, other, .. } = &broken;
        let text = format!("`{other}` goes on `{name}`, which was not dried since it was cleaned");
        broken.finding(RULE.id, &text, "", format!("Add `dry {name}` before it"))
    }));
}
