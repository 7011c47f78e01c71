//! One part of a set is new and the other is not.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "renewed-without-its-set",
    severity: Severity::Error,
    waivable: true,
    summary: "One part of a set is new and the other is not",
    explain: "\
A new bearing in a worn cup fails within hours: the two wear to each other.

Parts declared `set-with` one another are renewed together or not at all.",
    bad: "\
parts
    cone \"Bearing cone\"  set-with cup
    cup  \"Bearing cup\"   set-with cone

renew cone
",
    good: "\
parts
    cone \"Bearing cone\"  set-with cup
    cup  \"Bearing cup\"   set-with cone

renew cone, cup
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::RenewedAlone]).map(|broken| {
        let Broken { name, other, .. } = &broken;
        let text = format!("`{name}` is new, and `{other}` of its set is not");
        let finding = broken.finding(RULE.id, &text, "", format!("Renew `{other}` with it"));
        let set =
            broken.breach.other.and_then(|it| broken.declared(broken.breach.what, |part| &part.set_with, it));
        broken.labelled(finding, set, "a set, as declared here")
    }));
}
