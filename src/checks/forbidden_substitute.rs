//! A part goes on in place of one it may not replace.
use super::obligations::{self, Broken};
use super::{Rule, Subject};
use crate::ledger::Kind;
use crate::report::{Finding, Severity};

pub static RULE: Rule = Rule {
    id: "forbidden-substitute",
    severity: Severity::Error,
    waivable: true,
    summary: "A part goes on in place of one it may not replace",
    explain: "\
A plain bolt where a stretch bolt belongs holds until the engine is hot.

The declaration says `never`, and yet this part goes on while the right one stays off.",
    bad: "\
parts
    stretch-bolt \"Stretch bolt\"  stays off, never plain-bolt
    plain-bolt   \"Plain bolt\"    starts off

remove stretch-bolt from \"the head\"
install plain-bolt in \"the head\"
",
    good: "\
parts
    stretch-bolt \"Stretch bolt\"  never plain-bolt
    plain-bolt   \"Plain bolt\"

remove stretch-bolt from \"the head\"
install stretch-bolt in \"the head\"
clean plain-bolt
",
    check,
};

fn check(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    findings.extend(obligations::of(subject, &[Kind::Substitute]).map(|broken| {
        let Broken { name, other, .. } = &broken;
        let text = format!("`{name}` may not take the place of `{other}`");
        let finding = broken.finding(RULE.id, &text, "", format!("Fit `{other}`"));
        let never =
            broken.breach.other.and_then(|it| broken.declared(it, |part| &part.never, broken.breach.what));
        broken.labelled(finding, never, "refused here")
    }));
}
